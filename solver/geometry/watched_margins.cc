// SPDX-License-Identifier: MIT
// What `limits` watches beside the ends of a sweep.
#include <algorithm>

#include "solver/geometry/driveshaft.h"
#include "solver/geometry/steering.h"
#include "solver/geometry/tire_clearance.h"
#include "solver/geometry/travel_limits.h"
#include "solver/pose/link_ends.h"

namespace linkwright {
namespace {

double LengthAt(const Span& span, const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return (X_CA * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

void AddSeats(const Axle& axle, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
              std::vector<TravelMargin>& to) {
  for (const Spring& spring : axle.springs) {
    to.push_back({TravelEnd::kCoilUnseated, DisplayName(spring.name),
                  spring.law.free_length - LengthAt(spring.span, frame, X_CA),
                  !spring.keep_seated});
  }
}

void AddJoints(const Axle& axle, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
               std::vector<TravelMargin>& to) {
  for (size_t i = 0; i < axle.links.size(); ++i) {
    const Link& link = axle.links[i];
    if (!link.misalignment_limit) continue;
    const FrameLink& prepared = frame.links[i];
    const LinkTurn turn = TurnOfLink(frame, prepared, UsualBolt(prepared, frame), X_CA);
    const std::string name = DisplayName(link.name);
    to.push_back({TravelEnd::kJointAtLimit, name + ", frame end",
                  *link.misalignment_limit - turn.frame.misalignment});
    to.push_back({TravelEnd::kJointAtLimit, name + ", axle end",
                  *link.misalignment_limit - turn.axle.misalignment});
  }
}

void AddShafts(const Vehicle& vehicle, size_t index, const AxleFrame& frame,
               const Eigen::Isometry3d& X_CA, std::vector<TravelMargin>& to) {
  const Axle& axle = vehicle.axles[index];
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    if (static_cast<size_t>(shaft.axle) != index || !shaft.slip) continue;
    const double in = shaft.slip_left.value_or(0.5 * *shaft.slip);  // before bottoming, as measured
    const double longer = EvaluateDriveshaft(shaft, axle, frame, X_CA).length -
                          EvaluateDriveshaft(shaft, axle, frame, frame.X_CA).length;
    const std::string name = shaft.name + " driveshaft";
    to.push_back({TravelEnd::kShaftBottomed, name, in + longer});
    to.push_back({TravelEnd::kShaftParted, name, *shaft.slip - in - longer});
  }
}

void AddTires(const Vehicle& vehicle, size_t index, const AxleFrame& frame,
              const Eigen::Isometry3d& X_CA, std::vector<TravelMargin>& to) {
  const Axle& axle = vehicle.axles[index];
  if (!axle.opening) return;
  const TireShape shape = ShapeOfTire(vehicle, index);
  std::optional<HandTurns> held = HandTurns{0.0, 0.0};
  if (axle.steering) held = TurnsHeld(axle, frame, X_CA);
  if (!held) return;  // the drag link's own margin says so
  for (size_t side = 0; side < 2; ++side) {
    const double turn = side == 0 ? held->left : held->right;
    const TireSolid tire = TireAt(axle, frame, shape, X_CA, side, turn);
    const std::string name = side == 0 ? "tyre left" : "tyre right";
    if (const auto gap = GapToLip(tire, *axle.opening, side)) {
      to.push_back({TravelEnd::kTireOnLip, name, gap->distance});
    }
    if (const auto gap = GapToPanel(tire, *axle.opening, side)) {
      to.push_back({TravelEnd::kTireOnPanel, name, gap->distance});
    }
  }
}

}  // namespace

bool IsAngle(TravelEnd end) { return end == TravelEnd::kJointAtLimit; }

std::vector<TravelMargin> WatchedMargins(const Vehicle& vehicle, size_t index,
                                         const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
                                         bool tires) {
  const Axle& axle = vehicle.axles[index];
  std::vector<TravelMargin> margins;
  if (axle.steering) {
    margins.push_back({TravelEnd::kDragLinkOutOfReach, "drag link",
                       ReachLeft(PrepareKnuckle(axle, frame), X_CA)});
  }
  AddSeats(axle, frame, X_CA, margins);
  AddJoints(axle, frame, X_CA, margins);
  AddShafts(vehicle, index, frame, X_CA, margins);
  if (tires) AddTires(vehicle, index, frame, X_CA, margins);
  return margins;
}

}  // namespace linkwright
