// SPDX-License-Identifier: MIT
// Every residual's derivatives against Ceres' own differentiation, automatic and numeric.
#include "solver/pose/link_equations.h"

#include <ceres/autodiff_cost_function.h>
#include <ceres/dynamic_cost_function.h>
#include <ceres/gradient_checker.h>
#include <gtest/gtest.h>

#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kCheckerGate = 1e-9;  // [-] relative; Ceres' Ridders differences reach 1e-12 here
constexpr double kExactTol = 1e-14;    // [m, m/m, m/rad] the same sums in another order

// A pose off every special place: no angle zero, no residual zero.
Pose OffPose(const AxleFrame& frame) {
  Pose pose = frame.measured;
  pose.x += 0.011, pose.y -= 0.017, pose.z += 0.06;
  pose.steer += 0.02, pose.pitch -= 0.05, pose.roll += 0.07;
  return pose;
}

// The residual as a template, by the six numbers of a pose: x, y, steer, pitch, z, roll.
struct SixNumberResidual {
  FrameLink link;
  template <typename T>
  bool operator()(const T* q, T* residual) const {
    residual[0] =
        LinkResidual(link, std::array<T, 3>{q[0], q[1], q[4]}, HousingRotation(q[2], q[5], q[3]));
    return true;
  }
};

// The hand-written residuals and Jacobian as a cost function of the four unknowns.
class FourUnknowns : public ceres::CostFunction {
 public:
  FourUnknowns(AxleFrame frame, const Pose& at) : frame_(std::move(frame)), at_(at) {
    set_num_residuals(static_cast<int>(frame_.links.size()));
    mutable_parameter_block_sizes()->push_back(4);
  }
  bool Evaluate(double const* const* q, double* residuals, double** jacobians) const override {
    Pose pose = at_;
    pose.x = q[0][0], pose.y = q[0][1], pose.steer = q[0][2], pose.pitch = q[0][3];
    const auto n = static_cast<Eigen::Index>(frame_.links.size());
    Eigen::Matrix<double, Eigen::Dynamic, 4> J(n, 4);
    const bool wanted = jacobians != nullptr && jacobians[0] != nullptr;
    LinkResiduals(frame_.links, pose, residuals, wanted ? J.data() : nullptr);
    if (!wanted) return true;
    using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, 4, Eigen::RowMajor>;
    Eigen::Map<RowMajor>(jacobians[0], n, 4) = J;
    return true;
  }

 private:
  AxleFrame frame_;
  Pose at_;
};

// The four equations a pose satisfies and their slope.
class Equations : public ceres::SizedCostFunction<4, 4> {
 public:
  Equations(AxleFrame frame, const Pose& at) : frame_(std::move(frame)), at_(at) {}
  bool Evaluate(double const* const* q, double* residuals, double** jacobians) const override {
    const PoseEquations<Taylor> equations = EvaluateEquations(
        frame_, {Constant(q[0][0]), Constant(q[0][1]), Constant(q[0][2]), Constant(q[0][3])},
        Constant(at_.z), Constant(at_.roll));
    for (size_t i = 0; i < 4; ++i) residuals[i] = equations.F[i].v;
    if (jacobians == nullptr || jacobians[0] == nullptr) return true;
    using RowMajor = Eigen::Matrix<double, 4, 4, Eigen::RowMajor>;
    Eigen::Map<RowMajor> slope(jacobians[0]);
    slope = equations.slope;
    return true;
  }

 private:
  AxleFrame frame_;
  Pose at_;
};

testing::AssertionResult DerivativesHold(const ceres::CostFunction& function, const double* at) {
  const std::vector<const ceres::Manifold*>* none = nullptr;
  ceres::NumericDiffOptions options;
  options.ridders_relative_initial_step_size =
      1e-3;  // [-] or some mm: links here are 300 to 900 mm
  const ceres::GradientChecker checker(&function, none, options);
  ceres::GradientChecker::ProbeResults results;
  if (checker.Probe(&at, kCheckerGate, &results)) return testing::AssertionSuccess();
  return testing::AssertionFailure() << results.error_log;
}

const std::vector<Axle>& Axles() {
  static const std::vector<Axle> axles{sample::TriangulatedRear(), sample::ThreeLinkTrackBar(),
                                       sample::FourArmsTrackBar(4e5), sample::HarbourVan().axles[0],
                                       sample::HarbourVan().axles[1]};
  return axles;
}

TEST(LinkResidual, TemplatePassesTheGradientChecker) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const Pose p = OffPose(frame);
    const std::array<double, 6> at{p.x, p.y, p.steer, p.pitch, p.z, p.roll};
    for (const FrameLink& link : frame.links) {
      const ceres::AutoDiffCostFunction<SixNumberResidual, 1, 6> function(
          new SixNumberResidual{link});
      EXPECT_TRUE(DerivativesHold(function, at.data()));
    }
  }
}

TEST(LinkResiduals, JacobianPassesTheGradientChecker) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const Pose pose = OffPose(frame);
    EXPECT_TRUE(DerivativesHold(FourUnknowns(frame, pose), check::FourOf(pose).data()));
  }
}

TEST(LinkResiduals, AgreeWithTheTemplateAndItsAutomaticDerivatives) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const Pose p = OffPose(frame);
    const std::array<double, 6> at{p.x, p.y, p.steer, p.pitch, p.z, p.roll};
    const double* block = at.data();
    const auto n = static_cast<Eigen::Index>(frame.links.size());
    Eigen::VectorXd residuals(n);
    Eigen::Matrix<double, Eigen::Dynamic, 4> J(n, 4);
    LinkResiduals(frame.links, p, residuals.data(), J.data());
    for (Eigen::Index i = 0; i < n; ++i) {
      const ceres::AutoDiffCostFunction<SixNumberResidual, 1, 6> function(
          new SixNumberResidual{frame.links[static_cast<size_t>(i)]});
      double residual = 0.0;
      std::array<double, 6> gradient{};
      double* row = gradient.data();
      ASSERT_TRUE(function.Evaluate(&block, &residual, &row));
      EXPECT_NEAR(residuals[i], residual, kExactTol);
      EXPECT_TRUE(
          Near(J.row(i).transpose(), Eigen::Map<Eigen::Vector4d>(gradient.data()), kExactTol));
    }
  }
}

TEST(LinkResiduals, AreStretchOfTheLinks) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  const Pose pose = OffPose(frame);
  Eigen::Vector4d residuals;
  LinkResiduals(frame.links, pose, residuals.data(), nullptr);
  for (Eigen::Index i = 0; i < 4; ++i) {
    const FrameLink& link = frame.links[static_cast<size_t>(i)];
    EXPECT_NEAR(residuals[i], (Transform(pose) * link.p_AQ - link.p_CP).norm() - link.length,
                kExactTol);
  }
}

TEST(PoseEquations, SlopePassesTheGradientChecker) {
  for (const Axle& axle : Axles()) {
    const AxleFrame frame = PrepareAxle(axle);
    const Pose pose = OffPose(frame);
    EXPECT_TRUE(DerivativesHold(Equations(frame, pose), check::FourOf(pose).data()));
  }
}

// With more than four links the equations are the gradient of the strain energy over the greatest
// rate.
TEST(PoseEquations, AreTheStrainGradientBeyondFourLinks) {
  const AxleFrame frame = PrepareAxle(sample::FourArmsTrackBar(4e5));
  const Pose pose = OffPose(frame);
  Eigen::Matrix<double, 5, 1> residuals;
  Eigen::Matrix<double, 5, 4> J;
  LinkResiduals(frame.links, pose, residuals.data(), J.data());
  Eigen::Matrix<double, 5, 1> weight;
  weight << 1.0, 1.0, 1.0, 1.0, 4e5 / 5e6;
  const PoseEquations<Taylor> equations = EvaluateEquations(
      frame, {Constant(pose.x), Constant(pose.y), Constant(pose.steer), Constant(pose.pitch)},
      Constant(pose.z), Constant(pose.roll));
  const Eigen::Vector4d F(equations.F[0].v, equations.F[1].v, equations.F[2].v, equations.F[3].v);
  EXPECT_TRUE(Near(F, J.transpose() * weight.asDiagonal() * residuals, kExactTol));
}

}  // namespace
}  // namespace linkwright
