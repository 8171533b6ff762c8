// SPDX-License-Identifier: MIT
// Arms and cranks against what they replace, closed forms, and a search for the arm's or the
// crank's own place.
#include "solver/pose/arms.h"

#include <ceres/autodiff_cost_function.h>
#include <ceres/jet.h>
#include <ceres/problem.h>
#include <ceres/solver.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "solver/model/error.h"
#include "solver/pose/freedom.h"
#include "solver/pose/link_equations.h"
#include "solver/pose/motion.h"
#include "solver/pose/solve.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using Eigen::Vector3d;

constexpr double kSumTol = 1e-12;    // [m, m/m, m/rad] the same sums in another order
constexpr double kSearchTol = 1e-9;  // [m] what a search to the minimum leaves
constexpr double kSlopeTol = 1e-6;   // [m/m2 and alike] second-order differences over 2e-4

Vector3d Left(const Vector3d& p, bool left) { return {p.x(), left ? p.y() : -p.y(), p.z()}; }

// A pair of radius arms with their eyes before and behind the axle, and a track bar.
Axle RadiusArms(double frame_rate, double axle_rate) {
  Axle axle = sample::BareAxle("front", 0.0, 0.75, 0.37);
  for (const bool left : {true, false}) {
    RadiusArm arm;
    arm.name = {"radius arm", left ? Side::kLeft : Side::kRight};
    arm.p_CP = Left({-0.9, 0.4, 0.45}, left);
    arm.p_CQ = {Left({0.085, 0.42, 0.365}, left), Left({-0.085, 0.42, 0.38}, left)};
    arm.frame_rate = frame_rate;
    arm.axle_rate = axle_rate;
    axle.radius_arms.push_back(arm);
  }
  sample::AddSingle(axle.links, "track bar", {0.1, 0.43, 0.48}, {0.12, -0.46, 0.42}, 3e6);
  return axle;
}

// A crank upright on the housing (or on the chassis, its links to the housing), across the vehicle.
WattsLink Watt(bool on_housing) {
  WattsLink watt;
  watt.name = "Watt's link";
  watt.on_housing = on_housing;
  watt.pivot = {-2.8, 0.01, 0.36};
  watt.axis = {1.0, 0.0, 0.05};
  watt.end = {Vector3d(-2.8, 0.02, 0.44), Vector3d(-2.8, 0.0, 0.28)};
  watt.far = {Vector3d(-2.79, 0.45, 0.45), Vector3d(-2.81, -0.45, 0.29)};
  return watt;
}

// Two lower arms, one upper arm and the Watt's link: four ways in all.
Axle ThreeArmsAndWatt(bool on_housing) {
  Axle axle = sample::BareAxle("rear", -2.7, 0.75, 0.36);
  sample::AddPair(axle.links, "lower arm", {-2.0, 0.42, 0.40}, {-2.68, 0.46, 0.30});
  sample::AddSingle(axle.links, "upper arm", {-2.1, 0.1, 0.56}, {-2.69, 0.12, 0.52});
  axle.watts_links.push_back(Watt(on_housing));
  return axle;
}

Pose OffPose(const AxleFrame& frame) {
  Pose pose = frame.measured;
  pose.x += 0.003, pose.y -= 0.004, pose.z += 0.05;
  pose.steer += 0.01, pose.pitch -= 0.02, pose.roll += 0.04;
  return pose;
}

void ExpectJacobian(const AxleFrame& frame) {
  using Jet = ceres::Jet<double, 6>;
  const Pose pose = OffPose(frame);
  const auto n = static_cast<Eigen::Index>(frame.links.size());
  Eigen::VectorXd residuals(n);
  Eigen::Matrix<double, Eigen::Dynamic, 4> J(n, 4);
  LinkResiduals(frame.links, pose, residuals.data(), J.data());
  const auto stretch = StretchesAt(frame, Variables(CoordinatesOf(pose)));
  const std::array q{Jet(pose.x, 0),     Jet(pose.y, 1), Jet(pose.steer, 2),
                     Jet(pose.pitch, 3), Jet(pose.z, 4), Jet(pose.roll, 5)};
  for (Eigen::Index i = 0; i < n; ++i) {
    const Jet r =
        LinkResidual(frame.links[static_cast<size_t>(i)], std::array<Jet, 3>{q[0], q[1], q[4]},
                     HousingRotation(q[2], q[5], q[3]));
    EXPECT_NEAR(residuals[i], r.a, kSumTol);
    for (Eigen::Index k = 0; k < 6; ++k) {
      EXPECT_NEAR(stretch[static_cast<size_t>(i)].d[static_cast<size_t>(k)], r.v[k], kSumTol)
          << i << ' ' << k;
    }
    for (Eigen::Index k = 0; k < 4; ++k) EXPECT_NEAR(J(i, k), r.v[k], kSumTol);
  }
}

TEST(Arms, ResidualsHaveTheDerivativesOfAutomaticDifferentiation) {
  ExpectJacobian(PrepareAxle(RadiusArms(4e6, 2e6)));
  ExpectJacobian(PrepareAxle(ThreeArmsAndWatt(true)));
  ExpectJacobian(PrepareAxle(ThreeArmsAndWatt(false)));
}

// Second derivatives of the unknowns against differences of their first ones.
void ExpectSecondDerivatives(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion from = EvaluateMotion(frame, frame.measured);
  const double z = frame.measured.z + 0.04, roll = 0.05, h = 1e-4;
  const auto at = [&](double dz, double dr) {
    const PoseSolution there = MovePose(frame, from, z + dz, roll + dr);
    EXPECT_EQ(there.status, SolveStatus::kConverged);
    return EvaluateMotion(frame, there.pose);
  };
  const HousingMotion here = at(0.0, 0.0);
  for (size_t k = 0; k < 4; ++k) {
    EXPECT_NEAR(here.q[k].zz, (at(h, 0).q[k].z - at(-h, 0).q[k].z) / (2 * h), kSlopeTol) << k;
    EXPECT_NEAR(here.q[k].zr, (at(0, h).q[k].z - at(0, -h).q[k].z) / (2 * h), kSlopeTol) << k;
    EXPECT_NEAR(here.q[k].rr, (at(0, h).q[k].r - at(0, -h).q[k].r) / (2 * h), kSlopeTol) << k;
  }
  if (frame.links.size() == 4) return;
  // Strain energy is a function of z and roll: its slope is its derivative. 1e-5 of 1e4 N m a
  // radian.
  constexpr double kEnergyTol = 0.1;  // [N, N m]
  EXPECT_NEAR(here.strain.r, (at(0, h).strain.v - at(0, -h).strain.v) / (2 * h), kEnergyTol);
  EXPECT_NEAR(here.strain.z, (at(h, 0).strain.v - at(-h, 0).strain.v) / (2 * h), kEnergyTol);
}

TEST(Arms, MotionsHaveExactSecondDerivatives) {
  ExpectSecondDerivatives(RadiusArms(4e6, 2e6));
  ExpectSecondDerivatives(ThreeArmsAndWatt(true));
  ExpectSecondDerivatives(ThreeArmsAndWatt(false));
}

TEST(AArm, HoldsWhatTwoLinksHold) {
  Axle with_arm = sample::BareAxle("rear", -2.7, 0.75, 0.36);
  sample::AddPair(with_arm.links, "lower arm", {-2.0, 0.42, 0.40}, {-2.68, 0.46, 0.30});
  Axle with_links = with_arm;
  AArm arm;
  arm.name = {"upper arm", Side::kMiddle};
  arm.p_CP = {Vector3d(-2.15, 0.3, 0.54), Vector3d(-2.15, -0.3, 0.54)};
  arm.p_CQ = {-2.69, 0.0, 0.52};
  with_arm.a_arms.push_back(arm);
  sample::AddSingle(with_links.links, "one leg", arm.p_CP[0], arm.p_CQ);
  sample::AddSingle(with_links.links, "other leg", arm.p_CP[1], arm.p_CQ);
  const AxleFrame a = PrepareAxle(with_arm), b = PrepareAxle(with_links);
  const double z = a.measured.z + 0.08, roll = 0.06;
  const Pose one = MovePose(a, EvaluateMotion(a, a.measured), z, roll).pose;
  const Pose two = MovePose(b, EvaluateMotion(b, b.measured), z, roll).pose;
  EXPECT_NEAR(one.x, two.x, kSumTol);
  EXPECT_NEAR(one.y, two.y, kSumTol);
  EXPECT_NEAR(one.steer, two.steer, kSumTol);
  EXPECT_NEAR(one.pitch, two.pitch, kSumTol);
}

FrameArm OneArm() { return *PrepareAxle(RadiusArms(4e6, 2e6)).links[1].arm; }

// Gaps of the arm's three bushings at a place of the arm, weighted: a least-squares problem of its
// own.
struct ArmGaps {
  FrameArm arm;
  std::array<double, 2> moved;
  template <typename T>
  bool operator()(const T* place, T* gaps) const {
    using std::cos;
    using std::sin;
    const T c = cos(place[2]), s = sin(place[2]);
    const auto gap = [&](const Eigen::Vector2d& own, double x, double y, double rate, T* to) {
      to[0] = std::sqrt(rate) * (x - (place[0] + c * own.x() - s * own.y()));
      to[1] = std::sqrt(rate) * (y - (place[1] + s * own.x() + c * own.y()));
    };
    gap({arm.reach, 0.0}, arm.reach + moved[0], moved[1], arm.frame_rate, gaps);
    for (size_t i = 0; i < 2; ++i) {
      gap(arm.eye[i], arm.eye[i].x(), arm.eye[i].y(), arm.axle_rate, gaps + 2 + 2 * i);
    }
    return true;
  }
};

TEST(RadiusArm, RestsWhereASearchForItsPlaceFindsIt) {
  for (const std::array<double, 2> moved : {std::array{0.002, 0.03}, std::array{-0.001, -0.06}}) {
    const FrameArm arm = OneArm();
    std::array<double, 3> place{};
    ceres::Problem problem;
    problem.AddResidualBlock(
        new ceres::AutoDiffCostFunction<ArmGaps, 6, 3>(new ArmGaps{arm, moved}), nullptr,
        place.data());
    ceres::Solver::Options options;
    options.function_tolerance = 1e-16;
    options.parameter_tolerance = 1e-14;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    constexpr double kEnergyTol = 1e-8;  // [J] of some 40
    const ArmStrain<double> strain = StrainOf<double>(arm, moved);
    EXPECT_NEAR(strain.energy, summary.final_cost, kEnergyTol);
    std::array<double, 6> gaps{};
    ArmGaps{arm, moved}(place.data(), gaps.data());
    constexpr double kForceTol = 1e-2;  // [N] of some 1000: what the search leaves
    for (size_t k = 0; k < 2; ++k) {
      EXPECT_NEAR(strain.tension[k], gaps[k] * std::sqrt(arm.frame_rate), kForceTol);
      EXPECT_NEAR(strain.eye[0][k], gaps[2 + k] * std::sqrt(arm.axle_rate), kForceTol);
      EXPECT_NEAR(strain.eye[1][k], gaps[4 + k] * std::sqrt(arm.axle_rate), kForceTol);
    }
  }
}

TEST(RadiusArm, WithItsEyesInARowGivesLikeALeverOnThreeSprings) {
  FrameArm arm = OneArm();
  arm.eye = {Eigen::Vector2d(-0.085, 0.0), Eigen::Vector2d(0.085, 0.0)};
  arm.reach = 0.9;
  // Force F at the chassis eye: F/2 and the couple F L/d on each eye; their give adds up there.
  const double L = 0.9, d = 0.17, kf = 4e6, ka = 2e6;
  const double across = 1.0 / (1.0 / kf + 1.0 / (2.0 * ka) + 2.0 * L * L / (ka * d * d));
  const double along = 1.0 / (1.0 / kf + 1.0 / (2.0 * ka));
  const Eigen::Matrix2d K = StiffnessOf(arm, {0.0, 0.0});
  constexpr double kRateTol = 1e-3;  // [N/m] rounding of 4e6
  EXPECT_NEAR(K(0, 0), along, kRateTol);
  EXPECT_NEAR(K(1, 1), across, kRateTol);
  EXPECT_NEAR(K(0, 1), 0.0, kRateTol);
  EXPECT_NEAR(K(1, 0), 0.0, kRateTol);
}

TEST(RadiusArm, ClampsTheAxleInRollAndNotInBounce) {
  const AxleFrame frame = PrepareAxle(RadiusArms(4e6, 2e6));
  const Freedom freedom = AnalyseFreedom(frame);
  ASSERT_TRUE(freedom.fight.has_value());
  EXPECT_TRUE(freedom.free.empty());
  // In roll the left and right arm are forced across opposite ways while the housing settles its
  // pitch between them: each by half the difference. Small angle, level arms: across = roll *
  // spacing/2 * 1, at the eye on the chassis; the energy of both arms, K (roll s/2)^2, gives K
  // s^2/2 a radian.
  const Eigen::Matrix2d K = StiffnessOf(*frame.links[1].arm, {0.0, 0.0});
  const double spacing = 0.8;  // between the chassis eyes, which is where the force acts
  EXPECT_NEAR(freedom.fight->roll_rate, 0.5 * K(1, 1) * spacing * spacing,
              0.02 * freedom.fight->roll_rate);  // arms slope 5 deg and lead in a little
  EXPECT_LT(freedom.fight->bounce_rate, 1.0);    // [N/m]
}

TEST(RadiusArm, WithHardBushingsHoldsWhatTwoLinksHoldInBounce) {
  Axle arms = RadiusArms(1e12, 1e12), links = arms;
  arms.links.clear(), links.links.clear();
  for (Axle* axle : {&arms, &links}) {
    // A bar so long and level that it never moves the axle sideways by more than 1e-9 m.
    sample::AddSingle(axle->links, "track bar", {0.1, 3e6, 0.37}, {0.1, 0.0, 0.37});
  }
  links.radius_arms.clear();
  arms.radius_arms.resize(1);  // one arm holds the pitch; a plain link squares the axle
  const RadiusArm arm = arms.radius_arms[0];
  sample::AddSingle(links.links, "first", arm.p_CP, arm.p_CQ[0]);
  sample::AddSingle(links.links, "second", arm.p_CP, arm.p_CQ[1]);
  for (Axle* axle : {&arms, &links}) {
    sample::AddSingle(axle->links, "square", {-0.9, -0.4, 0.45}, {0.0, -0.42, 0.3725});
  }
  const AxleFrame a = PrepareAxle(arms), b = PrepareAxle(links);
  const double z = a.measured.z + 0.06;
  const Pose one = MovePose(a, EvaluateMotion(a, a.measured), z, 0.0).pose;
  const Pose two = MovePose(b, EvaluateMotion(b, b.measured), z, 0.0).pose;
  // Links to eyes nearly in a row hold their common point by a sliver, so the two agree where both
  // are exact: lengths eye to eye.
  const Eigen::Isometry3d X = Transform(one);
  for (const Vector3d& eye : arm.p_CQ) {
    EXPECT_NEAR((X * OnHousing(a, eye) - arm.p_CP).norm(), (eye - arm.p_CP).norm(), 2e-6);
  }
  EXPECT_NEAR(one.x, two.x, 1e-4);
}

TEST(RadiusArm, MembersCarryTheForcesOfItsOwnRest) {
  const AxleFrame frame = PrepareAxle(RadiusArms(4e6, 2e6));
  const HousingMotion from = EvaluateMotion(frame, frame.measured);
  const HousingMotion rolled =
      EvaluateMotion(frame, MovePose(frame, from, frame.measured.z, 0.08).pose);
  const std::vector<MemberForce> forces = MemberForces(frame, rolled.pose, rolled.link_forces);
  const std::vector<std::string> names = ArmMemberNames(RadiusArms(4e6, 2e6));
  ASSERT_EQ(forces.size(), names.size() + 1);
  for (size_t i = 0; i < names.size(); ++i) EXPECT_EQ(forces[i + 1].name, names[i]);
  std::vector<double> moved(frame.links.size());
  LinkResiduals(frame.links, rolled.pose, moved.data(), nullptr);
  const ArmStrain<double> own = StrainOf<double>(*frame.links[1].arm, {moved[1], moved[2]});
  const auto size = [](const std::array<double, 2>& f) { return std::hypot(f[0], f[1]); };
  EXPECT_NEAR(forces[1].force, size(own.tension), 1e-6);
  EXPECT_NEAR(forces[2].force, size(own.eye[0]), 1e-6);
  EXPECT_NEAR(forces[3].force, size(own.eye[1]), 1e-6);
  // The first order of the turn would be off by far more than rounding: half the force and a
  // couple.
  const double couple = 0.9 * std::abs(own.tension[1]) / 0.17;
  EXPECT_GT(std::abs(forces[2].force - couple), 0.01 * forces[2].force);
}

// Both links' stretch with the crank at an angle, by turning its ends outright.
std::array<double, 2> StretchAtAngle(const WattsLink& watt, const AxleFrame& frame,
                                     const Pose& pose, double angle) {
  const Eigen::Isometry3d X = Transform(pose) * frame.X_CA.inverse();  // what the housing has done
  const Eigen::AngleAxisd turn(angle, watt.axis.normalized());
  std::array<double, 2> stretch{};
  for (size_t i = 0; i < 2; ++i) {
    Vector3d end = watt.pivot + turn * (watt.end[i] - watt.pivot), far = watt.far[i];
    (watt.on_housing ? end : far) = X * (watt.on_housing ? end : far);
    stretch[i] = (end - far).norm() - (watt.end[i] - watt.far[i]).norm();
  }
  return stretch;
}

// The least sum of squared stretches over the crank's angle, by bisection of its slope.
double LeastSquares(const WattsLink& watt, const AxleFrame& frame, const Pose& pose) {
  const auto sum = [&](double angle) {
    const auto r = StretchAtAngle(watt, frame, pose, angle);
    return r[0] * r[0] + r[1] * r[1];
  };
  double low = -1.0, high = 1.0;
  for (int i = 0; i < 200; ++i) {
    const double a = low + (high - low) / 3.0, b = high - (high - low) / 3.0;
    (sum(a) < sum(b) ? high : low) = sum(a) < sum(b) ? b : a;
  }
  return std::sqrt(sum(0.5 * (low + high)));
}

TEST(WattsLink, KeepsBothLinksAtTheirLengthsForSomeAngleOfItsCrank) {
  for (const bool on_housing : {true, false}) {
    const Axle axle = ThreeArmsAndWatt(on_housing);
    const AxleFrame frame = PrepareAxle(axle);
    const HousingMotion from = EvaluateMotion(frame, frame.measured);
    for (const double travel : {-0.09, -0.04, 0.05, 0.1}) {
      for (const double roll : {-0.08, 0.0, 0.1}) {
        const PoseSolution there = MovePose(frame, from, frame.measured.z + travel, roll);
        ASSERT_EQ(there.status, SolveStatus::kConverged);
        EXPECT_LT(LeastSquares(axle.watts_links[0], frame, there.pose), 1e-7);
      }
    }
  }
}

TEST(WattsLink, StoresTheLeastEnergyItsCrankCanTurnTo) {
  const Axle axle = ThreeArmsAndWatt(true);
  const AxleFrame frame = PrepareAxle(axle);
  for (const double aside : {-0.02, -0.004, 0.002, 0.007, 0.015}) {
    Pose pose = OffPose(frame);
    pose.y += aside;
    std::vector<double> residuals(frame.links.size());
    LinkResiduals(frame.links, pose, residuals.data(), nullptr);
    EXPECT_NEAR(std::abs(residuals.back()), LeastSquares(axle.watts_links[0], frame, pose),
                kSearchTol);
  }
}

TEST(WattsLink, GuidesItsPivotStraightWhereATrackBarSwings) {
  Axle axle = sample::EqualParallelLinks(0.6, 0.9);
  axle.links.pop_back();  // the cross link
  WattsLink watt = Watt(true);
  const Vector3d centre = 0.5 * (axle.p_CW_l + axle.p_CW_r);
  watt.axis = Vector3d::UnitX();
  watt.pivot = centre;
  watt.end = {centre + Vector3d(0, 0, 0.08), centre - Vector3d(0, 0, 0.08)};
  watt.far = {watt.end[0] + Vector3d(0, 0.45, 0), watt.end[1] - Vector3d(0, 0.45, 0)};
  axle.watts_links = {watt};
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion from = EvaluateMotion(frame, frame.measured);
  EXPECT_NEAR(from.q[kY].z, 0.0, kSumTol);
  EXPECT_NEAR(from.q[kY].zz, 0.0, kSumTol);  // symmetry: even orders vanish
  const Pose up = MovePose(frame, from, frame.measured.z + 0.08, 0.0).pose;
  const double bar = 0.9 - std::sqrt(0.9 * 0.9 - 0.08 * 0.08);  // a level bar of 0.9 m: 3.6 mm
  EXPECT_LT(std::abs(up.y - frame.measured.y), 0.1 * bar);
  EXPECT_GT(std::abs(up.y - frame.measured.y), 0.0);  // an approximate straight line
}

TEST(WattsLink, RollsTheAxleAboutItsPivot) {
  const Axle axle = ThreeArmsAndWatt(true);
  const AxleFrame frame = PrepareAxle(axle);
  const HousingMotion motion = EvaluateMotion(frame, frame.measured);
  // With links level and ends upright the pivot stays put sideways, whatever the roll.
  WattsLink level = axle.watts_links[0];
  level.axis = Vector3d::UnitX();
  level.end = {level.pivot + Vector3d(0, 0, 0.08), level.pivot - Vector3d(0, 0, 0.08)};
  level.far = {level.end[0] + Vector3d(0, 0.45, 0), level.end[1] - Vector3d(0, 0.45, 0)};
  Axle upright = axle;
  upright.watts_links = {level};
  const AxleFrame held = PrepareAxle(upright);
  const HousingMotion rolling = EvaluateMotion(held, held.measured);
  EXPECT_NEAR(MotionOf(rolling, OnHousing(held, level.pivot))[1].r, 0.0, kSumTol);
  EXPECT_NE(MotionOf(motion, OnHousing(frame, {-2.7, 0.0, 0.36}))[1].r, 0.0);
}

TEST(Arms, RefuseWhatCannotHold) {
  Axle row = RadiusArms(4e6, 2e6);
  row.radius_arms[0].p_CQ[1] = row.radius_arms[0].p_CQ[0] + Vector3d(0, 0.05, 0);
  EXPECT_THROW((void)PrepareAxle(row), ModelError);
  Axle dead = ThreeArmsAndWatt(true);
  dead.watts_links[0].far[0] = dead.watts_links[0].pivot + Vector3d(0, 0.03, 0.24);
  EXPECT_THROW((void)PrepareAxle(dead), ModelError);
  Axle flat = ThreeArmsAndWatt(true);
  flat.watts_links[0].axis.setZero();
  EXPECT_THROW((void)PrepareAxle(flat), ModelError);
}

}  // namespace
}  // namespace linkwright
