// SPDX-License-Identifier: MIT
// A bell crank and its two links (Watt's link) as one constraint on a housing.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <type_traits>

#include "solver/pose/rotation.h"

namespace linkwright {

// The crank turns about a pivot fixed on its carrier, the housing or the chassis; a link runs from
// each of its ends to the other body. Everything is expressed in the carrier's axes (A or C),
// except `far`, which is in the other body's.
struct FrameCrank {
  bool on_housing;
  Eigen::Vector3d pivot;               // [m]
  Eigen::Vector3d axis;                // unit
  std::array<Eigen::Vector3d, 2> end;  // of the crank, as measured [m]
  std::array<Eigen::Vector3d, 2> far;  // far ends of the links [m]
  std::array<double, 2> length;        // of the links [m]
  double branch;  // +1 or -1: which of the two crank angles is the measured one
};

// The far end of a link in the carrier's axes.
template <typename T>
std::array<T, 3> FarInCarrier(const FrameCrank& crank, size_t i, const std::array<T, 3>& p,
                              const Rotation<T>& R) {
  const Eigen::Vector3d& far = crank.far[i];
  if (!crank.on_housing) {
    std::array<T, 3> point = Rotate(R, far);
    for (size_t k = 0; k < 3; ++k) point[k] = point[k] + p[k];
    return point;
  }
  std::array<T, 3> d;
  for (size_t k = 0; k < 3; ++k) d[k] = -(p[k] - far[static_cast<int>(k)]);
  return {R[0] * d[0] + R[3] * d[1] + R[6] * d[2], R[1] * d[0] + R[4] * d[1] + R[7] * d[2],
          R[2] * d[0] + R[5] * d[1] + R[8] * d[2]};
}

// The crank's links at one of its angles: what each is too long by, and how fast that grows as the
// crank turns [m, m/rad, m/rad2].
template <typename T>
struct CrankLinks {
  std::array<T, 2> stretch, growth, bend;
};

// The crank's geometry with the far ends of its links in the carrier's axes, from the pivot.
template <typename T>
struct CrankPlace {
  const FrameCrank& crank;
  std::array<std::array<T, 3>, 2> far;
  std::array<Eigen::Vector3d, 2> along, across, turned;  // end = along + across cos + turned sin
};

template <typename T>
CrankPlace<T> PlaceCrank(const FrameCrank& crank, const std::array<T, 3>& p, const Rotation<T>& R) {
  CrankPlace<T> place{crank, {}, {}, {}, {}};
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d arm = crank.end[i] - crank.pivot;
    place.along[i] = crank.axis.dot(arm) * crank.axis;
    place.across[i] = arm - place.along[i];
    place.turned[i] = crank.axis.cross(arm);
    place.far[i] = FarInCarrier(crank, i, p, R);
    for (size_t k = 0; k < 3; ++k) {
      place.far[i][k] = place.far[i][k] - crank.pivot[static_cast<int>(k)];
    }
  }
  return place;
}

template <typename T>
CrankLinks<T> LinksAt(const CrankPlace<T>& place, const T& cosine, const T& sine) {
  using std::sqrt;
  CrankLinks<T> links;
  for (size_t i = 0; i < 2; ++i) {
    std::array<T, 3> line, motion, inward;
    for (size_t k = 0; k < 3; ++k) {
      const auto c = static_cast<int>(k);
      const double across = place.across[i][c], turned = place.turned[i][c];
      inward[k] = cosine * across + sine * turned;
      line[k] = inward[k] - place.far[i][k] + place.along[i][c];
      motion[k] = cosine * turned - sine * across;
    }
    const T length = sqrt(Dot(line, line));
    links.stretch[i] = length - place.crank.length[i];
    const T growth = Dot(line, motion) / length;
    links.growth[i] = growth;
    links.bend[i] = (Dot(motion, motion) - Dot(line, inward) - growth * growth) / length;
  }
  return links;
}

// Cosine and sine of the angle at which the first link has its length: A cos + B sin = D. Not a
// number where it cannot reach.
template <typename T>
std::array<T, 2> AngleOfFirst(const CrankPlace<T>& place) {
  using std::sqrt;
  std::array<T, 3> c;
  for (size_t k = 0; k < 3; ++k) c[k] = -(place.far[0][k] - place.along[0][static_cast<int>(k)]);
  const auto dot = [&c](const Eigen::Vector3d& b) {
    return c[0] * b[0] + c[1] * b[1] + c[2] * b[2];
  };
  const FrameCrank& crank = place.crank;
  const T A = dot(place.across[0]) * 2.0, B = dot(place.turned[0]) * 2.0;
  const T D = -(Dot(c, c) - (crank.length[0] * crank.length[0] - place.across[0].squaredNorm()));
  const T square = A * A + B * B;
  const T root = sqrt(square - D * D) * crank.branch;
  return {(A * D - B * root) / square, (B * D + A * root) / square};
}

// A number without the derivatives that its type carries.
inline double WithoutDerivatives(double number) { return number; }
template <typename T>
double WithoutDerivatives(const T& number) {
  if constexpr (requires { number.a; }) {
    return WithoutDerivatives(number.a);  // ceres::Jet
  } else {
    return WithoutDerivatives(number.v);
  }
}

// Turns the crank once towards where its links pull equally on it, by Newton's method. cos and sin
// of the turn go by way of its tangent, which keeps them on the circle.
template <typename T>
void TurnTowardsBalance(const CrankPlace<T>& place, T& cosine, T& sine) {
  using std::sqrt;
  const auto [r, g, b] = LinksAt(place, cosine, sine);
  const T turn =
      -((r[0] * g[0] + r[1] * g[1]) / (g[0] * g[0] + g[1] * g[1] + r[0] * b[0] + r[1] * b[1]));
  const T scale = sqrt(turn * turn + 1.0);
  const T turned_cosine = (cosine - sine * turn) / scale;
  sine = (sine + cosine * turn) / scale;
  cosine = turned_cosine;
}

// Cosine and sine of the turn at which the crank's links pull equally on it: their moments cancel,
// so the energy in them is least. From the first link's length; a pass squares what is left, so
// that even where a link's stretch is a tenth of the crank's arm five leave rounding only.
inline std::array<double, 2> BalancedAngle(const FrameCrank& crank, const std::array<double, 3>& p,
                                           const Rotation<double>& R) {
  const CrankPlace<double> place = PlaceCrank(crank, p, R);
  auto [cosine, sine] = AngleOfFirst(place);
  constexpr int kPasses = 5;
  for (int pass = 0; pass < kPasses; ++pass) TurnTowardsBalance(place, cosine, sine);
  return {cosine, sine};
}

// Both links with the crank so turned. With the turn's value found, one pass makes a first
// derivative right and a second one all up to the third: no type here carries more.
template <typename T>
CrankLinks<T> BalancedLinks(const FrameCrank& crank, const std::array<T, 3>& p,
                            const Rotation<T>& R) {
  std::array<double, 3> p_value;
  Rotation<double> R_value;
  for (size_t i = 0; i < p.size(); ++i) p_value[i] = WithoutDerivatives(p[i]);
  for (size_t i = 0; i < R.size(); ++i) R_value[i] = WithoutDerivatives(R[i]);
  const auto [c, s] = BalancedAngle(crank, p_value, R_value);
  const CrankPlace<T> place = PlaceCrank(crank, p, R);
  T cosine = T{} + c, sine = T{} + s;
  constexpr int kPasses = std::is_same_v<T, double> ? 0 : 2;
  for (int pass = 0; pass < kPasses; ++pass) TurnTowardsBalance(place, cosine, sine);
  return LinksAt(place, cosine, sine);
}

// How far the two links together fall short of their lengths [m]: 0 where both keep them; its
// square is the sum of the squares of both stretches, so that half the rate times it is their
// energy.
//   source   docs/theory.md (103), (104)
template <typename T>
T CrankResidual(const FrameCrank& crank, const std::array<T, 3>& p, const Rotation<T>& R) {
  using std::sqrt;
  const auto [r, g, b] = BalancedLinks(crank, p, R);
  return (r[1] * g[0] - r[0] * g[1]) / sqrt(g[0] * g[0] + g[1] * g[1]);
}

}  // namespace linkwright
