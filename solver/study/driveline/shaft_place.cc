// SPDX-License-Identifier: MIT
#include "solver/study/driveline/shaft_place.h"

#include <algorithm>

namespace linkwright {
namespace {

// Every piece, driven by the output and driven back by the pinion: the worse of the two.
double WorstOfPieces(const JointChain& chain) {
  double worst = 0.0;
  for (size_t passed = 1; passed < chain.joints.size(); ++passed) {
    worst = std::max({worst, PeakAcceleration(NetAngle(TurnMap(chain, passed))),
                      PeakAcceleration(NetAngle(BackMap(chain, passed)))});
  }
  return worst;
}

}  // namespace

ShaftBasis PrepareShaft(const Rig& rig, const Driveshaft& shaft, double rest_height,
                        std::optional<double> speed) {
  const auto axle = static_cast<size_t>(shaft.axle);
  const AxleFrame& frame = rig.axles[axle].frame;
  return {
      .rig = &rig,
      .shaft = &shaft,
      .axle = axle,
      .measured_length = MadeLength(shaft, rig.vehicle->axles[axle], frame),
      .rest_height = rest_height,
      .speed = speed};
}

ShaftPlace EvaluateShaft(const ShaftBasis& basis, ShaftPlaceKind kind, const Pose& pose) {
  const Driveshaft& shaft = *basis.shaft;
  const DriveshaftLine line = LineOf(shaft, basis.rig->vehicle->axles[basis.axle],
                                     basis.rig->axles[basis.axle].frame, Transform(pose));
  const JointChain& chain = line.chain;
  ShaftPlace place{};
  place.kind = kind;
  place.travel = pose.z - basis.rest_height;
  place.length = line.length.back();
  place.plunge = place.length - basis.measured_length;
  if (shaft.slip && shaft.slip_left) {
    place.to_bottom = *shaft.slip_left + place.plunge;
    place.to_part = *shaft.slip - *place.to_bottom;
  }
  for (size_t i = 0; i < chain.joints.size(); ++i) {
    place.joints.push_back(PartsOf(chain.along[i], chain.along[i + 1]));
  }
  const Eigen::Matrix2d whole = TurnMap(chain, chain.joints.size());
  place.net_angle = NetAngle(whole);
  place.ripple = RippleOf(whole);
  if (basis.speed) {
    const double squared = *basis.speed * *basis.speed;
    place.torsional = squared * PeakAcceleration(place.net_angle);
    place.inertial = squared * WorstOfPieces(chain);
  }
  return place;
}

}  // namespace linkwright
