// SPDX-License-Identifier: MIT
#include "solver/rest/cornering_pull.h"

#include "solver/pose/dual.h"

namespace linkwright {
namespace {

using Number = Dual<double, kRestUnknowns>;
using Vector = std::array<Number, 3>;

Number Constant7(double v) { return {v, {}}; }

Vector operator+(const Vector& a, const Vector& b) {
  return {a[0] + b[0], a[1] + b[1], a[2] + b[2]};
}
Vector operator-(const Vector& a, const Vector& b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
Vector operator*(const Number& k, const Vector& a) { return {k * a[0], k * a[1], k * a[2]}; }
Vector Cross(const Vector& a, const Vector& b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
Vector Unit(const Vector& a) { return (Constant7(1.0) / sqrt(Dot(a, a))) * a; }
Vector OnFloor(const Vector& a, const Vector& n) { return a - Dot(a, n) * n; }

// What a housing's height and roll make of something, and of its derivative by either.
Number ValueOf(const Taylor& t, size_t z) {
  Number number = Constant7(t.v);
  number.d[z] = t.z, number.d[z + 1] = t.r;
  return number;
}
Number ByHeight(const Taylor& t, size_t z) {
  Number number = Constant7(t.z);
  number.d[z] = t.zz, number.d[z + 1] = t.zr;
  return number;
}
Number ByRoll(const Taylor& t, size_t z) {
  Number number = Constant7(t.r);
  number.d[z] = t.zr, number.d[z + 1] = t.rr;
  return number;
}

using Reading = Number (*)(const Taylor&, size_t);

Vector Read(const TaylorPoint& p, size_t z, Reading reading) {
  return {reading(p[0], z), reading(p[1], z), reading(p[2], z)};
}

// One axle on the floor, in C.
struct Standing {
  const HousingMotion& motion;
  size_t z;         // index of its height
  Vector contact;   // under its middle, on the floor
  Vector sideways;  // its lateral axis along the floor (unit): where its tyres push
};

// The body's motion over the floor per unit of one unknown, its seat on the floor still free.
struct Turning {
  Vector rise;  // of Co, along the normal
  Vector turn;  // angular velocity along the floor
};

struct Floor7 {
  Vector n, along, left;
  Number length;  // from the rear contact to the front one
  std::array<Standing, 2> axles;
};

Vector NormalOf(const RestState& state) {
  Number a = Constant7(state.slope.x()), b = Constant7(state.slope.y());
  a.d[kSlopeX] = 1.0, b.d[kSlopeY] = 1.0;
  return {a, b, sqrt(Constant7(1.0) - a * a - b * b)};
}

// K = p - h (n - s u) / (1 - s^2), h the height of the housing's centre over the floor.
Standing StandOf(const RestState& state, size_t axle, const Vector& n) {
  const HousingMotion& motion = state.motion[axle];
  const auto z = static_cast<size_t>(HeightIndex(axle));
  const Vector centre = Read(motion.p, z, ValueOf);
  const Vector u = Read({motion.R[1], motion.R[4], motion.R[7]}, z, ValueOf);
  Number heave = Constant7(state.heave);
  heave.d[kHeave] = 1.0;
  const Number s = Dot(n, u);
  const Number reach = (heave + Dot(n, centre)) / (Constant7(1.0) - s * s);
  return {.motion = motion,
          .z = z,
          .contact = centre - reach * (n - s * u),
          .sideways = Unit(OnFloor(u, n))};
}

Floor7 FloorOf(const RestState& state) {
  const Vector n = NormalOf(state);
  Floor7 floor{.n = n,
               .along = {},
               .left = {},
               .length = {},
               .axles = {StandOf(state, 0, n), StandOf(state, 1, n)}};
  const Vector apart = OnFloor(floor.axles[0].contact - floor.axles[1].contact, n);
  floor.length = sqrt(Dot(apart, apart));
  floor.along = (Constant7(1.0) / floor.length) * apart;
  floor.left = Cross(n, floor.along);
  return floor;
}

// Of the body, for one of the unknowns: heave lifts it, a slope turns it about dn x n.
Turning TurnOf(const Floor7& floor, int unknown) {
  const Vector& n = floor.n;
  const Number none = Constant7(0.0), one = Constant7(1.0);
  Turning turning{.rise = {none, none, none}, .turn = {none, none, none}};
  if (unknown == kHeave) turning.rise = n;
  if (unknown == kSlopeX) turning.turn = Cross({one, none, -(n[0] / n[2])}, n);
  if (unknown == kSlopeY) turning.turn = Cross({none, one, -(n[1] / n[2])}, n);
  return turning;
}

// Velocity in C of the point of a housing that is at p_C now, per unit of its height or roll.
Vector DrivenBy(const Standing& axle, int unknown, const Vector& p_C) {
  const bool height = unknown == static_cast<int>(axle.z);
  const bool roll = unknown == static_cast<int>(axle.z) + 1;
  if (!height && !roll) return {Constant7(0.0), Constant7(0.0), Constant7(0.0)};
  const Reading rate = height ? ByHeight : ByRoll;
  const Rotation<Taylor>& R = axle.motion.R;
  const Vector from_centre = p_C - Read(axle.motion.p, axle.z, ValueOf);
  Vector velocity = Read(axle.motion.p, axle.z, rate);
  for (size_t column = 0; column < 3; ++column) {
    const TaylorPoint axis{R[column], R[3 + column], R[6 + column]};
    const Number part = Dot(Read(axis, axle.z, ValueOf), from_centre);
    velocity = velocity + part * Read(axis, axle.z, rate);
  }
  return velocity;
}

// Seat of the whole on the floor per unit of one unknown: along it and to its left at the rear
// contact, and turning about the normal. Each axle's tyres do not slide along its own lateral
// direction; along the vehicle the two contacts stand still on average.
struct Seat {
  Number along, left, turn;
};

Seat SeatOf(const Floor7& floor, const std::array<Vector, 2>& contact_velocity) {
  const auto& [front, rear] = floor.axles;
  const auto held = [&](const Standing& axle, const Vector& v) { return Dot(axle.sideways, v); };
  Seat seat{};
  seat.along = -0.5 * Dot(floor.along, contact_velocity[0] + contact_velocity[1]);
  seat.left = -((held(rear, contact_velocity[1]) + Dot(rear.sideways, floor.along) * seat.along) /
                Dot(rear.sideways, floor.left));
  const Number slides = held(front, contact_velocity[0]) +
                        Dot(front.sideways, floor.along) * seat.along +
                        Dot(front.sideways, floor.left) * seat.left;
  seat.turn = -(slides / (Dot(front.sideways, floor.left) * floor.length));
  return seat;
}

}  // namespace

CorneringPull PullOfCorner(const Rig& rig, const SprungMass& sprung, const RestState& state,
                           double lateral) {
  const Floor7 floor = FloorOf(state);
  const Vector p_sprung{Constant7(sprung.p_CM.x()), Constant7(sprung.p_CM.y()),
                        Constant7(sprung.p_CM.z())};
  std::array<Vector, 2> p_unsprung;
  for (size_t i = 0; i < 2; ++i) {
    const Eigen::Vector3d p_AM =
        OnHousing(rig.axles[i].frame, rig.vehicle->axles[i].unsprung->p_CM);
    p_unsprung[i] = Read(MotionOf(state.motion[i], p_AM), floor.axles[i].z, ValueOf);
  }
  CorneringPull pull;
  for (int k = 0; k < kRestUnknowns; ++k) {
    const Turning body = TurnOf(floor, k);
    const auto carried = [&](const Vector& p) { return body.rise + Cross(body.turn, p); };
    std::array<Vector, 2> contact_velocity;
    for (size_t i = 0; i < 2; ++i) {
      const Vector& K = floor.axles[i].contact;
      contact_velocity[i] = carried(K) + DrivenBy(floor.axles[i], k, K);
    }
    const Seat seat = SeatOf(floor, contact_velocity);
    const auto leftward = [&](const Vector& p, const Vector& v) {
      return Dot(floor.left, v) + seat.left +
             seat.turn * Dot(floor.along, p - floor.axles[1].contact);
    };
    Number work = sprung.mass * leftward(p_sprung, carried(p_sprung));
    for (size_t i = 0; i < 2; ++i) {
      const Vector v = carried(p_unsprung[i]) + DrivenBy(floor.axles[i], k, p_unsprung[i]);
      work = work + rig.vehicle->axles[i].unsprung->mass * leftward(p_unsprung[i], v);
    }
    pull.work[k] = lateral * work.v;
    for (int j = 0; j < kRestUnknowns; ++j) {
      pull.slope(k, j) = lateral * work.d[static_cast<size_t>(j)];
    }
  }
  return pull;
}

}  // namespace linkwright
