// SPDX-License-Identifier: MIT
#include "solver/rest/linear_model.h"

#include "solver/rest/contact_line.h"
#include "solver/rest/damping.h"
#include "solver/rest/rest_balance.h"
#include "solver/rest/ride.h"
#include "solver/rest/stance_report.h"

namespace linkwright {
namespace {

// The nine, and rolling fore and aft along the contact line.
constexpr int kMoving = kModelUnknowns + 1;
constexpr int kSurge = kModelUnknowns;
using MovingMatrix = Eigen::Matrix<double, kMoving, kMoving>;
using MovingRow = Eigen::Matrix<double, 1, kMoving>;
using MovingRows = Eigen::Matrix<double, 3, kMoving>;  // along, left and up of the contact line

MovingRow RowOf(const RestNumber& f) {
  MovingRow row = MovingRow::Zero();
  row.head<kRestUnknowns>() = RestVector(f.d.data()).transpose();
  return row;
}

// Velocity of a point over the floor per unit of each coordinate's.
MovingRows VelocityOf(const ContactLine& line, const RestVector3& p) {
  const RestVector3 from_rear = p - line.contact[1];
  const RestNumber along = Dot(line.along, from_rear), left = Dot(line.left, from_rear);
  MovingRows rows;
  rows << RowOf(along), RowOf(left), RowOf(Dot(line.up, p));
  rows(2, kHeave) = 1.0;
  rows(0, kSurge) = 1.0;
  // Contacts that go sideways take the whole with them and turn it.
  const double front_share = along.v / line.length.v;
  rows(0, kSwayFront) = -left.v / line.length.v;
  rows(0, kSwayRear) = left.v / line.length.v;
  rows(1, kSwayFront) = front_share;
  rows(1, kSwayRear) = 1.0 - front_share;
  return rows;
}

// u' . v for unit vectors of the floor in C: one component of the body's turning.
MovingRow Turn(const RestVector3& u, const RestVector3& v) {
  MovingRow row = MovingRow::Zero();
  for (size_t i = 0; i < 3; ++i) row += v[i].v * RowOf(u[i]);
  return row;
}

// The body's angular velocity over the floor, expressed in C.
MovingRows TurningOfBody(const ContactLine& line) {
  MovingRows floor_axes;
  floor_axes << Turn(line.up, line.left), Turn(line.along, line.up), Turn(line.left, line.along);
  floor_axes(2, kSwayFront) = 1.0 / line.length.v;
  floor_axes(2, kSwayRear) = -1.0 / line.length.v;
  Eigen::Matrix3d in_C;
  in_C << ValueOf(line.along), ValueOf(line.left), ValueOf(line.up);
  return in_C * floor_axes;
}

MovingRows TurningOfHousing(const MovingRows& body, const HousingMotion& motion, size_t axle) {
  MovingRows turning = body;
  turning.col(HeightIndex(axle)) += TurnPerHeight(motion);
  turning.col(HeightIndex(axle) + 1) += TurnPerRoll(motion);
  return turning;
}

using Parts = std::array<MovingMatrix, kMotionParts>;

MovingMatrix Square(double inertia, const MovingRow& row) {
  return inertia * row.transpose() * row;
}

void AddBody(Parts& parts, const ContactLine& line, const SprungMass& sprung,
             const Inertias& inertias) {
  const MovingRows v = VelocityOf(line, ConstantVector<RestNumber>(sprung.p_CM));
  const MovingRows w = TurningOfBody(line);
  parts[kBodyHeave] += Square(sprung.mass, v.row(2));
  parts[kBodyPitch] += Square(sprung.mass, v.row(0)) + Square(inertias.pitch, w.row(1));
  parts[kBodyRoll] += Square(inertias.roll, w.row(0));
  parts[kBodySway] += Square(sprung.mass, v.row(1));
  parts[kBodyYaw] += Square(inertias.yaw, w.row(2));
}

void AddHousing(Parts& parts, const ContactLine& line, const Rig& rig, const RestState& state,
                size_t axle, double inertia) {
  const Mass& unsprung = *rig.vehicle->axles[axle].unsprung;
  const HousingMotion& motion = state.motion[axle];
  const MovingRows v = VelocityOf(line, FirstOrder(MotionOf(motion, rig.axles[axle].p_AM), axle));
  const MovingRows w = TurningOfHousing(TurningOfBody(line), motion, axle);
  // About its own axis a housing has next to no inertia.
  const MovingRow spin = ValueOf(LateralAxis(motion.R)).transpose() * w;
  const size_t hop = axle == 0 ? kFrontHop : kRearHop, tramp = hop + 1;
  parts[hop] += Square(unsprung.mass, v.row(0)) + Square(unsprung.mass, v.row(2));
  parts[tramp] +=
      Square(unsprung.mass, v.row(1)) + inertia * w.transpose() * w - Square(inertia, spin);
}

// The seven unknowns per free one of them: wheels of rigid tyres that stand keep their heights. `K`
// loses what those wheels' forces do.
Eigen::MatrixXd FreeOfSeven(const Rig& rig, const Stance& stance, const RestState& state,
                            RestMatrix& K) {
  Held held{};
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    held[wheel] = !rig.vehicle->axles[wheel / 2].tire.rate && stance.wheel_load[wheel] > 0.0;
  }
  return FreeOfHeld(HeldWheels(rig, state, held), stance.wheel_load, K);
}

// The same with the sway of every axle whose tyres give sideways.
Eigen::MatrixXd FreeOfNine(const Rig& rig, const Eigen::MatrixXd& of_seven) {
  std::vector<int> sways;
  if (rig.vehicle->axles[0].tire.rate) sways.push_back(kSwayFront);
  if (rig.vehicle->axles[1].tire.rate) sways.push_back(kSwayRear);
  const auto more = static_cast<Eigen::Index>(sways.size());
  Eigen::MatrixXd free = Eigen::MatrixXd::Zero(kModelUnknowns, of_seven.cols() + more);
  free.topLeftCorner(kRestUnknowns, of_seven.cols()) = of_seven;
  for (Eigen::Index i = 0; i < more; ++i) {
    free(sways[static_cast<size_t>(i)], of_seven.cols() + i) = 1.0;
  }
  return free;
}

// Sideways rate of an axle's tyres on the floor [N/m]; 0 where they are rigid and do not move.
double LateralRate(const Tire& tire, size_t standing, const RideGuesses& guesses) {
  if (!tire.rate) return 0.0;
  const double one = tire.lateral_rate.value_or(guesses.tire_lateral_share * *tire.rate);
  return static_cast<double>(standing) * one;
}

using ModelMatrix = Eigen::Matrix<double, kModelUnknowns, kModelUnknowns>;

ModelMatrix StiffnessOf(const RestMatrix& of_seven, const Rig& rig, const Stance& stance,
                        const RideGuesses& guesses) {
  ModelMatrix K = ModelMatrix::Zero();
  K.topLeftCorner<kRestUnknowns, kRestUnknowns>() = of_seven;
  for (size_t i = 0; i < 2; ++i) {
    size_t standing = 0;
    for (size_t wheel = 2 * i; wheel < 2 * i + 2; ++wheel) {
      if (stance.wheel_load[wheel] > 0.0) ++standing;
    }
    const int sway = i == 0 ? kSwayFront : kSwayRear;
    K(sway, sway) = LateralRate(rig.vehicle->axles[i].tire, standing, guesses);
  }
  return K;
}

}  // namespace

Inertias InertiasOf(const Rig& rig, const Stance& stance, const RideGuesses& guesses) {
  const SprungMass& sprung = stance.sprung;
  const double mean_track = 0.5 * (rig.axles[0].frame.track + rig.axles[1].frame.track);
  const AxleArms arms = ArmsOf(stance);
  const auto gyration = [](double mass, double radius) { return mass * radius * radius; };
  Inertias inertias{};
  inertias.roll_guessed = !sprung.roll_inertia;
  inertias.pitch_guessed = !sprung.pitch_inertia;
  inertias.roll =
      sprung.roll_inertia.value_or(gyration(sprung.mass, guesses.body_roll_gyration * mean_track));
  // An index of 1, or, with the centre outside the axles, a quarter of the wheelbase squared.
  const double product = arms.behind_front * arms.ahead_of_rear;
  const double base = arms.behind_front + arms.ahead_of_rear;
  inertias.pitch =
      sprung.pitch_inertia.value_or(sprung.mass * (product > 0.0 ? product : 0.25 * base * base));
  inertias.yaw = inertias.pitch;
  for (size_t i = 0; i < 2; ++i) {
    const Axle& axle = rig.vehicle->axles[i];
    inertias.axle_guessed[i] = !axle.unsprung_roll_inertia;
    inertias.axle[i] = axle.unsprung_roll_inertia.value_or(
        gyration(axle.unsprung->mass, guesses.axle_roll_gyration * rig.axles[i].frame.track));
  }
  return inertias;
}

LinearModel Linearise(const Rig& rig, const Stance& stance, const Inertias& inertias,
                      const RideGuesses& guesses) {
  const RestState state = StateOf(stance);
  const ContactLine line = FindContactLine(state, ContactPoint::kOfHousing);
  Parts parts;
  parts.fill(MovingMatrix::Zero());
  AddBody(parts, line, stance.sprung, inertias);
  for (size_t i = 0; i < 2; ++i) AddHousing(parts, line, rig, state, i, inertias.axle[i]);
  MovingMatrix M = MovingMatrix::Zero();
  for (const MovingMatrix& part : parts) M += part;

  RestMatrix K = TotalEnergy(rig, stance.sprung, state).hessian;
  LinearModel model;
  model.free = FreeOfNine(rig, FreeOfSeven(rig, stance, state, K));
  // No momentum fore and aft: the whole rolls back as much as its parts go forward.
  Eigen::MatrixXd moving(kMoving, model.free.cols());
  moving.topRows<kModelUnknowns>() = model.free;
  moving.row(kSurge) = -M.row(kSurge).head<kModelUnknowns>() * model.free / M(kSurge, kSurge);
  model.mass = moving.transpose() * M * moving;
  for (size_t i = 0; i < kMotionParts; ++i) {
    model.part[i] = moving.transpose() * parts[i] * moving;
  }
  const RestMatrix C = DampingMatrix(rig, stance);
  const Eigen::MatrixXd seven = model.free.topRows<kRestUnknowns>();
  model.damping = seven.transpose() * C * seven;
  model.stiffness = model.free.transpose() * StiffnessOf(K, rig, stance, guesses) * model.free;
  const MovingRows w = TurningOfBody(line);
  const MovingRows v = VelocityOf(line, ConstantVector<RestNumber>(stance.sprung.p_CM));
  model.heave = v.row(2) * moving;
  model.sway = v.row(1) * moving;
  model.pitch = -w.row(1) * moving;
  model.roll = w.row(0) * moving;
  model.yaw = w.row(2) * moving;
  model.damped = !C.isZero(0.0);
  return model;
}

std::string ModeName(MotionPart part) {
  switch (part) {
    case kBodyHeave:
      return "bounce";
    case kBodyPitch:
      return "pitch";
    case kBodyRoll:
      return "roll";
    case kBodySway:
      return "sway";
    case kBodyYaw:
      return "yaw";
    case kFrontHop:
      return "front hop";
    case kFrontTramp:
      return "front tramp";
    case kRearHop:
      return "rear hop";
    case kRearTramp:
      return "rear tramp";
  }
  return {};
}

}  // namespace linkwright
