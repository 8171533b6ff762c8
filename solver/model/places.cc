// SPDX-License-Identifier: MIT
#include "solver/model/places.h"

#include <array>

namespace linkwright {
namespace {

constexpr std::array kWhichOfTwo{", first", ", second"};

std::string NameOf(const Gap& gap) { return gap.name; }

template <typename Member>
std::string NameOf(const Member& member) {
  return DisplayName(member.name);
}

}  // namespace

void VisitPlaces(Axle& axle, const VisitNamedPlace& visit) {
  const auto on_chassis = [&](const std::string& name, Eigen::Vector3d& place) {
    visit(name, Body::kChassis, place);
  };
  const auto on_housing = [&](const std::string& name, Eigen::Vector3d& place) {
    visit(name, Body::kHousing, place);
  };
  const auto span = [&](const std::string& name, Span& ends) {
    on_chassis(name + ", frame end", ends.p_CP), on_housing(name + ", axle end", ends.p_CQ);
  };
  const auto spans = [&](auto& members) {
    for (auto& member : members) span(NameOf(member), member.span);
  };
  on_housing("left wheel centre", axle.p_CW_l), on_housing("right wheel centre", axle.p_CW_r);
  if (axle.unsprung) on_housing("unsprung mass, centre", axle.unsprung->p_CM);
  spans(axle.links), spans(axle.springs), spans(axle.bump_stops), spans(axle.dampers);
  spans(axle.straps), spans(axle.gaps);
  for (AArm& arm : axle.a_arms) {
    const std::string name = NameOf(arm);
    for (size_t i = 0; i < 2; ++i) on_chassis(name + kWhichOfTwo[i] + " eye", arm.p_CP[i]);
    on_housing(name + ", axle end", arm.p_CQ);
  }
  for (RadiusArm& arm : axle.radius_arms) {
    const std::string name = NameOf(arm);
    on_chassis(name + ", frame end", arm.p_CP);
    for (size_t i = 0; i < 2; ++i) on_housing(name + kWhichOfTwo[i] + " eye", arm.p_CQ[i]);
  }
  for (WattsLink& watt : axle.watts_links) {
    // The crank is on the body of its pivot, the far ends on the other.
    const Body own = watt.on_housing ? Body::kHousing : Body::kChassis;
    const Body other = watt.on_housing ? Body::kChassis : Body::kHousing;
    visit(watt.name + ", pivot", own, watt.pivot);
    for (size_t i = 0; i < 2; ++i) {
      visit(watt.name + kWhichOfTwo[i] + " crank end", own, watt.end[i]);
      visit(watt.name + kWhichOfTwo[i] + " far end", other, watt.far[i]);
    }
  }
  if (axle.pinion) on_housing("pinion yoke", axle.pinion->p_CY);
  if (axle.kingpin && axle.kingpin->p_CK) {
    on_housing("kingpin, point of its axis", *axle.kingpin->p_CK);
  }
  if (!axle.steering) return;
  span("drag link", axle.steering->drag_link);
  if (TieRod* rod = axle.steering->tie_rod ? &*axle.steering->tie_rod : nullptr) {
    on_housing("tie rod, left end", rod->p_CL), on_housing("tie rod, right end", rod->p_CR);
  }
}

void VisitPlaces(Axle& axle, const VisitPlace& on_chassis, const VisitPlace& on_housing) {
  VisitPlaces(axle, [&](const std::string&, Body body, Eigen::Vector3d& place) {
    (body == Body::kChassis ? on_chassis : on_housing)(place);
  });
}

}  // namespace linkwright
