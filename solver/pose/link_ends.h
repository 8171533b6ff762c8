// SPDX-License-Identifier: MIT
// How far each end of a link has turned in its bracket since the measured stance.
#pragma once

#include "solver/pose/axle_frame.h"

namespace linkwright {

// One joint: the bracket's bolt against the link's eye.
//   swing         of the link about the bolt, the way a bushing or rod end likes to move [rad, >=
//   0] twist         about the link's own length; the two ends share it equally [rad, signed]
//   misalignment  between the bolt and the bore of the eye: what a rod end's clevis must clear and
//   a
//                 rubber bushing takes as cone and twist together [rad, >= 0]
struct JointTurn {
  double swing, twist, misalignment;
};

struct LinkTurn {
  JointTurn frame, axle;
};

// Turns of both joints of a link at a housing pose.
//   bolt     direction of the bolts in C in the measured stance (unit), square to the link; see
//            UsualBolt
//   source   docs/theory.md (9)
[[nodiscard]] LinkTurn TurnOfLink(const AxleFrame& frame, const FrameLink& link,
                                  const Eigen::Vector3d& bolt, const Eigen::Isometry3d& X_CA);

// A joint of an arm or of a bell crank.
struct NamedJoint {
  std::string name;  // "radius arm left first eye", "watt first link frame end"
  JointTurn turn;
};

// Turns of every joint of an axle's A-arms, radius arms and Watt's links at a housing pose.
//   A-arm        its eyes turn about the line through both; its point as a link's end, about a
//   level
//                bolt square to the arm
//   radius arm   its eyes on the housing turn about their bolts, along the axle; its eye on the
//                frame, about a bolt that stood alike, takes the whole of the twist
//   Watt's link  the pivot turns about its own axis; each link as a plain one between the crank and
//                the other body, its bolts along that axis
//   source       docs/theory.md (9)
[[nodiscard]] std::vector<NamedJoint> TurnsOfArms(const Axle& axle, const AxleFrame& frame,
                                                  const Pose& pose);

// Their names, in the same order.
[[nodiscard]] std::vector<std::string> ArmJointNames(const Axle& axle);

// The bolt most brackets have: level and square to the link. A vertical link takes the lateral one.
[[nodiscard]] Eigen::Vector3d UsualBolt(const FrameLink& link, const AxleFrame& frame);

}  // namespace linkwright
