// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

LeafSpring BuildSpring(const Node& node) {
  const auto number = [&](std::string_view key) { return NumberAt(node, key).value(); };
  const auto number_or = [&](std::string_view key) { return NumberOr(node, "leaf_spring", key); };
  return {.shackle_behind = TextAt(node, "shackled_end") == "rear",
          .p_DF = SideAt(node, "fixed_eye").value(),
          .p_DS = SideAt(node, "shackle_pivot").value(),
          .shackle = number("shackle_length"),
          .hangs = TextAt(node, "shackle") != "stands",
          .arc_fixed = number("arc_fixed"),
          .arc_shackled = number("arc_shackled"),
          .clamped = number_or("clamped"),
          .eye_up = number_or("eye_up"),
          .camber_new = number("camber_new"),
          .camber_now = number("camber_now"),
          .over_axle = TextAt(node, "leaf") == "over_axle",
          .to_wheel = number("leaf_to_wheel"),
          .eyes_now = NumberAt(node, "eyes_now"),
          .p_DB = SideAt(node, "opening")};
}

LeafAims BuildAims(const Node& node) {
  const auto limit = [&](std::string_view key) { return NumberOr(node, "leaf_limits", key); };
  return {.off_centre = limit("off_center"),
          .spacing = limit("spacing"),
          .eyes_differ = limit("eyes_differ"),
          .wheelbase_differ = limit("wheelbase_differ"),
          .swing_least = limit("swing_least")};
}

}  // namespace

LeafOriginal BuildLeafOriginal(const Node& node) {
  LeafOriginal original;
  if (const Node* front = Find(node, "front")) original.axles[kFront] = BuildSpring(*front);
  if (const Node* rear = Find(node, "rear")) original.axles[kRear] = BuildSpring(*rear);
  original.wheelbase_now = NumberAt(node, "wheelbase_now");
  original.p_CD = SideAt(node, "datum");
  const Node none;
  const Node* aims = Find(node, "limits");
  original.aims = BuildAims(aims == nullptr ? none : *aims);
  return original;
}

}  // namespace linkwright
