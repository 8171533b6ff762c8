// SPDX-License-Identifier: MIT
// Each finding by a vehicle that gives cause for it and one that just does not.
#include "solver/study/findings/vehicle_findings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "solver/pose/solve.h"
#include "solver/rest/settle.h"
#include "solver/rest/stance_report.h"
#include "solver/study/curves/sweep.h"
#include "solver/study/openings/openings.h"
#include "solver/study/travel/limits.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

VehicleFindings All(const Vehicle& vehicle) {
  return FindAll(PrepareRig(vehicle), CheckVehicle(vehicle));
}

std::vector<Finding> Of(const Vehicle& vehicle, FindingKind kind,
                        std::optional<size_t> axle = kRear) {
  std::vector<Finding> found;
  for (const Finding& finding : All(vehicle).findings) {
    if (finding.kind == kind && finding.axle == axle) found.push_back(finding);
  }
  return found;
}

bool IsTold(const Vehicle& vehicle, FindingKind kind, TireMotion motion, bool up) {
  const std::vector<Finding> found = Of(vehicle, kind);
  return std::any_of(found.begin(), found.end(), [&](const Finding& finding) {
    return finding.place && finding.place->motion == motion &&
           (finding.place->parameter > 0.0) == up;
  });
}

// The coil's length at an end of travel, from the pose of rods alone.
double CoilAt(const Vehicle& vehicle, size_t axle, double travel) {
  const Rig rig = PrepareRig(vehicle);
  const Stance stance = Settle(rig, vehicle.loads[0]);
  const HousingMotion level = LevelMotion(rig, stance)[axle];
  const AxleFrame& frame = rig.axles[axle].frame;
  const Pose pose = MovePose(frame, level, level.pose.z + travel, frame.measured.roll).pose;
  const Span& span = vehicle.axles[axle].springs[0].span;
  return (Transform(pose) * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

TEST(VehicleFindings, ACoilNearlyOffItsSeatAtFullDroop) {
  Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {});
  ASSERT_TRUE(sweep.droop[kRear]);
  const double left =
      van.axles[kRear].springs[0].law.free_length - CoilAt(van, kRear, *sweep.droop[kRear]->at);
  van.aims.coil_preload = left + kTapeShows + 1e-5;
  const std::vector<Finding> found = Of(van, FindingKind::kCoilUnseats);
  ASSERT_FALSE(found.empty());
  constexpr double kEndTol =
      1e-8;  // [m] the end is found to 1e-10, and 1e-9 short of it is looked at
  EXPECT_NEAR(found[0].value, left, kEndTol);
  van.aims.coil_preload = left + kTapeShows - 1e-5;  // short by less than a tape shows
  EXPECT_TRUE(Of(van, FindingKind::kCoilUnseats).empty());
}

TEST(VehicleFindings, ACoilNearlySolidAtFullBump) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) axle.opening.reset();  // a stop ends its bump
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {});
  ASSERT_TRUE(sweep.bump[kRear]);
  const double length = CoilAt(van, kRear, *sweep.bump[kRear]->at);
  for (Spring& spring : van.axles[kRear].springs) spring.solid_length = length - 0.005;
  const std::vector<Finding> found = Of(van, FindingKind::kCoilNearSolid);
  ASSERT_FALSE(found.empty());
  EXPECT_NEAR(found[0].value, 0.005, 1e-8);  // [m] as above
  for (Spring& spring : van.axles[kRear].springs) spring.solid_length = length - 0.008;
  EXPECT_TRUE(Of(van, FindingKind::kCoilNearSolid).empty());
}

// A coil whose curve ends where another's solid length is: told alike.
TEST(VehicleFindings, ACoilByItsCurveIsJudgedByItsLastPoint) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) axle.opening.reset();  // a stop ends its bump
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {});
  ASSERT_TRUE(sweep.bump[kRear]);
  const double length = CoilAt(van, kRear, *sweep.bump[kRear]->at);
  for (const double left : {0.005, 0.008}) {
    for (Spring& spring : van.axles[kRear].springs) {
      const double last = spring.law.free_length - length + left;
      spring.solid_length.reset();
      spring.law.curve = {{0.0, 0.0}, {last, last * spring.law.rate}};
    }
    const std::vector<Finding> found = Of(van, FindingKind::kCoilNearSolid);
    if (left > van.aims.coil_gap) {
      EXPECT_TRUE(found.empty());
    } else {
      ASSERT_EQ(found.size(), 1U);              // both coils of a pair are one
      EXPECT_NEAR(found[0].value, left, 1e-8);  // [m] as above
    }
  }
}

TEST(VehicleFindings, ADamperThatIsTheStop) {
  Vehicle van = sample::HarbourVan();
  EXPECT_TRUE(IsTold(van, FindingKind::kDamperIsStop, TireMotion::kBounce, false));
  for (Damper& damper : van.axles[kRear].dampers) damper.longest.reset();
  EXPECT_TRUE(Of(van, FindingKind::kDamperIsStop).empty());
  for (Damper& damper : van.axles[kRear].dampers) {
    damper.shortest = MeasuredLength(damper.span) - 0.02;
  }
  EXPECT_TRUE(IsTold(van, FindingKind::kDamperIsStop, TireMotion::kBounce, true));
  EXPECT_EQ(Of(van, FindingKind::kShortBump).size(), 1U);  // 20 mm of damper are less than 2 in
}

// Only where it would touch, and where it first does.
TEST(VehicleFindings, AConeThatMissesItsPad) {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    for (Stop& stop : axle.bump_stops) stop.pad_radius = 0.1;
  }
  EXPECT_TRUE(Of(van, FindingKind::kConeMissesPad).empty());
  for (Stop& stop : van.axles[kRear].bump_stops) stop.pad_radius = 0.001;
  const std::vector<Finding> found = Of(van, FindingKind::kConeMissesPad);
  ASSERT_EQ(found.size(), 1U) << "left and right are one";
  ASSERT_TRUE(found[0].place);
  EXPECT_EQ(found[0].place->motion, TireMotion::kBounce);
  // Not before it would touch: 35 mm of gap as measured and what the truck stands lower than that.
  EXPECT_GT(found[0].value, 0.010);
  EXPECT_LT(found[0].value, 0.035);
  for (Stop& stop : van.axles[kRear].bump_stops) stop.pad_radius.reset();
  EXPECT_TRUE(Of(van, FindingKind::kConeMissesPad).empty());
}

TEST(VehicleFindings, NoStopAndAStopTakenAsRigid) {
  Vehicle van = sample::HarbourVan();
  EXPECT_TRUE(Of(van, FindingKind::kStopTakenRigid).empty());
  Stop& stop = van.axles[kRear].bump_stops[0];
  stop.law.curve = {{0.0, 0.0}, {0.24 * stop.law.free_length, 5000.0}};
  EXPECT_EQ(Of(van, FindingKind::kStopTakenRigid).size(), 1U);
  stop.law.curve.back().deflection = 0.26 * stop.law.free_length;
  EXPECT_TRUE(Of(van, FindingKind::kStopTakenRigid).empty());
  EXPECT_TRUE(Of(van, FindingKind::kNoStop).empty());
  van.axles[kRear].bump_stops.clear();
  EXPECT_EQ(Of(van, FindingKind::kNoStop).size(), 1U);
}

TEST(VehicleFindings, ATyresNominalSizeForItsLoadedRadius) {
  Vehicle van = sample::HarbourVan();
  Axle& rear = van.axles[kRear];
  const double hub = rear.p_CW_l.z() - van.floor_z;
  rear.tire.rate.reset();  // with one, the scales tell more of it: kTireRadius
  rear.tire.radius = hub / 0.995;
  const std::vector<Finding> found = Of(van, FindingKind::kNominalTire);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].value, 0.005, 1e-12);
  rear.tire.radius = hub / 0.98;
  EXPECT_TRUE(Of(van, FindingKind::kNominalTire).empty());
}

TEST(VehicleFindings, AnAxleAboveItsRatingUnderTheWorstLoad) {
  Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  double most = 0.0;
  std::string worst;
  for (const Load& load : van.loads) {
    const Stance stance = Settle(rig, load);
    const double mass = (stance.wheel_load[2] + stance.wheel_load[3]) / 9.80665;
    if (mass > most) most = mass, worst = load.name;
  }
  van.axles[kRear].rating = most - 1.0;
  const std::vector<Finding> found = Of(van, FindingKind::kOverRating);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].load, worst);
  EXPECT_NEAR(found[0].value, most, 1e-9);
  van.axles[kRear].rating = most + 1.0;
  EXPECT_TRUE(Of(van, FindingKind::kOverRating).empty());
}

TEST(VehicleFindings, AGapThatTheTravelCloses) {
  Vehicle van = sample::HarbourVan();
  const Eigen::Vector3d tube = 0.5 * (van.axles[kFront].p_CW_l + van.axles[kFront].p_CW_r);
  van.axles[kFront].gaps = {{"oil pan", {tube + Eigen::Vector3d(0, 0, 0.2), tube}, 0.25}};
  const std::vector<Finding> found = Of(van, FindingKind::kGapCloses, kFront);
  ASSERT_EQ(found.size(), 1U);
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {});
  const double rest = LevelMotion(rig, stance)[kFront].pose.z - tube.z();
  // Straight up but for what the links and the bar draw it aside, some millimetres of 0.1 m.
  const double expected = std::abs(0.2 - rest - *sweep.bump[kFront]->at);
  EXPECT_NEAR(found[0].value, expected, 0.02);
  van.axles[kFront].gaps[0].least = 0.001;
  EXPECT_TRUE(Of(van, FindingKind::kGapCloses, kFront).empty());
}

TEST(VehicleFindings, ATriangleThatIsTooNarrow) {
  Vehicle truck = sample::LevelTruck();
  const Axle& rear = truck.axles[kRear];
  double widest = 0.0;
  for (size_t i = 0; i + 1 < rear.links.size(); i += 2) {
    const Eigen::Vector3d d = rear.links[i].span.p_CQ - rear.links[i].span.p_CP;
    widest = std::max(widest, 2.0 * std::atan2(std::abs(d.y()), std::abs(d.x())));
  }
  truck.aims.triangulation = widest + 0.01;
  const std::vector<Finding> found = Of(truck, FindingKind::kNarrowTriangle);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].value, widest, 1e-12);
  truck.aims.triangulation = widest - 0.01;
  EXPECT_TRUE(Of(truck, FindingKind::kNarrowTriangle).empty());
  Vehicle van = sample::HarbourVan();  // a track bar holds it: no triangle is wanted
  van.aims.triangulation = 3.0;
  EXPECT_TRUE(Of(van, FindingKind::kNarrowTriangle).empty());
}

TEST(VehicleFindings, ThresholdsOfRestAndTravelAreThoseOfTheFile) {
  Vehicle van = sample::HarbourVan();
  Aims& aims = van.aims;
  aims.pitch = aims.roll_steer = aims.link_slope = aims.frequency = 1e3;
  aims.side_to_side = aims.height_change = 1e3;
  for (const FindingKind kind :
       {FindingKind::kPitches, FindingKind::kRollSteers, FindingKind::kLinkSlopes,
        FindingKind::kRidesStiff, FindingKind::kSitsAskew, FindingKind::kMockUpHeight}) {
    EXPECT_TRUE(Of(van, kind, kFront).empty());
    EXPECT_TRUE(Of(van, kind, kRear).empty());
  }
  aims.pitch = aims.roll_steer = aims.link_slope = aims.frequency = 0.0;
  aims.side_to_side = aims.height_change = 0.0;
  for (const FindingKind kind :
       {FindingKind::kPitches, FindingKind::kRollSteers, FindingKind::kLinkSlopes,
        FindingKind::kRidesStiff, FindingKind::kSitsAskew, FindingKind::kMockUpHeight}) {
    EXPECT_FALSE(Of(van, kind, kFront).empty() && Of(van, kind, kRear).empty());
  }
}

// It is enough to rest as measured under one load; where it does under none, the nearest is named.
TEST(VehicleFindings, RestingOffTheOpeningIsToldOnlyWhereItIsSoUnderEveryLoad) {
  Vehicle van = sample::HarbourVan();
  Load heavy = van.loads[0];
  heavy.name = "heavy";
  heavy.items.push_back(
      {.item = "stone", .mass = 120.0, .p_CM = Eigen::Vector3d(-1.3, 0.0, 0.9), .fixed_to = {}});
  van.loads = {van.loads[0], heavy};
  std::array<double, 2> moved{};
  const Rig rig = PrepareRig(van);
  for (size_t i = 0; i < 2; ++i) {
    const AxleReport at = ReportStance(rig, Settle(rig, van.loads[i])).axles[kRear];
    const Axle& axle = van.axles[kRear];
    const Eigen::Vector3d hub = 0.5 * (axle.p_CW_l + axle.p_CW_r);
    ASSERT_TRUE(at.opening_ahead);
    moved[i] = std::hypot(*at.opening_ahead - (hub.x() - axle.opening->x),
                          *at.opening_up - (hub.z() - axle.opening->z));
  }
  ASSERT_GT(std::abs(moved[0] - moved[1]), 1e-4);
  const size_t near = moved[0] < moved[1] ? 0 : 1;
  van.aims.height_change = 0.5 * (moved[0] + moved[1]);  // one within, one not
  EXPECT_TRUE(Of(van, FindingKind::kMockUpHeight).empty());
  van.aims.height_change = 0.5 * moved[near];  // neither
  const std::vector<Finding> found = Of(van, FindingKind::kMockUpHeight);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].load, van.loads[near].name);
  EXPECT_EQ(found[0].value, moved[near]);
}

TEST(VehicleFindings, LinksThatFightAreReportedAtTheCrossedExtreme) {
  Vehicle van = sample::HarbourVan();
  const VehicleFindings report = All(van);
  ASSERT_EQ(report.fights.size(), 2U);
  EXPECT_GT(report.fights[0].force, 0.0);
  EXPECT_GT(report.fights[0].twist, 0.0);
  van.aims.link_force = report.fights[0].force - 1.0;
  EXPECT_EQ(Of(van, FindingKind::kLinksFight, kFront).size(), 1U);
  van.aims.link_force = report.fights[0].force + 1.0;
  EXPECT_TRUE(Of(van, FindingKind::kLinksFight, kFront).empty());
  EXPECT_TRUE(All(sample::LevelTruck()).fights.empty());
}

// Two parallel links whose side-view lines meet ahead in droop and behind in bump.
TEST(VehicleFindings, AnInstantCentreThatTurnsInsideOut) {
  Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = -0.1, .to = 0.1, .step = 0.01});
  bool turned = false;  // the housing's turn per travel changes sign: its pitch has an extreme
  for (size_t r = 2; r < sweep.rows.size(); ++r) {
    const auto pitch = [&](size_t i) { return sweep.rows[i].axles[kRear]->housing_pitch; };
    turned = turned || (pitch(r) - pitch(r - 1)) * (pitch(r - 1) - pitch(r - 2)) < 0.0;
  }
  EXPECT_EQ(!Of(truck, FindingKind::kCenterInsideOut).empty(), turned);
}

double MisalignmentLeft(const Vehicle& vehicle, const std::string& member, LimitMotion motion) {
  const Rig rig = PrepareRig(vehicle);
  const Stance stance = Settle(rig, vehicle.loads[0]);
  const LimitsReport limits = FindLimits({rig, &stance});
  const AxleLimit& limit = limits.bounce[kRear][motion == LimitMotion::kBump ? 0 : 1];
  for (const LimitHit& hit : limit.hits) {
    if (hit.limit.id.kind == LimitKind::kJointAtLimit && hit.limit.name == member) return *hit.left;
  }
  ADD_FAILURE() << member;
  return 0.0;
}

TEST(VehicleFindings, AJointNearItsMisalignmentLimit) {
  Vehicle van = sample::HarbourVan();
  Link& bar = van.axles[kRear].links.back();  // its track bar: crossed it turns most
  constexpr double kWide = 1.0;               // [rad]
  bar.misalignment_limit = kWide;
  EXPECT_TRUE(Of(van, FindingKind::kJointNearLimit).empty());
  const double droop = MisalignmentLeft(van, "track bar, axle end", LimitMotion::kDroop);
  const double used = kWide - droop;
  ASSERT_GT(used, 0.01);
  bar.misalignment_limit = 0.5 * used;  // runs out about half way down
  EXPECT_FALSE(Of(van, FindingKind::kEndsBeforeStop).empty());
  bar.misalignment_limit = kWide;
  van.aims.joint_reserve = droop + kFinderShows + 1e-6;
  const std::vector<Finding> found = Of(van, FindingKind::kJointNearLimit);
  ASSERT_FALSE(found.empty());
  for (const Finding& finding : found) EXPECT_LT(finding.value, van.aims.joint_reserve);
}

TEST(VehicleFindings, ATyreNearerToItsOpeningThanTheAim) {
  Vehicle van = sample::HarbourVan();
  van.axles[kRear].opening =
      Opening{.x = van.axles[kRear].p_CW_l.x(), .z = van.axles[kRear].p_CW_l.z(), .radius = 0.5};
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  double least = 1.0;
  for (const TireClearance& clearance : SweepOpenings({rig, &stance}, std::nullopt).clearances) {
    const NearestTire* nearest = LeastOf(clearance);
    if (clearance.axle == kRear && nearest) least = std::min(least, nearest->gap.distance);
  }
  van.aims.tire_clearance = least + kTapeShows + 1e-4;
  const std::vector<Finding> found = Of(van, FindingKind::kTireNear);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].value, least, 1e-9);
  EXPECT_TRUE(found[0].place);
  van.aims.tire_clearance = least + kTapeShows - 1e-4;
  EXPECT_TRUE(Of(van, FindingKind::kTireNear).empty());
}

// Beside the wheel and level with it a point of the frame comes nearest as the axle rolls.
TEST(VehicleFindings, AGapIsToldWithItsNearestPlace) {
  Vehicle van = sample::HarbourVan();
  const Eigen::Vector3d tube = van.axles[kFront].p_CW_l - Eigen::Vector3d(0, 0.1, 0);
  van.axles[kFront].gaps = {{"brake hose", {tube + Eigen::Vector3d(0, 0, 0.5), tube}, 0.001}};
  const Rig rig = PrepareRig(van);
  const VehicleFindings report = All(van);
  ASSERT_EQ(report.gaps.size(), 1U);
  const GapAtLeast& gap = report.gaps[0];
  EXPECT_LT(gap.least, gap.rest);
  const Stance stance = Settle(rig, van.loads[0]);
  const AxleFrame& frame = rig.axles[kFront].frame;
  const HousingMotion level = LevelMotion(rig, stance)[kFront];
  const double z = level.pose.z + (gap.rolled ? 0.0 : gap.at);
  const double roll = frame.measured.roll + (gap.rolled ? gap.at : 0.0);
  const Eigen::Isometry3d X_CA = Transform(MovePose(frame, level, z, roll).pose);
  const double there = (X_CA * OnHousing(frame, tube) - tube - Eigen::Vector3d(0, 0, 0.5)).norm();
  EXPECT_NEAR(gap.least, there, 1e-9);
  EXPECT_GT(gap.at, 0.0);  // up
}

// A bolt head 5 mm beside the way of a point on the tube, level with it 13 mm up: between places
// 2 mm apart.
TEST(VehicleFindings, AGapIsLeastBetweenThePlacesLookedAt) {
  Vehicle van = sample::HarbourVan();
  const Eigen::Vector3d tube = van.axles[kFront].p_CW_l - Eigen::Vector3d(0, 0.1, 0);
  const Rig measured = PrepareRig(van);
  const AxleFrame& frame = measured.axles[kFront].frame;
  const HousingMotion level = LevelMotion(measured, Settle(measured, van.loads[0]))[kFront];
  const auto place = [&](double travel, double roll) -> Eigen::Vector3d {
    const double z = level.pose.z + travel, turned = frame.measured.roll + roll;
    return Transform(MovePose(frame, level, z, turned).pose) * OnHousing(frame, tube);
  };
  const Eigen::Vector3d bolt = place(0.013, 0.0) + Eigen::Vector3d(0.003, 0.004, 0);
  double least = 1.0;
  for (int i = 0; i <= 4000; ++i) {  // every 0.01 mm, and every 0.2 mm of the wheel in roll
    least = std::min(least, (place(1e-5 * i, 0.0) - bolt).norm());
    least = std::min(least, (place(0.0, 1e-4 * (i % 1000)) - bolt).norm());
  }
  van.axles[kFront].gaps = {{"bolt", {bolt, tube}, 0.010}};
  const std::vector<Finding> found = Of(van, FindingKind::kGapCloses, kFront);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_LE(found[0].value, least);
  EXPECT_NEAR(found[0].value, least, 1e-5);
}

// Level links in the plane of a cross link: the roll axis is as high as that link.
TEST(VehicleFindings, ABodyBelowTheRollAxisLeansInward) {
  sample::FlatTruck is;
  is.height = 0.41, is.bar_height = 0.60;
  const std::vector<Finding> found =
      Of(sample::MakeFlatTruck(is), FindingKind::kLeansInward, std::nullopt);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].value, 0.41 - 0.60, 1e-9);
  is.height = 0.61;
  EXPECT_TRUE(Of(sample::MakeFlatTruck(is), FindingKind::kLeansInward, std::nullopt).empty());
}

TEST(VehicleFindings, OneLoadAloneIsLookedAt) {
  Vehicle van = sample::HarbourVan();
  ASSERT_GE(van.loads.size(), 2U);
  van.aims.frequency = 0.1;
  const Rig rig = PrepareRig(van);
  for (const Load& load : van.loads) {
    for (const Finding& finding : FindAll(rig, CheckVehicle(van), &load).findings) {
      EXPECT_TRUE(finding.load.empty() || finding.load == load.name) << finding.load;
    }
  }
}

}  // namespace
}  // namespace linkwright
