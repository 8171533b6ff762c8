// SPDX-License-Identifier: MIT
#include "solver/rest/rest_search.h"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "solver/numeric/decompositions.h"

namespace linkwright {
namespace {

constexpr int kMostIterations = 200;
constexpr int kMostUnderPush = 30;    // looked for from close by
constexpr double kStepMet = 1e-12;    // [m, rad] rounding of the coordinates
constexpr double kCreep = 1e-6;       // [m, rad] a thousandth of what a tape shows
constexpr int kMostCrept = 8;         // moves one after another; damping grows tenfold in each try
constexpr double kFallen = 0.24;      // [-] of the slope squared: a lean of 29 deg
constexpr double kLongestStep = 0.1;  // [m, rad] keeps a first step within reach of the links

// Energy plus a price on held wheels off the floor: what a step must lower.
double Merit(const Balance& balance, double price) {
  double merit = balance.energy;
  for (const HeldWheel& held : balance.wheels) merit += price * std::abs(held.height.value);
  return merit;
}

// One attempt at a step: what was there before, and how its success is measured.
struct Attempt {
  const RestQuestion& question;
  const FoundRest& found;
  double before, price, rounding;  // merit [J], of a held wheel's height [N], of the merit [J]

  [[nodiscard]] double MeritAt(const RestState& state) const {
    return Merit(BalanceAt(question, state, found.held), price);
  }

  // Where a coil or stop goes over its dead point the way there must lead downhill all along, and
  // through nothing solid: a body that comes to rest does not jump.
  [[nodiscard]] bool LeadsDown(const RestVector& step, const RestState& to) const {
    constexpr int kLooks = 16;
    const std::optional<DeadPoint> dead = DeadPointBetween(question.rig, found.state, to);
    if (!dead) return true;
    if (dead->solid) return false;
    double least = before;
    for (int look = 1; look < kLooks; ++look) {
      const auto there = Moved(question.rig, found.state, step * look / kLooks);
      if (!there) return false;
      const double merit = MeritAt(*there);
      if (merit > least + rounding) return false;
      least = merit;
    }
    return true;
  }
};

enum class Move {
  kNone,   // neither shortening nor damping helps
  kMoved,  // by a full step, or by more than kCreep
  kCrept,  // by a shortened or damped step, no further than kCreep
};

// One accepted move from `found`.
Move Advance(const RestQuestion& question, FoundRest& found) {
  const Rig& rig = question.rig;
  const Balance balance = BalanceAt(question, found.state, found.held);
  double damping = 0.0;
  for (int attempt = 0; attempt < 40; ++attempt) {
    const NewtonStep newton = NewtonSystem(balance, found.force, damping).Solve(balance);
    damping = std::max(10.0 * damping, 1.0);
    const double longest = newton.step.cwiseAbs().maxCoeff();
    if (!newton.step.allFinite() || longest > 10.0) continue;
    if (attempt > 0 && longest <= kStepMet) return Move::kNone;  // damped to nothing
    double price = 1.0;
    for (double f : newton.force) price = std::max(price, 2.0 * std::abs(f));
    const double before = Merit(balance, price);
    const Attempt trial{question, found, before, price, 1e-13 * std::abs(before) + 1e-10};
    double share = std::min(1.0, kLongestStep / std::max(longest, kLongestStep));
    for (int halving = 0; halving < 12; ++halving, share *= 0.5) {
      if (share < 1.0 && share * longest <= kStepMet) break;
      const RestVector step = share * newton.step;
      const std::optional<RestState> moved = Moved(rig, found.state, step);
      if (!moved || !(trial.MeritAt(*moved) < before + trial.rounding)) continue;
      if (!trial.LeadsDown(step, *moved)) continue;
      found.state = *moved;
      found.force = newton.force;
      const bool full = attempt == 0 && share == 1.0;
      found.converged = share == 1.0 && longest <= kStepMet;
      return full || share * longest > kCreep ? Move::kMoved : Move::kCrept;
    }
  }
  return Move::kNone;
}

// Where links line up the energy falls ever more steeply and no step can follow it: a search that
// only creeps there finds no rest. Nor does one whose body leans nearly as far as Moved() lets it.
void Descend(const RestQuestion& question, FoundRest& found) {
  int crept = 0;
  for (int iteration = 0; iteration < kMostIterations && !found.converged; ++iteration) {
    const Move move = Advance(question, found);
    if (move == Move::kNone) break;
    if (found.state.slope.squaredNorm() > kFallen) break;
    crept = move == Move::kCrept ? crept + 1 : 0;
    if (crept > kMostCrept) break;
  }
}

// One step of Newton's method with the exact slope, shortened until what the same slope makes of
// the new place is a shorter step: the measure that does not hang on units ([Deuflhard] 3.3).
// Where a member meets its end or a tyre the floor, the slope jumps: a step that goes far past the
// jump is refused, and one that stops short of it never learns the new slope. So a step much
// shortened is lengthened again to the longest that the measure lets pass, which lies just behind
// the jump.
class PushedStep {
 public:
  PushedStep(const RestQuestion& question, const FoundRest& found)
      : question_(question),
        found_(found),
        balance_(BalanceAt(question, found.state, found.held)),
        system_(balance_, found.force, 0.0),
        newton_(system_.Solve(balance_)),
        longest_(newton_.step.cwiseAbs().maxCoeff()) {}

  [[nodiscard]] bool Usable() const { return newton_.step.allFinite() && longest_ <= 10.0; }

  // One accepted move: the share of the step that was taken; 0: none.
  [[nodiscard]] double Take(FoundRest& found) const {
    double share = std::min(1.0, kLongestStep / std::max(longest_, kLongestStep));
    double refused = share;
    std::optional<RestState> moved = Tried(share);
    for (int halving = 0; halving < kMostHalvings && !moved; ++halving) {
      refused = share;
      share *= 0.5;
      if (share * longest_ < kStepMet) return 0.0;
      moved = Tried(share);
    }
    if (!moved) return 0.0;
    for (int look = 0; look < kLengthenings && refused - share > 1e-3 * share; ++look) {
      const double between = 0.5 * (share + refused);
      if (std::optional<RestState> further = Tried(between)) {
        share = between;
        moved = std::move(further);
      } else {
        refused = between;
      }
    }
    found.state = *moved;
    found.force = newton_.force;
    found.converged = share == 1.0 && longest_ <= kStepMet;
    return share;
  }

 private:
  static constexpr int kMostHalvings = 40;
  static constexpr int kLengthenings = 12;  // the end of a member is some 1000 times a coil's rate

  [[nodiscard]] std::optional<RestState> Tried(double share) const {
    std::optional<RestState> moved = Moved(question_.rig, found_.state, share * newton_.step);
    if (!moved || DeadPointBetween(question_.rig, found_.state, *moved)) return std::nullopt;
    const double next =
        system_.Solve(BalanceAt(question_, *moved, found_.held)).step.cwiseAbs().maxCoeff();
    constexpr double kRounding = 1e-11;  // [m, rad] ten times what is asked of a last step
    if (!(next <= (1.0 - 0.25 * share) * longest_ + kRounding)) return std::nullopt;
    return moved;
  }

  const RestQuestion& question_;
  const FoundRest& found_;
  const Balance balance_;
  const NewtonSystem system_;
  const NewtonStep newton_;
  const double longest_;
};

// Where no position is near, the search goes there and back over the place where the slope jumps,
// each time by less of a step that stays as long; one that gets somewhere soon takes its steps
// whole.
void FollowPush(const RestQuestion& question, FoundRest& found) {
  constexpr double kHardlyAny = 0.05;
  constexpr int kMostHardly = 3;  // one after another
  int hardly = 0;
  for (int iteration = 0; iteration < kMostUnderPush && !found.converged; ++iteration) {
    const PushedStep step(question, found);
    const double share = step.Usable() ? step.Take(found) : 0.0;
    hardly = share < kHardlyAny ? hardly + 1 : 0;
    if (share == 0.0 || hardly == kMostHardly) break;
  }
}

// Rigid tyres stand or hang: let go of those the floor would have to pull, catch those that sink.
bool UpdateHeld(const Rig& rig, FoundRest& found) {
  bool changed = false;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    if (rig.vehicle->axles[wheel / 2].tire.rate) continue;
    Held only{};
    only[wheel] = true;
    const double above = HeldWheels(rig, found.state, only).front().height.value;
    const bool stands = found.held[wheel] ? found.force[wheel] >= 0.0 : above < 0.0;
    changed = changed || stands != found.held[wheel];
    found.held[wheel] = stands;
  }
  return changed;
}

FoundRest Begin(const Rig& rig, const Stance* start) {
  FoundRest found{.state = {.heave = -rig.vehicle->floor_z,
                            .slope = Eigen::Vector2d::Zero(),
                            .motion = {rig.axles[0].measured, rig.axles[1].measured}}};
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    found.held[wheel] = !rig.vehicle->axles[wheel / 2].tire.rate;
  }
  if (start == nullptr) return found;
  found.state = StateOf(*start);
  found.force = start->wheel_load;
  return found;
}

}  // namespace

FoundRest SearchRest(const RestQuestion& question, const Stance* start) {
  const Push& push = question.push;
  const bool pushed =
      push.lateral != 0.0 || push.shaft_torque[0] != 0.0 || push.shaft_torque[1] != 0.0;
  FoundRest found = Begin(question.rig, start);
  constexpr int kMostChanges = 8;  // of which wheels stand; twice there and back for each
  for (int change = 0; change <= kMostChanges; ++change) {
    found.converged = false;
    // Wheels that still come and go stand nowhere: one would be held that the floor has to pull.
    if (change == kMostChanges) break;
    if (pushed) {
      FollowPush(question, found);
    } else {
      Descend(question, found);
    }
    if (!found.converged || !UpdateHeld(question.rig, found)) break;
  }
  return found;
}

bool IsStable(const RestQuestion& question, const FoundRest& found) {
  Balance balance = BalanceAt(question, found.state, found.held);
  const Eigen::MatrixXd free = FreeOfHeld(balance.wheels, found.force, balance.slope);
  const Eigen::MatrixXd reduced = free.transpose() * balance.slope * free;
  if (question.push.lateral == 0.0) return IsPositiveDefinite(reduced);
  return DeterminantOf(reduced) > 0.0;
}

}  // namespace linkwright
