// SPDX-License-Identifier: MIT
#include "solver/rest/total_energy.h"

#include <cmath>

#include "solver/model/masses.h"

namespace linkwright {
namespace {

// heave + up . P with up = (a, b, sqrt(1 - a^2 - b^2)); P may depend on one axle's height and roll.
Height HeightOf(const RestState& state, const TaylorPoint& P, int z) {
  const Eigen::Vector3d up = UpInChassis(state);
  const double a = up.x(), b = up.y(), c = up.z();
  const double X = P[0].v, Y = P[1].v, Z = P[2].v;
  const double ca = -a / c, cb = -b / c;  // derivatives of c
  Height h{.value = state.heave + a * X + b * Y + c * Z,
           .gradient = RestVector::Zero(),
           .hessian = RestMatrix::Zero()};
  h.gradient[kHeave] = 1.0;
  h.gradient[kSlopeX] = X + ca * Z;
  h.gradient[kSlopeY] = Y + cb * Z;
  h.hessian(kSlopeX, kSlopeX) = -Z * (1.0 + ca * ca) / c;
  h.hessian(kSlopeY, kSlopeY) = -Z * (1.0 + cb * cb) / c;
  h.hessian(kSlopeX, kSlopeY) = h.hessian(kSlopeY, kSlopeX) = -Z * ca * cb / c;
  if (z < 0) return h;
  const int r = z + 1;
  const auto along = [&](double Taylor::*d) { return a * P[0].*d + b * P[1].*d + c * P[2].*d; };
  h.gradient[z] = along(&Taylor::z);
  h.gradient[r] = along(&Taylor::r);
  h.hessian(z, z) = along(&Taylor::zz);
  h.hessian(r, r) = along(&Taylor::rr);
  h.hessian(z, r) = h.hessian(r, z) = along(&Taylor::zr);
  h.hessian(kSlopeX, z) = h.hessian(z, kSlopeX) = P[0].z + ca * P[2].z;
  h.hessian(kSlopeX, r) = h.hessian(r, kSlopeX) = P[0].r + ca * P[2].r;
  h.hessian(kSlopeY, z) = h.hessian(z, kSlopeY) = P[1].z + cb * P[2].z;
  h.hessian(kSlopeY, r) = h.hessian(r, kSlopeY) = P[1].r + cb * P[2].r;
  return h;
}

void AddTire(Energy& energy, const Tire& tire, size_t side, const Height& height) {
  const double force = TireForce(tire, side, height.value);
  if (force == 0.0) return;
  energy.value += 0.5 * force * force / *tire.rate;
  energy.gradient -= force * height.gradient;
  energy.hessian += *tire.rate * height.gradient * height.gradient.transpose();
  energy.hessian -= force * height.hessian;
}

}  // namespace

Eigen::Vector3d UpInChassis(const RestState& state) {
  return {state.slope.x(), state.slope.y(), std::sqrt(1.0 - state.slope.squaredNorm())};
}

RestState StateOf(const Stance& stance) {
  return {.heave = stance.heave, .slope = stance.up_C.head<2>(), .motion = stance.motion};
}

Height HeightOfBodyPoint(const RestState& state, const Eigen::Vector3d& p_C) {
  return HeightOf(state, {Constant(p_C.x()), Constant(p_C.y()), Constant(p_C.z())}, -1);
}

Height HeightOfAxlePoint(const RestState& state, size_t axle, const Eigen::Vector3d& p_AQ) {
  return HeightOf(state, MotionOf(state.motion[axle], p_AQ), HeightIndex(axle));
}

Eigen::Vector3d WheelCentreInAxle(const Rig& rig, size_t wheel) {
  return WheelCentre(rig.axles[wheel / 2].frame, wheel % 2);
}

double TireForce(const Tire& tire, size_t side, double height) {
  const double squeeze = FreeRadius(tire, side) - height;
  return squeeze > 0.0 ? *tire.rate * squeeze : 0.0;
}

Energy TotalEnergy(const Rig& rig, const SprungMass& sprung, const RestState& state,
                   const Push& push) {
  Energy energy = sprung.mass * kStandardGravity * HeightOfBodyPoint(state, sprung.p_CM);
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    const RigAxle& prepared = rig.axles[i];
    energy = energy +
             axle.unsprung->mass * kStandardGravity * HeightOfAxlePoint(state, i, prepared.p_AM);
    const AxleEnergy stored = StoredEnergy(axle, prepared.frame, prepared.pushers, state.motion[i]);
    Taylor own = stored.springs + stored.bar + state.motion[i].strain;
    if (push.ends_hold) own = own + HeldEnds(prepared.ends, state.motion[i]);
    energy = energy + AlongAxle(own, i);
    if (!axle.tire.rate) continue;
    for (size_t wheel = 2 * i; wheel < 2 * i + 2; ++wheel) {
      AddTire(energy, axle.tire, wheel % 2,
              HeightOfAxlePoint(state, i, WheelCentreInAxle(rig, wheel)));
    }
  }
  for (size_t i = 0; i < 2; ++i) {
    const Taylor roll{.v = state.motion[i].pose.roll, .r = 1.0};
    if (push.shaft_torque[i] != 0.0) energy = energy + AlongAxle(push.shaft_torque[i] * roll, i);
  }
  return energy;
}

}  // namespace linkwright
