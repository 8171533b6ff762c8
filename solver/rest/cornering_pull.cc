// SPDX-License-Identifier: MIT
#include "solver/rest/cornering_pull.h"

#include "solver/rest/contact_line.h"

namespace linkwright {
namespace {

// How something that a housing's height and roll decide changes by either.
template <size_t N>
std::array<Taylor, N> ByHeight(const std::array<Taylor, N>& of) {
  std::array<Taylor, N> rate;
  for (size_t i = 0; i < N; ++i) rate[i] = {.v = of[i].z, .z = of[i].zz, .r = of[i].zr};
  return rate;
}
template <size_t N>
std::array<Taylor, N> ByRoll(const std::array<Taylor, N>& of) {
  std::array<Taylor, N> rate;
  for (size_t i = 0; i < N; ++i) rate[i] = {.v = of[i].r, .z = of[i].zr, .r = of[i].rr};
  return rate;
}

// The body's motion over the floor per unit of one unknown, its seat on the floor still free.
struct Turning {
  RestVector3 rise;  // of Co, along the normal
  RestVector3 turn;  // angular velocity along the floor
};

// Both axles on the floor, in C.
struct Standing {
  ContactLine line;
  std::array<RestVector3, 2> sideways;  // each one's lateral axis along the floor (unit): where its
                                        // tyres push
};

Standing StandOf(const RestState& state) {
  Standing standing{.line = FindContactLine(state, ContactPoint::kOnFloor), .sideways = {}};
  for (size_t axle = 0; axle < 2; ++axle) {
    const RestVector3 lateral = FirstOrder(LateralAxis(state.motion[axle].R), axle);
    const RestVector3 flat = OnFloor(lateral, standing.line.up);
    standing.sideways[axle] = (RestNumber{1.0, {}} / Norm(flat)) * flat;
  }
  return standing;
}

// Of the body, for one of the unknowns: heave lifts it, a slope turns it about dn x n.
Turning TurnOf(const RestVector3& n, int unknown) {
  const RestNumber none{}, one{1.0, {}};
  Turning turning{};
  if (unknown == kHeave) turning.rise = n;
  if (unknown == kSlopeX) turning.turn = Cross({one, none, -(n[0] / n[2])}, n);
  if (unknown == kSlopeY) turning.turn = Cross({none, one, -(n[1] / n[2])}, n);
  return turning;
}

// Velocity in C of the point of a housing that is at p_C now, per unit of its height or roll.
RestVector3 DrivenBy(const RestState& state, size_t axle, int unknown, const RestVector3& p_C) {
  const bool height = unknown == HeightIndex(axle);
  const bool roll = unknown == HeightIndex(axle) + 1;
  if (!height && !roll) return {};
  const HousingMotion& motion = state.motion[axle];
  const auto velocity = FirstOrder(height ? ByHeight(motion.p) : ByRoll(motion.p), axle);
  const auto turning = FirstOrder(height ? ByHeight(motion.R) : ByRoll(motion.R), axle);
  const RestVector3 from_centre = p_C - FirstOrder(motion.p, axle);
  return velocity + Rotate(turning, RotateBack(FirstOrder(motion.R, axle), from_centre));
}

// Seat of the whole on the floor per unit of one unknown: along it and to its left at the rear
// contact, and turning about the normal. Each axle's tyres do not slide along its own lateral
// direction; along the vehicle the two contacts stand still on average.
struct Seat {
  RestNumber along, left, turn;
};

Seat SeatOf(const Standing& standing, const std::array<RestVector3, 2>& contact_velocity) {
  const ContactLine& line = standing.line;
  const auto& [front, rear] = standing.sideways;
  Seat seat{};
  seat.along = -0.5 * Dot(line.along, contact_velocity[0] + contact_velocity[1]);
  seat.left = -((Dot(rear, contact_velocity[1]) + Dot(rear, line.along) * seat.along) /
                Dot(rear, line.left));
  const RestNumber slides = Dot(front, contact_velocity[0]) + Dot(front, line.along) * seat.along +
                            Dot(front, line.left) * seat.left;
  seat.turn = -(slides / (Dot(front, line.left) * line.length));
  return seat;
}

}  // namespace

CorneringPull PullOfCorner(const Rig& rig, const SprungMass& sprung, const RestState& state,
                           double lateral) {
  const Standing standing = StandOf(state);
  const ContactLine& line = standing.line;
  const auto p_sprung = ConstantVector<RestNumber>(sprung.p_CM);
  std::array<RestVector3, 2> p_unsprung;
  for (size_t i = 0; i < 2; ++i) {
    p_unsprung[i] = FirstOrder(MotionOf(state.motion[i], rig.axles[i].p_AM), i);
  }
  CorneringPull pull;
  for (int k = 0; k < kRestUnknowns; ++k) {
    const Turning body = TurnOf(line.up, k);
    const auto carried = [&](const RestVector3& p) { return body.rise + Cross(body.turn, p); };
    std::array<RestVector3, 2> contact_velocity;
    for (size_t i = 0; i < 2; ++i) {
      const RestVector3& K = line.contact[i];
      contact_velocity[i] = carried(K) + DrivenBy(state, i, k, K);
    }
    const Seat seat = SeatOf(standing, contact_velocity);
    const auto leftward = [&](const RestVector3& p, const RestVector3& v) {
      return Dot(line.left, v) + seat.left + seat.turn * Dot(line.along, p - line.contact[1]);
    };
    RestNumber work = sprung.mass * leftward(p_sprung, carried(p_sprung));
    for (size_t i = 0; i < 2; ++i) {
      const RestVector3 v = carried(p_unsprung[i]) + DrivenBy(state, i, k, p_unsprung[i]);
      work = work + rig.vehicle->axles[i].unsprung->mass * leftward(p_unsprung[i], v);
    }
    pull.work[k] = lateral * work.v;
    pull.slope.row(k) = lateral * RestVector(work.d.data());
  }
  return pull;
}

}  // namespace linkwright
