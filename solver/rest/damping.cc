// SPDX-License-Identifier: MIT
#include "solver/rest/damping.h"

#include <cmath>

namespace linkwright {
namespace {

void Add(std::optional<double>& to, std::optional<double> what, double factor) {
  if (what) to = to.value_or(0.0) + factor * *what;
}

}  // namespace

std::optional<double> LinearDamping(const Damper& damper) {
  if (damper.bump && damper.rebound) return 0.5 * (*damper.bump + *damper.rebound);
  return damper.bump ? damper.bump : damper.rebound;
}

RestMatrix DampingMatrix(const Rig& rig, const Stance& stance) {
  RestMatrix C = RestMatrix::Zero();
  for (size_t i = 0; i < 2; ++i) {
    const AxleFrame& frame = rig.axles[i].frame;
    for (const Damper& damper : rig.vehicle->axles[i].dampers) {
      const RestVector slope =
          AlongAxle(LengthOf(frame, stance.motion[i], damper.span), i).gradient;
      C += LinearDamping(damper).value_or(0.0) * slope * slope.transpose();
    }
  }
  return C;
}

std::optional<AxleDamping> DampingOf(const Rig& rig, const Stance& stance, size_t axle) {
  const std::vector<Damper>& dampers = rig.vehicle->axles[axle].dampers;
  if (dampers.empty()) return std::nullopt;
  AxleDamping sum{};
  double squares = 0.0;
  for (const Damper& damper : dampers) {
    const Taylor length = LengthOf(rig.axles[axle].frame, stance.motion[axle], damper.span);
    const double square = length.z * length.z;
    squares += square;
    Add(sum.bump, damper.bump, 0.5 * square);
    Add(sum.rebound, damper.rebound, 0.5 * square);
    Add(sum.mean, LinearDamping(damper), 0.5 * square);
    sum.roll += LinearDamping(damper).value_or(0.0) * length.r * length.r;
  }
  sum.motion_ratio = std::sqrt(squares / static_cast<double>(dampers.size()));
  return sum;
}

}  // namespace linkwright
