// SPDX-License-Identifier: MIT
#include "solver/study/findings/file_findings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/model/masses.h"
#include "solver/pose/fit_links.h"
#include "solver/rest/weighed.h"

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

std::vector<FindingKind> KindsIn(const Vehicle& vehicle) {
  std::vector<FindingKind> kinds;
  for (const Finding& oddity : FindOddities(vehicle, CheckVehicle(vehicle)))
    kinds.push_back(oddity.kind);
  return kinds;
}

using Kinds = std::vector<FindingKind>;

TEST(FindOddities, AVanMeasuredWellHasNone) { EXPECT_EQ(KindsIn(sample::HarbourVan()), Kinds{}); }

TEST(FindOddities, ALostMinusAcrossLeavesAShortBar) {
  Vehicle van = sample::HarbourVan();
  Link& bar = van.axles[kFront].links.back();
  bar.span.p_CQ = bar.span.p_CP + Eigen::Vector3d(0.02, 0.03, -0.05);
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kShortLink});
}

TEST(FindOddities, ALostMinusAlongMakesAnArmAsLongAsTheTruck) {
  Vehicle van = sample::HarbourVan();
  double& x = van.axles[kRear].links[0].span.p_CP.x();
  x = -x;
  const Kinds kinds = KindsIn(van);
  ASSERT_FALSE(kinds.empty());
  EXPECT_EQ(kinds.front(), FindingKind::kLongLink);
}

TEST(FindOddities, SwappedEndsOfAnArmAreNoticed) {
  Vehicle van = sample::HarbourVan();
  std::swap(van.axles[kRear].links[0].span.p_CP, van.axles[kRear].links[0].span.p_CQ);
  const std::vector<Finding> oddities = FindOddities(van, CheckVehicle(van));
  ASSERT_EQ(oddities.size(), 1u);
  EXPECT_EQ(oddities[0].kind, FindingKind::kEndsSwapped);
  EXPECT_EQ(oddities[0].member, "lower arm left");
}

TEST(FindOddities, APointUnderTheFloorIsNoticed) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].links[1].span.p_CP.z() = van.floor_z - 0.038;
  const std::vector<Finding> oddities = FindOddities(van, CheckVehicle(van));
  ASSERT_EQ(oddities.size(), 1u);
  EXPECT_EQ(oddities[0].kind, FindingKind::kBelowFloor);
  EXPECT_NEAR(oddities[0].value, -0.038, 1e-15);
}

// Both sides of the quarter.
TEST(FindOddities, ATrackForHalfATrackIsNoticed) {
  for (const double factor : {1.24, 1.26}) {
    Vehicle van = sample::HarbourVan();
    van.axles[kFront].p_CW_l.y() *= factor;
    van.axles[kFront].p_CW_r.y() *= factor;
    EXPECT_EQ(KindsIn(van), factor > 1.25 ? Kinds{FindingKind::kTracksDiffer} : Kinds{}) << factor;
  }
}

TEST(FindOddities, ACoilLongerThanItsFreeLengthIsLoose) {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].springs[0].law.free_length =
      MeasuredLength(van.axles[kFront].springs[0].span) - 1e-3;
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kLooseCoil});
}

TEST(FindOddities, UnsprungHeavierThanTheScalesIsNoticed) {
  Vehicle van = sample::HarbourVan();
  van.axles[kFront].unsprung->mass = 885.0;  // 446 + 439 on the scales
  EXPECT_EQ(KindsIn(van), Kinds{FindingKind::kHeavyUnsprung});
}

std::vector<Finding> FindingsOf(const Vehicle& vehicle, FindingKind kind) {
  std::vector<Finding> found;
  for (const Finding& finding : FileFindings(vehicle, CheckVehicle(vehicle))) {
    if (finding.kind == kind) found.push_back(finding);
  }
  return found;
}

// Past an aim by less than an instrument shows nothing is told: each is probed on both sides of
// its aim and of that.
constexpr double kTape = 1e-3;  // [m]

// The hole on the frame moved along the arm, which is kept.
void MoveHole(Link& link, double away) {
  link.length = MeasuredLength(link.span);
  link.span.p_CP += away * (link.span.p_CP - link.span.p_CQ).normalized();
}

TEST(FileFindings, AnArmThatFitsItsHolesByMoreThanACentimetreNotAtAll) {
  EXPECT_TRUE(FindingsOf(sample::LevelTruck(), FindingKind::kArmMisfit).empty());
  for (const double away : {-0.0111, -0.0109, -0.0099, 0.0099, 0.0109, 0.0111}) {
    Vehicle truck = sample::LevelTruck();
    for (Link& link : truck.axles[kRear].links) MoveHole(link, 0.5 * away);
    MoveHole(truck.axles[kRear].links[2], 0.5 * away);
    truck.axles[kRear].links[2].length = MeasuredLength(truck.axles[kRear].links[2].span) - away;
    const std::vector<Finding> found = FindingsOf(truck, FindingKind::kArmMisfit);
    ASSERT_EQ(found.size(), std::abs(away) > 0.01 + kTape ? 1U : 0U) << away;
    if (found.empty()) continue;
    EXPECT_NEAR(found[0].value, -away, 1e-12);
    EXPECT_EQ(found[0].axle, static_cast<size_t>(kRear));
    EXPECT_EQ(found[0].member, "upper arm left");
    EXPECT_EQ(found[0].part, (std::vector<std::string>{"axles", "rear", "links", "upper arm"}));
    EXPECT_TRUE(found[0].more.empty()) << "four links do not pull on one another";
  }
}

// Five links: rate times what each is still too long by where they hold the housing.
TEST(FileFindings, AnArmThatDoesNotFitTellsWhatTheOthersTake) {
  Vehicle van = sample::HarbourVan();
  Axle& rear = van.axles[kRear];
  MoveHole(rear.links[0], 0.012);
  const std::vector<Finding> found = FindingsOf(van, FindingKind::kArmMisfit);
  ASSERT_EQ(found.size(), 1U);
  const AxleFrame frame = PrepareAxle(rear);
  const Eigen::Isometry3d X_CA = Transform(MeasuredPose(rear, frame).pose.value());
  double most = 0.0;
  for (const Link& link : rear.links) {
    const double apart = (X_CA * frame.X_CA.inverse() * link.span.p_CQ - link.span.p_CP).norm();
    most = std::max(most, link.rate * std::abs(apart - LengthOf(link)));
  }
  EXPECT_NEAR(found[0].more.at(0), most, 1e-5);  // [N] rounding of 1e-12 m at 5e6 N/m
  EXPECT_GT(most, 1000.0);
}

// Arms that fit a housing pitched about its own centre, by hand, hold it so.
Vehicle Pitched(double nose_up) {
  Vehicle truck = sample::LevelTruck();
  Axle& rear = truck.axles[kRear];
  const Eigen::Vector3d centre = 0.5 * (rear.p_CW_l + rear.p_CW_r);
  for (Link& link : rear.links) {
    const Eigen::Vector3d a = link.span.p_CQ - centre;
    const double c = std::cos(nose_up), s = std::sin(nose_up);
    const Eigen::Vector3d turned(c * a.x() - s * a.z(), a.y(), s * a.x() + c * a.z());
    link.length = (link.span.p_CP - centre - turned).norm();
  }
  rear.pinion = Pinion{.p_CY = centre + Eigen::Vector3d(0.3, 0.0, 0.05), .angle = 0.0};
  return truck;
}

TEST(FileFindings, ArmsThatPitchAHousingMoreThanThreeDegrees) {
  constexpr double kDegree = M_PI / 180.0;
  constexpr double kFinderDegrees = 0.1;
  for (const double degrees : {-3.11, -3.09, -2.9, 2.9, 3.09, 3.11}) {
    Vehicle truck = Pitched(degrees * kDegree);
    const std::vector<Finding> found = FindingsOf(truck, FindingKind::kArmsPitch);
    ASSERT_EQ(found.size(), std::abs(degrees) > 3.0 + kFinderDegrees ? 1U : 0U) << degrees;
    if (found.empty()) continue;
    EXPECT_NEAR(found[0].value, degrees * kDegree, 1e-9);
    EXPECT_EQ(found[0].detail, degrees > 0.0 ? "up" : "down");
    truck.axles[kRear].pinion->p_CY.x() -= 0.6;  // behind the axle
    EXPECT_EQ(FindingsOf(truck, FindingKind::kArmsPitch).at(0).detail,
              degrees > 0.0 ? "down" : "up");
  }
}

// By hand: coils at y = 0.45 upright over wheels at y = 0.75 share what their wheels carry so that
// their forces differ by the scales' difference times 0.75 / 0.45.
Vehicle WeighedTruck(double left_more) {
  sample::FlatTruck flat{};
  flat.unsprung = 100.0;
  Vehicle truck = sample::MakeFlatTruck(flat);
  truck.sprung.reset();
  Ledger ledger{};
  ledger.weighed = {300.0 + 0.5 * left_more, 300.0 - 0.5 * left_more, 300.0, 300.0};
  ledger.cg_height = 0.6;
  truck.ledger = ledger;
  for (Axle& axle : truck.axles) {
    for (Spring& spring : axle.springs) spring.weighed = true;
  }
  return truck;
}

TEST(FileFindings, WeighedCoilsOfAPairThatDifferByMoreThanSixMillimetres) {
  for (const double differ : {-0.0071, -0.0069, -0.0059, 0.0059, 0.0069, 0.0071}) {
    const double more = differ * 25e3 * 0.45 / 0.75 / kStandardGravity;  // [kg]
    Vehicle truck = WeighedTruck(more);
    ResolveWeighedLengths(truck);
    const std::vector<Finding> found = FindingsOf(truck, FindingKind::kCoilsDiffer);
    ASSERT_EQ(found.size(), std::abs(differ) > 0.006 + kTape ? 1U : 0U) << differ;
    if (found.empty()) continue;
    EXPECT_NEAR(found[0].value, differ, 1e-9);
    EXPECT_EQ(found[0].axle, static_cast<size_t>(kFront));
    EXPECT_EQ(found[0].member, differ > 0.0 ? "coil left" : "coil right");
    EXPECT_EQ(found[0].detail, differ > 0.0 ? "coil right" : "coil left");
    EXPECT_EQ(found[0].part, (std::vector<std::string>{"axles", "front", "springs", "coil"}));
    // Given, not weighed: what a maker's list says.
    for (Spring& spring : truck.axles[kFront].springs) spring.weighed = false;
    EXPECT_TRUE(FindingsOf(truck, FindingKind::kCoilsDiffer).empty());
  }
  Vehicle by_axle = WeighedTruck(50.0);
  by_axle.ledger->by_axle = true;
  ResolveWeighedLengths(by_axle);
  EXPECT_TRUE(FindingsOf(by_axle, FindingKind::kCoilsDiffer).empty());
}

// 440 kg on a front wheel of 230 N/mm whose hub is 359 mm up: 377.76 mm by hand.
TEST(FileFindings, ATyresRadiusThatTheScalesDoNotBearOut) {
  constexpr double kByScale = 0.359 + 440.0 * 9.80665 / 230e3;
  for (const double off : {-0.0041, -0.0039, -0.0029, 0.0029, 0.0039, 0.0041}) {
    Vehicle van = sample::HarbourVan();
    van.ledger->weighed[0] = van.ledger->weighed[1] = 440.0;
    Tire& tire = van.axles[kFront].tire;
    tire.radius = kByScale + off;
    const std::vector<Finding> found = FindingsOf(van, FindingKind::kTireRadius);
    ASSERT_EQ(found.size(), std::abs(off) > 0.003 + kTape ? 1U : 0U) << off;
    if (found.empty()) continue;
    EXPECT_NEAR(found[0].value, off, 1e-12);
    EXPECT_EQ(found[0].member, "tyre left");
    EXPECT_EQ(found[0].part, (std::vector<std::string>{"axles", "front", "tire", "radius"}));
    EXPECT_NEAR(found[0].more.at(1), kByScale, 1e-12);
    // Each wheel by itself: 23 kg more are 1 mm.
    van.ledger->weighed[1] += off > 0.0 ? -23.0 : 23.0;
    EXPECT_EQ(FindingsOf(van, FindingKind::kTireRadius).at(0).member, "tyre right");
    Vehicle other = van;
    other.axles[kFront].tire.changed = true;  // what was measured was another tyre
    EXPECT_TRUE(FindingsOf(other, FindingKind::kTireRadius).empty());
    tire.radius.reset();
    ResolveTires(van);  // nothing given: the scales tell it
    EXPECT_TRUE(FindingsOf(van, FindingKind::kTireRadius).empty());
  }
}

// One cause, one finding: where the scales tell of the radius, hub height and squash are not told
// again; of a vehicle that was not weighed the hub's height is.
TEST(FileFindings, AWheelMeasuredOffTheFloorIsToldOnce) {
  Vehicle van = sample::HarbourVan();
  Axle& front = van.axles[kFront];
  front.p_CW_l.z() += 0.0199, front.p_CW_r.z() += 0.0199;  // above its free radius
  EXPECT_EQ(FindingsOf(van, FindingKind::kTireRadius).size(), 1U);
  EXPECT_TRUE(FindingsOf(van, FindingKind::kHubHeight).empty());
  EXPECT_TRUE(FindingsOf(van, FindingKind::kNominalTire).empty());
  Vehicle truck = sample::LevelTruck();
  const double radius = *truck.axles[kFront].tire.radius;
  truck.axles[kFront].tire.radius = radius - 0.0129;
  EXPECT_TRUE(FindingsOf(truck, FindingKind::kHubHeight).empty());
  truck.axles[kFront].tire.radius = radius - 0.0131;
  EXPECT_EQ(FindingsOf(truck, FindingKind::kHubHeight).size(), 1U);
  EXPECT_TRUE(FindingsOf(truck, FindingKind::kTireRadius).empty());
}

}  // namespace
}  // namespace linkwright
