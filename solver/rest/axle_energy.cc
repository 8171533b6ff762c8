// SPDX-License-Identifier: MIT
#include "solver/rest/axle_energy.h"

namespace linkwright {

std::vector<Pusher> PreparePushers(const Axle& axle, const AxleFrame& frame) {
  std::vector<Pusher> pushers;
  for (const Spring& spring : axle.springs) {
    pushers.push_back({&spring.law, spring.span.p_CP, OnHousing(frame, spring.span.p_CQ), true});
  }
  for (const Stop& stop : axle.bump_stops) {
    pushers.push_back({&stop.law, stop.span.p_CP, OnHousing(frame, stop.span.p_CQ), false});
  }
  return pushers;
}

AxleEnergy StoredEnergy(const Axle& axle, const AxleFrame& frame,
                        const std::vector<Pusher>& pushers, const HousingMotion& motion) {
  AxleEnergy energy;
  for (const Pusher& pusher : pushers) {
    const Taylor length = DistanceTo(motion, pusher.p_CP, pusher.p_AQ);
    const LawState law = Evaluate(*pusher.law, length.v);
    if (law.force == 0.0 && law.rate == 0.0) continue;
    const Taylor held = Chain(length, law.energy, -law.force, law.rate);
    energy.springs = energy.springs + held;
    if (!pusher.coil) energy.stops = energy.stops + held;
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
    const Taylor length = DistanceTo(motion, end.p_CP, end.p_AQ);
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
    if (!pusher.coil) continue;
    const double length = DistanceTo(motion, pusher.p_CP, pusher.p_AQ).v;
    sum.length += length;
    sum.force += Evaluate(*pusher.law, length).force;
    count += 1.0;
  }
  if (count == 0.0) return std::nullopt;
  return MeanCoil{sum.length / count, sum.force / count};
}

}  // namespace linkwright
