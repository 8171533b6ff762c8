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

std::vector<HeldEnd> PrepareEnds(const Axle& axle, const AxleFrame& frame) {
  std::vector<HeldEnd> ends;
  const auto add = [&](const Span& span, std::optional<double> shortest,
                       std::optional<double> longest) {
    if (shortest || longest) {
      ends.push_back({span.p_CP, OnHousing(frame, span.p_CQ), shortest, longest});
    }
  };
  for (const Damper& damper : axle.dampers) add(damper.span, damper.shortest, damper.longest);
  for (const Strap& strap : axle.straps) add(strap.span, std::nullopt, strap.length);
  for (const Spring& spring : axle.springs) {
    add(spring.span, spring.solid_length, std::nullopt);
    if (!spring.law.curve.empty()) add(spring.span, SolidBelow(spring.law), std::nullopt);
  }
  for (const Stop& stop : axle.bump_stops) {
    if (!stop.law.curve.empty()) add(stop.span, SolidBelow(stop.law), std::nullopt);
  }
  return ends;
}

Taylor HeldEnds(const std::vector<HeldEnd>& ends, const HousingMotion& motion) {
  Taylor energy;
  for (const HeldEnd& end : ends) {
    const Taylor length = DistanceTo(motion, end.p_CP, end.p_AQ);
    const auto hold = [&](double at) {
      const double past = length.v - at;
      energy = energy + Chain(length, 0.5 * kEndRate * past * past, kEndRate * past, kEndRate);
    };
    if (end.shortest && length.v < *end.shortest) hold(*end.shortest);
    if (end.longest && length.v > *end.longest) hold(*end.longest);
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
