// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

Eigen::Vector3d Mirrored(const Eigen::Vector3d& point) {
  return {point.x(), -point.y(), point.z()};
}

AArm MirrorOf(AArm arm) {
  for (Eigen::Vector3d& eye : arm.p_CP) eye = Mirrored(eye);
  arm.p_CQ = Mirrored(arm.p_CQ);
  return arm;
}

RadiusArm MirrorOf(RadiusArm arm) {
  arm.p_CP = Mirrored(arm.p_CP);
  for (Eigen::Vector3d& eye : arm.p_CQ) eye = Mirrored(eye);
  return arm;
}

AArm BuildAArm(const Node& node) {
  const Eigen::Vector3d first = PointAt(node, "first_eye").value();
  AArm arm;
  arm.p_CP = {first, PointAt(node, "second_eye").value_or(Mirrored(first))};
  arm.p_CQ = PointAt(node, "axle").value();
  arm.rate = NumberOr(node, "a_arm", "rate");
  return arm;
}

RadiusArm BuildRadiusArm(const Node& node) {
  RadiusArm arm;
  arm.p_CP = PointAt(node, "frame").value();
  arm.p_CQ = {PointAt(node, "first_eye").value(), PointAt(node, "second_eye").value()};
  arm.frame_rate = NumberOr(node, "radius_arm", "frame_rate");
  arm.axle_rate = NumberOr(node, "radius_arm", "axle_rate");
  return arm;
}

WattsLink BuildWattsLink(const Node& node) {
  WattsLink watt;
  watt.on_housing = TextAt(node, "crank_on") != "frame";
  watt.pivot = PointAt(node, "pivot").value();
  watt.axis = Eigen::Vector3d::UnitX();
  if (const auto bolt = PointAt(node, "bolt")) watt.axis = *bolt - watt.pivot;
  watt.end = {PointAt(node, "first_crank").value(), PointAt(node, "second_crank").value()};
  watt.far = {PointAt(node, "first_far").value(), PointAt(node, "second_far").value()};
  watt.rate = NumberOr(node, "watts_link", "rate");
  return watt;
}

// The arms under a key; of a pair, the left one and then its mirror image.
template <typename Arm, typename Make>
std::vector<Arm> BuildArms(const Node& axle, std::string_view key, const Make& make) {
  std::vector<Arm> arms;
  const Node* named = Find(axle, key);
  if (named == nullptr) return arms;
  for (const Entry& entry : named->entries) {
    const bool pair = FlagAt(entry.value, "pair");
    Arm arm = make(entry.value);
    arm.name = {entry.key, pair ? Side::kLeft : Side::kMiddle};
    arms.push_back(arm);
    if (!pair) continue;
    arm = MirrorOf(arm);
    arm.name.side = Side::kRight;
    arms.push_back(arm);
  }
  return arms;
}

}  // namespace

void BuildLocating(const Node& node, Axle& axle) {
  axle.a_arms = BuildArms<AArm>(node, "a_arms", BuildAArm);
  axle.radius_arms = BuildArms<RadiusArm>(node, "radius_arms", BuildRadiusArm);
  const Node* watts = Find(node, "watts_links");
  if (watts == nullptr) return;
  for (const Entry& entry : watts->entries) {
    axle.watts_links.push_back(BuildWattsLink(entry.value));
    axle.watts_links.back().name = entry.key;
  }
}

}  // namespace linkwright
