// SPDX-License-Identifier: MIT
#include "solver/pose/arms.h"

#include <Eigen/LU>
#include <cmath>

#include "solver/model/error.h"
#include "solver/pose/dual.h"

namespace linkwright {

void AddLeg(AxleFrame& frame, const Span& span, double rate, const std::string& name,
            const std::vector<std::string>& part) {
  const double length = MeasuredLength(span);
  if (!(length > 0.0)) {
    throw ModelError(part, "the link has no length: its frame and axle ends are at one point");
  }
  FrameLink link;
  link.p_CP = span.p_CP;
  link.p_AQ = OnHousing(frame, span.p_CQ);
  link.length = length;
  link.rate = rate;
  link.name = name;
  link.part = part;
  frame.links.push_back(std::move(link));
}

namespace {

// Stiffness of the two legs: inverse of what a unit tension in each gives at the three bushings.
Eigen::Matrix2d LegStiffness(const RadiusArm& arm) {
  const Eigen::Vector3d first = (arm.p_CQ[0] - arm.p_CP).normalized();
  const Eigen::Vector3d second = (arm.p_CQ[1] - arm.p_CP).normalized();
  const double shared = 1.0 / arm.frame_rate, own = 1.0 / arm.axle_rate;
  Eigen::Matrix2d give;
  give << shared + own, shared * first.dot(second), shared * first.dot(second), shared + own;
  return give.inverse();
}

// Three eyes nearly in a row cannot hold the housing from turning about them.
void RequireTriangle(const RadiusArm& arm, const std::vector<std::string>& part) {
  const Eigen::Vector3d a = arm.p_CQ[0] - arm.p_CP, b = arm.p_CQ[1] - arm.p_CP;
  constexpr double kFlattest = 0.02;  // [rad] the least angle between its legs: 20 mm a metre
  if (!(a.cross(b).norm() > kFlattest * a.norm() * b.norm())) {
    throw ModelError(part,
                     "the arm's three eyes stand in a row; its two eyes on the axle must be apart, "
                     "seen from its eye on the frame");
  }
}

constexpr std::array kLegs{", first leg", ", second leg"};

}  // namespace

Eigen::Matrix2d StiffnessOf(const ArmGive& arm, const std::array<double, 2>& stretch) {
  const Dual<double> first{stretch[0], {1.0}}, second{stretch[1], {0.0, 1.0}};
  const std::array<Dual<double>, 2> tension = StrainOf<Dual<double>>(arm, {first, second}).tension;
  Eigen::Matrix2d stiffness;
  stiffness << tension[0].d[0], tension[0].d[1], tension[1].d[0], tension[1].d[1];
  return stiffness;
}

void AddArms(const Axle& axle, AxleFrame& frame) {
  for (const AArm& arm : axle.a_arms) {
    const std::vector<std::string> part{"axles", axle.name, "a_arms", arm.name.key};
    for (size_t i = 0; i < 2; ++i) {
      AddLeg(frame, {arm.p_CP[i], arm.p_CQ}, arm.rate, DisplayName(arm.name) + kLegs[i], part);
    }
  }
  for (const RadiusArm& arm : axle.radius_arms) {
    const std::vector<std::string> part{"axles", axle.name, "radius_arms", arm.name.key};
    RequireTriangle(arm, part);
    const double base = (arm.p_CQ[1] - arm.p_CQ[0]).norm();
    const Eigen::Matrix2d stiffness = LegStiffness(arm);
    for (size_t i = 0; i < 2; ++i) {
      const auto k = static_cast<Eigen::Index>(i);
      AddLeg(frame, {arm.p_CP, arm.p_CQ[i]}, stiffness(k, k), DisplayName(arm.name) + kLegs[i],
             part);
    }
    const size_t n = frame.links.size();
    frame.links[n - 2].coupled = frame.links[n - 1].coupled = true;
    frame.couplings.push_back(
        {.first = n - 2,
         .second = n - 1,
         .rate = stiffness(0, 1),
         .arm = {.base = base,
                 .length = {frame.links[n - 2].length, frame.links[n - 1].length},
                 .frame_rate = arm.frame_rate,
                 .axle_rate = arm.axle_rate}});
  }
}

namespace {

// How fast a link lengthens as its crank turns, as measured [m/rad].
double LengtheningPerTurn(const WattsLink& watt, size_t i) {
  const Eigen::Vector3d motion = watt.axis.normalized().cross(watt.end[i] - watt.pivot);
  return (watt.end[i] - watt.far[i]).normalized().dot(motion);
}

FrameCrank ToCrank(const WattsLink& watt, const AxleFrame& frame) {
  const auto on_carrier = [&](const Eigen::Vector3d& p) -> Eigen::Vector3d {
    return watt.on_housing ? OnHousing(frame, p) : p;
  };
  const auto on_other = [&](const Eigen::Vector3d& p) -> Eigen::Vector3d {
    return watt.on_housing ? p : OnHousing(frame, p);
  };
  FrameCrank crank;
  crank.on_housing = watt.on_housing;
  crank.pivot = on_carrier(watt.pivot);
  const Eigen::Vector3d axis = watt.axis.normalized();
  crank.axis = watt.on_housing ? frame.X_CA.linear().transpose() * axis : axis;
  for (size_t i = 0; i < 2; ++i) {
    crank.end[i] = on_carrier(watt.end[i]);
    crank.far[i] = on_other(watt.far[i]);
    crank.length[i] = (watt.end[i] - watt.far[i]).norm();
  }
  // At no turn A = D and the root is |B|, so the sine is 0 on the branch against B's sign, which is
  // that of the lengthening.
  crank.branch = LengtheningPerTurn(watt, 0) > 0.0 ? -1.0 : 1.0;
  return crank;
}

}  // namespace

void AddCranks(const Axle& axle, AxleFrame& frame) {
  for (const WattsLink& watt : axle.watts_links) {
    const std::vector<std::string> part{"axles", axle.name, "watts_links", watt.name};
    if (!(watt.axis.norm() > 0.0)) throw ModelError(part, "the pivot's axis has no direction");
    std::array<double, 2> turn{};
    for (size_t i = 0; i < 2; ++i) {
      turn[i] = LengtheningPerTurn(watt, i);
      constexpr double kShortestArm = 1e-3;  // [m] less, and the crank's angle is noise
      if (!(std::abs(turn[i]) > kShortestArm)) {
        throw ModelError(part,
                         "a link stands in line with its end of the crank and cannot turn it");
      }
    }
    FrameLink link;
    link.p_CP = link.p_AQ = Eigen::Vector3d::Zero();
    link.length = (watt.end[1] - watt.far[1]).norm();
    link.rate = watt.rate;
    link.name = watt.name;
    link.part = part;
    link.crank = ToCrank(watt, frame);
    frame.links.push_back(std::move(link));
  }
}

}  // namespace linkwright
