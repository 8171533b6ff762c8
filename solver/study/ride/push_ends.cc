// SPDX-License-Identifier: MIT
#include "solver/study/ride/push_ends.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

#include "solver/geometry/travel_limits.h"
#include "solver/numeric/roots.h"
#include "solver/rest/settle.h"

namespace linkwright {
namespace {

constexpr int kLooks = 50;        // shares looked at before an end is closed in upon
constexpr double kNearby = 0.05;  // [rad] a body that leans further at once has gone elsewhere

// A standing position at a share of the push.
struct Pushed {
  double share;
  Stance stance;
};

// Finds positions one from another, so that none is taken from another valley: on its side.
class Follower {
 public:
  Follower(const Rig& rig, const Load& load, const Push& push)
      : rig_(rig), load_(load), push_(push) {}

  [[nodiscard]] std::optional<Pushed> From(const Pushed& place, double share) const {
    Stance stance = Settle(rig_, load_, ShareOf(push_, share), &place.stance);
    if (stance.status != StanceStatus::kRests) return std::nullopt;
    if ((stance.up_C - place.stance.up_C).norm() > kNearby) return std::nullopt;
    return Pushed{share, std::move(stance)};
  }

  [[nodiscard]] const Rig& rig() const { return rig_; }

 private:
  const Rig& rig_;
  const Load& load_;
  const Push& push_;
};

// What is left before the nearest end of any member [m]; below 0: past it.
std::optional<std::pair<double, std::string>> NearestEnd(const Rig& rig, const Stance& stance) {
  std::optional<std::pair<double, std::string>> nearest;
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const Eigen::Isometry3d X_CA = Transform(stance.motion[i].pose);
    for (const LengthLimit& end : rig.axles[i].ends) {
      const double left = LeftOf(end, X_CA);
      if (nearest && nearest->first <= left) continue;
      nearest = {left, axle.name + " " + Describe(end.limit)};
    }
  }
  return nearest;
}

// Carried by a wheel [N]; below 0 what its tyre would have to pull to reach the floor, so that it
// goes through 0 as the wheel lifts. A rigid tyre off the floor: as much a metre as a stiff one.
double CarriedBy(const Rig& rig, const Stance& stance, size_t wheel) {
  if (stance.wheel_load[wheel] > 0.0) return stance.wheel_load[wheel];
  const Axle& axle = rig.vehicle->axles[wheel / 2];
  const Eigen::Vector3d& measured = wheel % 2 == 0 ? axle.p_CW_l : axle.p_CW_r;
  const double touching = axle.tire.rate ? FreeRadius(axle.tire, wheel % 2) : measured.z() - rig.vehicle->floor_z;
  return axle.tire.rate.value_or(1e6) * std::min(0.0, touching - stance.wheel_height[wheel]);
}

// The share at which `left` of a position goes through 0 between one where it is above and one
// where it is not. Every position is found from the nearest one known on either side.
double ShareWhereGone(const Follower& follower, const Pushed& above, const Pushed& below,
                      double most, const std::function<double(const Stance&)>& left) {
  Pushed low = above, high = below;
  const auto left_at = [&](double share) -> std::optional<double> {
    const bool nearer_low = share - low.share < high.share - share;
    std::optional<Pushed> place = follower.From(nearer_low ? low : high, share);
    if (!place) place = follower.From(nearer_low ? high : low, share);
    if (!place) return std::nullopt;
    const double value = left(place->stance);
    (value > 0.0 ? low : high) = std::move(*place);
    return value;
  };
  const SignChange wide{above.share, left(above.stance), below.share, left(below.stance)};
  const SignChange closed = CloseIn(left_at, wide, kShareMet * most);
  return closed.below - closed.above > 2.0 * kShareMet * most ? closed.above : closed.below;
}

void LookForMember(const Follower& follower, const Pushed& before, const Pushed& after, double most,
                   PushEnds& ends) {
  const Rig& rig = follower.rig();
  const auto nearest = NearestEnd(rig, after.stance);
  if (ends.member || !nearest || nearest->first >= -kEndTolerance) return;
  const auto left = [&](const Stance& s) { return NearestEnd(rig, s)->first; };
  const bool at_once = left(before.stance) <= 0.0;
  const double share = at_once ? before.share : ShareWhereGone(follower, before, after, most, left);
  const auto there = follower.From(before, share);
  ends.member = {share, NearestEnd(rig, there ? there->stance : after.stance)->second};
}

void LookForLift(const Follower& follower, const Pushed& before, const Pushed& after, double most,
                 PushEnds& ends) {
  if (ends.lift) return;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const auto carried = [&](const Stance& s) { return CarriedBy(follower.rig(), s, wheel); };
    if (carried(after.stance) > 0.0) continue;
    const bool at_once = carried(before.stance) <= 0.0;
    const double share =
        at_once ? before.share : ShareWhereGone(follower, before, after, most, carried);
    if (!ends.lift || share < ends.lift->share) ends.lift = {share, wheel};
  }
}

// Where the first wheel that lifts takes the vehicle over at once, no position is found with it off
// the floor: it is the one that carries next to nothing in the last.
void LiftAtTheEnd(const Rig& rig, const Pushed& last, PushEnds& ends) {
  if (ends.lift) return;
  constexpr double kNothing = 1e-3;  // of all four loads [-]; kOverMet of the push, at a steep end
  double all = 0.0;
  for (double load : last.stance.wheel_load) all += load;
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const double carried = CarriedBy(rig, last.stance, wheel);
    if (carried > kNothing * all) continue;
    if (ends.lift && carried >= CarriedBy(rig, last.stance, ends.lift->wheel)) continue;
    ends.lift = {last.share, wheel};
  }
}

}  // namespace

Push ShareOf(const Push& push, double share) {
  return {.lateral = share * push.lateral,
          .shaft_torque = {share * push.shaft_torque[0], share * push.shaft_torque[1]},
          .ends_hold = true};
}

Stance PushedBy(const Rig& rig, const Load& load, const Stance& rest, const Push& push) {
  constexpr double kShortest = 1e-3;
  Stance last = rest;
  double share = 0.0, step = 0.1;
  while (share < 1.0) {
    const double next = std::min(1.0, share + step);
    Stance stance = Settle(rig, load, ShareOf(push, next), &last);
    if (stance.status == StanceStatus::kRests) {
      last = std::move(stance);
      share = next;
    } else if (step > kShortest) {
      step *= 0.5;
    } else {
      return stance;
    }
  }
  return last;
}

std::optional<std::string> MemberAtEnd(const Rig& rig, const Stance& stance) {
  const auto nearest = NearestEnd(rig, stance);
  if (!nearest || nearest->first >= -kEndTolerance) return std::nullopt;
  return nearest->second;
}

PushEnds FollowPush(const Rig& rig, const Load& load, const Stance& rest, const Push& push,
                    double most, bool first_only) {
  const Follower follower(rig, load, push);
  PushEnds ends;
  Pushed last{0.0, rest};
  double step = most / kLooks;
  while (last.share < most) {
    const double share = std::min(most, last.share + step);
    std::optional<Pushed> next = follower.From(last, share);
    if (!next) {
      if (step <= kOverMet * most) {
        ends.over = last.share;
        LiftAtTheEnd(rig, last, ends);
        break;
      }
      step *= 0.5;
      continue;
    }
    LookForMember(follower, last, *next, most, ends);
    LookForLift(follower, last, *next, most, ends);
    last = std::move(*next);
    if (first_only && (ends.member || ends.lift)) break;
  }
  return ends;
}

}  // namespace linkwright
