// SPDX-License-Identifier: MIT
#include "solver/geometry/driveshaft.h"

#include <cmath>

#include "solver/model/error.h"
#include "solver/numeric/minima.h"

namespace linkwright {
namespace {

// Direction of a shaft end from its body toward its yoke: ahead (+1) or behind (-1), raised by
// angle.
Eigen::Vector3d YokeDirection(double toward, double angle) {
  return {toward * std::cos(angle), 0.0, std::sin(angle)};
}

// One piece more, from the last joint to the next.
void AddPiece(const Driveshaft& shaft, const Eigen::Vector3d& p_From, const Eigen::Vector3d& p_To,
              double phase, JointKind joint, DriveshaftLine& line) {
  const Eigen::Vector3d piece = p_To - p_From;
  const double length = piece.norm();
  if (!(length > 0.0)) {
    throw ModelError({"driveshafts", shaft.name, "output"},
                     "both joints of the shaft are at one point");
  }
  line.length.push_back(length);
  line.chain.along.emplace_back(piece / length);
  line.chain.joints.push_back(joint);
  line.chain.phase.push_back(phase);
}

}  // namespace

DriveshaftLine LineOf(const Driveshaft& shaft, const Axle& axle, const AxleFrame& frame,
                      const Eigen::Isometry3d& X_CA) {
  if (!axle.pinion) {
    throw ModelError({"driveshafts", shaft.name, "axle"},
                     "the " + axle.name + " axle has no pinion for this shaft to drive");
  }
  const Pinion& pinion = *axle.pinion;
  const Eigen::Vector3d p_CY = X_CA * OnHousing(frame, pinion.p_CY);
  const double toward_axle = pinion.p_CY.x() > shaft.p_CO.x() ? 1.0 : -1.0;
  DriveshaftLine line{.chain = {}, .length = {}, .yoke_ahead = false};
  line.chain.along = {YokeDirection(toward_axle, shaft.output_angle)};
  if (shaft.center_bearing) {
    const CenterBearing& bearing = *shaft.center_bearing;
    AddPiece(shaft, shaft.p_CO, bearing.p_CB, bearing.phase, shaft.output_joint, line);
    AddPiece(shaft, bearing.p_CB, p_CY, shaft.phase, bearing.joint, line);
  } else {
    AddPiece(shaft, shaft.p_CO, p_CY, shaft.phase, shaft.output_joint, line);
  }
  line.yoke_ahead = pinion.p_CY.x() > frame.measured.x;
  const Eigen::Vector3d pinion_in_A =
      frame.X_CA.linear().transpose() * YokeDirection(line.yoke_ahead ? 1.0 : -1.0, pinion.angle);
  line.chain.along.emplace_back(-(X_CA.linear() * pinion_in_A));
  line.chain.joints.push_back(shaft.axle_joint);
  line.chain.phase.push_back(0.0);
  return line;
}

double NetAngleTurned(const DriveshaftLine& line, const Eigen::Vector3d& u_C, double up) {
  JointChain chain = line.chain;
  // A right-handed turn about u lowers the nose, and with it a yoke that stands ahead.
  const double turn = line.yoke_ahead ? -up : up;
  chain.along.back() = Eigen::AngleAxisd(turn, u_C) * chain.along.back();
  return NetAngle(TurnMap(chain, chain.joints.size()));
}

std::vector<PinionAim> PinionAims(const DriveshaftLine& line, const Eigen::Vector3d& u_C) {
  std::vector<PinionAim> aims;
  if (line.chain.joints.back() == JointKind::kDouble) return aims;
  constexpr int kSamples = 361;  // a quarter of a degree apart: two nearer dips are one to a finder
  const auto net = [&](double up) { return NetAngleTurned(line, u_C, up); };
  for (const LeastPoint& low : LowPoints(net, -kMostTurn, kMostTurn, kSamples)) {
    aims.push_back({.turn = low.at, .net_angle = low.value});
  }
  return aims;
}

DriveshaftState EvaluateDriveshaft(const Driveshaft& shaft, const Axle& axle,
                                   const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  const DriveshaftLine line = LineOf(shaft, axle, frame, X_CA);
  const std::vector<Eigen::Vector3d>& along = line.chain.along;
  const size_t last = line.chain.joints.size();
  DriveshaftState state{.length = line.length.back(),
                        .output_angle = AngleBetween(along[0], along[1]),
                        .center_angle = std::nullopt,
                        .axle_angle = AngleBetween(along[last - 1], along[last]),
                        .ripple = RippleOf(TurnMap(line.chain, last))};
  if (last == 3) state.center_angle = AngleBetween(along[1], along[2]);
  return state;
}

double MadeLength(const Driveshaft& shaft, const Axle& axle, const AxleFrame& frame) {
  return shaft.length ? *shaft.length : LineOf(shaft, axle, frame, frame.X_CA).length.back();
}

}  // namespace linkwright
