// SPDX-License-Identifier: MIT
#include "solver/study/walk/paths.h"

#include <cmath>

namespace linkwright {
namespace {
// Both wheels' travels from the stance.
Travels TravelsAt(MotionKind motion, size_t wheel, double s, size_t axle, double track) {
  switch (motion) {
    case MotionKind::kBounce:
      return {s, s};
    case MotionKind::kRoll:
    case MotionKind::kCrossed: {
      const double phi = motion == MotionKind::kCrossed && axle == kRear ? -s : s;
      const double right = 0.5 * track * std::sin(phi);
      return {-right, right};
    }
    case MotionKind::kOneWheel:
      if (wheel / 2 != axle) return {};
      return wheel % 2 == 0 ? Travels{s, 0.0} : Travels{0.0, s};
    case MotionKind::kSteer:
      break;
  }
  return {};
}

// Under a turned steering wheel: whether the linkage follows, and short of the lock.
std::optional<LimitKind> RefuseHand(const Rig& rig, double hand, size_t index,
                                    const Eigen::Isometry3d& X_CA) {
  const Axle& axle = rig.vehicle->axles[index];
  const AxleFrame& frame = rig.axles[index].frame;
  if (!axle.steering) return std::nullopt;
  const auto turns = TurnByHand(axle, frame, X_CA, hand);
  if (!turns) return LimitKind::kTieRodOutOfReach;
  if (axle.steering->lock) {
    const double inside = hand >= 0.0 ? hand : -RoadSteer(axle, frame, X_CA, 1, turns->right);
    constexpr double kAtLock = 1e-9;  // [rad] a row at the lock is a row
    if (inside > *axle.steering->lock + kAtLock) return LimitKind::kSteeringAtLock;
  }
  if (FollowDragLink(axle, PrepareKnuckle(axle, frame), X_CA, *turns).over_centre) {
    return LimitKind::kDragLinkOverCentre;
  }
  return std::nullopt;
}

}  // namespace

AxlePath PathOf(const Rig& rig, const std::array<double, 2>& start, MotionKind motion,
                size_t wheel) {
  AxlePath path;
  path.place = [&rig, start, motion, wheel](double s, size_t axle) {
    const AxleFrame& frame = rig.axles[axle].frame;
    return PlaceAt(frame, start[axle], TravelsAt(motion, wheel, s, axle, frame.track));
  };
  if (motion == MotionKind::kSteer) {
    path.refuse = [&rig](double hand, size_t axle, const Eigen::Isometry3d& X_CA) {
      return RefuseHand(rig, hand, axle, X_CA);
    };
  }
  return path;
}

MotionReach ReachOf(const Vehicle& vehicle, MotionKind motion) {
  double hand = 30.0 * kOneDegree;
  for (const Axle& axle : vehicle.axles) {
    if (axle.steering && axle.steering->lock) hand = 60.0 * kOneDegree;  // what the file may give
  }
  switch (motion) {
    case MotionKind::kBounce:
    case MotionKind::kOneWheel:
      return {.far = 0.6, .step = 0.005, .real = 0.3, .unlimited = 0.1};
    case MotionKind::kSteer:
      return {.far = hand, .step = 1.0 * kOneDegree, .real = hand, .unlimited = 30.0 * kOneDegree};
    case MotionKind::kRoll:
    case MotionKind::kCrossed:
      break;
  }
  return {.far = 40.0 * kOneDegree,
          .step = 0.5 * kOneDegree,
          .real = 25.0 * kOneDegree,
          .unlimited = 10.0 * kOneDegree};
}

std::array<double, 2> StartOf(const Rig& rig, const Stance* stance) {
  std::array<double, 2> start{0.0, 0.0};
  for (size_t i = 0; i < 2 && stance != nullptr; ++i) {
    start[i] = stance->motion[i].pose.z - rig.axles[i].frame.measured.z;
  }
  return start;
}

double DiagonalTravel(const Rig& rig, const std::array<Pose, 2>& pose) {
  const Travels front = TravelsOf(rig.axles[0].frame, pose[0]);
  const Travels rear = TravelsOf(rig.axles[1].frame, pose[1]);
  return 0.5 * (front.right + rear.left) - 0.5 * (front.left + rear.right);
}

double RoadSteer(const Axle& axle, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
                 size_t side, double turn) {
  const KingpinAxis pin = PrepareKingpin(axle, frame, side == 0 ? 1.0 : -1.0);
  return HeadingOf(pin, turn, X_CA) - HeadingOf(pin, 0.0, X_CA);
}

}  // namespace linkwright
