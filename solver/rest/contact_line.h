// SPDX-License-Identifier: MIT
// The line on the floor that joins both axles' contact points: what small motions sway and yaw
// about, and what the tyres hold in a corner.
#pragma once

#include "solver/numeric/dual.h"
#include "solver/numeric/vector3.h"
#include "solver/rest/total_energy.h"

namespace linkwright {

// A function of the seven unknowns of a rest with its gradient, and a vector in C of such.
using RestNumber = Dual<double, kRestUnknowns>;
using RestVector3 = Vector3<RestNumber>;

// What an axle's own height and roll decide, among the seven: a point, a vector, a rotation.
template <size_t N>
std::array<RestNumber, N> FirstOrder(const std::array<Taylor, N>& of, size_t axle) {
  const auto z = static_cast<size_t>(HeightIndex(axle));
  std::array<RestNumber, N> result{};
  for (size_t i = 0; i < N; ++i) {
    result[i].v = of[i].v;
    result[i].d[z] = of[i].z, result[i].d[z + 1] = of[i].r;
  }
  return result;
}

// Which point under an axle's middle the tyres hold as the axle leans.
enum class ContactPoint {
  kOfHousing,  // a fixed radius straight down in the plane midway between its wheels, square to its
               // lateral axis
  kOnFloor,    // where that line meets the floor
};

// Both axles' contact points and the floor's directions, in C, as functions of the seven unknowns.
//   along, left, up   unit: on the floor from the rear contact to the front one, to its left, the
//                     floor's normal
//   source     docs/theory.md (84)
struct ContactLine {
  std::array<RestVector3, 2> contact;
  RestNumber length;  // of the line [m]
  RestVector3 along, left, up;
};

// The contacts are on the floor at the state itself, either way.
[[nodiscard]] ContactLine FindContactLine(const RestState& state, ContactPoint point);

// What is left of a vector along the floor.
[[nodiscard]] RestVector3 OnFloor(const RestVector3& a, const RestVector3& up);

}  // namespace linkwright
