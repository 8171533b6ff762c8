// SPDX-License-Identifier: MIT
#include "solver/model/force_law.h"

namespace linkwright {
namespace {

LawState EvaluateLinear(const ForceLaw& law, double deflection) {
  if (deflection <= 0.0) return {0.0, 0.0, 0.0};
  return {law.rate * deflection, law.rate, 0.5 * law.rate * deflection * deflection};
}

LawState EvaluateCurve(const std::vector<CurvePoint>& curve, double deflection) {
  if (deflection <= curve.front().deflection) return {0.0, 0.0, 0.0};
  LawState state{curve.front().force, 0.0, 0.0};
  for (size_t i = 1; i < curve.size(); ++i) {
    const CurvePoint& from = curve[i - 1];
    const CurvePoint& to = curve[i];
    state.rate = (to.force - from.force) / (to.deflection - from.deflection);
    const bool last = i + 1 == curve.size();
    const double end = last ? deflection : std::min(deflection, to.deflection);
    const double run = end - from.deflection;
    state.force = from.force + state.rate * run;
    state.energy += 0.5 * (from.force + state.force) * run;
    if (deflection < to.deflection) break;
  }
  return state;
}

}  // namespace

LawState Evaluate(const ForceLaw& law, double length) {
  const double deflection = law.free_length - length;
  return law.curve.empty() ? EvaluateLinear(law, deflection) : EvaluateCurve(law.curve, deflection);
}

double SolidBelow(const ForceLaw& law) {
  return law.curve.empty() ? 0.0 : law.free_length - law.curve.back().deflection;
}

std::optional<double> BoundLength(const Spring& spring) {
  if (spring.law.curve.empty()) return spring.solid_length;
  return std::max(SolidBelow(spring.law), spring.solid_length.value_or(0.0));
}

double HelicalRate(const CoilWire& wire) {
  const double d = wire.wire_diameter;
  const double mean = wire.mean_diameter;
  return wire.shear_modulus * d * d * d * d / (8.0 * mean * mean * mean * wire.active_coils);
}

}  // namespace linkwright
