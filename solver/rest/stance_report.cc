// SPDX-License-Identifier: MIT
#include "solver/rest/stance_report.h"

#include <algorithm>

#include "solver/rest/roll.h"

namespace linkwright {
namespace {

Eigen::Vector3d PlaceOfWheel(const Rig& rig, const Stance& stance, size_t wheel) {
  return Transform(stance.motion[wheel / 2].pose) *
         WheelCentre(rig.axles[wheel / 2].frame, wheel % 2);
}

AxleReport ReportAxle(const Rig& rig, const Stance& stance, size_t i) {
  const Axle& axle = rig.vehicle->axles[i];
  const RigAxle& prepared = rig.axles[i];
  const HousingMotion& motion = stance.motion[i];
  const AxleEnergy energy = StoredEnergy(axle, prepared.frame, prepared.pushers, motion);
  const Eigen::Vector3d measured = prepared.frame.X_CA.translation();
  const Eigen::Vector3d centre = CentreOf(motion);
  AxleReport report{};
  report.body_rise = HeightAboveFloor(stance, measured) - (measured.z() - rig.vehicle->floor_z);
  if (axle.opening) {
    report.opening_ahead = centre.x() - axle.opening->x;
    report.opening_up = centre.z() - axle.opening->z;
  }
  report.wheel_rate = WheelRate(energy);
  report.ride_rate = RideRate(report.wheel_rate, axle.tire);
  report.ride_frequency = RideFrequency(report.ride_rate, SprungMassOn(rig, stance, i));
  report.roll_stiffness = RollStiffness(energy, motion);
  return report;
}

void AddModes(const Stance& stance, StanceReport& report) {
  const AxleArms arms = ArmsOf(stance);
  report.modes =
      TwoModes(2.0 * report.axles[0].ride_rate, 2.0 * report.axles[1].ride_rate, arms.behind_front,
               arms.ahead_of_rear, stance.sprung.mass, stance.sprung.pitch_inertia);
}

void AddRollGradient(const Rig& rig, const Stance& stance, StanceReport& report) {
  const RollGeometry geometry = RollGeometryOf(rig, stance);
  double stiffness = 0.0;
  for (size_t i = 0; i < 2; ++i) stiffness += SplitRollStiffness(rig, stance, i).whole;
  report.roll_axis_height = geometry.axis_height;
  report.roll_arm = geometry.arm;
  report.roll_gradient = RollGradient(stiffness, stance.sprung.mass, geometry.arm);
}

}  // namespace

std::array<HousingMotion, 2> LevelMotion(const Rig& rig, const Stance& stance) {
  std::array<HousingMotion, 2> level;
  for (size_t i = 0; i < 2; ++i) {
    const AxleFrame& frame = rig.axles[i].frame;
    const HousingMotion& own = stance.motion[i];
    level[i] = EvaluateMotion(frame, MovePose(frame, own, own.pose.z, frame.measured.roll).pose);
  }
  return level;
}

StanceReport ReportStance(const Rig& rig, const Stance& stance) {
  StanceReport report{};
  const Mass whole = WholeMass(rig, stance.sprung, stance.motion);
  report.total_mass = whole.mass;
  report.cg_C = whole.p_CM;
  report.cg_height = HeightAboveFloor(stance, report.cg_C);
  report.rake = Rake(stance);
  report.roll = Roll(stance);
  for (size_t i = 0; i < 2; ++i) {
    const Travels travels = TravelsOf(rig.axles[i].frame, stance.motion[i].pose);
    report.travel[2 * i] = travels.left;
    report.travel[2 * i + 1] = travels.right;
    report.axles[i] = ReportAxle(rig, stance, i);
  }
  report.wheel_load = stance.wheel_load;
  const Eigen::Vector3d e = Heading(stance);
  report.wheelbase_left = e.dot(PlaceOfWheel(rig, stance, 0) - PlaceOfWheel(rig, stance, 2));
  report.wheelbase_right = e.dot(PlaceOfWheel(rig, stance, 1) - PlaceOfWheel(rig, stance, 3));
  AddModes(stance, report);
  AddRollGradient(rig, stance, report);
  for (const Mark& mark : rig.vehicle->marks) {
    report.mark_heights.push_back(HeightAboveFloor(stance, mark.p_CB));
  }
  return report;
}

bool StopTouches(const Rig& rig, const Stance& stance, size_t axle) {
  const std::vector<Contact> contacts = ListContacts(rig, stance);
  return std::any_of(contacts.begin(), contacts.end(), [&](const Contact& contact) {
    return contact.kind == ContactKind::kStopTouches && contact.axle == axle;
  });
}

std::vector<Contact> ListContacts(const Rig& rig, const Stance& stance) {
  std::vector<Contact> contacts;
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const Eigen::Isometry3d X_CA = Transform(stance.motion[i].pose);
    const auto length = [&](const Span& span) { return LengthAt(span, rig.axles[i].frame, X_CA); };
    for (const Stop& stop : axle.bump_stops) {
      const StopCone cone = PrepareCone(stop, rig.axles[i].frame);
      const ConePlace<double> place = PlaceOf(cone, X_CA);
      const double squeeze = stop.law.free_length - place.length;
      if (squeeze <= 0.0 && place.lean > 0.0) continue;
      if (!MeetsPad(cone, place)) {
        contacts.push_back(
            {ContactKind::kConeOffPad, i, DisplayName(stop.name), OffPadPoint(place), 0.0});
        continue;
      }
      contacts.push_back({ContactKind::kStopTouches, i, DisplayName(stop.name), squeeze,
                          Evaluate(stop.law, place.length).force});
    }
    for (const Spring& spring : axle.springs) {
      const double gap = length(spring.span) - spring.law.free_length;
      if (gap < 0.0) continue;
      contacts.push_back({ContactKind::kCoilUnseated, i, DisplayName(spring.name), gap, 0.0});
    }
    for (size_t wheel = 2 * i; wheel < 2 * i + 2; ++wheel) {
      if (stance.wheel_load[wheel] > 0.0) continue;
      const char* name = wheel % 2 == 0 ? "left wheel" : "right wheel";
      contacts.push_back({ContactKind::kWheelLifted, i, name, 0.0, 0.0});
    }
  }
  return contacts;
}

}  // namespace linkwright
