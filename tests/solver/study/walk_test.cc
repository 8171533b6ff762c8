// SPDX-License-Identifier: MIT
#include "solver/study/walk.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

std::vector<double> Millimetres(const std::vector<double>& grid) {
  std::vector<double> mm;
  for (double t : grid) mm.push_back(std::round(1e9 * t) / 1e6);
  return mm;
}

GridOptions Options(std::optional<double> from, std::optional<double> to, double step) {
  return {.from = from, .to = to, .step = step};
}

TEST(Grid, AskedForIsWhatItSays) {
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.03, Options(-0.02, 0.03, 0.01))),
            (std::vector<double>{-20, -10, 0, 10, 20, 30}));
}

TEST(Grid, AlwaysHasZero) {
  EXPECT_EQ(Millimetres(Grid(-0.015, 0.025, Options(-0.015, 0.025, 0.01))),
            (std::vector<double>{-15, -5, 0, 5, 15, 25}));
  EXPECT_EQ(Millimetres(Grid(0.02, 0.04, Options(0.02, 0.04, 0.01))),
            (std::vector<double>{0, 20, 30, 40}));
  EXPECT_EQ(Millimetres(Grid(-0.04, -0.03, Options(-0.04, -0.03, 0.01))),
            (std::vector<double>{-40, -30, 0}));
}

// Thirds of a millimetre do not add up to zero exactly; the row is at 0 all the same, and once.
TEST(Grid, ZeroIsExactAndOnce) {
  for (const double step : {0.001 / 3.0, 0.0127, 0.007}) {
    const std::vector<double> grid =
        Grid(-30.0 * step, 30.0 * step, Options(-30.0 * step, 30.0 * step, step));
    EXPECT_EQ(std::count(grid.begin(), grid.end(), 0.0), 1);
    EXPECT_EQ(grid.size(), 61u);
  }
}

TEST(Grid, StopsShortOfAnEndItDoesNotMeet) {
  EXPECT_EQ(Millimetres(Grid(0.0, 0.025, Options(0.0, 0.025, 0.01))),
            (std::vector<double>{0, 10, 20}));
}

TEST(Grid, UnaskedRunsInMultiplesToTheEndsThemselves) {
  EXPECT_EQ(Millimetres(Grid(-0.0234, 0.0171, Options({}, {}, 0.01))),
            (std::vector<double>{-23.4, -20, -10, 0, 10, 17.1}));
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.01, Options({}, {}, 0.01))),
            (std::vector<double>{-20, -10, 0, 10}));
}

TEST(Grid, OneEndAskedForTheOtherNot) {
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.0171, Options(-0.02, {}, 0.01))),
            (std::vector<double>{-20, -10, 0, 10, 17.1}));
  EXPECT_EQ(Millimetres(Grid(-0.0234, 0.01, Options({}, 0.01, 0.01))),
            (std::vector<double>{-23.4, -20, -10, 0, 10}));
}

AxlePath Bounce(const Rig& rig) {
  AxlePath path;
  path.place = [&rig](double travel, size_t axle) {
    const Pose& measured = rig.axles[axle].frame.measured;
    return AxlePlace{.z = measured.z + travel, .roll = measured.roll};
  };
  return path;
}

TEST(Nearest, IsTheEndReachedFirst) {
  const SweepEnd near{.travel = -0.04, .axle = 1, .reason = ""};
  const SweepEnd far{.travel = -0.06, .axle = 0, .reason = ""};
  EXPECT_EQ(Nearest({far, near}, -0.1), -0.04);
  EXPECT_EQ(Nearest({std::nullopt, far}, -0.1), -0.06);
  EXPECT_EQ(Nearest({std::nullopt, std::nullopt}, -0.1), -0.1);
}

// A damper upright over the housing centre of equal level links: its length is its measured one
// less the travel but for a lean of (travel^2 / 2a) that is taken in here exactly.
TEST(FindEnd, IsWhereTheDamperIsShut) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear] = sample::EqualParallelLinks(0.6, 0.8);
  Damper damper{};
  damper.name = {"damper", Side::kLeft};
  damper.span = {{0.0, 0.5, 0.80}, {0.0, 0.5, 0.30}};
  damper.shortest = 0.42, damper.longest = 0.56;
  truck.axles[kRear].dampers.push_back(damper);
  const Rig rig = PrepareRig(truck);
  const AxlePath path = Bounce(rig);
  const Walker start = StartWalk(rig, kRear, path);
  const auto bump = FindEnd(start, 0.6, 0.005), droop = FindEnd(start, -0.6, 0.005);
  ASSERT_TRUE(bump && droop);
  EXPECT_EQ(bump->reason, "damper left is fully closed");
  EXPECT_EQ(droop->reason, "damper left is fully open");
  EXPECT_EQ(bump->axle, static_cast<size_t>(kRear));
  const auto length = [](double travel) {
    const double k = 0.25 / 0.36 + 0.25 / 0.64;
    const double s = 2.0 * travel * travel / (1.0 + std::sqrt(1.0 - 4.0 * k * travel * travel));
    return Eigen::Vector3d(0.5 * s / 0.6, -0.5 * s / 0.8, travel - 0.5).norm();
  };
  constexpr double kEndTol = 1.2e-9;  // [m] rows may overrun an end by 1e-9; bisection by 1e-10
  EXPECT_NEAR(length(bump->travel), 0.42, kEndTol);
  EXPECT_NEAR(length(droop->travel), 0.56, kEndTol);
  EXPECT_FALSE(FindEnd(start, 0.05, 0.005));
}

// A damper level across the axle, its chassis end a little above the other: it is shortest
// somewhere on the way up, and grows again.
Vehicle TruckWithALevelDamper(double rise) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear] = sample::EqualParallelLinks(0.6, 0.8);
  Damper damper{};
  damper.name = {"damper", Side::kLeft};
  damper.span = {{0.0, 0.2, 0.30 + rise}, {0.0, 0.5, 0.30}};
  truck.axles[kRear].dampers.push_back(damper);
  return truck;
}

// Length of that damper at a travel.
double LevelDamper(const Rig& rig, double travel) {
  const RigAxle& axle = rig.axles[kRear];
  const Pose& from = axle.frame.measured;
  const Pose pose = MovePose(axle.frame, axle.measured, from.z + travel, from.roll).pose;
  const Span& span = rig.vehicle->axles[kRear].dampers[0].span;
  return (Transform(pose) * OnHousing(axle.frame, span.p_CQ) - span.p_CP).norm();
}

struct Shortest {
  double length, travel;
};

Shortest ShortestOf(const Rig& rig) {
  Shortest shortest{.length = 1.0, .travel = 0.0};
  for (int i = 0; i <= 5000; ++i) {
    const double travel = 1e-5 * i, length = LevelDamper(rig, travel);
    if (length < shortest.length) shortest = {length, travel};
  }
  return shortest;
}

// Past its end by a micrometre over a millimetre or two between two looks 5 mm apart, and back.
TEST(FindEnd, IsNotSteppedOverWhereAMemberPassesItAndComesBack) {
  const Vehicle trial = TruckWithALevelDamper(0.0225);
  const double per_rise = ShortestOf(PrepareRig(trial)).travel / 0.0225;
  Vehicle truck = TruckWithALevelDamper(0.0225 / per_rise);
  Rig rig = PrepareRig(truck);
  const auto [least, at] = ShortestOf(rig);
  ASSERT_NEAR(at, 0.0225, 0.001);  // the looks at 20 and 25 mm see nothing
  ASSERT_GT(LevelDamper(rig, 0.02), least + 2e-6);
  ASSERT_GT(LevelDamper(rig, 0.025), least + 2e-6);
  truck.axles[kRear].dampers[0].shortest = least + 1e-6;
  rig = PrepareRig(truck);
  const AxlePath path = Bounce(rig);
  const auto end = FindEnd(StartWalk(rig, kRear, path), 0.05, 0.005);
  ASSERT_TRUE(end);
  EXPECT_EQ(end->reason, "damper left is fully closed");
  EXPECT_LT(end->travel, at);
  EXPECT_NEAR(LevelDamper(rig, end->travel), least + 1e-6, 1.2e-9);
  // Rows farther apart than the dip is wide end there too.
  EXPECT_EQ(Millimetres(Between({std::nullopt, std::nullopt}, {std::nullopt, end},
                                Grid(-0.04, 0.04, Options(-0.04, 0.04, 0.02)))),
            (std::vector<double>{-40, -20, 0, 20}));
}

TEST(FindEnd, LinksThatGoStraightAreNamed) {
  Vehicle truck = sample::LevelTruck();
  truck.axles[kRear] = sample::EqualParallelLinks(0.8, 0.25);
  const Rig rig = PrepareRig(truck);
  const AxlePath path = Bounce(rig);
  const auto end = FindEnd(StartWalk(rig, kRear, path), 0.6, 0.005);
  ASSERT_TRUE(end);
  EXPECT_EQ(end->reason, "its links line up and can follow no further (track bar holds it most)");
  // 1/sqrt(1/a^2 + 1/b^2), short of it by what the walk gives up at (solve_test)
  EXPECT_NEAR(end->travel, 1.0 / std::sqrt(1.0 / 0.64 + 1.0 / 0.0625), 2e-5);
}

}  // namespace
}  // namespace linkwright
