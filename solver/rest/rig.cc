// SPDX-License-Identifier: MIT
#include "solver/rest/rig.h"

#include <cmath>
#include <string>

#include "solver/model/arms_kept.h"
#include "solver/model/error.h"
#include "solver/pose/fit_links.h"
#include "solver/pose/freedom.h"

namespace linkwright {
namespace {

ModelError CannotFit(const AxleFrame& frame, const FittedPose& fitted) {
  const FrameLink& worst = frame.links[fitted.worst];
  const std::string cannot =
      "the arms cannot be put together with the wheels where they were measured: " + worst.name;
  const std::string mend =
      " where the others got to; give it a length that reaches (length: fit makes it fit its "
      "holes), or move its hole";
  if (!fitted.short_by) return {worst.part, cannot + " does not reach" + mend};
  return {worst.part, cannot + " is {} too " + (*fitted.short_by > 0.0 ? "short" : "long") + mend,
          std::abs(*fitted.short_by)};
}

}  // namespace

Rig PrepareRig(const Vehicle& vehicle) {
  Rig rig{.vehicle = &vehicle, .axles = {}};
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    RigAxle& prepared = rig.axles[i];
    prepared.frame = PrepareAxle(axle);
    const FittedPose fitted = MeasuredPose(axle, prepared.frame);
    if (!fitted.pose) {
      // An axle that its arms leave free however long they are is told so first.
      const AxleFrame as_points = PrepareAxle(WithArmsAsPoints(axle));
      RequireLocated(axle, as_points, as_points.measured);
      throw CannotFit(prepared.frame, fitted);
    }
    RequireLocated(axle, prepared.frame, *fitted.pose);
    prepared.measured = EvaluateMotion(prepared.frame, *fitted.pose);
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
