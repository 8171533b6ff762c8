// SPDX-License-Identifier: MIT
// Checks of A-arms, radius arms and Watt's links, in the measured stance.
#include <fmt/format.h>

#include <Eigen/Geometry>

#include <cmath>

#include "io/read/check.h"

namespace linkwright {
namespace {

void CheckApart(const Part& part, std::string_view key, std::string_view other, Report& report) {
  CheckApart(part, key, PointAt(part.node, other), fmt::format("'{}'", other), report);
}

void CheckAArm(const Part& arm, Report& report) {
  CheckPairSide(arm, {"first_eye", "second_eye", "axle"}, report);
  const Node& node = arm.node;
  if (FlagAt(node, "pair") && Find(node, "second_eye") == nullptr) {
    AddErrorAt(report, arm, "pair", "each arm of a pair needs its own 'second_eye'");
    return;
  }
  CheckApart(arm, "axle", "first_eye", report);
  CheckApart(arm, "second_eye", "first_eye", report);
  CheckApart(arm, "axle", "second_eye", report);
  const auto first = PointAt(node, "first_eye");
  if (!first || Find(node, "second_eye") != nullptr || std::abs(first->y()) >= kSamePoint) return;
  AddErrorAt(report, arm, "first_eye",
             "it stands on the centreline, so its mirror image is the same point; give "
             "'second_eye'");
}

void CheckRadiusArm(const Part& arm, Report& report) {
  CheckPairSide(arm, {"frame", "first_eye", "second_eye"}, report);
  CheckApart(arm, "first_eye", "frame", report);
  CheckApart(arm, "second_eye", "frame", report);
  CheckApart(arm, "second_eye", "first_eye", report);
}

// A link turns its crank only with a lever: its line must pass the pivot's axis.
void CheckLever(const Part& watt, std::string_view crank, std::string_view far,
                const Eigen::Vector3d& axis, Report& report) {
  CheckApart(watt, far, crank, report);
  const Node& node = watt.node;
  const auto pivot = PointAt(node, "pivot"), end = PointAt(node, crank), other = PointAt(node, far);
  if (!pivot || !end || !other || (*end - *other).norm() < kSamePoint) return;
  const double lever = axis.cross(*end - *pivot).dot((*end - *other).normalized());
  if (std::abs(lever) >= kSamePoint) return;
  AddErrorAt(report, watt, crank,
             "its link points at the pivot (or along its bolt), so it cannot turn the crank");
}

void CheckWattsLink(const Part& watt, Report& report) {
  CheckApart(watt, "bolt", "pivot", report);
  const auto pivot = PointAt(watt.node, "pivot"), bolt = PointAt(watt.node, "bolt");
  Eigen::Vector3d axis = Eigen::Vector3d::UnitX();
  if (pivot && bolt) axis = *bolt - *pivot;
  if (axis.norm() < kSamePoint) return;
  CheckLever(watt, "first_crank", "first_far", axis.normalized(), report);
  CheckLever(watt, "second_crank", "second_far", axis.normalized(), report);
}

}  // namespace

void CheckArms(const Part& axle, Report& report) {
  for (const Part& arm : PartsAt(axle, "a_arms")) CheckAArm(arm, report);
  for (const Part& arm : PartsAt(axle, "radius_arms")) CheckRadiusArm(arm, report);
  for (const Part& watt : PartsAt(axle, "watts_links")) CheckWattsLink(watt, report);
}

}  // namespace linkwright
