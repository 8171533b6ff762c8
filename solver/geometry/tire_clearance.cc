// SPDX-License-Identifier: MIT
#include "solver/geometry/tire_clearance.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/steering.h"
#include "solver/numeric/minima.h"

namespace linkwright {
namespace {

constexpr int kArcSamples = 61;  // every 3 deg of the lip; a tyre's edges make dips far wider
constexpr int kRimSamples = 61;  // every 6 deg of a tyre's rim

double Outward(size_t side) { return side == 0 ? 1.0 : -1.0; }

TirePart PartAt(const TireSolid& tire, const Eigen::Vector3d& p_C, size_t side) {
  constexpr double kOnEdge = 1e-6;  // [m] finer than any tread block
  const Eigen::Vector3d from = p_C - tire.p_CW;
  const double along = from.dot(tire.axis_C);
  const double across = (from - along * tire.axis_C).norm();
  const bool outer = along * Outward(side) > 0.0;
  const bool on_tread = across > tire.radius - kOnEdge;
  const bool on_face = std::abs(along) > tire.half_width - kOnEdge;
  if (on_tread && on_face) return outer ? TirePart::kOuterEdge : TirePart::kInnerEdge;
  if (on_tread) return TirePart::kTread;
  return outer ? TirePart::kOuterFace : TirePart::kInnerFace;
}

TireGap Nearness(const TireSolid& tire, double distance, const Eigen::Vector3d& p_CT,
                 const Eigen::Vector3d& p_CB, size_t side) {
  const Eigen::Vector3d arm = p_CT - tire.p_CW;
  return {.distance = distance,
          .p_CT = p_CT,
          .p_CB = p_CB,
          .around = std::atan2(arm.z(), arm.x()),
          .part = PartAt(tire, p_CT, side)};
}

// A point of the edge in side view, `s` along it: 0 to pi round the arc from ahead to behind.
Eigen::Vector3d OnArc(const Opening& opening, double y, double s) {
  return {opening.x + *opening.radius * std::cos(s), y, opening.z + *opening.radius * std::sin(s)};
}

TireGap GapToLipCurve(const TireSolid& tire, const Opening& opening, size_t side) {
  const double y = Outward(side) * *opening.lip_y;
  const auto distance = [&](const Eigen::Vector3d& p) { return DistanceToTire(tire, p).distance; };
  const LeastPoint arc = LeastOnInterval([&](double s) { return distance(OnArc(opening, y, s)); },
                                         0.0, M_PI, kArcSamples);
  Eigen::Vector3d best = OnArc(opening, y, arc.at);
  double least = arc.value;
  // Down each leg, past the tyre's lowest point; there the distance is a convex function.
  const double down =
      std::max(0.0, opening.z - tire.p_CW.z()) + 2.0 * (tire.radius + tire.half_width);
  for (const double end : {0.0, M_PI}) {
    const auto on_leg = [&](double s) -> Eigen::Vector3d {
      return OnArc(opening, y, end) - s * Eigen::Vector3d::UnitZ();
    };
    const LeastPoint leg =
        LeastOnInterval([&](double s) { return distance(on_leg(s)); }, 0.0, down, 9);
    if (leg.value < least) least = leg.value, best = on_leg(leg.at);
  }
  return Nearness(tire, least, DistanceToTire(tire, best).nearest, best, side);
}

// How far inside the opening's outline a point lies in side view; below 0 outside.
double DepthInside(const Opening& opening, const Eigen::Vector3d& p) {
  const double dx = p.x() - opening.x, dz = p.z() - opening.z;
  return *opening.radius - (dz > 0.0 ? std::hypot(dx, dz) : std::abs(dx));
}

// The outline's nearest point to one of the tyre, at the same y.
Eigen::Vector3d OnOutline(const Opening& opening, const Eigen::Vector3d& p) {
  const double dx = p.x() - opening.x, dz = p.z() - opening.z;
  if (dz <= 0.0) return {opening.x + std::copysign(*opening.radius, dx), p.y(), p.z()};
  const double scale = *opening.radius / std::hypot(dx, dz);
  return {opening.x + scale * dx, p.y(), opening.z + scale * dz};
}

// The depth is concave over the tyre, so that it is least on one of the two rims.
TireGap GapInSideView(const TireSolid& tire, const Opening& opening, size_t side) {
  const Eigen::Vector3d one = tire.axis_C.unitOrthogonal(), two = tire.axis_C.cross(one);
  std::optional<TireGap> best;
  for (const double face : {Outward(side), -Outward(side)}) {
    const auto rim = [&](double turn) -> Eigen::Vector3d {
      return tire.p_CW + face * tire.half_width * tire.axis_C +
             tire.radius * (std::cos(turn) * one + std::sin(turn) * two);
    };
    const LeastPoint least = LeastOnInterval(
        [&](double turn) { return DepthInside(opening, rim(turn)); }, 0.0, 2.0 * M_PI, kRimSamples);
    constexpr double kSame = 1e-9;  // [m] both rims of a wheel that stands straight
    if (best && least.value > best->distance - kSame) continue;
    const Eigen::Vector3d p = rim(least.at);
    best = Nearness(tire, least.value, p, OnOutline(opening, p), side);
  }
  return *best;
}

// Half the tyre's extent along a direction (unit): its support function about the hub.
double HalfExtent(const TireSolid& tire, const Eigen::Vector3d& direction) {
  const double along = direction.dot(tire.axis_C);
  return tire.half_width * std::abs(along) +
         tire.radius * std::sqrt(std::max(0.0, 1.0 - along * along));
}

}  // namespace

TireShape ShapeOfTire(const Vehicle& vehicle, size_t index) {
  const Axle& axle = vehicle.axles[index];
  const double hub = 0.5 * (axle.p_CW_l.z() + axle.p_CW_r.z()) - vehicle.floor_z;
  return {.radius = axle.tire.radius.value_or(hub),
          .width = axle.tire.width.value_or(0.0),
          .radius_assumed = !axle.tire.radius,
          .width_assumed = !axle.tire.width};
}

TireSolid TireAt(const Axle& axle, const AxleFrame& frame, const TireShape& shape,
                 const Eigen::Isometry3d& X_CA, size_t side, double turn) {
  const Eigen::Vector3d p_AW = WheelCentre(frame, side);
  TireSolid tire{.p_CW = X_CA * p_AW,
                 .axis_C = X_CA.linear().col(1),
                 .radius = shape.radius,
                 .half_width = 0.5 * shape.width};
  if (!axle.kingpin || !axle.kingpin->p_CK) return tire;
  const KingpinAxis pin = PrepareKingpin(axle, frame, Outward(side));
  tire.p_CW = X_CA * Turned(pin, turn, p_AW);
  tire.axis_C = X_CA.linear() * SpindleOf(pin, turn);
  return tire;
}

SolidDistance DistanceToTire(const TireSolid& tire, const Eigen::Vector3d& p_C) {
  // Where a lip is deepest in, both ways out are often as long: then rounding is not to choose.
  constexpr double kAlike = 1e-6;  // [m]
  const Eigen::Vector3d from = p_C - tire.p_CW;
  const double along = from.dot(tire.axis_C);
  const Eigen::Vector3d across = from - along * tire.axis_C;
  const double reach = across.norm();
  const double past_face = std::abs(along) - tire.half_width, past_tread = reach - tire.radius;
  Eigen::Vector3d radial = tire.axis_C.unitOrthogonal();  // on the spindle any way is as near
  if (reach > 0.0) radial = across / reach;
  double to_along = along, to_reach = reach;
  if (past_face > 0.0 || past_tread > 0.0) {
    to_along = std::clamp(along, -tire.half_width, tire.half_width);
    to_reach = std::min(reach, tire.radius);
  } else if (past_tread >= past_face - kAlike) {
    to_reach = tire.radius;
  } else {
    to_along = std::copysign(tire.half_width, along);
  }
  const double outside = std::hypot(std::max(past_face, 0.0), std::max(past_tread, 0.0));
  const double inside = std::min(0.0, std::max(past_face, past_tread));
  return {.distance = outside + inside,
          .nearest = tire.p_CW + to_along * tire.axis_C + to_reach * radial};
}

std::optional<TireGap> GapToLip(const TireSolid& tire, const Opening& opening, size_t side) {
  if (!opening.radius) return std::nullopt;
  return opening.lip_y ? GapToLipCurve(tire, opening, side) : GapInSideView(tire, opening, side);
}

std::optional<TireGap> GapToPanel(const TireSolid& tire, const Opening& opening, size_t side) {
  if (!opening.inner_panel_y) return std::nullopt;
  const Eigen::Vector3d out(0.0, Outward(side), 0.0);
  const double along = out.dot(tire.axis_C);
  const Eigen::Vector3d across = out - along * tire.axis_C;
  Eigen::Vector3d p = tire.p_CW - std::copysign(tire.half_width, along) * tire.axis_C;
  if (across.norm() > 1e-12) {
    p -= tire.radius * across.normalized();
  } else {
    p +=
        tire.radius * Eigen::Vector3d::UnitZ();  // the whole face is as near: its top stands for it
  }
  const double panel = *opening.inner_panel_y;
  const double distance = out.dot(tire.p_CW) - HalfExtent(tire, out) - panel;
  return Nearness(tire, distance, p, {p.x(), Outward(side) * panel, p.z()}, side);
}

TapeGaps TapeAround(const TireSolid& tire, const Opening& opening, size_t side) {
  TapeGaps gaps;
  if (opening.lip_y) {
    const double outer =
        Outward(side) * (tire.p_CW + Outward(side) * tire.half_width * tire.axis_C).y();
    gaps.in_lip = *opening.lip_y - outer;
  }
  if (!opening.radius) return gaps;
  const double r = *opening.radius;
  const double dx = tire.p_CW.x() - opening.x, dz = tire.p_CW.z() - opening.z;
  const double half = HalfExtent(tire, Eigen::Vector3d::UnitX());
  if (dz < r) {
    const double edge = dz > 0.0 ? std::sqrt(r * r - dz * dz) : r;
    gaps.ahead = edge - dx - half;
    gaps.behind = edge + dx - half;
  }
  if (std::abs(dx) < r) {
    gaps.above = std::sqrt(r * r - dx * dx) - dz - HalfExtent(tire, Eigen::Vector3d::UnitZ());
  }
  return gaps;
}

}  // namespace linkwright
