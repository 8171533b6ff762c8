// SPDX-License-Identifier: MIT
#include "solver/study/driveline/driveline.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/geometry/floor.h"
#include "solver/geometry/travel_limits.h"
#include "solver/numeric/minima.h"
#include "solver/study/curves/sweep_row.h"
#include "solver/study/driveline/shaft_place.h"
#include "solver/study/steering/track_bar.h"
#include "solver/study/walk/grid.h"

namespace linkwright {
namespace {
constexpr double kTurned = 1e-7;  // [rad] as near as a least value says where it is

using Kind = ShaftPlaceKind;

OneWay WalkShaft(const Walks& walks, size_t axle, MotionKind motion, size_t side, bool up) {
  return WalkOneWay(walks, axle, motion, 2 * axle + side, std::nullopt, up ? 1.0 : -1.0);
}

void AddTravel(const ShaftBasis& basis, const Walks& walks, double step, ShaftReport& report) {
  const OneWay down = WalkShaft(walks, basis.axle, MotionKind::kBounce, 0, false);
  const OneWay up = WalkShaft(walks, basis.axle, MotionKind::kBounce, 0, true);
  report.droop = down.end, report.bump = up.end;
  const double low = report.low = down.reached, high = report.high = up.reached;
  const GridOptions grid{.from = std::nullopt, .to = std::nullopt, .step = step};
  for (const double t : Grid(low, high, grid)) {
    Kind kind = Kind::kTravel;
    if (t == 0.0) kind = Kind::kRest;
    if (t == low && down.end && t != 0.0) kind = Kind::kFullDroop;
    if (t == high && up.end && t != 0.0) kind = Kind::kFullBump;
    const auto pose = PoseOn(*basis.rig, *(t < 0.0 ? down : up).walk, t);
    if (pose) report.travel.push_back(EvaluateShaft(basis, kind, *pose));
  }
}

void AddExtremes(const ShaftBasis& basis, const Walks& walks, ShaftReport& report) {
  struct Extreme {
    MotionKind motion;
    size_t side;
    Kind below, above;  // parameter below 0, above 0
  };
  // A body that rolls with its left side up has its left wheel in droop.
  constexpr std::array kExtremes{
      Extreme{MotionKind::kRoll, 0, Kind::kRolledLeftUp, Kind::kRolledRightUp},
      Extreme{MotionKind::kOneWheel, 0, Kind::kLeftDrooped, Kind::kLeftBumped},
      Extreme{MotionKind::kOneWheel, 1, Kind::kRightDrooped, Kind::kRightBumped}};
  for (const Extreme& extreme : kExtremes) {
    const bool rolls = extreme.motion == MotionKind::kRoll;
    for (const bool second : {false, true}) {
      const bool above = second != rolls;  // the right wheel up before the left one
      const OneWay way = WalkShaft(walks, basis.axle, extreme.motion, extreme.side, above);
      if (!way.end) continue;
      report.extremes.push_back(EvaluateShaft(basis, above ? extreme.above : extreme.below,
                                              *PoseOn(*basis.rig, *way.walk, way.reached)));
    }
  }
}

// A shaft's line with its axle's housing at a pose, and what a turn of the pinion does to it.
struct Turnable {
  DriveshaftLine line;
  Eigen::Vector3d u_C;  // the housing's lateral axis

  [[nodiscard]] std::vector<PinionAim> Aims() const { return PinionAims(line, u_C); }
  [[nodiscard]] double NetTurned(double up) const { return NetAngleTurned(line, u_C, up); }
};

Turnable TurnableAt(const Driveshaft& shaft, const Rig& rig, const Pose& pose) {
  const auto axle = static_cast<size_t>(shaft.axle);
  const Eigen::Isometry3d X_CA = Transform(pose);
  return {.line = LineOf(shaft, rig.vehicle->axles[axle], rig.axles[axle].frame, X_CA),
          .u_C = X_CA.linear().col(1)};
}

// Whether to choose an offer with so much effort over another: a lower net angle where a finder
// tells them apart, the smaller effort where it does not.
struct Offer {
  double net, effort;
};

bool Better(const Offer& a, const Offer& b) {
  if (std::abs(a.net - b.net) > kFinder) return a.net < b.net;
  return a.effort < b.effort;
}

std::optional<PinionOrder> OrderOf(const Turnable& shaft, double low) {
  const std::vector<PinionAim> aims = shaft.Aims();
  if (aims.empty()) return std::nullopt;
  double least = aims.front().net_angle;
  for (const PinionAim& aim : aims) least = std::min(least, aim.net_angle);
  std::optional<PinionOrder> order;
  for (const PinionAim& aim : aims) {
    const double turn = aim.turn - low;
    if (aim.net_angle > least + kFinder) continue;
    if (order && std::abs(order->turn) <= std::abs(turn)) continue;
    order = {.turn = turn, .least = aim.net_angle, .net_angle = shaft.NetTurned(turn)};
  }
  return order;
}

std::vector<ShaftSlope> SlopesOf(const Rig& rig, const Standing& standing,
                                 const DriveshaftLine& line) {
  const Floor floor = FloorUnder(PrepareSweep(rig, StanceOf(standing)), standing.level);
  std::vector<ShaftSlope> slopes;
  for (const Eigen::Vector3d& d : line.chain.along) {
    slopes.push_back({.floor = std::atan2(-floor.n.dot(d), std::hypot(floor.e.dot(d), d.y())),
                      .chassis = std::atan2(-d.z(), std::hypot(d.x(), d.y()))});
  }
  return slopes;
}

// Half a turn of the yokes changes nothing, so that all phases lie within one. By steps, then by
// thirds of the best two.
std::optional<PhaseAdvice> BestPhase(JointChain chain) {
  const size_t piece = chain.phase.size() - 2;  // the one at the axle
  const auto net = [&](double phase) {
    chain.phase[piece] = phase;
    return NetAngle(TurnMap(chain, chain.joints.size()));
  };
  constexpr double kStep = kOneDegree;
  double best = 0.0, least = net(0.0), most = least;
  for (int i = -90; i < 90; ++i) {
    const double value = net(i * kStep);
    if (value < least) least = value, best = i * kStep;
    most = std::max(most, value);
  }
  constexpr double kPlaysNoPart = 1e-6;  // [rad] rounding of straight joints
  if (most - least < kPlaysNoPart) return std::nullopt;
  constexpr double kFound = 1e-9;  // [rad] far below what a spline's teeth allow
  const double phase = LeastBetween(net, best - kStep, best + kStep, kFound).at;
  return PhaseAdvice{.phase = phase, .net_angle = net(phase)};
}

// The housing's forward axis, the one that was chassis x when measured: its elevation [rad].
double PitchOf(const AxleFrame& frame, const Pose& pose) {
  const Eigen::Vector3d forward = frame.X_CA.linear().transpose() * Eigen::Vector3d::UnitX();
  return std::asin((Transform(pose).linear() * forward).z());
}

double YokeUp(const ShaftBasis& basis, const Pose& before, const Pose& after) {
  const AxleFrame& frame = basis.rig->axles[basis.axle].frame;
  const double pitch = PitchOf(frame, after) - PitchOf(frame, before);
  const Axle& axle = basis.rig->vehicle->axles[basis.axle];
  return axle.pinion->p_CY.x() > frame.measured.x ? pitch : -pitch;
}

// The link turned until the pinion stands in the dip that `aim` is at rest. The dip goes along with
// what the links do to the shaft: it is the one nearest to where the housing's pitch has left it.
std::optional<LengthAnswer> TurnInto(const ShaftBasis& basis, const Pose& rest, const Load* load,
                                     const LinkSet& set, const PinionAim& aim) {
  const Miss miss = [&](const Rig& rig, const Standing& there) -> std::optional<double> {
    const Pose& pose = there.level[basis.axle].pose;
    const double expected = aim.turn - YokeUp(basis, rest, pose);
    std::optional<double> turn;
    for (const PinionAim& dip : TurnableAt(*basis.shaft, rig, pose).Aims()) {
      if (turn && std::abs(*turn - expected) <= std::abs(dip.turn - expected)) continue;
      turn = dip.turn;
    }
    if (turn) *turn -= basis.shaft->pinion_low;
    return turn;
  };
  return SolveLength(*basis.rig, load, basis.axle, set.members, miss, kTurned,
                     MostByHand(basis.rig->vehicle->axles[basis.axle], set));
}

void AddCures(const ShaftBasis& basis, const Standing& standing, const Load* load,
              ShaftReport& report) {
  const Driveshaft& shaft = *basis.shaft;
  const Pose& rest = standing.level[basis.axle].pose;
  const Turnable here = TurnableAt(shaft, *basis.rig, rest);
  const double now = here.NetTurned(shaft.pinion_low);
  std::vector<PinionAim> aims = here.Aims();
  std::erase_if(aims, [&](const PinionAim& aim) { return now - aim.net_angle <= kFinder; });
  if (aims.empty()) return;
  const std::optional<size_t> track_bar = TrackBarOf(basis.rig->vehicle->axles[basis.axle]);
  for (const LinkSet& set : LinkSetsOf(basis.rig->vehicle->axles[basis.axle])) {
    // Far enough out, a track bar would do it too, with the axle beside the centreline.
    if (track_bar && set.members.front() == *track_bar) continue;
    std::optional<LengthAnswer> best;
    Offer offer{.net = now - kFinder, .effort = 0.0};
    for (const PinionAim& aim : aims) {
      auto answer = TurnInto(basis, rest, load, set, aim);
      if (!answer) continue;
      const Pose& pose = answer->standing.level[basis.axle].pose;
      const Offer next{.net = TurnableAt(shaft, answer->rig, pose).NetTurned(shaft.pinion_low),
                       .effort = std::abs(answer->by)};
      if (best ? !Better(next, offer) : next.net >= offer.net) continue;
      offer = next;
      best = std::move(answer);
    }
    if (!best) {
      report.no_cure.push_back(set.name);
      continue;
    }
    ShaftBasis turned = basis;
    turned.rig = &best->rig;
    const Pose& pose = best->standing.level[basis.axle].pose;
    report.cures.push_back({.links = set,
                            .by = best->by,
                            .pinion = YokeUp(basis, rest, pose),
                            .moved = pose.x - rest.x,
                            .after = EvaluateShaft(turned, Kind::kRest, pose)});
  }
}

void AddTorque(const ShaftBasis& basis, const Standing& standing, ShaftReport& report) {
  if (!report.torque || !standing.stance) return;
  report.wind_up = WindUpUnder(*basis.rig, *standing.stance, basis.axle, *report.torque);
  if (!report.wind_up) return;
  report.under_torque = EvaluateShaft(basis, Kind::kUnderTorque, report.wind_up->wound);
  report.pinion_up = YokeUp(basis, report.wind_up->free, report.wind_up->wound);
}

ShaftReport ReportShaft(const Walks& walks, const Standing& standing,
                        const DrivelineRequest& request, size_t index) {
  const Rig& rig = *walks.rig;
  const Driveshaft& shaft = rig.vehicle->driveshafts[index];
  const auto axle = static_cast<size_t>(shaft.axle);
  ShaftReport report{};
  report.shaft = index;
  report.speed = request.speed ? request.speed : shaft.top_speed;
  report.torque = request.torque;
  report.settled = standing.stance.has_value();
  const ShaftBasis basis = PrepareShaft(rig, shaft, standing.level[axle].pose.z, report.speed);
  if (shaft.center_bearing) report.front_length = (shaft.center_bearing->p_CB - shaft.p_CO).norm();
  if (report.speed) {
    report.angle_allowed =
        shaft.aims.angle_at_speed ? *shaft.aims.angle_at_speed : AngleAllowedAt(*report.speed);
  }
  AddTravel(basis, walks, request.step, report);
  AddExtremes(basis, walks, report);
  const Turnable here = TurnableAt(shaft, rig, standing.level[axle].pose);
  report.aim = OrderOf(here, shaft.pinion_low);
  report.slopes = SlopesOf(rig, standing, here.line);
  report.phase = BestPhase(here.line.chain);
  if (request.cures) AddCures(basis, standing, request.load, report);
  AddTorque(basis, standing, report);
  return report;
}

}  // namespace

std::vector<ShaftReport> ReportDriveline(const Walks& walks, const Standing& standing,
                                         const DrivelineRequest& request) {
  std::vector<ShaftReport> reports;
  for (size_t i = 0; i < walks.rig->vehicle->driveshafts.size(); ++i) {
    reports.push_back(ReportShaft(walks, standing, request, i));
  }
  return reports;
}

const ShaftPlace& AtRest(const ShaftReport& report) {
  return *std::find_if(report.travel.begin(), report.travel.end(),
                       [](const ShaftPlace& place) { return place.kind == Kind::kRest; });
}

const LinkCure* CureToTurn(const ShaftReport& report) {
  for (const LinkCure& cure : report.cures) {
    if (cure.links.thread) return &cure;
  }
  return report.cures.empty() ? nullptr : &report.cures.front();
}

std::vector<ShaftPlace> AllPlaces(const ShaftReport& report) {
  std::vector<ShaftPlace> all = report.travel;
  all.insert(all.end(), report.extremes.begin(), report.extremes.end());
  return all;
}

// 5000 to 3500 rpm as printed by a driveline maker's operating-angle page; 3000 to 1500 from
// memory.
double AngleAllowedAt(double speed) {
  constexpr double kRpm = 2.0 * M_PI / 60.0;  // [rad/s]
  struct Line {
    double rpm, degrees;
  };
  constexpr std::array kTable{Line{1500, 11.5}, Line{2000, 8.7}, Line{2500, 7.0}, Line{3000, 5.8},
                              Line{3500, 5.0},  Line{4000, 4.2}, Line{4500, 3.7}, Line{5000, 3.2}};
  const double rpm = std::abs(speed) / kRpm;
  if (rpm <= kTable.front().rpm) return kTable.front().degrees * kOneDegree;
  if (rpm >= kTable.back().rpm) {
    return kTable.back().rpm * kTable.back().degrees / rpm * kOneDegree;
  }
  size_t i = 1;
  while (kTable[i].rpm < rpm) ++i;
  const Line& low = kTable[i - 1];
  const Line& high = kTable[i];
  const double share = (rpm - low.rpm) / (high.rpm - low.rpm);
  const double product = (1.0 - share) * low.rpm * low.degrees + share * high.rpm * high.degrees;
  return product / rpm * kOneDegree;
}

bool Shows(const PinionOrder& order, double low, double now) {
  return low == 0.0 ? now - order.net_angle > kFinder : std::abs(order.turn) > kFinder;
}

JointKind KindOf(const Driveshaft& shaft, size_t joint, size_t joints) {
  if (joint == 0) return shaft.output_joint;
  return joint + 1 == joints ? shaft.axle_joint : shaft.center_bearing->joint;
}

std::string JointName(size_t joint, size_t joints) {
  if (joint == 0) return "output";
  return joint + 1 == joints ? "pinion" : "centre bearing";
}

}  // namespace linkwright
