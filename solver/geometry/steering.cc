// SPDX-License-Identifier: MIT
#include "solver/geometry/steering.h"

#include <algorithm>
#include <cmath>

#include "solver/model/error.h"

namespace linkwright {

KingpinAxis PrepareKingpin(const Axle& axle, const AxleFrame& frame, double side) {
  if (!axle.kingpin || !axle.kingpin->p_CK) {
    throw ModelError({"axles", axle.name, "kingpin"},
                     "steering needs a kingpin with `at`, a point of its axis");
  }
  const Kingpin& kingpin = *axle.kingpin;
  Eigen::Vector3d p_CK = *kingpin.p_CK;
  p_CK.y() *= side;
  const Eigen::Vector3d axis_C(-std::tan(kingpin.caster), -side * std::tan(kingpin.inclination),
                               1.0);
  return {.p_AK = OnHousing(frame, p_CK),
          .axis_A = frame.X_CA.linear().transpose() * axis_C.normalized()};
}

namespace {

// A rod nearer than this to its dead centre is at it: one wheel's travel then turns the knuckle by
// more than a joint's play is worth. 1e-6 is what rounding leaves of coordinates of metres,
// squared.
constexpr double kDeadCentre = 1e-6;

// How fast a rod's ends part as its knuckle turns left, times their distance [m2/rad].
double PartingOf(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ, const Eigen::Vector3d& p_AP) {
  return (p_AQ - p_AP).dot(pin.axis_A.cross(p_AQ - pin.p_AK));
}

// How squarely a rod from P to Q stands on its knuckle's arm: the share of a push along it that
// turns the knuckle left; 0 where the rod is parallel to the kingpin or in line with it.
double PushOn(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ, const Eigen::Vector3d& p_AP) {
  const double size = pin.axis_A.cross(p_AQ - pin.p_AK).norm() * (p_AQ - p_AP).norm();
  return size > 0.0 ? PartingOf(pin, p_AQ, p_AP) / size : 0.0;
}

}  // namespace

std::optional<Assembly> AssemblyOf(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ,
                                   const Eigen::Vector3d& p_AP) {
  const double square = PushOn(pin, p_AQ, p_AP);
  if (std::abs(square) < kDeadCentre) return std::nullopt;
  return square > 0.0 ? Assembly::kParts : Assembly::kCloses;
}

namespace {

// Squared distance of a knuckle's point from a fixed one as the knuckle turns by t about its
// kingpin: |K + Rot(k, t) a - P|^2 = mean + A cos t + B sin t, with a split along and across k.
struct SquaredDistance {
  double mean, A, B;  // [m2]
};

SquaredDistance DistanceOverTurn(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ,
                                 const Eigen::Vector3d& p_AP) {
  const Eigen::Vector3d& k = pin.axis_A;
  const Eigen::Vector3d a = p_AQ - pin.p_AK;
  const Eigen::Vector3d along = k.dot(a) * k;
  const Eigen::Vector3d across = a - along;
  const Eigen::Vector3d c = pin.p_AK + along - p_AP;
  return {.mean = c.squaredNorm() + across.squaredNorm(),
          .A = 2.0 * c.dot(across),
          .B = 2.0 * c.dot(k.cross(a))};
}

}  // namespace

std::optional<double> TurnToReach(const KingpinAxis& pin, const Eigen::Vector3d& p_AQ,
                                  const Eigen::Vector3d& p_AP, double length, Assembly assembly) {
  const auto [mean, A, B] = DistanceOverTurn(pin, p_AQ, p_AP);
  const double D = length * length - mean, reach = std::hypot(A, B);
  if (!(std::abs(D) <= reach)) return std::nullopt;
  const double middle = std::atan2(B, A), half = std::acos(D / reach);
  // The distance grows with the turn where sin(middle - t) is above 0.
  return std::remainder(assembly == Assembly::kParts ? middle - half : middle + half, 2.0 * M_PI);
}

Eigen::Vector3d Turned(const KingpinAxis& pin, double turn, const Eigen::Vector3d& p_AQ) {
  return pin.p_AK + Eigen::AngleAxisd(turn, pin.axis_A) * (p_AQ - pin.p_AK);
}

Eigen::Vector3d SpindleOf(const KingpinAxis& pin, double turn) {
  return Eigen::AngleAxisd(turn, pin.axis_A) * Eigen::Vector3d::UnitY();
}

double HeadingOf(const KingpinAxis& pin, double turn, const Eigen::Isometry3d& X_CA) {
  const Eigen::Vector3d spindle_C = X_CA.linear() * SpindleOf(pin, turn);
  return std::atan2(-spindle_C.x(), spindle_C.y());
}

bool LeadsLeft(const Steering& steering) { return steering.drag_link.p_CQ.y() >= 0.0; }

Knuckle PrepareKnuckle(const Axle& axle, const AxleFrame& frame) {
  if (!axle.steering) {
    throw ModelError({"axles", axle.name}, "steering: drag_link is wanted to steer this axle");
  }
  const Span& drag_link = axle.steering->drag_link;
  const double side = LeadsLeft(*axle.steering) ? 1.0 : -1.0;
  Knuckle knuckle{.p_CP = drag_link.p_CP,
                  .p_AQ = OnHousing(frame, drag_link.p_CQ),
                  .pin = PrepareKingpin(axle, frame, side),
                  .length = DragLinkLength(*axle.steering),
                  .assembly = std::nullopt};
  constexpr double kShortestArm = 1e-3;  // [m] less, and the angle it gives is noise
  if (knuckle.pin.axis_A.cross(knuckle.p_AQ - knuckle.pin.p_AK).norm() < kShortestArm) {
    throw ModelError(
        {"axles", axle.name, "steering", "drag_link"},
        "the drag link's axle end lies on the kingpin axis: it cannot steer the wheel");
  }
  knuckle.assembly = AssemblyOf(knuckle.pin, knuckle.p_AQ, OnHousing(frame, knuckle.p_CP));
  return knuckle;
}

std::optional<double> KnuckleTurn(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA) {
  if (!knuckle.assembly) return std::nullopt;
  return TurnToReach(knuckle.pin, knuckle.p_AQ, X_CA.inverse(Eigen::Isometry) * knuckle.p_CP,
                     knuckle.length, *knuckle.assembly);
}

std::optional<double> SpindleHeading(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA) {
  const std::optional<double> turn = KnuckleTurn(knuckle, X_CA);
  if (!turn) return std::nullopt;
  return HeadingOf(knuckle.pin, *turn, X_CA);
}

namespace {

// Both turns when the left (or right) knuckle has turned: the other through the tie rod, or alike.
std::optional<HandTurns> WithOther(const Axle& axle, const AxleFrame& frame, bool left_leads,
                                   double turn) {
  if (!axle.steering || !axle.steering->tie_rod) return HandTurns{.left = turn, .right = turn};
  const TieRod& rod = *axle.steering->tie_rod;
  const KingpinAxis lead = PrepareKingpin(axle, frame, left_leads ? 1.0 : -1.0);
  const KingpinAxis follow = PrepareKingpin(axle, frame, left_leads ? -1.0 : 1.0);
  const Eigen::Vector3d led = OnHousing(frame, left_leads ? rod.p_CL : rod.p_CR);
  const Eigen::Vector3d follows = OnHousing(frame, left_leads ? rod.p_CR : rod.p_CL);
  const auto assembly = AssemblyOf(follow, follows, led);
  if (!assembly) return std::nullopt;
  const auto other =
      TurnToReach(follow, follows, Turned(lead, turn, led), LengthOf(rod), *assembly);
  if (!other) return std::nullopt;
  return left_leads ? HandTurns{.left = turn, .right = *other}
                    : HandTurns{.left = *other, .right = turn};
}

}  // namespace

std::optional<HeldSteer> SteerOf(const Axle& axle, const AxleFrame& frame, const Knuckle& knuckle,
                                 const HousingMotion& motion) {
  const Eigen::Isometry3d X_CA = Transform(motion.pose);
  const std::optional<double> turn = KnuckleTurn(knuckle, X_CA);
  if (!turn) return std::nullopt;
  const bool left = LeadsLeft(*axle.steering);
  const auto turns = WithOther(axle, frame, left, *turn);
  if (!turns) return std::nullopt;
  // Along the drag link nothing may change: what the housing does to its length the turn undoes.
  const Eigen::Vector3d p_AQ = Turned(knuckle.pin, *turn, knuckle.p_AQ);
  const Taylor length = DistanceTo(motion, knuckle.p_CP, p_AQ);
  const Eigen::Vector3d p_AP = X_CA.inverse(Eigen::Isometry) * knuckle.p_CP;
  const double per_turn = PartingOf(knuckle.pin, p_AQ, p_AP) / length.v;
  if (std::abs(PushOn(knuckle.pin, p_AQ, p_AP)) < kDeadCentre) return std::nullopt;
  const Eigen::Vector3d spindle_A = SpindleOf(knuckle.pin, *turn);
  const TaylorPoint s = Rotate(motion.R, spindle_A);
  const Eigen::Vector3d swing = X_CA.linear() * knuckle.pin.axis_A.cross(spindle_A);
  const double flat = s[0].v * s[0].v + s[1].v * s[1].v;
  const auto slope = [&](double dx, double dy, double dlength) {
    const double dturn = -dlength / per_turn;
    dx += swing.x() * dturn, dy += swing.y() * dturn;
    return (s[0].v * dy - s[1].v * dx) / flat;
  };
  const double heading = HeadingOf(knuckle.pin, *turn, X_CA);
  const double other_heading = HeadingOf(PrepareKingpin(axle, frame, left ? -1.0 : 1.0),
                                         left ? turns->right : turns->left, X_CA);
  return HeldSteer{.turn = *turn,
                   .heading = heading,
                   .per_height = slope(s[0].z, s[1].z, length.z),
                   .per_roll = slope(s[0].r, s[1].r, length.r),
                   .toe_in = left ? other_heading - heading : heading - other_heading};
}

double AckermannDifference(double inner, double spacing, double wheelbase) {
  const double outer =
      std::atan2(std::sin(inner), std::cos(inner) + std::sin(inner) * spacing / wheelbase);
  return inner - outer;
}

namespace {

// By repeated correction: the heading turns almost one to one with the knuckle, so each correction
// leaves some hundredths of the last.
std::optional<double> TurnToHeading(const KingpinAxis& pin, const Eigen::Isometry3d& X_CA,
                                    double heading) {
  double turn = heading - HeadingOf(pin, 0.0, X_CA);
  for (int iteration = 0; iteration < 50; ++iteration) {
    const double miss = std::remainder(heading - HeadingOf(pin, turn, X_CA), 2.0 * M_PI);
    turn += miss;
    if (std::abs(miss) < 1e-13) return turn;
  }
  return std::nullopt;
}

std::optional<HandTurns> TurnBySteer(const Axle& axle, const AxleFrame& frame,
                                     const Eigen::Isometry3d& X_CA, bool left_leads, double steer) {
  const KingpinAxis lead = PrepareKingpin(axle, frame, left_leads ? 1.0 : -1.0);
  const auto turn = TurnToHeading(lead, X_CA, HeadingOf(lead, 0.0, X_CA) + steer);
  if (!turn) return std::nullopt;
  return WithOther(axle, frame, left_leads, *turn);
}

}  // namespace

std::optional<HandTurns> TurnByHand(const Axle& axle, const AxleFrame& frame,
                                    const Eigen::Isometry3d& X_CA, double hand) {
  return TurnBySteer(axle, frame, X_CA, true, hand);
}

DragLinkFollowed FollowDragLink(const Axle& axle, const Knuckle& knuckle,
                                const Eigen::Isometry3d& X_CA, const HandTurns& turns) {
  const Eigen::Vector3d p_AP = X_CA.inverse(Eigen::Isometry) * knuckle.p_CP;
  const double turn = LeadsLeft(*axle.steering) ? turns.left : turns.right;
  const double held = KnuckleTurn(knuckle, X_CA).value_or(0.0);
  const Eigen::Vector3d p_AQ = Turned(knuckle.pin, turn, knuckle.p_AQ);
  const Eigen::Vector3d p_AQ_held = Turned(knuckle.pin, held, knuckle.p_AQ);
  return {.pitman_travel = (p_AQ - p_AP).norm() - knuckle.length,
          .over_centre =
              PartingOf(knuckle.pin, p_AQ, p_AP) * PartingOf(knuckle.pin, p_AQ_held, p_AP) <= 0.0};
}

std::optional<HandTurns> TurnInside(const Axle& axle, const AxleFrame& frame,
                                    const Eigen::Isometry3d& X_CA, double steer) {
  return TurnBySteer(axle, frame, X_CA, steer >= 0.0, steer);
}

std::optional<HandTurns> TurnsHeld(const Axle& axle, const AxleFrame& frame,
                                   const Eigen::Isometry3d& X_CA) {
  const auto turn = KnuckleTurn(PrepareKnuckle(axle, frame), X_CA);
  if (!turn) return std::nullopt;
  return WithOther(axle, frame, LeadsLeft(*axle.steering), *turn);
}

double ReachLeft(const Knuckle& knuckle, const Eigen::Isometry3d& X_CA) {
  const auto [mean, A, B] =
      DistanceOverTurn(knuckle.pin, knuckle.p_AQ, X_CA.inverse(Eigen::Isometry) * knuckle.p_CP);
  const double swing = std::hypot(A, B);
  const double farthest = std::sqrt(mean + swing);
  const double nearest = std::sqrt(std::max(0.0, mean - swing));
  return std::min(farthest - knuckle.length, knuckle.length - nearest);
}

}  // namespace linkwright
