// SPDX-License-Identifier: MIT
// What forces do to a housing that is free in all six coordinates. Over any scalar: double for the
// balance at a pose, Dual for how it changes as the housing moves.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>

#include "solver/model/force_law.h"
#include "solver/numeric/dual.h"
#include "solver/numeric/vector3.h"
#include "solver/pose/rotation.h"
#include "solver/rest/rig.h"

namespace linkwright {

// Work of what was added up, per unit of each coordinate, in the order of CoordinatesOf.
template <typename T>
struct HousingWork {
  std::array<T, 6> q;  // x, y [m], steer, pitch [rad], z [m], roll [rad]
  Vector3<T> p;        // housing centre in C [m]
  Rotation<T> R;       // R_CA
  Vector3<T> forward;  // level, in C: the axis of roll; that of pitch is minus the lateral axis
  std::array<T, 6> work{};

  explicit HousingWork(const std::array<T, 6>& at)
      : q(at), p{q[0], q[1], q[4]}, R(HousingRotation(q[2], q[5], q[3])) {
    using std::cos;
    using std::sin;
    forward = {cos(q[2]), sin(q[2]), T{}};
  }

  // A force on a point of the housing, in C [N].
  void Add(const Vector3<T>& force, const Eigen::Vector3d& p_AQ) {
    AddFrom(Rotate(R, p_AQ), force);
  }
  // The same on the point that is `arm` from its centre, in C [m].
  void AddFrom(const Vector3<T>& arm, const Vector3<T>& force) {
    const Vector3<T> moment = Cross(arm, force);
    const std::array<T, 6> done{force[0],  force[1],
                                moment[2], -Dot(LateralAxis(R), moment),
                                force[2],  Dot(forward, moment)};
    for (size_t i = 0; i < 6; ++i) work[i] = work[i] + done[i];
  }
};

// What a stop does to its housing: along the normal of the pad where the cone's axis meets it,
// whichever body carries the cone. source: docs/theory.md (38)
template <typename T>
void AddStop(const ForceLaw& law, const StopCone& cone, HousingWork<T>& to) {
  const ConePlace<T> place = PlaceOf(cone, to.p, to.R);
  const ConePlace<double> here{WithoutDerivatives(place.length), WithoutDerivatives(place.lean),
                               WithoutDerivatives(place.normal), WithoutDerivatives(place.contact),
                               WithoutDerivatives(place.pad)};
  if (!MeetsPad(cone, here)) return;
  const LawState state = Evaluate(law, here.length);
  if (state.force == 0.0 && state.rate == 0.0) return;
  const T force = Chain(place.length, state.force, -state.rate) / place.lean;
  to.AddFrom(place.contact - to.p, force * place.normal);
}

// Its coils, stops and anti-roll bar, and a weight at its unsprung mass's centre.
//   axle, prepared   with unsprung mass
//   weight_C         in C [N]
template <typename T>
void AddLoads(const Axle& axle, const RigAxle& prepared, const Eigen::Vector3d& weight_C,
              HousingWork<T>& to) {
  for (const Pusher& pusher : prepared.pushers) {
    if (pusher.cone) {
      AddStop(*pusher.law, *pusher.cone, to);
      continue;
    }
    const Vector3<T> d = Rotate(to.R, pusher.p_AQ) + to.p - pusher.p_CP;
    const T length = Norm(d);
    const LawState law = Evaluate(*pusher.law, WithoutDerivatives(length));
    to.Add((Chain(length, law.force, -law.rate) / length) * d, pusher.p_AQ);
  }
  to.Add(ConstantVector<T>(weight_C), prepared.p_AM);
  if (!axle.bar_roll_rate) return;
  to.work[5] = to.work[5] - (to.q[5] - prepared.frame.measured.roll) * *axle.bar_roll_rate;
}

}  // namespace linkwright
