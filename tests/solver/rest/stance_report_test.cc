// SPDX-License-Identifier: MIT
#include "solver/rest/stance_report.h"

#include <gtest/gtest.h>

#include "solver/geometry/front_view.h"
#include "solver/model/masses.h"
#include "solver/pose/solve.h"
#include "solver/rest/settle.h"
#include "solver/study/curves/sweep.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Holds;
using check::Near;

constexpr double kTol = 1e-9;  // [m, rad, Hz] a rest found to 1e-12 m, by another way

class VanReport : public testing::Test {
 protected:
  Vehicle vehicle = sample::HarbourVan();
  Rig rig = PrepareRig(vehicle);
  Stance stance = Settle(rig, vehicle.loads[2]);
  StanceReport report = ReportStance(rig, stance);
  // Where points stand on the floor: x along the chassis heading, z up.
  [[nodiscard]] Eigen::Vector3d OnFloor(const Eigen::Vector3d& p_C) const {
    const Eigen::Vector3d x =
        (Eigen::Vector3d::UnitX() - stance.up_C.x() * stance.up_C).normalized();
    return {x.dot(p_C), stance.up_C.cross(x).dot(p_C), stance.heave + stance.up_C.dot(p_C)};
  }
  [[nodiscard]] Eigen::Vector3d Carried(size_t axle, const Eigen::Vector3d& p_CQ) const {
    return Transform(stance.motion[axle].pose) * OnHousing(rig.axles[axle].frame, p_CQ);
  }
};

TEST_F(VanReport, TotalsAreTheLedgersSums) {
  // 1582 weighed - 706 removed + 779 added, both unsprung in it, and 422 of load.
  EXPECT_NEAR(report.total_mass, 446 + 439 + 352 + 345 - 438 - 268 + 522 + 205 + 52 + 82 + 340,
              kTol);
  Eigen::Vector3d moment = stance.sprung.mass * stance.sprung.p_CM;
  for (size_t i = 0; i < 2; ++i) {
    moment += vehicle.axles[i].unsprung->mass * Carried(i, vehicle.axles[i].unsprung->p_CM);
  }
  EXPECT_TRUE(Near(report.cg_C, moment / report.total_mass, kTol));
  EXPECT_NEAR(report.cg_height, OnFloor(report.cg_C).z(), kTol);
}

TEST_F(VanReport, RakeAndRollAreElevationsOfTheChassisAxes) {
  const double along = OnFloor(Eigen::Vector3d::UnitX()).z() - OnFloor(Eigen::Vector3d::Zero()).z();
  const double across =
      OnFloor(Eigen::Vector3d::UnitY()).z() - OnFloor(Eigen::Vector3d::Zero()).z();
  EXPECT_NEAR(std::sin(report.rake), along, kTol);
  EXPECT_NEAR(std::sin(report.roll), across, kTol);
}

TEST_F(VanReport, TravelsWheelbasesAndOpeningsAreThoseOfTheWheels) {
  std::array<Eigen::Vector3d, 4> wheel;
  for (size_t w = 0; w < 4; ++w) {
    const Axle& axle = vehicle.axles[w / 2];
    const Eigen::Vector3d& measured = w % 2 == 0 ? axle.p_CW_l : axle.p_CW_r;
    wheel[w] = Carried(w / 2, measured);
    EXPECT_NEAR(report.travel[w], wheel[w].z() - measured.z(), kTol);
    EXPECT_EQ(report.wheel_load[w], stance.wheel_load[w]);
  }
  EXPECT_NEAR(report.wheelbase_left, OnFloor(wheel[0]).x() - OnFloor(wheel[2]).x(), kTol);
  EXPECT_NEAR(report.wheelbase_right, OnFloor(wheel[1]).x() - OnFloor(wheel[3]).x(), kTol);
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d mean = 0.5 * (wheel[2 * i] + wheel[2 * i + 1]);
    EXPECT_TRUE(Holds(report.axles[i].opening_ahead, mean.x() - vehicle.axles[i].opening->x, kTol));
    EXPECT_TRUE(Holds(report.axles[i].opening_up, mean.z() - vehicle.axles[i].opening->z, kTol));
  }
}

TEST_F(VanReport, BodyRisesAtTheMeasuredAxles) {
  EXPECT_NEAR(report.axles[0].body_rise, OnFloor({0.0, 0.0, 0.359}).z() - 0.359, kTol);
  EXPECT_NEAR(report.axles[1].body_rise, OnFloor({-2.540, 0.0, 0.363}).z() - 0.363, kTol);
}

TEST_F(VanReport, MarksAreHeightsAboveTheFloor) {
  ASSERT_EQ(report.mark_heights.size(), vehicle.marks.size());
  for (size_t i = 0; i < vehicle.marks.size(); ++i) {
    EXPECT_NEAR(report.mark_heights[i], OnFloor(vehicle.marks[i].p_CB).z(), kTol);
  }
}

TEST_F(VanReport, RollAxisAndArmAreTheSweepsAtRest) {
  const Sweep sweep = SweepBounce({rig, &stance}, {.from = 0.0, .to = 0.0, .step = 0.01});
  EXPECT_TRUE(Holds(sweep.rows[0].roll_axis_height, report.roll_axis_height, kTol));
  ASSERT_TRUE(report.roll_gradient);
  EXPECT_GT(*report.roll_gradient, 0.0);
}

TEST(LevelTruckReport, ClosedForms) {
  Vehicle truck = sample::LevelTruck();
  truck.sprung->pitch_inertia = 1600.0;
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const StanceReport report = ReportStance(rig, stance);
  EXPECT_NEAR(report.total_mass, 1200.0, kTol);
  EXPECT_NEAR(report.cg_C.x(), (-1000.0 * 0.45 * 2.6 - 100.0 * 2.6) / 1200.0, kTol);
  EXPECT_NEAR(report.cg_height, (750.0 + 72.0) / 1200.0, kTol);
  EXPECT_NEAR(report.wheelbase_left, 2.6, kTol);
  EXPECT_NEAR(report.wheelbase_right, 2.6, kTol);
  for (const AxleReport& axle : report.axles) EXPECT_NEAR(axle.body_rise, 0.0, kTol);
  // Each axle's frequency is of its share, 550 and 450 kg.
  const double share[2] = {550.0, 450.0};
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_TRUE(Holds(report.axles[i].ride_frequency,
                      std::sqrt(2.0 * report.axles[i].ride_rate / share[i]) / (2.0 * M_PI), kTol));
  }
  // Modes by the frequency equation of two springs: sum and product of the squares.
  ASSERT_TRUE(report.modes);
  const double kf = 2.0 * report.axles[0].ride_rate, kr = 2.0 * report.axles[1].ride_rate;
  const double b = 0.45 * 2.6, c = 0.55 * 2.6;
  const double w1 = std::pow(2.0 * M_PI * report.modes->bounce, 2);
  const double w2 = std::pow(2.0 * M_PI * report.modes->pitch, 2);
  EXPECT_NEAR((w1 + w2) / ((kf + kr) / 1000.0 + (kf * b * b + kr * c * c) / 1600.0), 1.0, kTol);
  EXPECT_NEAR(w1 * w2 / (kf * kr * 2.6 * 2.6 / (1000.0 * 1600.0)), 1.0, kTol);
}

// Handbook form over the whole: m d / (K - m g d), K with tyres in series, d above the roll axis.
TEST(LevelTruckReport, RollGradientIsTheHandbookForm) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  const StanceReport report = ReportStance(rig, stance);
  double K = 0.0;
  std::array<double, 2> height{};
  for (size_t i = 0; i < 2; ++i) {
    const double track = i == 0 ? 1.5 : 1.48;
    K += 1.0 / (1.0 / report.axles[i].roll_stiffness + 2.0 / (220e3 * track * track));
    height[i] = RollCenterHeight(stance.motion[i], Floor{});
  }
  const double axis = height[1] + (height[0] - height[1]) * 0.55;
  EXPECT_NEAR(report.roll_axis_height, axis, kTol);
  const double d = 0.75 - axis;
  EXPECT_TRUE(Holds(report.roll_gradient, 1000.0 * d / (K - 1000.0 * kStandardGravity * d), kTol));
}

TEST(ListContacts, NamesWhatTouchesAndWhatLetGo) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) axle.bar_roll_rate = 40e3;
  truck.axles[kRear].springs[1].law.free_length = 0.25;
  truck.axles[kRear].springs[0].law.rate = 60e3;
  truck.axles[kFront].bump_stops.push_back(
      {.name = {"stop", Side::kLeft},
       .span = {{0.0, 0.3, 0.50}, {0.0, 0.3, 0.40}},
       .law = {.free_length = 0.2, .rate = 10e3, .curve = {}}});
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, truck.loads[0]);
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const std::vector<Contact> contacts = ListContacts(rig, stance);
  ASSERT_EQ(contacts.size(), 2u);
  EXPECT_EQ(contacts[0].kind, ContactKind::kStopTouches);
  EXPECT_EQ(contacts[0].member, "stop left");
  EXPECT_NEAR(contacts[0].force, 10e3 * contacts[0].deflection, 1e-6);
  EXPECT_EQ(contacts[1].kind, ContactKind::kCoilUnseated);
  EXPECT_EQ(contacts[1].member, "coil right");
  EXPECT_GT(contacts[1].deflection, 0.0);
}

// Squeezed as far as it is, a stop beside its pad carries nothing, and that is a contact of its
// own.
TEST(ListContacts, AConeBesideItsPadIsNamed) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kFront].bump_stops.push_back({.name = {"stop", Side::kLeft},
                                            .span = {{0.0, 0.3, 0.50}, {0.0, 0.3, 0.40}},
                                            .law = {.free_length = 0.2, .rate = 10e3, .curve = {}},
                                            .cone_on_axle = false,
                                            .pad_radius = 1e-9});
  const Rig rig = PrepareRig(truck);
  // Without a load the housing stands where it was measured, the cone on its pad's point; a load
  // behind moves it.
  const Stance stance = Settle(rig, {"box", {{"box", 200.0, {-1.8, 0.0, 0.75}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  const std::vector<Contact> contacts = ListContacts(rig, stance);
  ASSERT_EQ(contacts.size(), 1u);
  EXPECT_EQ(contacts[0].kind, ContactKind::kConeOffPad);
  EXPECT_EQ(contacts[0].force, 0.0);
  EXPECT_GT(contacts[0].deflection, 1e-9);
  EXPECT_FALSE(StopTouches(rig, stance, kFront));
}

TEST(ListContacts, NothingWhereNothingTouches) {
  const Vehicle truck = sample::LevelTruck();
  const Rig rig = PrepareRig(truck);
  EXPECT_TRUE(ListContacts(rig, Settle(rig, truck.loads[0])).empty());
}

TEST(ListContacts, LiftedWheelIsNamed) {
  Vehicle truck = sample::LevelTruck();
  for (Axle& axle : truck.axles) axle.tire.rate.reset();
  truck.axles[kFront].bar_roll_rate = 400e3;
  const Rig rig = PrepareRig(truck);
  const Stance stance = Settle(rig, {"outrigger", {{"item", 500.0, {-0.9, 1.8, 0.6}}}});
  ASSERT_EQ(stance.status, StanceStatus::kRests) << stance.message;
  bool named = false;
  for (const Contact& contact : ListContacts(rig, stance)) {
    named = named || (contact.kind == ContactKind::kWheelLifted && contact.axle == 0 &&
                      contact.member == "right wheel");
  }
  EXPECT_TRUE(named);
}

}  // namespace
}  // namespace linkwright
