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
Vector3<T> FarInCarrier(const FrameCrank& crank, size_t i, const Vector3<T>& p,
                        const Rotation<T>& R) {
  if (!crank.on_housing) return Rotate(R, crank.far[i]) + p;
  return RotateBack(R, -(p - crank.far[i]));
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
  std::array<Vector3<T>, 2> far;
  std::array<Eigen::Vector3d, 2> along, across, turned;  // end = along + across cos + turned sin
};

template <typename T>
CrankPlace<T> PlaceCrank(const FrameCrank& crank, const Vector3<T>& p, const Rotation<T>& R) {
  CrankPlace<T> place{crank, {}, {}, {}, {}};
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d arm = crank.end[i] - crank.pivot;
    place.along[i] = crank.axis.dot(arm) * crank.axis;
    place.across[i] = arm - place.along[i];
    place.turned[i] = crank.axis.cross(arm);
    place.far[i] = FarInCarrier(crank, i, p, R) - crank.pivot;
  }
  return place;
}

template <typename T>
CrankLinks<T> LinksAt(const CrankPlace<T>& place, const T& cosine, const T& sine) {
  CrankLinks<T> links;
  for (size_t i = 0; i < 2; ++i) {
    Vector3<T> line, motion, inward;
    for (size_t k = 0; k < 3; ++k) {
      const auto c = static_cast<int>(k);
      const double across = place.across[i][c], turned = place.turned[i][c];
      inward[k] = cosine * across + sine * turned;
      line[k] = inward[k] - place.far[i][k] + place.along[i][c];
      motion[k] = cosine * turned - sine * across;
    }
    const T length = Norm(line);
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
  const Vector3<T> c = -(place.far[0] - place.along[0]);
  const FrameCrank& crank = place.crank;
  const T A = Dot(c, place.across[0]) * 2.0, B = Dot(c, place.turned[0]) * 2.0;
  const T D = -(Dot(c, c) - (crank.length[0] * crank.length[0] - place.across[0].squaredNorm()));
  const T square = A * A + B * B;
  const T root = sqrt(square - D * D) * crank.branch;
  return {(A * D - B * root) / square, (B * D + A * root) / square};
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
inline std::array<double, 2> BalancedAngle(const FrameCrank& crank, const Vector3<double>& p,
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
CrankLinks<T> BalancedLinks(const FrameCrank& crank, const Vector3<T>& p, const Rotation<T>& R) {
  const Eigen::Vector3d at = ValueOf(p);
  Rotation<double> R_value;
  for (size_t i = 0; i < R.size(); ++i) R_value[i] = WithoutDerivatives(R[i]);
  const auto [c, s] = BalancedAngle(crank, {at.x(), at.y(), at.z()}, R_value);
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
T CrankResidual(const FrameCrank& crank, const Vector3<T>& p, const Rotation<T>& R) {
  using std::sqrt;
  const auto [r, g, b] = BalancedLinks(crank, p, R);
  return (r[1] * g[0] - r[0] * g[1]) / sqrt(g[0] * g[0] + g[1] * g[1]);
}

}  // namespace linkwright
