// SPDX-License-Identifier: MIT
#include "solver/model/arms_kept.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

constexpr double kRounding = 1e-12;  // [m]

constexpr std::array kFirstSecond{" first", " second"};

// What an arm is, where it has no shape of its own yet: its points.
RadiusArmShape ShapeOf(const RadiusArm& arm) {
  return arm.made.value_or(RadiusArmShape{arm.p_CP, arm.p_CQ});
}

// The member of the same name, left and right told apart, whether they were given as a pair or not.
template <typename Member>
const Member* Find(const std::vector<Member>& members, const Member& like) {
  const auto name = [](const Member& member) {
    if constexpr (requires { member.name.key; }) {
      return DisplayName(member.name);
    } else {
      return member.name;
    }
  };
  const auto found = std::find_if(members.begin(), members.end(),
                                  [&](const Member& member) { return name(member) == name(like); });
  return found == members.end() ? nullptr : &*found;
}

}  // namespace

std::array<double, 2> LegLengths(const AArm& arm) {
  if (arm.leg_length) return *arm.leg_length;
  return {MeasuredLength({arm.p_CP[0], arm.p_CQ}), MeasuredLength({arm.p_CP[1], arm.p_CQ})};
}

CrankShape ShapeOf(const WattsLink& watt) {
  return watt.made.value_or(CrankShape{watt.pivot, watt.end, watt.far});
}

void MakeLink(WattsLink& watt, size_t link, double length) {
  CrankShape made = ShapeOf(watt);
  const Eigen::Vector3d& end = made.end[link];
  made.far[link] = end + length * (made.far[link] - end).normalized();
  watt.made = made;
}

bool HasKeptArms(const Axle& axle) {
  const auto any = [](const auto& members, auto member) {
    return std::any_of(members.begin(), members.end(),
                       [&](const auto& each) { return (each.*member).has_value(); });
  };
  return any(axle.links, &Link::length) || any(axle.a_arms, &AArm::leg_length) ||
         any(axle.radius_arms, &RadiusArm::made) || any(axle.watts_links, &WattsLink::made);
}

Axle WithArmsAsPoints(Axle axle) {
  for (Link& link : axle.links) link.length.reset();
  for (AArm& arm : axle.a_arms) arm.leg_length.reset();
  for (RadiusArm& arm : axle.radius_arms) arm.made.reset();
  for (WattsLink& watt : axle.watts_links) watt.made.reset();
  return axle;
}

std::vector<ArmFit> ArmsOf(const Axle& axle) {
  std::vector<ArmFit> arms;
  const auto add = [&](const std::string& name, const char* kind, const std::string& key,
                       const Span& holes, double length) {
    arms.push_back({.name = name,
                    .part = {"axles", axle.name, kind, key},
                    .holes = holes,
                    .length = length,
                    .thread = {}});
  };
  for (const Link& link : axle.links) {
    add(DisplayName(link.name), "links", link.name.key, link.span, LengthOf(link));
    arms.back().thread = link.thread;
  }
  for (const AArm& arm : axle.a_arms) {
    for (size_t i = 0; i < 2; ++i) {
      add(DisplayName(arm.name) + kFirstSecond[i] + " leg", "a_arms", arm.name.key,
          {arm.p_CP[i], arm.p_CQ}, LegLengths(arm)[i]);
    }
  }
  for (const RadiusArm& arm : axle.radius_arms) {
    const RadiusArmShape made = ShapeOf(arm);
    const auto middle = [](const std::array<Eigen::Vector3d, 2>& eyes) -> Eigen::Vector3d {
      return 0.5 * (eyes[0] + eyes[1]);
    };
    add(DisplayName(arm.name), "radius_arms", arm.name.key, {arm.p_CP, middle(arm.p_CQ)},
        (made.chassis_eye - middle(made.housing_eye)).norm());
  }
  for (const WattsLink& watt : axle.watts_links) {
    const CrankShape made = ShapeOf(watt);
    for (size_t i = 0; i < 2; ++i) {
      add(watt.name + kFirstSecond[i] + " link", "watts_links", watt.name,
          {watt.far[i], watt.end[i]}, (made.end[i] - made.far[i]).norm());
    }
  }
  return arms;
}

void KeepArms(const Axle& from,
              const std::function<bool(const std::string& kind, const std::string& key)>& keeps,
              Axle& axle) {
  for (Link& link : axle.links) {
    const Link* old = Find(from.links, link);
    if (old == nullptr || !keeps("links", link.name.key)) continue;
    if (std::abs(LengthOf(*old) - MeasuredLength(link.span)) > kRounding) {
      link.length = LengthOf(*old);
    }
  }
  for (AArm& arm : axle.a_arms) {
    const AArm* old = Find(from.a_arms, arm);
    if (old == nullptr || !keeps("a_arms", arm.name.key)) continue;
    if (LegLengths(*old) != LegLengths(arm)) arm.leg_length = LegLengths(*old);
  }
  for (RadiusArm& arm : axle.radius_arms) {
    const RadiusArm* old = Find(from.radius_arms, arm);
    if (old == nullptr || !keeps("radius_arms", arm.name.key)) continue;
    const RadiusArmShape made = ShapeOf(*old);
    if (made.chassis_eye != arm.p_CP || made.housing_eye != arm.p_CQ) arm.made = made;
  }
  for (WattsLink& watt : axle.watts_links) {
    const WattsLink* old = Find(from.watts_links, watt);
    if (old == nullptr || !keeps("watts_links", watt.name)) continue;
    const CrankShape made = ShapeOf(*old);
    if (made.pivot != watt.pivot || made.end != watt.end || made.far != watt.far) watt.made = made;
  }
}

}  // namespace linkwright
