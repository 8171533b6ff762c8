// SPDX-License-Identifier: MIT
#include "solver/study/steering/track_bar.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/cardan.h"
#include "solver/geometry/steering.h"

namespace linkwright {
namespace {

constexpr double kAcross = M_SQRT1_2;  // [-] within 45 deg of the lateral axis
constexpr double kCentred = 1e-9;      // [m] far below a rule's finest mark
constexpr double kNoSteer = 1e-9;      // [rad/m]

// Slope of a line in front view, rising toward the left + [rad].
double FrontSlope(const Eigen::Vector3d& along) { return std::atan(along.z() / along.y()); }

Eigen::Isometry3d Placed(const Standing& standing, size_t axle) {
  return Transform(standing.level[axle].pose);
}

// The rig with the bar's ends elsewhere, as long as it then is at the pose at rest.
std::optional<Rig> Rearranged(const Rig& rig, const Standing& standing, size_t axle, size_t link,
                              const Eigen::Vector3d& p_CP, const Eigen::Vector3d& p_AQ) {
  Rig moved = rig;
  RigAxle& prepared = moved.axles[axle];
  FrameLink& bar = prepared.frame.links[link];
  const double stretch =
      (Placed(standing, axle) * bar.p_AQ - bar.p_CP).norm() - bar.length;  // 0 for four links
  bar.p_CP = p_CP;
  bar.p_AQ = p_AQ;
  bar.length = (Placed(standing, axle) * p_AQ - p_CP).norm() - stretch;
  if (!(bar.length > 0.0)) return std::nullopt;
  const PoseSolution here = SolvePose(prepared.frame, standing.level[axle].pose);
  if (here.status != SolveStatus::kConverged) return std::nullopt;
  const Pose& measured = prepared.frame.measured;
  const PoseSolution back = MovePose(prepared.frame, EvaluateMotion(prepared.frame, here.pose),
                                     measured.z, measured.roll);
  if (back.status != SolveStatus::kConverged) return std::nullopt;
  prepared.measured = EvaluateMotion(prepared.frame, back.pose);
  return moved;
}

std::optional<double> SteerRate(const Rig& rig, const Standing& standing, size_t axle) {
  const Axle& part = rig.vehicle->axles[axle];
  const AxleFrame& frame = rig.axles[axle].frame;
  const auto held = SteerOf(part, frame, PrepareKnuckle(part, frame), standing.level[axle]);
  return held ? std::optional(held->per_height) : std::nullopt;
}

// What the bar does where it now is.
std::optional<BarMove> Judge(BarMoveKind kind, const Rig& rig, const Load* load, size_t axle,
                             size_t link, const Eigen::Vector3d& p_C, const Eigen::Vector3d& by) {
  const auto standing = Stand(rig, load);
  if (!standing) return std::nullopt;
  const auto rate = SteerRate(rig, *standing, axle);
  if (!rate) return std::nullopt;
  BarMove move{.kind = kind,
               .p_C = p_C,
               .by = by,
               .length = rig.axles[axle].frame.links[link].length,
               .steer_rate = *rate,
               .steer_most = 0.0,
               .lateral_most = 0.0};
  // Over this axle's own travel, whatever ends the other's.
  const Knuckle knuckle = PrepareKnuckle(rig.vehicle->axles[axle], rig.axles[axle].frame);
  const Walks walks(rig, StanceOf(*standing));
  const Pose rest = standing->level[axle].pose;
  const double straight = SpindleHeading(knuckle, Transform(rest)).value_or(0.0);
  for (const double sign : {-1.0, 1.0}) {
    const OneWay way = WalkOneWay(walks, axle, MotionKind::kBounce, 0, std::nullopt, sign);
    for (const double travel : Grid(std::min(way.reached, 0.0), std::max(way.reached, 0.0), {})) {
      const std::optional<Pose> pose = PoseOn(rig, *way.walk, travel);
      const auto heading = pose ? SpindleHeading(knuckle, Transform(*pose)) : std::nullopt;
      if (!heading) continue;
      move.steer_most = std::max(move.steer_most, std::abs(*heading - straight));
      move.lateral_most = std::max(move.lateral_most, std::abs(pose->y - rest.y));
    }
  }
  return move;
}

}  // namespace

std::optional<size_t> TrackBarOf(const Axle& axle) {
  std::optional<size_t> found;
  double most = kAcross;
  for (size_t i = 0; i < axle.links.size(); ++i) {
    if (axle.links[i].name.side != Side::kMiddle) continue;
    const Span& span = axle.links[i].span;
    const double across = std::abs((span.p_CQ - span.p_CP).normalized().y());
    if (across <= most) continue;
    most = across;
    found = i;
  }
  return found;
}

std::optional<BarMatch> MatchBar(const Rig& rig, const Standing& standing, size_t axle) {
  const Axle& part = rig.vehicle->axles[axle];
  const std::optional<size_t> link = TrackBarOf(part);
  if (!link || !part.steering) return std::nullopt;
  const AxleFrame& frame = rig.axles[axle].frame;
  const FrameLink& bar = frame.links[*link];
  const Knuckle knuckle = PrepareKnuckle(part, frame);
  const Eigen::Isometry3d X_CA = Placed(standing, axle);
  const auto turn = KnuckleTurn(knuckle, X_CA);
  if (!turn) return std::nullopt;
  const Eigen::Vector3d b = X_CA * bar.p_AQ - bar.p_CP;
  const Eigen::Vector3d d = X_CA * Turned(knuckle.pin, *turn, knuckle.p_AQ) - knuckle.p_CP;
  if (!(std::abs(d.y()) > 1e-6)) return std::nullopt;  // a drag link along the frame has no slope
  const double apart = AngleBetween(b, d);
  return BarMatch{.bar = DisplayName(part.links[*link].name),
                  .link = *link,
                  .bar_slope = FrontSlope(b),
                  .drag_slope = FrontSlope(d),
                  .bar_length = b.norm(),
                  .drag_length = d.norm(),
                  .apart = std::min(apart, M_PI - apart),
                  .same_hand = b.y() * d.y() > 0.0};
}

std::vector<BarMove> MoveBar(const Rig& rig, const Standing& standing, const Load* load,
                             size_t axle, size_t link) {
  const Axle& part = rig.vehicle->axles[axle];
  const AxleFrame& frame = rig.axles[axle].frame;
  const FrameLink& bar = frame.links[link];
  const Eigen::Isometry3d X_CA = Placed(standing, axle);
  const Knuckle knuckle = PrepareKnuckle(part, frame);
  std::vector<BarMove> moves;
  const auto add = [&](BarMoveKind kind, const Eigen::Vector3d& p_CP, const Eigen::Vector3d& p_AQ,
                       const Eigen::Vector3d& end, const Eigen::Vector3d& by) {
    if (by.norm() > kMostMove) return;
    const auto moved = Rearranged(rig, standing, axle, link, p_CP, p_AQ);
    if (!moved) return;
    if (auto move = Judge(kind, *moved, load, axle, link, end, by)) moves.push_back(*move);
  };
  add(BarMoveKind::kAsIs, bar.p_CP, bar.p_AQ, bar.p_CP, Eigen::Vector3d::Zero());
  if (const auto turn = KnuckleTurn(knuckle, X_CA)) {
    const Eigen::Vector3d drag =
        knuckle.p_CP - X_CA * Turned(knuckle.pin, *turn, knuckle.p_AQ);  // axle end to frame end
    const Eigen::Vector3d p_CQ = X_CA * bar.p_AQ;
    const Eigen::Vector3d p_CP(bar.p_CP.x(), p_CQ.y() + drag.y(), p_CQ.z() + drag.z());
    add(BarMoveKind::kFrameEndToMatch, p_CP, bar.p_AQ, p_CP, p_CP - bar.p_CP);
    const Eigen::Vector3d end(p_CQ.x(), bar.p_CP.y() - drag.y(), bar.p_CP.z() - drag.z());
    const Eigen::Vector3d p_AQ = X_CA.inverse(Eigen::Isometry) * end;
    const Eigen::Vector3d measured = frame.X_CA * p_AQ;
    add(BarMoveKind::kAxleEndToMatch, bar.p_CP, p_AQ, measured, measured - frame.X_CA * bar.p_AQ);
  }
  const auto raise = [&](double by) {
    return Rearranged(rig, standing, axle, link, bar.p_CP + by * Eigen::Vector3d::UnitZ(),
                      bar.p_AQ);
  };
  const Miss miss = [&](const Rig& moved, const Standing& there) {
    return SteerRate(moved, there, axle);
  };
  if (const auto answer = SolveChange(raise, load, miss, kNoSteer, kMostMove)) {
    const Eigen::Vector3d by = answer->by * Eigen::Vector3d::UnitZ();
    add(BarMoveKind::kFrameEndNoSteer, bar.p_CP + by, bar.p_AQ, bar.p_CP + by, by);
  }
  return moves;
}

SidewaysCure CentreAxle(const Rig& rig, const Standing& standing, const Load* load, size_t axle,
                        bool cures) {
  const Axle& part = rig.vehicle->axles[axle];
  SidewaysCure cure{.axle = axle,
                    .offset = standing.level[axle].pose.y,
                    .bar = std::nullopt,
                    .most = std::nullopt,
                    .by = std::nullopt,
                    .drag_link_by = std::nullopt};
  const std::optional<size_t> link = TrackBarOf(part);
  if (!link || !cures) return cure;
  cure.bar = LinkSet{.name = DisplayName(part.links[*link].name),
                     .members = {*link},
                     .thread = part.links[*link].thread};
  const Miss miss = [axle](const Rig&, const Standing& there) -> std::optional<double> {
    return there.level[axle].pose.y;
  };
  cure.most = MostByHand(part, *cure.bar);
  const auto answer = SolveLength(rig, load, axle, {*link}, miss, kCentred, *cure.most);
  if (!answer) return cure;
  cure.by = answer->by;
  if (!part.steering) return cure;
  const Knuckle knuckle = PrepareKnuckle(part, rig.axles[axle].frame);
  const auto reach = [&](const Standing& there) {
    return (Placed(there, axle) * knuckle.p_AQ - knuckle.p_CP).norm();
  };
  cure.drag_link_by = reach(answer->standing) - knuckle.length;
  return cure;
}

}  // namespace linkwright
