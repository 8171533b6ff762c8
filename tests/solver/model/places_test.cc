// SPDX-License-Identifier: MIT
#include "solver/model/places.h"

#include <gtest/gtest.h>

#include <set>
#include <string>
#include <vector>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

const Eigen::Vector3d kBy(0.3, -0.2, 0.1);

// A front axle with one member at least of every kind.
Axle WithEverything() {
  Axle axle = sample::HarbourVan().axles[kFront];
  const Span span = axle.dampers[0].span;
  axle.straps.push_back({.name = {"strap"}, .span = span, .length = {}});
  axle.gaps.push_back({"hose", span, {}});
  AArm arm{};
  arm.p_CP = {span.p_CP, span.p_CP + kBy}, arm.p_CQ = span.p_CQ;
  axle.a_arms.push_back(arm);
  RadiusArm radius{};
  radius.p_CP = span.p_CP, radius.p_CQ = {span.p_CQ, span.p_CQ + kBy};
  axle.radius_arms.push_back(radius);
  for (const bool on_housing : {true, false}) {
    WattsLink watts{};
    watts.on_housing = on_housing;
    watts.pivot = span.p_CP, watts.axis = Eigen::Vector3d::UnitX();
    watts.end = {span.p_CP, span.p_CQ}, watts.far = {span.p_CQ, span.p_CP};
    axle.watts_links.push_back(watts);
  }
  axle.pinion = Pinion{.p_CY = span.p_CQ, .angle = 0.0};
  axle.steering->tie_rod = TieRod{span.p_CP, span.p_CQ};
  return axle;
}

// How far a place has moved: with the chassis, with the housing, or not.
enum class With { kChassis, kHousing };

void Expect(const Eigen::Vector3d& before, const Eigen::Vector3d& after, With with, With moved) {
  EXPECT_EQ(Eigen::Vector3d(after - before).norm() > 0.0, with == moved);
}

TEST(VisitPlaces, MovesEveryMembersOwnEnd) {
  for (const With moved : {With::kChassis, With::kHousing}) {
    const Axle before = WithEverything();
    Axle after = before;
    const auto move = [&](With with) -> VisitPlace {
      return [with, moved](Eigen::Vector3d& place) {
        if (with == moved) place += kBy;
      };
    };
    VisitPlaces(after, move(With::kChassis), move(With::kHousing));
    const auto spans = [&](const auto& a, const auto& b) {
      for (size_t i = 0; i < a.size(); ++i) {
        Expect(a[i].span.p_CP, b[i].span.p_CP, With::kChassis, moved);
        Expect(a[i].span.p_CQ, b[i].span.p_CQ, With::kHousing, moved);
      }
      EXPECT_FALSE(a.empty());
    };
    spans(before.links, after.links), spans(before.springs, after.springs);
    spans(before.bump_stops, after.bump_stops), spans(before.dampers, after.dampers);
    spans(before.straps, after.straps), spans(before.gaps, after.gaps);
    const auto expect = [&](const Eigen::Vector3d& a, const Eigen::Vector3d& b, With with) {
      Expect(a, b, with, moved);
    };
    for (size_t i = 0; i < 2; ++i) {
      expect(before.a_arms[0].p_CP[i], after.a_arms[0].p_CP[i], With::kChassis);
      expect(before.radius_arms[0].p_CQ[i], after.radius_arms[0].p_CQ[i], With::kHousing);
      for (size_t w = 0; w < 2; ++w) {
        const bool on_housing = before.watts_links[w].on_housing;
        const With own = on_housing ? With::kHousing : With::kChassis;
        const With other = on_housing ? With::kChassis : With::kHousing;
        expect(before.watts_links[w].end[i], after.watts_links[w].end[i], own);
        expect(before.watts_links[w].far[i], after.watts_links[w].far[i], other);
        expect(before.watts_links[w].pivot, after.watts_links[w].pivot, own);
      }
    }
    expect(before.a_arms[0].p_CQ, after.a_arms[0].p_CQ, With::kHousing);
    expect(before.radius_arms[0].p_CP, after.radius_arms[0].p_CP, With::kChassis);
    expect(before.p_CW_l, after.p_CW_l, With::kHousing);
    expect(before.p_CW_r, after.p_CW_r, With::kHousing);
    expect(before.unsprung->p_CM, after.unsprung->p_CM, With::kHousing);
    expect(before.pinion->p_CY, after.pinion->p_CY, With::kHousing);
    expect(*before.kingpin->p_CK, *after.kingpin->p_CK, With::kHousing);
    expect(before.steering->drag_link.p_CP, after.steering->drag_link.p_CP, With::kChassis);
    expect(before.steering->drag_link.p_CQ, after.steering->drag_link.p_CQ, With::kHousing);
    expect(before.steering->tie_rod->p_CL, after.steering->tie_rod->p_CL, With::kHousing);
    expect(before.steering->tie_rod->p_CR, after.steering->tie_rod->p_CR, With::kHousing);
  }
}

// What lists places by their names loses none: each has a name of its own, and both visits see the
// same places on the same bodies.
TEST(VisitPlaces, GivesEveryPlaceANameOfItsOwn) {
  Axle axle = WithEverything();
  axle.a_arms[0].name = {"upper arm"}, axle.radius_arms[0].name = {"radius arm", Side::kLeft};
  axle.watts_links[0].name = "on the axle", axle.watts_links[1].name = "on the frame";
  std::vector<const Eigen::Vector3d*> chassis, housing, named_chassis, named_housing;
  std::set<std::string> names;
  VisitPlaces(axle, [&](const std::string& name, Body body, Eigen::Vector3d& place) {
    EXPECT_TRUE(names.insert(name).second) << name;
    (body == Body::kChassis ? named_chassis : named_housing).push_back(&place);
  });
  VisitPlaces(
      axle, [&](Eigen::Vector3d& place) { chassis.push_back(&place); },
      [&](Eigen::Vector3d& place) { housing.push_back(&place); });
  EXPECT_EQ(named_chassis, chassis);
  EXPECT_EQ(named_housing, housing);
  for (const char* name : {"upper arm, second eye", "radius arm left, first eye", "hose, axle end",
                           "on the frame, pivot", "on the axle, second far end",
                           "tie rod, right end", "kingpin, point of its axis"}) {
    EXPECT_TRUE(names.contains(name)) << name;
  }
}

}  // namespace
}  // namespace linkwright
