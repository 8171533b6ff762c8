// SPDX-License-Identifier: MIT
#include "solver/rest/modes.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <numeric>

#include "solver/numeric/assignment.h"
#include "solver/numeric/decompositions.h"

namespace linkwright {
namespace {

using Complex = std::complex<double>;

// A conjugate pair of roots, or two real ones.
struct RootPair {
  Complex first, second;
  std::vector<double> likeness;  // to each undamped mode [-]
};

// Kinetic energy of shape `mode` in each part, of 1.
std::array<double, kMotionParts> SharesOf(const LinearModel& model, const Eigen::VectorXd& shape) {
  std::array<double, kMotionParts> shares{};
  const double whole = shape.dot(model.mass * shape);
  for (size_t i = 0; i < kMotionParts; ++i) {
    shares[i] = shape.dot(model.part[i] * shape) / whole;
  }
  return shares;
}

// Names among which kinetic energy does not tell apart: a body whose mass stands high sways as much
// as it turns when it rolls.
std::vector<MotionPart> Family(MotionPart part) {
  switch (part) {
    case kBodyHeave:
    case kBodyPitch:
      return {kBodyHeave, kBodyPitch};
    case kBodyRoll:
    case kBodySway:
    case kBodyYaw:
      return {kBodyRoll, kBodySway, kBodyYaw};
    default:
      return {part};
  }
}

std::array<double, kMotionParts> FamilyShares(const std::array<double, kMotionParts>& shares) {
  std::array<double, kMotionParts> sums{};
  for (size_t i = 0; i < kMotionParts; ++i) {
    for (MotionPart part : Family(static_cast<MotionPart>(i))) sums[i] += shares[part];
  }
  return sums;
}

// The name of each mode: each another, with the most kinetic energy in the named families. Within a
// family all ways are equal; OrderFamilies tells those apart.
std::vector<size_t> NameModes(const std::vector<std::array<double, kMotionParts>>& shares) {
  Eigen::MatrixXd worth(static_cast<Eigen::Index>(shares.size()), kMotionParts);
  for (Eigen::Index mode = 0; mode < worth.rows(); ++mode) {
    worth.row(mode) =
        Eigen::RowVectorXd::Map(shares[static_cast<size_t>(mode)].data(), kMotionParts);
  }
  return AssignMost(worth);
}

// How alike a complex shape is to each undamped one: squared cosine in the mass matrix, 0 to 1. A
// share of kinetic energy, so that no unit of the coordinates changes it.
std::vector<double> Likeness(const LinearModel& model, const SymmetricModes& undamped,
                             const Eigen::VectorXcd& shape) {
  const Eigen::VectorXcd along = undamped.vectors.transpose() * (model.mass * shape);
  const double whole = along.squaredNorm();
  std::vector<double> likeness;
  for (const Complex& part : along) likeness.push_back(std::norm(part) / whole);
  return likeness;
}

struct Roots {
  std::vector<RootPair> pairs;     // that swing
  std::vector<RootPair> creeping;  // real ones, each with itself in both places until paired
};

// M (s^2 + C s + K) x = 0 in modal coordinates, as a matrix of twice the size.
Roots SolveDamped(const LinearModel& model, const SymmetricModes& undamped) {
  const Eigen::Index n = model.mass.rows();
  const Eigen::MatrixXd damping = undamped.vectors.transpose() * model.damping * undamped.vectors;
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(2 * n, 2 * n);
  A.topRightCorner(n, n).setIdentity();
  A.bottomLeftCorner(n, n).diagonal() = -undamped.values;
  A.bottomRightCorner(n, n) = -damping;
  const ComplexModes modes = ComplexModesOf(A);
  Roots roots;
  for (Eigen::Index i = 0; i < 2 * n; ++i) {
    const Complex root = modes.values[i];
    if (root.imag() < 0.0) continue;
    const Eigen::VectorXcd shape = undamped.vectors * modes.vectors.col(i).head(n);
    RootPair pair{root, std::conj(root), Likeness(model, undamped, shape)};
    (root.imag() > 0.0 ? roots.pairs : roots.creeping).push_back(std::move(pair));
  }
  return roots;
}

// The mode of each pair, each another, with the greatest likeness in all.
//   modes   those to choose from; one that is in it twice may be taken twice
std::vector<size_t> MostAlike(const std::vector<RootPair>& pairs,
                              const std::vector<size_t>& modes) {
  Eigen::MatrixXd worth(static_cast<Eigen::Index>(pairs.size()),
                        static_cast<Eigen::Index>(modes.size()));
  for (size_t p = 0; p < pairs.size(); ++p) {
    for (size_t m = 0; m < modes.size(); ++m) {
      worth(static_cast<Eigen::Index>(p), static_cast<Eigen::Index>(m)) =
          pairs[p].likeness[modes[m]];
    }
  }
  std::vector<size_t> mode_of = AssignMost(worth);
  for (size_t& mode : mode_of) mode = modes[mode];
  return mode_of;
}

// One pair of roots a mode: first those that swing, then real roots two by two.
std::vector<RootPair> MatchRoots(const Roots& roots, size_t modes) {
  std::vector<RootPair> matched(modes);
  std::vector<bool> taken(modes, false);
  std::vector<size_t> all(modes), twice;
  std::iota(all.begin(), all.end(), size_t{0});
  const std::vector<size_t> swinging = MostAlike(roots.pairs, all);
  for (size_t p = 0; p < swinging.size(); ++p) {
    taken[swinging[p]] = true;
    matched[swinging[p]] = roots.pairs[p];
  }
  for (const size_t mode : all) {
    if (!taken[mode]) twice.insert(twice.end(), 2, mode);
  }
  // As many real roots as places: n modes have 2 n roots.
  const std::vector<size_t> creeping = MostAlike(roots.creeping, twice);
  for (size_t r = 0; r < creeping.size(); ++r) {
    RootPair& pair = matched[creeping[r]];
    if (!taken[creeping[r]]) {
      pair = roots.creeping[r];
      taken[creeping[r]] = true;
    } else {
      pair.second = roots.creeping[r].first;
    }
  }
  return matched;
}

// s^2 - (first + second) s + first second = s^2 + 2 damping w s + w^2.
void AddDamping(Mode& mode, const RootPair& roots) {
  const double squared = std::real(roots.first * roots.second);
  const double natural = std::sqrt(std::max(0.0, squared));
  mode.natural = natural / (2.0 * M_PI);
  mode.damped = std::max(0.0, roots.first.imag()) / (2.0 * M_PI);
  mode.damping = -0.5 * std::real(roots.first + roots.second) / natural;
}

constexpr double kEqual = 1e-9;  // two ratios that differ by less are equal but for rounding

bool Greater(double a, double b) {
  if (std::isinf(b)) return false;
  return std::isinf(a) || a > b * (1.0 + kEqual);
}

std::vector<Mode*> MembersOf(std::vector<Mode>& modes, MotionPart family) {
  const std::vector<MotionPart> parts = Family(family);
  std::vector<Mode*> members;
  for (Mode& mode : modes) {
    if (std::find(parts.begin(), parts.end(), mode.part) != parts.end()) members.push_back(&mode);
  }
  return members;  // by rising frequency, as the modes come
}

double Ratio(double over, double under) {
  return under == 0.0 ? std::copysign(std::numeric_limits<double>::infinity(), over) : over / under;
}

// How far the body rolls for how far the tyres give sideways, root of the mean square of both
// axles.
double RollPerGive(const LinearModel& model, const Mode& mode) {
  const Eigen::VectorXd nine = model.free * mode.shape;
  return Ratio(model.roll.dot(mode.shape), std::hypot(nine[kSwayFront], nine[kSwayRear]));
}

double SwayPerYaw(const LinearModel& model, const Mode& mode) {
  return Ratio(model.sway.dot(mode.shape), model.yaw.dot(mode.shape));
}

// Moves the one with the greatest size of a measure, the lowest of equals, to the front.
template <typename Measure>
void GreatestFirst(std::vector<Mode*>& members, size_t from, const Measure& measure) {
  for (size_t i = from + 1; i < members.size(); ++i) {
    if (Greater(std::abs(measure(*members[i])), std::abs(measure(*members[from])))) {
      std::swap(members[i], members[from]);
    }
  }
}

void OrderFamilies(const LinearModel& model, std::vector<Mode>& modes) {
  std::vector<Mode*> side_view = MembersOf(modes, kBodyHeave);
  GreatestFirst(side_view, 0, [&](const Mode& m) { return HeavePerPitch(model, m); });
  std::vector<Mode*> sideways = MembersOf(modes, kBodyRoll);
  GreatestFirst(sideways, 0, [&](const Mode& m) { return RollPerGive(model, m); });
  if (sideways.size() == 3) {
    GreatestFirst(sideways, 1, [&](const Mode& m) { return SwayPerYaw(model, m); });
  }
  for (size_t i = 0; i < side_view.size(); ++i) side_view[i]->part = Family(kBodyHeave)[i];
  for (size_t i = 0; i < sideways.size(); ++i) sideways[i]->part = Family(kBodyRoll)[i];
  for (Mode& mode : modes) mode.share = SharesOf(model, mode.shape)[mode.part];
}

void SortByPart(std::vector<Mode>& modes) {
  std::sort(modes.begin(), modes.end(),
            [](const Mode& a, const Mode& b) { return a.part < b.part; });
}

}  // namespace

std::vector<Mode> FindModes(const LinearModel& model) {
  const SymmetricModes undamped = SymmetricModesOf(model.stiffness, model.mass);
  if (!(undamped.values.minCoeff() > 0.0)) return {};
  const auto count = static_cast<size_t>(undamped.values.size());
  const std::vector<RootPair> roots = MatchRoots(SolveDamped(model, undamped), count);
  std::vector<std::array<double, kMotionParts>> shares;
  for (size_t i = 0; i < count; ++i) {
    shares.push_back(
        FamilyShares(SharesOf(model, undamped.vectors.col(static_cast<Eigen::Index>(i)))));
  }
  const std::vector<size_t> names = NameModes(shares);
  std::vector<Mode> modes;
  for (size_t i = 0; i < count; ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    Mode mode{.part = static_cast<MotionPart>(names[i]),
              .share = 0.0,
              .undamped = std::sqrt(undamped.values[column]) / (2.0 * M_PI),
              .natural = 0.0,
              .damped = 0.0,
              .damping = 0.0,
              .shape = undamped.vectors.col(column)};
    AddDamping(mode, roots[i]);
    modes.push_back(std::move(mode));
  }
  OrderFamilies(model, modes);
  SortByPart(modes);
  return modes;
}

void NameAsBody(const LinearModel& model, const BodyModes& two, double gyration,
                std::vector<Mode>& modes) {
  const std::vector<Mode*> pair = MembersOf(modes, kBodyHeave);
  if (pair.size() != 2) return;
  // Heave and gyration times pitch, as one direction in the plane.
  const auto direction = [&](double heave_per_pitch) {
    if (std::isinf(heave_per_pitch)) return Eigen::Vector2d(1.0, 0.0);
    return Eigen::Vector2d(heave_per_pitch, gyration).normalized();
  };
  const auto alike = [&](const Mode& mode, double node) {
    return std::abs(direction(HeavePerPitch(model, mode)).dot(direction(node)));
  };
  const double kept = alike(*pair[0], two.bounce_node) + alike(*pair[1], two.pitch_node);
  const double swapped = alike(*pair[1], two.bounce_node) + alike(*pair[0], two.pitch_node);
  if (swapped <= kept) return;
  std::swap(pair[0]->part, pair[1]->part);
  for (Mode* mode : pair) mode->share = SharesOf(model, mode->shape)[mode->part];
  SortByPart(modes);
}

double HeavePerPitch(const LinearModel& model, const Mode& mode) {
  return Ratio(model.heave.dot(mode.shape), model.pitch.dot(mode.shape));
}

}  // namespace linkwright
