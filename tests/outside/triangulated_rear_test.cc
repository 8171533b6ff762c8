// SPDX-License-Identifier: MIT
// A triangulated four-link axle, in inches: upper (0, +-3, 20) to (18, +-16, 19), lower (0, +-20,
// 10) to (24, +-18, 12), wheel centres (0, +-30, 13). Roll axis by the handbook's construction
// (plan-view crossings carried to side view) and by the null space of the infinitesimal motion;
// finite motion by a planar and a six-coordinate solver that agree to 1e-8. Derived, three methods.
#include <gtest/gtest.h>

#include "solver/geometry/front_view.h"
#include "solver/geometry/side_view.h"
#include "solver/pose/solve.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using sample::kInch;

constexpr double kDegree = M_PI / 180.0;
constexpr double kPrinted8 = 6e-9;  // [in, deg] eight decimals printed
constexpr double kPrinted6 = 6e-7;  // [in, deg] six decimals printed

struct Rear {
  AxleFrame frame = PrepareAxle(sample::TriangulatedRear());
  HousingMotion measured = EvaluateMotion(frame, frame.measured);
  [[nodiscard]] PoseSolution At(double left_in, double right_in) const {
    const AxlePlace wanted = PlaceAt(frame, 0.0, {left_in * kInch, right_in * kInch});
    return MovePose(frame, measured, wanted.z, wanted.roll);
  }
};

struct HeaveRow {
  double dz, dx, pinion;  // [in, in, deg nose up]
};

TEST(TriangulatedRear, HeaveTable) {
  const Rear rear;
  for (const HeaveRow& row : std::vector<HeaveRow>{{-4, 0.54022990, 2.58260081},
                                                   {-3, 0.33401700, 2.04663808},
                                                   {-2, 0.17584643, 1.43846951},
                                                   {-1, 0.06472568, 0.75699785},
                                                   {+1, -0.01866927, -0.83583812},
                                                   {+2, 0.00868483, -1.75493754},
                                                   {+3, 0.08233481, -2.76288881},
                                                   {+4, 0.20286911, -3.86656194}}) {
    const PoseSolution moved = rear.At(row.dz, row.dz);
    ASSERT_EQ(moved.status, SolveStatus::kConverged);
    EXPECT_NEAR(moved.pose.x / kInch, row.dx, kPrinted8) << row.dz;
    EXPECT_NEAR(HousingPitch(rear.frame, EvaluateMotion(rear.frame, moved.pose)).v / kDegree,
                row.pinion, kPrinted8)
        << row.dz;
  }
}

struct RollRow {
  double left, right;        // [in]
  double x, y, z;            // of the middle [in]
  double pinion, yaw, roll;  // [deg] nose up, clockwise from above, left up
};

TEST(TriangulatedRear, RollRows) {
  const Rear rear;
  for (const RollRow& row :
       std::vector<RollRow>{{2, -2, 0.031573, 0.493154, 13, 0.226574, -0.156072, 3.822554},
                            {4, 0, 0.040251, 0.501109, 15, -1.533217, 0.165013, 3.822554}}) {
    const PoseSolution moved = rear.At(row.left, row.right);
    ASSERT_EQ(moved.status, SolveStatus::kConverged);
    EXPECT_NEAR(moved.pose.x / kInch, row.x, kPrinted6);
    EXPECT_NEAR(moved.pose.y / kInch, row.y, kPrinted6);
    EXPECT_NEAR(moved.pose.z / kInch, row.z, kPrinted6);
    EXPECT_NEAR(HousingPitch(rear.frame, EvaluateMotion(rear.frame, moved.pose)).v / kDegree,
                row.pinion, kPrinted6);
    EXPECT_NEAR(-moved.pose.steer / kDegree, row.yaw, kPrinted6);  // our steer is + to the left
    EXPECT_NEAR(moved.pose.roll / kDegree, row.roll, kPrinted6);
  }
}

TEST(TriangulatedRear, RollCentreAndRollSteer) {
  const Rear rear;
  // Crossings in plan at x = -54/13 and 240, each at its height on its own links; their line at x =
  // 0.
  const double upper_x = -54.0 / 13.0, upper_z = 20.0 + 3.0 / 13.0, lower_x = 240.0, lower_z = 30.0;
  const double slope = (lower_z - upper_z) / (lower_x - upper_x);
  const double height = RollCenterHeight(rear.measured, Floor{}) / kInch;
  EXPECT_NEAR(height, upper_z - slope * upper_x, 1e-10);
  EXPECT_NEAR(height, 20.396975331, 1e-6);  // null space of the infinitesimal motion
  EXPECT_NEAR(height, 20.39697543, 6e-9);   // a full nonlinear solver at +-1e-4 in
  EXPECT_NEAR(RollSteer(rear.measured, Floor{}), -slope, 1e-12);  // axis rises forward: oversteer
  EXPECT_NEAR(slope, 0.0400126024, 6e-11);
}

TEST(TriangulatedRear, SideInstantCentreAndSlopes) {
  const Rear rear;
  const auto centre = SideInstantCenter(rear.measured, Floor{});
  ASSERT_TRUE(centre);
  EXPECT_NEAR(centre->ahead / kInch, 72.0, 1e-9);
  EXPECT_NEAR(centre->height / kInch, 16.0, 1e-9);
  EXPECT_NEAR(rear.measured.q[0].z, -3.0 / 72.0, 1e-12);                               // d(dx)/dz
  EXPECT_NEAR(HousingPitch(rear.frame, rear.measured).z * kInch, -1.0 / 72.0, 1e-12);  // [rad/in]
}

TEST(TriangulatedRear, AntiSquat) {
  const Rear rear;
  const double slope = ContactSlope(rear.measured, Floor{}, 13.0 * kInch);
  EXPECT_NEAR(-100.0 * TransferShare(1.0, slope, 112.0, 26.0), 95.726496, 5e-7);
}

// A bar from (y, z) = (-20, 16) to (18, 12) crosses the centre plane at 13.894736842 (derived). In
// the axle's plane with level arms that is the roll centre (common practice; SAE J670's plane).
TEST(TrackBar, CrossesTheCentrePlaneAtTheRollCentre) {
  Axle axle = sample::BareAxle("rear", 0.0, 30.0 * kInch, 13.0 * kInch);
  sample::AddPair(axle.links, "lower", kInch * Eigen::Vector3d(24.0, 18.0, 11.0),
                  kInch * Eigen::Vector3d(0.0, 18.0, 11.0));
  sample::AddSingle(axle.links, "upper", kInch * Eigen::Vector3d(20.0, 0.0, 20.0),
                    kInch * Eigen::Vector3d(0.0, 0.0, 20.0));
  sample::AddSingle(axle.links, "bar", kInch * Eigen::Vector3d(0.0, -20.0, 16.0),
                    kInch * Eigen::Vector3d(0.0, 18.0, 12.0));
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = EvaluateMotion(frame, frame.measured);
  EXPECT_NEAR(RollCenterHeight(motion, Floor{}) / kInch, 13.894736842, 1e-9);
}

// Lateral shift of a level bar of length R after z: R - sqrt(R^2 - z^2), in inches (derived). The
// arms are 1000 in long, so that they slide and do no more than that.
TEST(TrackBar, LateralShiftTable) {
  const std::vector<std::pair<double, std::vector<double>>> table{
      {30.0, {0.0167, 0.0667, 0.1504, 0.2679, 0.4196}},
      {36.0, {0.0139, 0.0556, 0.1252, 0.2229, 0.3489}},
      {42.0, {0.0119, 0.0476, 0.1073, 0.1909, 0.2987}}};
  for (const auto& [length, shifts] : table) {
    const AxleFrame frame = PrepareAxle(sample::EqualParallelLinks(1000.0 * kInch, length * kInch));
    const HousingMotion measured = EvaluateMotion(frame, frame.measured);
    for (size_t i = 0; i < shifts.size(); ++i) {
      const double z = static_cast<double>(i + 1);
      const PoseSolution moved = MovePose(frame, measured, frame.measured.z + z * kInch, 0.0);
      ASSERT_EQ(moved.status, SolveStatus::kConverged);
      // Half a unit of the last printed digit, and the 2e-6 in by which such arms still pull
      // forward.
      EXPECT_NEAR(-moved.pose.y / kInch, shifts[i], 5.2e-5) << length << " in, " << z << " in";
    }
  }
}

// Equal parallel links of 24 in, level: no pinion change, 0.3356809 in of shift at 4 in (derived).
TEST(ParallelLinks, FourInches) {
  const AxleFrame frame = PrepareAxle(sample::EqualParallelLinks(24.0 * kInch, 1e4 * kInch));
  const HousingMotion measured = EvaluateMotion(frame, frame.measured);
  for (const double z : {-4.0, 4.0}) {
    const PoseSolution moved = MovePose(frame, measured, frame.measured.z + z * kInch, 0.0);
    ASSERT_EQ(moved.status, SolveStatus::kConverged);
    // The cross link of 10 000 in draws it sideways by 8e-4 in, which counts squared.
    EXPECT_NEAR(moved.pose.x / kInch, 0.3356809, 1e-7);
    EXPECT_NEAR(moved.pose.pitch, 0.0, 1e-12);
  }
}

}  // namespace
}  // namespace linkwright
