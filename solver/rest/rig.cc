// SPDX-License-Identifier: MIT
#include "solver/rest/rig.h"

#include "solver/pose/freedom.h"

namespace linkwright {

Rig PrepareRig(const Vehicle& vehicle) {
  Rig rig{.vehicle = &vehicle, .axles = {}};
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    RigAxle& prepared = rig.axles[i];
    prepared.frame = PrepareAxle(axle);
    RequireLocated(axle, prepared.frame);
    prepared.measured = EvaluateMotion(prepared.frame, prepared.frame.measured);
    prepared.pushers = PreparePushers(axle, prepared.frame);
    prepared.ends = EndLengths(axle, prepared.frame);
    if (axle.unsprung) prepared.p_AM = OnHousing(prepared.frame, axle.unsprung->p_CM);
  }
  return rig;
}

Mass WholeMass(const Rig& rig, const SprungMass& sprung,
               const std::array<HousingMotion, 2>& motion) {
  double mass = sprung.mass;
  Eigen::Vector3d moment = mass * sprung.p_CM;
  for (size_t i = 0; i < 2; ++i) {
    const double unsprung = rig.vehicle->axles[i].unsprung->mass;
    mass += unsprung;
    moment += unsprung * (Transform(motion[i].pose) * rig.axles[i].p_AM);
  }
  return {"whole vehicle", mass, moment / mass};
}

}  // namespace linkwright
