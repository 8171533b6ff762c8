// SPDX-License-Identifier: MIT
#include "solver/pose/freedom.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/model/error.h"
#include "solver/numeric/decompositions.h"
#include "solver/pose/link_equations.h"
#include "solver/pose/motion.h"

namespace linkwright {
namespace {

// Angles at half the track, so that every column is metres per metre.
Eigen::MatrixXd ScaledJacobian(const AxleFrame& frame, const Pose& at) {
  Eigen::MatrixXd J = LinkJacobian(frame, at);
  J.rightCols<2>() /= 0.5 * frame.track;
  return J;
}

const char* MotionInWords(Eigen::Index unknown) {
  switch (unknown) {
    case kX:
      return "can move fore and aft: nothing like a trailing arm holds it";
    case kY:
      return "can move sideways: nothing like a track bar holds it";
    case kSteer:
      return "can steer: nothing holds it square to the chassis";
    default:
      return "can wind up about its own tube: nothing like an upper arm holds it";
  }
}

// Words for all of them, each unknown used once: the one that stands out most in the space they
// span first.
void Name(std::vector<FreeMotion>& motions) {
  std::vector<Eigen::Index> order{0, 1, 2, 3};
  Eigen::Vector4d share = Eigen::Vector4d::Zero();
  for (const FreeMotion& motion : motions) share += motion.direction.cwiseAbs2();
  std::stable_sort(order.begin(), order.end(),
                   [&](Eigen::Index a, Eigen::Index b) { return share[a] > share[b]; });
  std::sort(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(motions.size()));
  for (size_t i = 0; i < motions.size(); ++i) motions[i].words = MotionInWords(order[i]);
}

std::vector<FreeMotion> Motions(const Eigen::Matrix4d& V, const Eigen::Vector4d& held, double from,
                                double to) {
  std::vector<FreeMotion> motions;
  for (Eigen::Index k = 0; k < 4; ++k) {
    if (held[k] >= from && held[k] < to) motions.push_back({V.col(k), held[k], {}});
  }
  Name(motions);
  return motions;
}

LinkFight Fight(const AxleFrame& frame, const Pose& at) {
  const HousingMotion motion = EvaluateMotion(frame, at);
  LinkFight fight{.too_many = frame.links.size() - 4,
                  .bounce_rate = motion.strain.zz,
                  .roll_rate = motion.strain.rr,
                  .bounce_link_force = 0.0,
                  .roll_link_force = 0.0,
                  .bounce_name = {},
                  .roll_name = {},
                  .bounce_link = 0,
                  .roll_link = 0};
  const std::vector<Taylor> tension =
      StrainOf(frame, StretchesOf(frame, motion.p, motion.R)).tension;
  for (size_t i = 0; i < tension.size(); ++i) {
    const double bounce = std::abs(tension[i].z), roll = std::abs(tension[i].r);
    if (bounce > fight.bounce_link_force) fight.bounce_link_force = bounce, fight.bounce_link = i;
    if (roll > fight.roll_link_force) fight.roll_link_force = roll, fight.roll_link = i;
  }
  fight.bounce_name = frame.links[fight.bounce_link].name;
  fight.roll_name = frame.links[fight.roll_link].name;
  return fight;
}

}  // namespace

Freedom AnalyseFreedom(const AxleFrame& frame, const Pose& at) {
  Freedom freedom{.rank = 0, .free = {}, .weak = {}, .fight = std::nullopt};
  Eigen::Vector4d held = Eigen::Vector4d::Zero();
  Eigen::Matrix4d V = Eigen::Matrix4d::Identity();
  if (!frame.links.empty()) {
    const SingularValues singular = SingularValuesOf(ScaledJacobian(frame, at));
    held.head(singular.values.size()) = singular.values;
    V = singular.V;
  }
  freedom.rank = static_cast<int>((held.array() >= kFree).count());
  freedom.free = Motions(V, held, 0.0, kFree);
  freedom.weak = Motions(V, held, kFree, kWeak);
  if (freedom.rank == 4 && frame.links.size() > 4) freedom.fight = Fight(frame, at);
  return freedom;
}

namespace {

void RequireHeld(const Axle& axle, const AxleFrame& frame, const Freedom& freedom) {
  if (freedom.free.empty()) return;
  std::string message = "the " + axle.name + " axle ";
  for (size_t i = 0; i < freedom.free.size(); ++i) {
    if (i > 0) message += "; it ";
    message += freedom.free[i].words;
  }
  const size_t n = frame.links.size();
  if (n < 4) {
    message += "; it has " + std::to_string(n) + (n == 1 ? " link" : " links") +
               " where four motions want holding";
  } else {
    message += "; its links are enough in number but two or more of them hold the same motion";
  }
  throw ModelError({"axles", axle.name, "links"}, message);
}

void RequireUnlocked(const Axle& axle, const AxleFrame& frame, const LinkFight& fight) {
  double softest = std::numeric_limits<double>::infinity();
  for (const FrameLink& link : frame.links) {
    // An arm's own rate has its lever in it already, which is what clamps without locking.
    softest = std::min(softest,
                       link.arm ? std::min(link.arm->frame_rate, link.arm->axle_rate) : link.rate);
  }
  const double arm = 0.5 * frame.track;
  const bool bounce = fight.bounce_rate > kLocked * softest;
  const bool roll = fight.roll_rate / (arm * arm) > kLocked * softest;
  if (!bounce && !roll) return;
  const FrameLink& worst = frame.links[bounce ? fight.bounce_link : fight.roll_link];
  throw ModelError(worst.part,
                   "the links lock the " + axle.name + " axle in " + (bounce ? "bounce" : "roll") +
                       ": there are " + std::to_string(fight.too_many) +
                       " more than its four motions, and " + worst.name +
                       " fights the rest rigidly; take a link out, or line it up so that the axle "
                       "can move");
}

}  // namespace

void RequireLocated(const Axle& axle, const AxleFrame& frame, const Pose& at) {
  const Freedom freedom = AnalyseFreedom(frame, at);
  RequireHeld(axle, frame, freedom);
  if (freedom.fight) RequireUnlocked(axle, frame, *freedom.fight);
}

}  // namespace linkwright
