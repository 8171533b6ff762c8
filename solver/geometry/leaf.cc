// SPDX-License-Identifier: MIT
#include "solver/geometry/leaf.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/numeric/roots.h"

namespace linkwright {
namespace {

constexpr double kSmallTurn = 1e-4;  // [rad] below it two terms of the series are exact in double

// sin(x)/x
double Sinc(double x) { return std::abs(x) < kSmallTurn ? 1.0 - x * x / 6.0 : std::sin(x) / x; }

double Clamped(const LeafSpring& spring) { return spring.clamped / 2.0; }

// Rise of a half leaf's end over the clamp, without the eye [m].
double Rise(double length, double curvature) {
  const double half_turn = curvature * length / 2.0;
  return length * std::sin(half_turn) * Sinc(half_turn);
}

// The eye of the half that runs forward from the bolt.
Eigen::Vector2d HalfEye(double arc, double clamped, double curvature, double eye_up) {
  const double length = arc - clamped;
  const double turn = curvature * length;
  return {clamped + length * Sinc(turn) - eye_up * std::sin(turn),
          Rise(length, curvature) + eye_up * std::cos(turn)};
}

double HeadingOf(const Eigen::Vector2d& p) { return std::atan2(p.y(), p.x()); }

// The shackled eye: where the circle about the fixed eye meets the shackle's.
std::optional<Eigen::Vector2d> ShackledEye(const LeafSpring& spring, double eyes_apart) {
  const Eigen::Vector2d between = spring.p_DS - spring.p_DF;
  const double d = between.norm();
  if (d == 0.0) return std::nullopt;
  const double along =
      (eyes_apart * eyes_apart - spring.shackle * spring.shackle + d * d) / (2.0 * d);
  const double square = eyes_apart * eyes_apart - along * along;
  if (square < 0.0) return std::nullopt;
  const Eigen::Vector2d u = between / d;
  Eigen::Vector2d down(u.y(), -u.x());
  if (down.y() > 0.0) down = -down;
  return Eigen::Vector2d(spring.p_DF + along * u +
                         (spring.hangs ? 1.0 : -1.0) * std::sqrt(square) * down);
}

double Lean(const LeafSpring& spring, const Eigen::Vector2d& p_DE) {
  const Eigen::Vector2d to_eye = p_DE - spring.p_DS;
  return std::atan2(-to_eye.x(), spring.hangs ? -to_eye.y() : to_eye.y());
}

double Swing(const LeafSpring& spring, const Eigen::Vector2d& p_DE) {
  const Eigen::Vector2d shackle = p_DE - spring.p_DS;
  const Eigen::Vector2d eyes = p_DE - spring.p_DF;
  const double cross = shackle.x() * eyes.y() - shackle.y() * eyes.x();
  return std::atan2(std::abs(cross), std::abs(shackle.dot(eyes)));
}

}  // namespace

LeafShape BendLeaf(const LeafSpring& spring, double curvature) {
  LeafShape shape{
      HalfEye(spring.arc_fixed, Clamped(spring), curvature, spring.eye_up),
      HalfEye(spring.arc_shackled, Clamped(spring), curvature, spring.eye_up),
  };
  (spring.shackle_behind ? shape.p_BE : shape.p_BF).x() *= -1.0;
  return shape;
}

double CamberOf(const LeafShape& shape) {
  Eigen::Vector2d forward = shape.p_BF - shape.p_BE;
  if (forward.x() < 0.0) forward = -forward;
  return (forward.x() * shape.p_BE.y() - forward.y() * shape.p_BE.x()) / forward.norm();
}

std::optional<double> CurvatureFor(const LeafSpring& spring, double camber) {
  const double longest = std::max(spring.arc_fixed, spring.arc_shackled) - Clamped(spring);
  const double most = std::numbers::pi / 2.0 / longest;
  // Camber grows with curvature over this range: one root, to the last digit.
  const auto over = [&](double curvature) {
    return CamberOf(BendLeaf(spring, curvature)) - camber;
  };
  const SignChange wide{most, over(most), -most, over(-most)};
  if (wide.f_above < 0.0 || wide.f_below > 0.0) return std::nullopt;
  if (wide.f_above == 0.0) return most;
  return CloseIn(over, wide, 1e-16 * most).below;
}

std::optional<LeafPose> PoseLeaf(const LeafSpring& spring, double curvature) {
  const LeafShape shape = BendLeaf(spring, curvature);
  const Eigen::Vector2d p_FE_B = shape.p_BE - shape.p_BF;
  const std::optional<Eigen::Vector2d> p_DE = ShackledEye(spring, p_FE_B.norm());
  if (!p_DE) return std::nullopt;
  const double turned = HeadingOf(*p_DE - spring.p_DF) - HeadingOf(p_FE_B);
  const double tilt = std::remainder(turned, 2.0 * std::numbers::pi);
  const Eigen::Rotation2Dd turn(tilt);
  const Eigen::Vector2d p_DB = spring.p_DF - turn * shape.p_BF;
  const Eigen::Vector2d p_BW(0.0, spring.over_axle ? -spring.to_wheel : spring.to_wheel);
  return LeafPose{.camber = CamberOf(shape),
                  .curvature = curvature,
                  .eyes_apart = p_FE_B.norm(),
                  .p_DE = *p_DE,
                  .p_DB = p_DB,
                  .p_DW = p_DB + turn * p_BW,
                  .tilt = tilt,
                  .shackle_lean = Lean(spring, *p_DE),
                  .swing = Swing(spring, *p_DE)};
}

std::optional<double> LinkRule(const LeafSpring& spring, double curvature_from,
                               double curvature_to) {
  const double free_length = spring.arc_fixed - Clamped(spring);
  const double link = 0.75 * free_length;
  const double rise_from = Rise(free_length, curvature_from);
  const double rise_to = Rise(free_length, curvature_to);
  if (std::abs(rise_from) > link || std::abs(rise_to) > link) return std::nullopt;
  const double nearer =
      std::sqrt(link * link - rise_from * rise_from) - std::sqrt(link * link - rise_to * rise_to);
  return spring.shackle_behind ? nearer : -nearer;
}

}  // namespace linkwright
