// SPDX-License-Identifier: MIT
#include "solver/rest/axle_energy.h"

namespace linkwright {

std::vector<Pusher> PreparePushers(const Axle& axle, const AxleFrame& frame) {
  std::vector<Pusher> pushers;
  for (const Spring& spring : axle.springs) {
    pushers.push_back({&spring.law, spring.span.p_CP, OnHousing(frame, spring.span.p_CQ), {}});
  }
  for (const Stop& stop : axle.bump_stops) {
    const StopCone cone = PrepareCone(stop, frame);
    pushers.push_back({&stop.law, cone.p_CP, cone.p_AQ, cone});
  }
  return pushers;
}

namespace {

// Length of a cone that meets its pad and is shorter than a length; absent for any other. Told
// without derivatives first, for most stops stand clear most of the time.
std::optional<Taylor> LengthBelow(const StopCone& cone, double below, const HousingMotion& motion,
                                  const Eigen::Isometry3d& X_CA) {
  const ConePlace<double> place = PlaceOf(cone, X_CA);
  if (place.length >= below || !MeetsPad(cone, place)) return std::nullopt;
  return PlaceOf(cone, motion.p, motion.R).length;
}

}  // namespace

AxleEnergy StoredEnergy(const Axle& axle, const AxleFrame& frame,
                        const std::vector<Pusher>& pushers, const HousingMotion& motion) {
  AxleEnergy energy;
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  for (const Pusher& pusher : pushers) {
    const std::optional<Taylor> length =
        pusher.cone ? LengthBelow(*pusher.cone, pusher.law->free_length, motion, X_CA)
                    : DistanceTo(motion, pusher.p_CP, pusher.p_AQ);
    if (!length) continue;
    const LawState law = Evaluate(*pusher.law, length->v);
    if (law.force == 0.0 && law.rate == 0.0) continue;
    const Taylor held = Chain(*length, law.energy, -law.force, law.rate);
    energy.springs = energy.springs + held;
    if (pusher.cone) energy.stops = energy.stops + held;
  }
  if (axle.bar_roll_rate) {
    const double wound = motion.pose.roll - frame.measured.roll;
    const double rate = *axle.bar_roll_rate;
    energy.bar = {.v = 0.5 * rate * wound * wound, .r = rate * wound, .rr = rate};
  }
  return energy;
}

Taylor HeldEnds(const std::vector<LengthLimit>& ends, const HousingMotion& motion) {
  Taylor energy;
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  for (const LengthLimit& end : ends) {
    if (LeftOf(end, X_CA) >= 0.0) continue;
    const std::optional<Taylor> whole = end.cone ? LengthBelow(*end.cone, end.end, motion, X_CA)
                                                 : DistanceTo(motion, end.p_CP, end.p_AQ);
    if (!whole) continue;
    const Taylor& length = *whole;
    const double past = length.v - end.end;
    energy = energy + Chain(length, 0.5 * kEndRate * past * past, kEndRate * past, kEndRate);
  }
  return energy;
}

std::optional<MeanCoil> MeanOfCoils(const std::vector<Pusher>& pushers,
                                    const HousingMotion& motion) {
  MeanCoil sum{0.0, 0.0};
  double count = 0.0;
  for (const Pusher& pusher : pushers) {
    if (pusher.cone) continue;
    const double length = DistanceTo(motion, pusher.p_CP, pusher.p_AQ).v;
    sum.length += length;
    sum.force += Evaluate(*pusher.law, length).force;
    count += 1.0;
  }
  if (count == 0.0) return std::nullopt;
  return MeanCoil{sum.length / count, sum.force / count};
}

}  // namespace linkwright
