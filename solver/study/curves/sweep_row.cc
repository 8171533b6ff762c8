// SPDX-License-Identifier: MIT
#include "solver/study/curves/sweep_row.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/front_view.h"
#include "solver/model/masses.h"
#include "solver/pose/arms.h"
#include "solver/rest/ride.h"

namespace linkwright {
namespace {

void AddAngles(const Axle& axle, const AxleFrame& frame, double rake, AxleRow& row) {
  const double turned = row.housing_pitch + rake;
  if (axle.pinion) {
    const bool ahead = axle.pinion->p_CY.x() > frame.measured.x;
    row.pinion_angle = axle.pinion->angle + (ahead ? turned : -turned);
  }
  if (axle.kingpin) row.caster = axle.kingpin->caster + turned;
}

void AddAnti(const Axle& axle, size_t index, double slope, double wheelbase, double cg_height,
             AxleRow& row) {
  const double sign = index == kFront ? 1.0 : -1.0;
  if (!(cg_height > 0.0)) return;  // a body in the floor would turn every sign over
  if (axle.drive_share) {
    row.anti_drive = sign * TransferShare(*axle.drive_share, slope, wheelbase, cg_height);
  }
  if (axle.brake_share) {
    row.anti_brake = sign * TransferShare(*axle.brake_share, slope, wheelbase, cg_height);
  }
}

void AddSprings(const SweepBasis& basis, size_t index, const RowPlace& place, AxleRow& row) {
  const HousingMotion& motion = place.motion;
  const Axle& axle = basis.rig->vehicle->axles[index];
  const RigAxle& prepared = basis.rig->axles[index];
  const std::optional<MeanCoil> coil = MeanOfCoils(prepared.pushers, motion);
  if (coil) row.spring_length = coil->length;
  if (basis.stance == nullptr) return;
  if (coil) row.spring_force = coil->force;
  row.link_strain_force = GreatestMemberForce(prepared.frame, motion.pose, motion.link_forces);
  if (place.folded) return;
  const AxleEnergy energy = StoredEnergy(axle, prepared.frame, prepared.pushers, motion);
  row.wheel_rate = WheelRate(energy);
  row.ride_rate = RideRate(*row.wheel_rate, axle.tire);
  row.ride_frequency =
      RideFrequency(*row.ride_rate, SprungMassOn(*basis.rig, *basis.stance, index));
  row.rest_frequency = RideFrequency(*row.ride_rate, energy.springs.z / kStandardGravity);
}

AxleRow EvaluateAxle(const SweepBasis& basis, size_t index, const Floor& floor, double rake,
                     const RowPlace& place) {
  const HousingMotion& motion = place.motion;
  const Axle& axle = basis.rig->vehicle->axles[index];
  const Eigen::Vector3d centre = CentreOf(motion);
  AxleRow row{};
  row.wheelbase_change = index == kFront ? centre.x() : -centre.x();
  row.lateral_shift = centre.y();
  row.axle_steer = motion.pose.steer;
  row.housing_pitch = HousingPitch(basis.rig->axles[index].frame, motion).v;
  AddAngles(axle, basis.rig->axles[index].frame, rake, row);
  if (!place.folded) {
    row.instant_center = SideInstantCenter(motion, floor);
    row.roll_center_height = RollCenterHeight(motion, floor);
    row.roll_steer = RollSteer(motion, floor);
  }
  AddSprings(basis, index, place, row);
  if (axle.opening) {
    row.opening_ahead = centre.x() - axle.opening->x;
    row.opening_up = centre.z() - axle.opening->z;
  }
  if (basis.knuckles[index]) {
    const Knuckle& knuckle = *basis.knuckles[index];
    row.steer = SpindleHeading(knuckle, Transform(motion.pose));
    if (const auto held = SteerOf(axle, basis.rig->axles[index].frame, knuckle, motion)) {
      if (!place.folded) row.steer_rate = held->per_height;
      row.toe_in = held->toe_in;
    }
  }
  return row;
}

double MeanRadius(const Stance* stance, const Rig& rig, size_t index) {
  if (stance == nullptr) return rig.axles[index].frame.measured.z - rig.vehicle->floor_z;
  return LoadedRadius(*stance, index);
}

}  // namespace

SweepBasis PrepareSweep(const Rig& rig, const Stance* stance) {
  SweepBasis basis{
      .rig = &rig, .stance = stance, .start = {0.0, 0.0}, .radius = {}, .knuckles = {}};
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    const AxleFrame& frame = rig.axles[i].frame;
    if (stance != nullptr) basis.start[i] = stance->motion[i].pose.z - frame.measured.z;
    basis.radius[i] = MeanRadius(stance, rig, i);
    const Axle& axle = rig.vehicle->axles[i];
    if (axle.steering) basis.knuckles[i] = PrepareKnuckle(axle, frame);
  }
  return basis;
}

Floor FloorUnder(const SweepBasis& basis, const std::array<HousingMotion, 2>& rest) {
  if (const std::optional<size_t>& only = basis.rig->vehicle->only_axle) {
    return LevelFloorUnder(CentreOf(rest[*only]), basis.radius[*only]);
  }
  return FloorUnder({CentreOf(rest[0]), CentreOf(rest[1])}, basis.radius);
}

double WheelbaseOn(const Floor& floor, const std::array<HousingMotion, 2>& motion) {
  return floor.e.dot(CentreOf(motion[0]) - CentreOf(motion[1]));
}

SweepRow EvaluateRow(const SweepBasis& basis, double travel, const std::array<RowPlace, 2>& places,
                     std::optional<size_t> only) {
  const Vehicle& vehicle = *basis.rig->vehicle;
  const std::array<HousingMotion, 2> motion{places[0].motion, places[1].motion};
  const std::array<Eigen::Vector3d, 2> centre{CentreOf(motion[0]), CentreOf(motion[1])};
  const Floor floor = FloorUnder(basis, motion);
  const double wheelbase = WheelbaseOn(floor, motion);
  const bool settled = basis.stance != nullptr;
  const double cg_height =
      settled ? HeightAbove(floor, WholeMass(*basis.rig, basis.stance->sprung, motion).p_CM) : 0.0;
  SweepRow row{};
  row.travel = travel;
  for (size_t i = 0; i < 2; ++i) {
    const RowPlace& place = places[i];
    if (place.past || only.value_or(i) != i) continue;
    AxleRow& axle = row.axles[i].emplace(EvaluateAxle(basis, i, floor, Rake(floor), place));
    if (!settled || place.folded) continue;
    const double slope = ContactSlope(place.motion, floor, basis.radius[i]);
    AddAnti(vehicle.axles[i], i, slope, wheelbase, cg_height, axle);
  }
  if (row.axles[0] && row.axles[1]) {
    row.wheelbase = row.wheelbase_change = wheelbase;
    const auto &front = row.axles[0]->roll_center_height, &rear = row.axles[1]->roll_center_height;
    if (front && rear) {
      row.roll_axis_slope = RollAxisSlope(centre, {*front, *rear}, floor);
      if (settled) {
        row.roll_axis_height =
            JoinRollCenters(centre, {*front, *rear}, floor, basis.stance->sprung.p_CM).height;
      }
    }
  }
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    const auto index = static_cast<size_t>(shaft.axle);
    row.driveshafts.emplace_back();
    if (!row.axles[index]) continue;
    row.driveshafts.back() =
        EvaluateDriveshaft(shaft, vehicle.axles[index], basis.rig->axles[index].frame,
                           Transform(places[index].motion.pose));
  }
  return row;
}

void SubtractRest(const SweepRow& rest, SweepRow& row) {
  if (row.wheelbase_change) *row.wheelbase_change -= *rest.wheelbase;
  for (size_t i = 0; i < 2; ++i) {
    if (!row.axles[i]) continue;
    const AxleRow& from = *rest.axles[i];
    AxleRow& axle = *row.axles[i];
    axle.wheelbase_change -= from.wheelbase_change;
    axle.lateral_shift -= from.lateral_shift;
    if (axle.steer && from.steer) *axle.steer -= *from.steer;
    if (axle.toe_in && from.toe_in) *axle.toe_in -= *from.toe_in;
  }
}

}  // namespace linkwright
