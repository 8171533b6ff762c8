// SPDX-License-Identifier: MIT
#include "solver/pose/arms.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/model/error.h"
#include "solver/numeric/dual.h"

namespace linkwright {

void AddLeg(AxleFrame& frame, const Span& span, double length, double rate, const std::string& name,
            const std::vector<std::string>& part) {
  if (!(MeasuredLength(span) > 0.0)) {
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

constexpr std::array kLegs{" first leg", " second leg"};

}  // namespace

Eigen::Matrix2d StiffnessOf(const FrameArm& arm, const std::array<double, 2>& stretch) {
  const auto tension = StrainOf<Dual<double, 2>>(arm, Variables(stretch)).tension;
  Eigen::Matrix2d stiffness;
  stiffness << tension[0].d[0], tension[0].d[1], tension[1].d[0], tension[1].d[1];
  return stiffness;
}

namespace {

FrameArm ArmAsItsPoints(const RadiusArm& arm, const AxleFrame& frame,
                        const std::vector<std::string>& part) {
  const std::array<Eigen::Vector3d, 2> eye{OnHousing(frame, arm.p_CQ[0]),
                                           OnHousing(frame, arm.p_CQ[1])};
  FrameArm made;
  made.mid = 0.5 * (eye[0] + eye[1]);
  made.bolt = Eigen::Vector3d::UnitY();
  const Eigen::Vector3d out = OnHousing(frame, arm.p_CP) - made.mid;
  made.aside = out.dot(made.bolt);
  const Eigen::Vector3d flat = out - made.aside * made.bolt;
  made.reach = flat.norm();
  constexpr double kShortest = 0.01;  // [m] less is no arm, and its direction is noise
  if (!(made.reach > kShortest)) {
    throw ModelError(part,
                     "seen from the side, its eye on the frame stands between its two eyes on "
                     "the axle, so it cannot hold the axle");
  }
  made.along = flat / made.reach;
  made.across = made.bolt.cross(made.along);
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d from = eye[i] - made.mid;
    made.eye[i] = {from.dot(made.along), from.dot(made.across)};
  }
  if (!((made.eye[1] - made.eye[0]).norm() > kShortest)) {
    throw ModelError(part, "seen from the side, its two eyes on the axle are one");
  }
  made.chassis_eye = arm.p_CP;
  made.frame_rate = arm.frame_rate;
  made.axle_rate = arm.axle_rate;
  return made;
}

// The arm as it was made, its two eyes on the housing in their places: it is turned until the line
// through its own lies along the line through theirs. docs/theory.md (108)
FrameArm ToFrameArm(const RadiusArm& arm, const AxleFrame& frame,
                    const std::vector<std::string>& part) {
  FrameArm placed = ArmAsItsPoints(arm, frame, part);
  if (!arm.made) return placed;
  RadiusArm as_made = arm;
  as_made.p_CP = arm.made->chassis_eye, as_made.p_CQ = arm.made->housing_eye;
  const FrameArm own = ArmAsItsPoints(as_made, frame, part);
  const auto in_A = [](const FrameArm& it, const Eigen::Vector2d& p) -> Eigen::Vector3d {
    return p.x() * it.along + p.y() * it.across;
  };
  const std::array<Eigen::Vector3d, 2> eye{in_A(placed, placed.eye[0]),
                                           in_A(placed, placed.eye[1])};
  const Eigen::Vector3d line = (eye[1] - eye[0]).normalized();
  const Eigen::Vector2d own_line = (own.eye[1] - own.eye[0]).normalized();
  placed.reach = own.reach, placed.aside = own.aside;
  placed.along = own_line.x() * line - own_line.y() * placed.bolt.cross(line);
  placed.across = placed.bolt.cross(placed.along);
  for (size_t i = 0; i < 2; ++i) {
    placed.eye[i] = {eye[i].dot(placed.along), eye[i].dot(placed.across)};
  }
  return placed;
}

constexpr std::array kWays{" along", " across"};

void AddRadiusArm(const RadiusArm& arm, const std::vector<std::string>& part, AxleFrame& frame) {
  const FrameArm made = ToFrameArm(arm, frame, part);
  const Eigen::Matrix2d stiffness = StiffnessOf(made, {0.0, 0.0});
  for (size_t way = 0; way < 2; ++way) {
    const auto k = static_cast<Eigen::Index>(way);
    FrameLink link;
    link.p_CP = arm.p_CP;
    link.p_AQ = made.mid;
    link.length = made.reach;
    link.rate = stiffness(k, k);
    link.name = DisplayName(arm.name) + kWays[way];
    link.part = part;
    link.arm = made;
    link.arm_way = way;
    frame.links.push_back(std::move(link));
  }
  const size_t n = frame.links.size();
  frame.couplings.push_back({.first = n - 2, .second = n - 1, .rate = stiffness(0, 1)});
}

}  // namespace

void AddArms(const Axle& axle, AxleFrame& frame) {
  for (const AArm& arm : axle.a_arms) {
    const std::vector<std::string> part{"axles", axle.name, "a_arms", arm.name.key};
    for (size_t i = 0; i < 2; ++i) {
      const Span leg{arm.p_CP[i], arm.p_CQ};
      AddLeg(frame, leg, LegLengths(arm)[i], arm.rate, DisplayName(arm.name) + kLegs[i], part);
    }
  }
  for (const RadiusArm& arm : axle.radius_arms) {
    AddRadiusArm(arm, {"axles", axle.name, "radius_arms", arm.name.key}, frame);
  }
}

namespace {

// How fast a link lengthens as its crank turns, as measured [m/rad].
double LengtheningPerTurn(const WattsLink& watt, size_t i) {
  const CrankShape made = ShapeOf(watt);
  const Eigen::Vector3d motion = watt.axis.normalized().cross(made.end[i] - made.pivot);
  return (made.end[i] - made.far[i]).normalized().dot(motion);
}

FrameCrank ToCrank(const WattsLink& watt, const AxleFrame& frame) {
  const auto in_body = [&](bool housing, const Eigen::Vector3d& p) -> Eigen::Vector3d {
    return housing ? OnHousing(frame, p) : p;
  };
  FrameCrank crank;
  crank.on_housing = watt.on_housing;
  crank.pivot = in_body(watt.on_housing, watt.pivot);
  const Eigen::Vector3d axis = watt.axis.normalized();
  crank.axis = watt.on_housing ? frame.X_CA.linear().transpose() * axis : axis;
  for (size_t i = 0; i < 2; ++i) {
    crank.end[i] = in_body(watt.on_housing, watt.end[i]);
    crank.far[i] = in_body(!watt.on_housing, watt.far[i]);
    crank.length[i] = (watt.end[i] - watt.far[i]).norm();
  }
  if (watt.made) {
    // The same crank on its pivot, with the same links: the first says how far it is turned.
    for (size_t i = 0; i < 2; ++i) {
      const Eigen::Vector3d arm = watt.made->end[i] - watt.made->pivot;
      crank.end[i] = crank.pivot + (watt.on_housing ? frame.X_CA.linear().transpose() * arm : arm);
      crank.length[i] = (watt.made->end[i] - watt.made->far[i]).norm();
    }
  }
  // At no turn A = D and the root is |B|, so the sine is 0 on the branch against B's sign, which is
  // that of the lengthening.
  crank.branch = LengtheningPerTurn(watt, 0) > 0.0 ? -1.0 : 1.0;
  return crank;
}

// What the three bushings of an arm carry under a force at its chassis eye. The two on the housing
// give alike, so between them they carry half the force each and, one against the other, what the
// arm's turn parts them by; the moments about their midpoint tell the turn. docs/theory.md (102)
std::array<double, 3> EyeForces(const FrameArm& arm, const Eigen::Vector2d& at_chassis) {
  const Eigen::Vector2d line = arm.eye[0] - arm.eye[1];
  const double turn =
      std::atan2(arm.reach * at_chassis.y(),
                 0.5 * arm.axle_rate * line.squaredNorm() + arm.reach * at_chassis.x());
  const Eigen::Vector2d parted = line - Eigen::Rotation2Dd(turn) * line;
  const Eigen::Vector2d against = 0.5 * arm.axle_rate * parted;
  return {at_chassis.norm(), (0.5 * at_chassis - against).norm(),
          (0.5 * at_chassis + against).norm()};
}

// What share of the crank's pull each of its links carries. docs/theory.md (104)
std::array<double, 2> CrankShares(const FrameCrank& crank, const Pose& pose) {
  const CrankLinks<double> links =
      BalancedLinks(crank, Vector3<double>{pose.x, pose.y, pose.z}, RotationOf(pose));
  const auto [first, second] = links.growth;
  const double both = std::hypot(first, second);
  return {-second / both, first / both};
}

constexpr std::array kEyes{" frame eye", " first eye", " second eye"};
constexpr std::array kCrankLinks{" first link", " second link"};

}  // namespace

std::vector<MemberForce> MemberForces(const AxleFrame& frame, const Pose& pose,
                                      const std::vector<double>& tension) {
  std::vector<MemberForce> forces;
  for (size_t i = 0; i < tension.size(); ++i) {
    const FrameLink& link = frame.links[i];
    if (link.crank) {
      const std::array<double, 2> share = CrankShares(*link.crank, pose);
      for (size_t k = 0; k < 2; ++k) {
        forces.push_back({link.name + kCrankLinks[k], share[k] * tension[i]});
      }
      continue;
    }
    if (!link.arm) {
      forces.push_back({link.name, tension[i]});
    } else if (link.arm_way == 1) {
      const std::array<double, 3> force = EyeForces(*link.arm, {tension[i - 1], tension[i]});
      const std::string arm = link.name.substr(0, link.name.size() - std::string(kWays[1]).size());
      for (size_t k = 0; k < 3; ++k) forces.push_back({arm + kEyes[k], force[k]});
    }
  }
  return forces;
}

std::vector<double> AxialForces(const AxleFrame& frame, const Pose& pose,
                                const std::vector<double>& tension) {
  std::vector<double> forces;
  for (size_t i = 0; i < tension.size(); ++i) {
    const FrameLink& link = frame.links[i];
    if (link.crank) {
      for (const double share : CrankShares(*link.crank, pose)) {
        forces.push_back(share * tension[i]);
      }
    } else if (!link.arm || link.arm_way == 0) {
      forces.push_back(tension[i]);
    }
  }
  return forces;
}

std::vector<std::string> ArmMemberNames(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  const std::vector<double> slack(frame.links.size(), 0.0);
  std::vector<std::string> names;
  for (MemberForce& member : MemberForces(frame, frame.measured, slack)) {
    names.push_back(std::move(member.name));
  }
  names.erase(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(axle.links.size()));
  return names;
}

double GreatestMemberForce(const AxleFrame& frame, const Pose& pose,
                           const std::vector<double>& tension) {
  double greatest = 0.0;
  for (const MemberForce& member : MemberForces(frame, pose, tension)) {
    greatest = std::max(greatest, std::abs(member.force));
  }
  return greatest;
}

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
