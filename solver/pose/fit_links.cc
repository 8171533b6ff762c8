// SPDX-License-Identifier: MIT
#include "solver/pose/fit_links.h"

#include <algorithm>
#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/pose/link_equations.h"
#include "solver/pose/solve.h"

namespace linkwright {
namespace {

double Between(double a, double b, double share) { return a + share * (b - a); }

Eigen::Vector3d Between(const Eigen::Vector3d& a, const Eigen::Vector3d& b, double share) {
  return a + share * (b - a);
}

// A radius arm part of the way from one shape to another.
FrameArm Between(const FrameArm& a, const FrameArm& b, double share) {
  FrameArm arm = b;
  arm.reach = Between(a.reach, b.reach, share);
  arm.aside = Between(a.aside, b.aside, share);
  arm.along = Between(a.along, b.along, share).normalized();
  arm.across = arm.bolt.cross(arm.along);
  for (size_t i = 0; i < 2; ++i) {
    arm.eye[i] = a.eye[i] + share * (b.eye[i] - a.eye[i]);
  }
  return arm;
}

AxleFrame Between(const AxleFrame& a, const AxleFrame& b, double share) {
  AxleFrame frame = b;
  for (size_t i = 0; i < frame.links.size(); ++i) {
    const FrameLink &from = a.links[i], &to = b.links[i];
    FrameLink& link = frame.links[i];
    link.length = Between(from.length, to.length, share);
    if (link.arm) link.arm = Between(*from.arm, *to.arm, share);
    for (size_t k = 0; link.crank && k < 2; ++k) {
      link.crank->end[k] = Between(from.crank->end[k], to.crank->end[k], share);
      link.crank->length[k] = Between(from.crank->length[k], to.crank->length[k], share);
    }
  }
  return frame;
}

// How far two frames' links are from one another, the greatest [m].
double GreatestChange(const AxleFrame& a, const AxleFrame& b) {
  double most = 0.0;
  const auto look = [&most](double change) { most = std::max(most, std::abs(change)); };
  for (size_t i = 0; i < b.links.size(); ++i) {
    const FrameLink &from = a.links[i], &to = b.links[i];
    look(to.length - from.length);
    if (to.arm) {
      look(to.arm->aside - from.arm->aside);
      look(to.arm->reach * (to.arm->along - from.arm->along).norm());
    }
    for (size_t k = 0; to.crank && k < 2; ++k) {
      look((to.crank->end[k] - from.crank->end[k]).norm());
      look(to.crank->length[k] - from.crank->length[k]);
    }
  }
  return most;
}

// What is farthest from fitting at a pose; before all what does not reach there at all.
FittedPose FarthestOff(const AxleFrame& wanted, const Pose& pose) {
  const std::vector<double> stretch = StretchesAt(wanted, CoordinatesOf(pose));
  size_t worst = 0;
  for (size_t i = 0; i < stretch.size(); ++i) {
    if (!std::isfinite(stretch[i])) return {std::nullopt, i, std::nullopt};
    if (std::abs(stretch[i]) > std::abs(stretch[worst])) worst = i;
  }
  return {std::nullopt, worst, stretch[worst]};
}

}  // namespace

FittedPose FitLinks(const AxleFrame& fitting, const AxleFrame& wanted, const Pose& start) {
  constexpr double kStep = 0.005;  // [m] of change between solves: the branch cannot change
  const double sign = SlopeDeterminant(fitting, start);
  const int steps =
      std::max(1, static_cast<int>(std::ceil(GreatestChange(fitting, wanted) / kStep)));
  Pose pose = start;
  for (int step = 1; step <= steps; ++step) {
    const AxleFrame frame = Between(fitting, wanted, static_cast<double>(step) / steps);
    const PoseSolution solution = SolvePose(frame, pose);
    // The same assembly of the links: another would be another axle.
    const bool kept = sign * SlopeDeterminant(frame, solution.pose) > 0.0;
    if (solution.status != SolveStatus::kConverged || !kept) {
      return FarthestOff(wanted, pose);
    }
    pose = solution.pose;
  }
  return {pose, 0, 0.0};
}

FittedPose MeasuredPose(const Axle& axle, const AxleFrame& frame) {
  if (!HasKeptArms(axle)) return {frame.measured, 0, 0.0};
  return FitLinks(PrepareAxle(WithArmsAsPoints(axle)), frame, frame.measured);
}

}  // namespace linkwright
