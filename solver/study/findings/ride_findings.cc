// SPDX-License-Identifier: MIT
#include "solver/study/findings/ride_findings.h"

namespace linkwright {
namespace {

// Usual between two ends.
Finding Between(FindingKind kind, const std::string& member, double value, double least,
                double most) {
  return {.kind = kind,
          .past = value < least || value > most,
          .member = member,
          .value = value,
          .aim = value < least ? least : most,
          .more = {least, most}};
}

}  // namespace

Finding JudgeFrequency(size_t axle, double frequency, bool stop_touches, const Aims& aims) {
  return Judged(stop_touches ? FindingKind::kStopRaisesRate : FindingKind::kRidesStiff, axle,
                frequency, aims.frequency);
}

std::vector<Finding> RideFindings(const Vehicle& vehicle, const std::string& load,
                                  const RideReport& report) {
  const Aims& aims = vehicle.aims;
  std::vector<Finding> found;
  for (size_t i = 0; i < 2; ++i) {
    const AxleRide& axle = report.axles[i];
    if (!axle.frequency) continue;
    AddIfPast(JudgeFrequency(i, *axle.frequency, axle.stop_touches, aims), found);
  }
  if (report.rear_over_front) {
    found.push_back(Between(FindingKind::kNotFlatRide, {}, *report.rear_over_front,
                            aims.flat_ride_least, aims.flat_ride_most));
  }
  for (const ModeReport& row : report.modes) {
    const MotionPart part = row.mode.part;
    if (part == kFrontHop || part == kRearHop) {
      AddIfPast(Between(FindingKind::kHopOff, ModeName(part), row.mode.undamped, aims.hop_least,
                        aims.hop_most),
                found);
    } else if (part <= kBodyRoll && report.damped) {
      AddIfPast(Between(FindingKind::kDampingOff, ModeName(part), row.mode.damping,
                        aims.damping_least, aims.damping_most),
                found);
    }
  }
  for (Finding& finding : found) finding.load = load;
  return found;
}

}  // namespace linkwright
