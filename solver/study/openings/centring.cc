// SPDX-License-Identifier: MIT
#include "solver/study/openings/centring.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "solver/geometry/driveshaft.h"
#include "solver/model/error.h"
#include "solver/model/places.h"
#include "solver/rest/settle.h"
#include "solver/study/walk/axle_walk.h"

namespace linkwright {
namespace {

constexpr double kStill = 1e-9;  // [m]
constexpr int kMostRounds = 60;  // each brings a factor of 5 or more

Eigen::Vector3d Hub(const Axle& axle) { return 0.5 * (axle.p_CW_l + axle.p_CW_r); }

// The body turned about its front opening so that its rear one rises as wanted, then moved.
BodyPlacing PlacingOf(const Vehicle& vehicle, const BodyMove& move) {
  BodyPlacing placing{.move = {move.ahead, move.up_front}, .pitch = 0.0, .about = 0.0};
  if (!vehicle.axles[0].opening || !vehicle.axles[1].opening) return placing;
  const Opening& front = *vehicle.axles[0].opening;
  const Opening& rear = *vehicle.axles[1].opening;
  const double dx = rear.x - front.x, dz = rear.z - front.z;
  const double length = std::hypot(dx, dz);
  const double wanted = dz + move.up_rear - move.up_front;  // of the rear centre over the front one
  placing.pitch = std::asin(dz / length) - std::asin(wanted / length);
  placing.about = front.x;
  // The pivot is on the floor: what the front opening's centre, above it, is carried by the turn
  // comes off.
  const Eigen::Vector3d centre(front.x, 0.0, front.z);
  const Eigen::Vector3d carried = BodyWay(placing, vehicle.floor_z) * centre;
  placing.move.x() += front.x + move.ahead - carried.x();
  placing.move.y() += front.z + move.up_front - carried.z();
  return placing;
}

// Where to cut: in the middle between the foremost place that the rear axle has on the chassis and
// the next one ahead of it, so that all of the rear axle's goes along and as little else as can be.
double StationOf(const Vehicle& vehicle) {
  std::array<std::vector<double>, 2> chassis;  // of the rear axle; of all else
  const VisitPlace pass = [](Eigen::Vector3d&) {};
  for (size_t i = 0; i < 2; ++i) {
    Axle axle = vehicle.axles[i];
    VisitPlaces(
        axle, [&](Eigen::Vector3d& place) { chassis[1 - i].push_back(place.x()); }, pass);
  }
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    chassis[1].push_back(shaft.p_CO.x());
    if (shaft.center_bearing) chassis[1].push_back(shaft.center_bearing->p_CB.x());
  }
  const double front = Hub(vehicle.axles[0]).x(), rear = Hub(vehicle.axles[1]).x();
  double foremost = rear;
  for (const double x : chassis[0]) foremost = std::max(foremost, x);
  if (foremost >= front) return 0.5 * (front + rear);
  double ahead = front;
  for (const double x : chassis[1]) {
    if (x > foremost) ahead = std::min(ahead, x);
  }
  return 0.5 * (foremost + ahead);
}

// Where both hubs stand in their openings, or why they do not.
struct Stood {
  std::array<Offset, 2> offset{};
  std::vector<double> shaft_length;  // at rest, in the order of Vehicle::driveshafts [m]
  std::string message;
};

Stood StandIn(const Vehicle& vehicle, const Load* load) {
  const Rig rig = PrepareRig(vehicle);
  Stood stood;
  std::optional<Stance> stance;
  if (load != nullptr) {
    stance = Settle(rig, *load);
    if (stance->status != StanceStatus::kRests) stood.message = stance->message;
  }
  const Walks walks(rig, stance ? &*stance : nullptr);
  std::array<Pose, 2> pose;
  for (size_t i = 0; i < 2; ++i) {
    pose[i] = StartMotion(walks, i).pose;
    const Opening& opening = *vehicle.axles[i].opening;
    stood.offset[i] = {pose[i].x - opening.x, pose[i].z - opening.z};
  }
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    const auto i = static_cast<size_t>(shaft.axle);
    stood.shaft_length.push_back(
        EvaluateDriveshaft(shaft, vehicle.axles[i], rig.axles[i].frame, Transform(pose[i])).length);
  }
  return stood;
}

}  // namespace

bool IsWorthDoing(const BodyMove& move) {
  constexpr double kShim = 1e-4;  // [m]
  return std::max({std::abs(move.ahead), std::abs(move.up_front), std::abs(move.up_rear),
                   std::abs(move.longer)}) >= kShim;
}

PlanMoves MovesOf(const Vehicle& vehicle, const BodyMove& move) {
  return {.stretch = {.at = StationOf(vehicle), .by = move.longer},
          .body = PlacingOf(vehicle, move)};
}

Vehicle WithBodyMoved(const Vehicle& vehicle, const BodyMove& move) {
  const PlanMoves moves = MovesOf(vehicle, move);
  return WithBodyPlaced(Stretched(vehicle, moves.stretch), moves.body);
}

Load WithBodyMoved(const Load& load, const BodyMove& move, const Vehicle& vehicle) {
  const PlanMoves moves = MovesOf(vehicle, move);
  return WithBodyPlaced(Stretched(load, CutOf(vehicle, moves.stretch)),
                        BodyWay(moves.body, vehicle.floor_z));
}

CentringPlan Centre(const Vehicle& vehicle, const Load* load, double share) {
  for (size_t i = 0; i < 2; ++i) {
    if (vehicle.axles[i].opening) continue;
    throw ModelError({"openings"},
                     "no opening is given for the " + vehicle.axles[i].name + " axle");
  }
  CentringPlan plan{.share = share,
                    .move = {},
                    .before = {},
                    .after = {},
                    .shafts = {},
                    .found = false,
                    .message = {}};
  Stood stood = StandIn(vehicle, load);
  const std::vector<double> shaft_length = stood.shaft_length;
  plan.before = stood.offset;
  // What the chassis does not take is shared evenly: front ahead by as much as the rear is behind.
  const double left_over = (1.0 - share) * (plan.before[1].ahead - plan.before[0].ahead);
  for (int round = 0; round < kMostRounds && stood.message.empty(); ++round) {
    const std::array<Offset, 2>& off = stood.offset;
    const double mismatch = off[1].ahead - off[0].ahead;
    const double longer = share == 0.0 ? 0.0 : mismatch - left_over;
    const double leave = share == 0.0 ? mismatch : left_over;
    const BodyMove step{.ahead = off[0].ahead + 0.5 * leave,
                        .up_front = off[0].up,
                        .up_rear = off[1].up,
                        .longer = longer};
    plan.after = off;
    plan.found = std::max({std::abs(step.ahead), std::abs(step.up_front), std::abs(step.up_rear),
                           std::abs(step.longer)}) < kStill;
    if (plan.found) {
      for (size_t i = 0; i < shaft_length.size(); ++i) {
        plan.shafts.push_back(
            {vehicle.driveshafts[i].name, stood.shaft_length[i] - shaft_length[i]});
      }
      return plan;
    }
    plan.move.ahead += step.ahead, plan.move.longer += step.longer;
    plan.move.up_front += step.up_front, plan.move.up_rear += step.up_rear;
    const Vehicle moved = WithBodyMoved(vehicle, plan.move);
    const std::optional<Load> its =
        load == nullptr ? std::nullopt : std::optional(WithBodyMoved(*load, plan.move, vehicle));
    stood = StandIn(moved, its ? &*its : nullptr);
    plan.after = stood.offset;
  }
  plan.message = stood.message.empty() ? "the steps do not come to rest" : stood.message;
  return plan;
}

std::vector<Hanging> HangAxles(const Walks& walks) {
  std::vector<Hanging> all;
  const Rig& rig = *walks.rig;
  const MotionReach reach = ReachOf(*rig.vehicle, MotionKind::kBounce);
  for (const size_t i : AxlesOf(*rig.vehicle)) {
    const AxleWalk& walk = Walked(walks, i, MotionKind::kBounce, 0, -1.0, Watch::kAll);
    const LimitHit* end = FirstEnd(walk.hits, Watch::kAll, reach.real);
    const HousingMotion& rest = walk.places.front().motion;
    Hanging hanging{.axle = i,
                    .travel = end ? *end->at : -reach.unlimited,
                    .ended_by = std::nullopt,
                    .ahead = 0.0,
                    .left = 0.0,
                    .up = 0.0,
                    .pitch = 0.0,
                    .in_opening = std::nullopt};
    if (end) hanging.ended_by = DescribeShort(end->limit);
    const HousingMotion down =
        EvaluateMotion(rig.axles[i].frame, *PoseOn(rig, walk, hanging.travel));
    const Pose& pose = down.pose;
    hanging.ahead = pose.x - rest.pose.x;
    hanging.left = pose.y - rest.pose.y;
    hanging.up = pose.z - rest.pose.z;
    const AxleFrame& frame = rig.axles[i].frame;
    hanging.pitch = HousingPitch(frame, down).v - HousingPitch(frame, rest).v;
    const auto& opening = rig.vehicle->axles[i].opening;
    if (opening) hanging.in_opening = Offset{pose.x - opening->x, pose.z - opening->z};
    all.push_back(std::move(hanging));
  }
  return all;
}

std::vector<Hanging> HangAxles(const Vehicle& vehicle, const Load* load, const BodyMove& move) {
  const Vehicle moved = WithBodyMoved(vehicle, move);
  const Rig rig = PrepareRig(moved);
  std::optional<Stance> stance;
  if (load != nullptr) {
    stance = Settle(rig, WithBodyMoved(*load, move, vehicle));
    if (stance->status != StanceStatus::kRests) return {};
  }
  return HangAxles({rig, stance ? &*stance : nullptr});
}

}  // namespace linkwright
