// SPDX-License-Identifier: MIT
// A rigid arm in three bushings, as a spring between the two distances from its chassis eye to the
// points of the housing that its other two bushings hold.
#pragma once

#include <array>
#include <cmath>

namespace linkwright {

// The arm as measured, with nothing in its bushings.
struct ArmGive {
  double base;                   // between its eyes on the housing [m]
  std::array<double, 2> length;  // from its chassis eye to each of them [m]
  double frame_rate, axle_rate;  // radial, of the one bushing and of each of the two [N/m]
};

// What the bushings hold when the arm has come to rest between them.
template <typename T>
struct ArmStrain {
  std::array<T, 2> tension;  // the energy's derivative by each distance [N]
  T energy;                  // [J]
};

// The arm's best place among three points whose distances are length + stretch, in their plane: a
// weighted fit of one triangle on another, which turns in closed form. Exact for bushings that give
// alike in every direction.
//   stretch  of each distance [m]
//   errors   none: the three points must make a triangle, else the result is not finite
//   source   docs/theory.md (101), (102)
template <typename T>
ArmStrain<T> StrainOf(const ArmGive& arm, const std::array<T, 2>& stretch) {
  using std::sqrt;
  const double d = arm.base, l0 = arm.length[0], l1 = arm.length[1];
  const double x0 = (l0 * l0 - l1 * l1 + d * d) / (2.0 * d), y0 = std::sqrt(l0 * l0 - x0 * x0);
  const T D0 = stretch[0] + l0, D1 = stretch[1] + l1;
  const T x = (D0 * D0 - D1 * D1 + d * d) * (0.5 / d), y = sqrt(D0 * D0 - x * x);
  // Centroids under the rates, then every point from its own centroid: eye, first, second.
  const double share = arm.frame_rate / (arm.frame_rate + 2.0 * arm.axle_rate);
  const double base_share = arm.axle_rate / (arm.frame_rate + 2.0 * arm.axle_rate) * d;
  const double ax = share * x0 + base_share, ay = share * y0;
  const T bx = x * share + base_share, by = y * share;
  const std::array<double, 3> arm_x{x0 - ax, -ax, d - ax}, arm_y{y0 - ay, -ay, -ay};
  const std::array<T, 3> held_x{x - bx, -bx, -(bx - d)}, held_y{y - by, -by, -by};
  const std::array<double, 3> rate{arm.frame_rate, arm.axle_rate, arm.axle_rate};
  T along{}, across{};
  for (size_t i = 0; i < 3; ++i) {
    along = along + (held_x[i] * arm_x[i] + held_y[i] * arm_y[i]) * rate[i];
    across = across + (held_y[i] * arm_x[i] - held_x[i] * arm_y[i]) * rate[i];
  }
  const T norm = sqrt(along * along + across * across);
  const T c = along / norm, s = across / norm;
  std::array<T, 3> gap_x, gap_y;
  ArmStrain<T> strain{};
  for (size_t i = 0; i < 3; ++i) {
    gap_x[i] = held_x[i] - (c * arm_x[i] - s * arm_y[i]);
    gap_y[i] = held_y[i] - (s * arm_x[i] + c * arm_y[i]);
    strain.energy = strain.energy + (gap_x[i] * gap_x[i] + gap_y[i] * gap_y[i]) * (0.5 * rate[i]);
  }
  // The chassis bushing's force, split along the lines to the two points of the housing.
  const T fx = gap_x[0] * arm.frame_rate, fy = gap_y[0] * arm.frame_rate;
  const T run = x - d;
  strain.tension[0] = D0 * (fx * y - fy * run) / (y * d);
  strain.tension[1] = D1 * (fy * x - fx * y) / (y * d);
  return strain;
}

}  // namespace linkwright
