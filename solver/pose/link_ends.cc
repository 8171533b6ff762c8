// SPDX-License-Identifier: MIT
#include "solver/pose/link_ends.h"

#include <cmath>

#include "solver/numeric/decompositions.h"

namespace linkwright {
namespace {

// Turn of q about a unit axis (swing-twist decomposition) [rad].
double TurnAbout(const Eigen::Quaterniond& q, const Eigen::Vector3d& axis) {
  return std::remainder(2.0 * std::atan2(q.vec().dot(axis), q.w()), 2.0 * M_PI);
}

// The link's turn against one bracket, in the axes both had when measured.
JointTurn TurnOfJoint(const Eigen::Quaterniond& link_in_bracket, const Eigen::Vector3d& along,
                      const Eigen::Vector3d& bolt) {
  const Eigen::Vector3d bore = link_in_bracket * bolt;
  return {.swing = std::abs(TurnAbout(link_in_bracket, bolt)),
          .twist = TurnAbout(link_in_bracket, along),
          .misalignment = std::atan2(bolt.cross(bore).norm(), bolt.dot(bore))};
}

// Turns at both ends of a rod that runs from one body to another.
//   before, now   along it, when measured and now, as the first body sees it
//   other         turn of the second body since then, as the first sees it
//   bolt          of both joints when measured
LinkTurn TurnBetween(const Eigen::Vector3d& before, const Eigen::Vector3d& now,
                     const Eigen::Quaterniond& other, const Eigen::Vector3d& bolt) {
  // The rod follows its ends by the shortest turn, then rolls about itself until both joints are
  // twisted alike.
  const Eigen::Quaterniond shortest = ShortestTurn(before, now);
  const double twist = TurnAbout(shortest.conjugate() * other, before);
  const Eigen::Quaterniond turned = shortest * Eigen::AngleAxisd(0.5 * twist, before);
  return {.frame = TurnOfJoint(turned, before, bolt),
          .axle = TurnOfJoint(other.conjugate() * turned, before, bolt)};
}

// What is left of an axis square to a direction (unit).
Eigen::Vector3d SquareTo(const Eigen::Vector3d& along, const Eigen::Vector3d& axis) {
  return (axis - along * along.dot(axis)).normalized();
}

Eigen::Vector3d LevelBolt(const Eigen::Vector3d& along) {
  const Eigen::Vector3d level = Eigen::Vector3d::UnitZ().cross(along);
  if (level.norm() < 1e-6 * along.norm()) return Eigen::Vector3d::UnitY();
  return level.normalized();
}

// Since the measured stance, in C.
Eigen::Quaterniond HousingTurn(const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return Eigen::Quaterniond(Eigen::Matrix3d(X_CA.linear() * frame.X_CA.linear().transpose()));
}

void AddAArm(const AArm& arm, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
             std::vector<NamedJoint>& to) {
  const std::string name = DisplayName(arm.name);
  const Eigen::Vector3d axis = (arm.p_CP[1] - arm.p_CP[0]).normalized();
  const Eigen::Vector3d middle = 0.5 * (arm.p_CP[0] + arm.p_CP[1]);
  const Eigen::Vector3d before = arm.p_CQ - middle;
  const Eigen::Vector3d now = X_CA * OnHousing(frame, arm.p_CQ) - middle;
  const Eigen::Vector3d from = SquareTo(axis, before), onto = SquareTo(axis, now);
  const double turn = std::atan2(axis.dot(from.cross(onto)), from.dot(onto));
  for (const char* eye : {" first eye", " second eye"}) {
    to.push_back({name + eye, {.swing = std::abs(turn), .twist = 0.0, .misalignment = 0.0}});
  }
  const Eigen::Quaterniond turned(Eigen::AngleAxisd(turn, axis));
  to.push_back({name + " axle end", TurnOfJoint(HousingTurn(frame, X_CA).conjugate() * turned,
                                                before.normalized(), LevelBolt(before))});
}

void AddRadiusArm(const FrameArm& arm, const std::string& name, const AxleFrame& frame,
                  const Eigen::Isometry3d& X_CA, std::vector<NamedJoint>& to) {
  // In A: from the midpoint of its eyes to where its frame eye was, and is.
  const Eigen::Vector3d before = (arm.reach * arm.along + arm.aside * arm.bolt).normalized();
  const Eigen::Vector3d now = (X_CA.inverse() * arm.chassis_eye - arm.mid).normalized();
  const Eigen::Quaterniond in_A = ShortestTurn(before, now);
  const JointTurn on_housing = TurnOfJoint(in_A, before, arm.bolt);
  const Eigen::Quaterniond measured(Eigen::Matrix3d(frame.X_CA.linear()));
  const Eigen::Quaterniond in_C =
      HousingTurn(frame, X_CA) * (measured * in_A * measured.conjugate());
  to.push_back({name + " frame eye", TurnOfJoint(in_C, measured * before, measured * arm.bolt)});
  for (const char* eye : {" first eye", " second eye"}) to.push_back({name + eye, on_housing});
}

void AddCrank(const WattsLink& watt, const FrameCrank& crank, const AxleFrame& frame,
              const Pose& pose, std::vector<NamedJoint>& to) {
  const Eigen::Isometry3d X_CA = Transform(pose);
  const auto [cosine, sine] = BalancedAngle(crank, {pose.x, pose.y, pose.z}, RotationOf(pose));
  const double turn = std::atan2(sine, cosine);
  to.push_back(
      {watt.name + " pivot", {.swing = std::abs(turn), .twist = 0.0, .misalignment = 0.0}});
  const Eigen::Quaterniond housing = HousingTurn(frame, X_CA);
  const Eigen::Quaterniond carrier = crank.on_housing ? housing : Eigen::Quaterniond::Identity();
  const Eigen::Quaterniond other = crank.on_housing ? Eigen::Quaterniond::Identity() : housing;
  const Eigen::Vector3d axis = watt.axis.normalized();
  const Eigen::Quaterniond crank_turn = carrier * Eigen::AngleAxisd(turn, axis);
  const auto in_C = [&](bool on_housing, const Eigen::Vector3d& p) -> Eigen::Vector3d {
    return on_housing ? X_CA * p : p;
  };
  const Eigen::Vector3d pivot = in_C(crank.on_housing, crank.pivot);
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d far = in_C(!crank.on_housing, crank.far[i]);
    const Eigen::Vector3d end = pivot + crank_turn * (watt.end[i] - watt.pivot);
    const Eigen::Vector3d before = (watt.end[i] - watt.far[i]).normalized();
    const Eigen::Vector3d now = (other.conjugate() * (end - far)).normalized();
    const LinkTurn link =
        TurnBetween(before, now, other.conjugate() * crank_turn, SquareTo(before, axis));
    const std::string name = watt.name + (i == 0 ? " first link" : " second link");
    to.push_back({name + " far end", link.frame});
    to.push_back({name + " crank end", link.axle});
  }
}

}  // namespace

LinkTurn TurnOfLink(const AxleFrame& frame, const FrameLink& link, const Eigen::Vector3d& bolt,
                    const Eigen::Isometry3d& X_CA) {
  const Eigen::Vector3d before = (frame.X_CA * link.p_AQ - link.p_CP).normalized();
  const Eigen::Vector3d now = (X_CA * link.p_AQ - link.p_CP).normalized();
  return TurnBetween(before, now, HousingTurn(frame, X_CA), bolt);
}

std::vector<std::string> ArmJointNames(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  std::vector<std::string> names;
  for (NamedJoint& joint : TurnsOfArms(axle, frame, frame.measured)) {
    names.push_back(std::move(joint.name));
  }
  return names;
}

std::vector<NamedJoint> TurnsOfArms(const Axle& axle, const AxleFrame& frame, const Pose& pose) {
  std::vector<NamedJoint> joints;
  const Eigen::Isometry3d X_CA = Transform(pose);
  for (const AArm& arm : axle.a_arms) AddAArm(arm, frame, X_CA, joints);
  // Radius arms stand twice among the links, one entry a way; cranks once, in the file's order.
  auto arm = axle.radius_arms.begin();
  auto watt = axle.watts_links.begin();
  for (const FrameLink& link : frame.links) {
    if (link.arm && link.arm_way == 0) {
      AddRadiusArm(*link.arm, DisplayName((arm++)->name), frame, X_CA, joints);
    }
    if (link.crank) AddCrank(*watt++, *link.crank, frame, pose, joints);
  }
  return joints;
}

Eigen::Vector3d UsualBolt(const FrameLink& link, const AxleFrame& frame) {
  return LevelBolt(frame.X_CA * link.p_AQ - link.p_CP);
}

}  // namespace linkwright
