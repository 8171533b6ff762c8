// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"
#include "io/read/format.h"
#include "io/read/values.h"
#include "solver/model/force_law.h"

namespace linkwright {
namespace {

Eigen::Vector3d Mirrored(const Eigen::Vector3d& point) {
  return {point.x(), -point.y(), point.z()};
}

// The members under a key; of a pair, the left one and then its mirror image.
//   make   builds one member from its node, without name
template <typename Member, typename Make>
std::vector<Member> BuildMembers(const Node& axle, std::string_view key, const Make& make) {
  std::vector<Member> members;
  const Node* named = Find(axle, key);
  if (named == nullptr) return members;
  for (const Entry& entry : named->entries) {
    const bool pair = FlagAt(entry.value, "pair");
    Member member = make(entry.value);
    member.span = SpanAt(entry.value).value();
    member.name = {entry.key, pair ? Side::kLeft : Side::kMiddle};
    members.push_back(member);
    if (!pair) continue;
    member.name.side = Side::kRight;
    member.span = {Mirrored(member.span.p_CP), Mirrored(member.span.p_CQ)};
    members.push_back(member);
  }
  return members;
}

Link BuildLink(const Node& node) {
  Link link;
  link.rate = NumberOr(node, "link", "rate");
  link.thread = NumberAt(node, "thread");
  link.misalignment_limit = NumberAt(node, "misalignment_limit");
  return link;
}

Spring BuildSpring(const Node& node) {
  Spring spring;
  if (const auto wire = NumberAt(node, "wire")) {
    spring.wire = {*wire, NumberAt(node, "mean_diameter").value(),
                   NumberAt(node, "active_coils").value(),
                   NumberOr(node, "spring", "shear_modulus")};
    spring.law.rate = HelicalRate(*spring.wire);
  } else {
    spring.law.rate = NumberAt(node, "rate").value_or(0.0);
  }
  spring.law.curve = CurveAt(node, "curve");
  spring.solid_length = NumberAt(node, "solid_length");
  spring.keep_seated = FlagAt(node, "keep_seated");
  spring.weighed = TextAt(node, "free_length") == "weighed";
  // A weighed one is worked out once the whole vehicle is known (ResolveWeighedLengths).
  if (!spring.weighed) spring.law.free_length = NumberAt(node, "free_length").value();
  return spring;
}

Stop BuildStop(const Node& node) {
  Stop stop;
  stop.law = {NumberAt(node, "free_length").value(), NumberAt(node, "rate").value_or(0.0),
              CurveAt(node, "curve")};
  return stop;
}

Damper BuildDamper(const Node& node) {
  Damper damper;
  damper.shortest = NumberAt(node, "shortest");
  damper.longest = NumberAt(node, "longest");
  damper.bump = NumberAt(node, "bump");
  damper.rebound = NumberAt(node, "rebound");
  return damper;
}

Strap BuildStrap(const Node& node) {
  Strap strap;
  strap.length = NumberAt(node, "length");
  return strap;
}

Steering BuildSteering(const Node& node) {
  Steering steering;
  steering.drag_link = SpanAt(*Find(node, "drag_link")).value();
  steering.lock = NumberAt(node, "lock");
  if (const Node* rod = Find(node, "tie_rod")) {
    const Eigen::Vector3d left = PointAt(*rod, "left").value();
    steering.tie_rod = TieRod{left, PointAt(*rod, "right").value_or(Mirrored(left))};
  }
  const Node none;
  const Node* given = Find(node, "limits");
  const auto limit = [&](std::string_view key) {
    return NumberOr(given == nullptr ? none : *given, "steering_limits", key);
  };
  steering.aims = {limit("slope_differ"), limit("length_differ"), limit("steer_rate")};
  return steering;
}

void BuildGaps(const Node& node, Axle& axle) {
  const Node* gaps = Find(node, "gaps");
  if (gaps == nullptr) return;
  for (const Entry& entry : gaps->entries) {
    axle.gaps.push_back({entry.key, SpanAt(entry.value).value(), NumberAt(entry.value, "least")});
  }
}

void BuildSmallParts(const Node& node, Axle& axle) {
  if (const Node* tire = Find(node, "tire")) {
    axle.tire = {NumberAt(*tire, "radius"), NumberAt(*tire, "width"), NumberAt(*tire, "rate"),
                 NumberAt(*tire, "lateral_rate")};
  }
  if (const Node* unsprung = Find(node, "unsprung")) {
    axle.unsprung = {axle.name + " axle", NumberAt(*unsprung, "mass").value(),
                     PointAt(*unsprung, "at").value()};
    axle.unsprung_roll_inertia = NumberAt(*unsprung, "roll_inertia");
  }
  if (const Node* bar = Find(node, "anti_roll_bar")) {
    axle.bar_roll_rate = NumberAt(*bar, "roll_rate").value();
  }
  if (const Node* pinion = Find(node, "pinion")) {
    axle.pinion = {PointAt(*pinion, "yoke").value(), NumberAt(*pinion, "angle").value()};
  }
  if (const Node* kingpin = Find(node, "kingpin")) {
    axle.kingpin = {NumberAt(*kingpin, "caster").value(),
                    NumberOr(*kingpin, "kingpin", "inclination"), PointAt(*kingpin, "at")};
  }
  if (const Node* steering = Find(node, "steering")) axle.steering = BuildSteering(*steering);
}

std::optional<Opening> BuildOpening(const Node& root, std::string_view name) {
  const Node* openings = Find(root, "openings");
  const Node* opening = openings == nullptr ? nullptr : Find(*openings, name);
  if (opening == nullptr) return std::nullopt;
  const Node& center = *Find(*opening, "center");
  return Opening{center.items[0].si.value(), center.items[1].si.value(),
                 NumberAt(*opening, "radius"), NumberAt(*opening, "lip_y"),
                 NumberAt(*opening, "inner_panel_y")};
}

}  // namespace

Axle BuildAxle(const Node& root, std::string_view name) {
  const Node& node = *Find(*Find(root, "axles"), name);
  Axle axle;
  axle.name = std::string(name);
  axle.p_CW_l = PointAt(node, "wheel_center").value();
  axle.p_CW_r = PointAt(node, "wheel_center_right").value_or(Mirrored(axle.p_CW_l));
  axle.drive_share = NumberAt(node, "drive_share");
  axle.brake_share = NumberAt(node, "brake_share");
  axle.sideways_most = NumberOr(node, "axle", "sideways_most");
  axle.links = BuildMembers<Link>(node, "links", BuildLink);
  BuildLocating(node, axle);
  axle.springs = BuildMembers<Spring>(node, "springs", BuildSpring);
  axle.bump_stops = BuildMembers<Stop>(node, "bump_stops", BuildStop);
  axle.dampers = BuildMembers<Damper>(node, "dampers", BuildDamper);
  axle.rating = NumberAt(node, "rating");
  BuildGaps(node, axle);
  axle.straps = BuildMembers<Strap>(node, "straps", BuildStrap);
  BuildSmallParts(node, axle);
  axle.opening = BuildOpening(root, name);
  return axle;
}

}  // namespace linkwright
