// SPDX-License-Identifier: MIT
#include "solver/rest/rig.h"

#include "solver/pose/freedom.h"

namespace linkwright {

Rig PrepareRig(const Vehicle& vehicle) {
  Rig rig{.vehicle = &vehicle, .axles = {}};
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = vehicle.axles[i];
    RigAxle& prepared = rig.axles[i];
    prepared.frame = PrepareAxle(axle);
    RequireLocated(axle, prepared.frame);
    prepared.measured = EvaluateMotion(prepared.frame, prepared.frame.measured);
    prepared.pushers = PreparePushers(axle, prepared.frame);
    prepared.ends = EndLengths(axle, prepared.frame);
  }
  return rig;
}

}  // namespace linkwright
