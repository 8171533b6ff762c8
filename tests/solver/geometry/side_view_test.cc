// SPDX-License-Identifier: MIT
#include "solver/geometry/side_view.h"

#include <gtest/gtest.h>

#include <Eigen/LU>

#include "solver/pose/solve.h"
#include "tests/support/differences.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::FirstDifference;
using check::Near;

constexpr double kTol = 1e-10;    // [m, -] a crossing 1 m away, times a condition of 1e3
constexpr double kRadius = 0.35;  // [m] the wheel centre's height
constexpr double kStep = 4e-3;    // [m] differences of solved poses, good to 1e-9

struct Line {  // of one link in side view
  Eigen::Vector2d at, along;
};

Line SideViewOf(const Link& link) {
  const Eigen::Vector3d d = link.span.p_CP - link.span.p_CQ;
  return {{link.span.p_CQ.x(), link.span.p_CQ.z()}, {d.x(), d.z()}};
}

Eigen::Vector2d Crossing(const Line& a, const Line& b) {
  Eigen::Matrix2d M;
  M << a.along, -b.along;
  return a.at + (M.inverse() * (b.at - a.at)).x() * a.along;
}

// Symmetrical about the centre plane, so side view is a planar mechanism: pairs and a level bar.
Axle Planar(double lower_rise, double upper_rise) {
  Axle axle = sample::BareAxle("rear", 0.0, 0.75, kRadius);
  sample::AddPair(axle.links, "lower arm", {0.6, 0.45, 0.30 + lower_rise}, {0.03, 0.45, 0.30});
  sample::AddSingle(axle.links, "upper arm", {0.5, 0.0, 0.55 + upper_rise}, {-0.02, 0.0, 0.55});
  sample::AddSingle(axle.links, "track bar", {0.0, 0.45, 0.40}, {0.0, -0.45, 0.40});
  return axle;
}

HousingMotion Measured(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  return EvaluateMotion(frame, frame.measured);
}

TEST(SideView, InstantCentreIsWhereTheLinkLinesCross) {
  for (const auto& [lower, upper] :
       std::vector<std::pair<double, double>>{{0.08, -0.02}, {0.0, -0.05}, {-0.03, 0.04}}) {
    const Axle axle = Planar(lower, upper);
    const Eigen::Vector2d crossing = Crossing(SideViewOf(axle.links[0]), SideViewOf(axle.links[2]));
    const auto centre = SideInstantCenter(Measured(axle), Floor{});
    ASSERT_TRUE(centre);
    EXPECT_NEAR(centre->ahead, crossing.x(), kTol);
    EXPECT_NEAR(centre->height, crossing.y(), kTol);
  }
}

// On a sloping floor the same point is read along other axes.
TEST(SideView, InstantCentreIsTheSamePointOnASlopingFloor) {
  const HousingMotion motion = Measured(Planar(0.08, -0.02));
  const double slope = 0.04;
  Floor floor;
  floor.e = {std::cos(slope), 0.0, std::sin(slope)};
  floor.n = {-std::sin(slope), 0.0, std::cos(slope)};
  floor.offset = -0.05;
  const auto level = SideInstantCenter(motion, Floor{}), sloping = SideInstantCenter(motion, floor);
  const Eigen::Vector3d centre(0.0, 0.0, kRadius);
  const Eigen::Vector3d point =
      centre + Eigen::Vector3d(level->ahead, 0.0, level->height - kRadius);
  EXPECT_NEAR(sloping->ahead, floor.e.dot(point - centre), kTol);
  EXPECT_NEAR(sloping->height, HeightAbove(floor, point), kTol);
}

// A point of the housing at the instant centre does not move in bounce: differences of solved
// poses.
TEST(SideView, InstantCentreStandsStill) {
  const AxleFrame frame = PrepareAxle(Planar(0.08, -0.02));
  const PoseSolution off =
      MovePose(frame, EvaluateMotion(frame, frame.measured), kRadius + 0.06, 0.0);
  const HousingMotion motion = EvaluateMotion(frame, off.pose);
  const auto centre = SideInstantCenter(motion, Floor{});
  ASSERT_TRUE(centre);
  const Eigen::Vector3d there(off.pose.x + centre->ahead, 0.0, centre->height);
  const Eigen::Vector3d p_AI = Transform(off.pose).inverse() * there;
  const auto at = [&](double s) -> Eigen::Vector3d {
    Pose guess = off.pose;
    guess.z += s;
    return Transform(SolvePose(frame, guess).pose) * p_AI;
  };
  const Eigen::Vector3d velocity = FirstDifference(at, kStep);
  EXPECT_NEAR(velocity.x(), 0.0, 1e-9);
  // Upward it rests too, but for the lean of a bar that is no longer level: none of it in side
  // view.
  EXPECT_NEAR(velocity.z(), 0.0, 1e-6);
}

TEST(SideView, ParallelLinksHaveNoInstantCentre) {
  EXPECT_FALSE(SideInstantCenter(Measured(sample::EqualParallelLinks(0.6, 0.8)), Floor{}));
}

// Arms that almost run parallel: beyond kNoRotation's distance on one side of it only.
TEST(SideView, CentreFurtherThanAnyFloorIsNone) {
  // Level lower arm of 0.57 m at 0.30; upper arm 0.25 m above it, rising by `rise` over 0.52 m: the
  // crossing is 0.25 * 0.52 / rise behind. Rotation is 1 / that.
  const auto rise_for = [](double rotation) { return 0.25 * 0.52 * rotation; };
  EXPECT_FALSE(SideInstantCenter(Measured(Planar(0.0, rise_for(0.98 * kNoRotation))), Floor{}));
  EXPECT_TRUE(SideInstantCenter(Measured(Planar(0.0, rise_for(1.02 * kNoRotation))), Floor{}));
}

// The wheel locked to the housing: its lowest point, carried.
TEST(SideView, ContactSlopeIsThePathOfTheLowestPoint) {
  const AxleFrame frame = PrepareAxle(sample::TriangulatedRear());
  const PoseSolution off = MovePose(frame, EvaluateMotion(frame, frame.measured),
                                    frame.measured.z + 0.05, frame.measured.roll);
  const HousingMotion motion = EvaluateMotion(frame, off.pose);
  const double slope = 0.03, radius = 0.33;
  Floor floor;
  floor.e = {std::cos(slope), 0.0, std::sin(slope)};
  floor.n = {-std::sin(slope), 0.0, std::cos(slope)};
  const Eigen::Vector3d lowest =
      Eigen::Vector3d(off.pose.x, off.pose.y, off.pose.z) - radius * floor.n;
  const Eigen::Vector3d p_AK = Transform(off.pose).inverse() * lowest;
  const auto at = [&](double s) -> Eigen::Vector3d {
    Pose guess = off.pose;
    guess.z += s;
    return Transform(SolvePose(frame, guess).pose) * p_AK;
  };
  const Eigen::Vector3d v = FirstDifference(at, kStep);
  EXPECT_NEAR(ContactSlope(motion, floor, radius), v.dot(floor.e) / v.dot(floor.n), 1e-9);
}

// Statics of the housing in side view: links as two-force members, drive force F at the contact
// point, the rest of the load straight up. What the links lift the body with, over F, is minus the
// slope of the contact point's path (virtual work).
TEST(SideView, ContactSlopeIsTheLiftOfTwoForceLinks) {
  const Axle axle = Planar(0.08, -0.02);
  const Line lower = SideViewOf(axle.links[0]), upper = SideViewOf(axle.links[2]);
  const Eigen::Vector2d ul = lower.along.normalized(), uu = upper.along.normalized();
  const Eigen::Vector2d contact(0.0, 0.0);
  const auto moment = [&](const Eigen::Vector2d& at, const Eigen::Vector2d& force) {
    return at.x() * force.y() - at.y() * force.x();
  };
  // Unknowns: lower and upper link force on the housing along their lines, and the upward load
  // through the wheel centre's vertical; knowns: F = 1 forward at the contact point.
  Eigen::Matrix3d M;
  M << ul.x(), uu.x(), 0.0,  //
      ul.y(), uu.y(), 1.0,   //
      moment(lower.at, ul), moment(upper.at, uu), 0.0;
  const Eigen::Vector3d forces =
      M.inverse() * Eigen::Vector3d(-1.0, 0.0, -moment(contact, {1.0, 0.0}));
  const double lift_on_body = -(forces[0] * ul.y() + forces[1] * uu.y());
  EXPECT_NEAR(-ContactSlope(Measured(axle), Floor{}, kRadius), lift_on_body, kTol);
}

TEST(SideView, TransferShareIsTheLinksShareOfLoadTransfer) {
  // Lift s F at an axle against F h / L moved between the axles.
  EXPECT_NEAR(TransferShare(0.6, 0.2, 2.5, 0.7), 0.6 * 0.2 * 2.5 / 0.7, 1e-15);
}

}  // namespace
}  // namespace linkwright
