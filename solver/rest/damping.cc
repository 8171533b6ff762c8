// SPDX-License-Identifier: MIT
#include "solver/rest/damping.h"

#include <cmath>

namespace linkwright {
namespace {

Taylor LengthOf(const Rig& rig, const Stance& stance, size_t axle, const Damper& damper) {
  return DistanceTo(stance.motion[axle], damper.span.p_CP,
                    OnHousing(rig.axles[axle].frame, damper.span.p_CQ));
}

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
    for (const Damper& damper : rig.vehicle->axles[i].dampers) {
      const RestVector slope = AlongAxle(LengthOf(rig, stance, i, damper), i).gradient;
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
    const Taylor length = LengthOf(rig, stance, axle, damper);
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
