// SPDX-License-Identifier: MIT
#include "solver/rest/roll.h"

#include <algorithm>

#include "solver/geometry/front_view.h"
#include "solver/rest/ride.h"
#include "solver/rest/stance_report.h"

namespace linkwright {

RollParts SplitRollStiffness(const Rig& rig, const Stance& stance, size_t axle) {
  const Axle& description = rig.vehicle->axles[axle];
  const RigAxle& prepared = rig.axles[axle];
  const HousingMotion& motion = stance.motion[axle];
  const AxleEnergy energy = StoredEnergy(description, prepared.frame, prepared.pushers, motion);
  RollParts parts{.coils = energy.springs.rr - energy.stops.rr,
                  .stops = energy.stops.rr,
                  .bar = energy.bar.rr,
                  .strain = motion.strain.rr,
                  .suspension = RollStiffness(energy, motion),
                  .tires = std::nullopt,
                  .whole = 0.0};
  const double track = prepared.frame.track;
  if (description.tire.rate) parts.tires = 0.5 * *description.tire.rate * track * track;
  parts.whole = WithTires(parts.suspension, description.tire, track);
  return parts;
}

std::optional<CoilSpread> SpreadOfCoils(const Rig& rig, const Stance& stance, size_t axle) {
  double least = 0.0, most = 0.0, stiffness = 0.0;
  bool any = false;
  for (const Pusher& pusher : rig.axles[axle].pushers) {
    if (pusher.cone) continue;
    const double y = pusher.p_AQ.y();
    const double length = DistanceTo(stance.motion[axle], pusher.p_CP, pusher.p_AQ).v;
    stiffness += Evaluate(*pusher.law, length).rate * y * y;
    least = any ? std::min(least, y) : y;
    most = any ? std::max(most, y) : y;
    any = true;
  }
  if (!any) return std::nullopt;
  return CoilSpread{most - least, stiffness};
}

RollGeometry RollGeometryOf(const Rig& rig, const Stance& stance) {
  const std::array<HousingMotion, 2> level = LevelMotion(rig, stance);
  std::array<Eigen::Vector3d, 2> centre;
  std::array<double, 2> radius{};
  for (size_t i = 0; i < 2; ++i) {
    centre[i] = CentreOf(level[i]);
    radius[i] = LoadedRadius(stance, i);
  }
  const Floor floor = FloorUnder(centre, radius);
  RollGeometry geometry{};
  for (size_t i = 0; i < 2; ++i) {
    geometry.roll_center[i] = RollCenterHeight(level[i], floor);
    geometry.roll_steer[i] = RollSteer(level[i], floor);
  }
  const RollAxis axis = JoinRollCenters(centre, geometry.roll_center, floor, stance.sprung.p_CM);
  geometry.axis_height = axis.height;
  geometry.axis_slope = axis.slope;
  geometry.arm = HeightAbove(floor, stance.sprung.p_CM) - axis.height;
  return geometry;
}

HandbookTransfer TransferOfAxle(const TransferInputs& axle, double lateral, double roll) {
  HandbookTransfer transfer{};
  transfer.sprung = axle.sprung_mass * lateral * axle.roll_center / axle.track;
  transfer.unsprung = axle.unsprung_mass * lateral * axle.unsprung_height / axle.track;
  transfer.roll_moment = axle.roll_stiffness * roll / axle.track;
  transfer.total = transfer.sprung + transfer.unsprung + transfer.roll_moment;
  return transfer;
}

std::optional<std::array<HandbookTransfer, 2>> TransferByHandbook(const Rig& rig,
                                                                  const Stance& rest,
                                                                  double lateral) {
  const RollGeometry geometry = RollGeometryOf(rig, rest);
  std::array<double, 2> stiffness{};
  for (size_t i = 0; i < 2; ++i) stiffness[i] = SplitRollStiffness(rig, rest, i).whole;
  const std::optional<double> gradient =
      RollGradient(stiffness[0] + stiffness[1], rest.sprung.mass, geometry.arm);
  if (!gradient) return std::nullopt;
  std::array<HandbookTransfer, 2> transfer{};
  for (size_t i = 0; i < 2; ++i) {
    const Mass& unsprung = *rig.vehicle->axles[i].unsprung;
    const Eigen::Vector3d p_CM = Transform(rest.motion[i].pose) * rig.axles[i].p_AM;
    transfer[i] = TransferOfAxle({.sprung_mass = SprungMassOn(rig, rest, i),
                                  .unsprung_mass = unsprung.mass,
                                  .roll_center = geometry.roll_center[i],
                                  .unsprung_height = HeightAboveFloor(rest, p_CM),
                                  .roll_stiffness = stiffness[i],
                                  .track = rig.axles[i].frame.track},
                                 lateral, *gradient * lateral);
  }
  return transfer;
}

}  // namespace linkwright
