// SPDX-License-Identifier: MIT
#include "io/write/roll_table_rows.h"

namespace linkwright {
namespace {

using enum Dimension;

std::vector<Column> TorqueColumns() {
  return {{"axle", "driven axle", kNumber, "", "the axle whose shaft carries the torque"},
          {"torque", "shaft torque", kTorque, "",
           "in the shaft; + presses the left wheel down, as an engine does that turns clockwise "
           "seen from its front"},
          {"lifted_wheel", "lighter wheel", kNumber, "", "which of its wheels loses load"},
          {"moved", "moved", kForce, "",
           "from the lighter wheel to the other, by the equilibrium; empty where there is none"},
          {"moved_handbook", "by handbook", kForce, "",
           "torque over the track, less the share of the body's reaction that the axle takes back"},
          {"other_axle", "other axle moves", kForce, "",
           "by the equilibrium, the other way round; the two differ by what the leaning body moves "
           "over"},
          {"front_share", "front takes", kPercent, "",
           "of the body's reaction, by roll stiffness with tyres"},
          {"body_roll", "body roll", kAngle, "", "against the rest; + left side up"},
          {"limit_torque", "ends at", kTorque, "",
           "shaft torque at which the first of these happens; empty where none does"},
          {"limit", "with", kNumber, "", "what happens there"}};
}

}  // namespace

std::vector<Column> CornerColumns() {
  return {{"axle", "axle", kNumber, "", "front, rear or both"},
          {"sprung_direct", "sprung direct", kForce, "",
           "by the handbook: what the sprung mass moves through the links, at the roll centre"},
          {"unsprung", "unsprung", kForce, "", "by the handbook: the axle's own mass"},
          {"roll_moment", "roll moment", kForce, "",
           "by the handbook: through coils, stops and bar, by the body's roll"},
          {"handbook", "handbook", kForce, "", "the three together; + from left to right"},
          {"moved", "equilibrium", kForce, "",
           "moved from left to right as the whole vehicle stands in the turn, solved as at rest; "
           "empty where it finds no position"},
          {"axle_steer", "axle steer", kAngle, "",
           "of the housing against the chassis and the rest; + left"}};
}

std::string DescribeLimit(const Vehicle& vehicle, const PushLimit& limit) {
  switch (limit.kind) {
    case LimitKind::kWheelLifts:
      return vehicle.axles[limit.wheel / 2].name + (limit.wheel % 2 == 0 ? " left" : " right") +
             " wheel lifts" + (limit.goes_over ? ", and over" : "");
    case LimitKind::kTravelEnds: {
      const std::string before = "before it rests, ";
      return limit.message.starts_with(before) ? limit.message.substr(before.size())
                                               : limit.message;
    }
    case LimitKind::kNoEquilibrium:
      return "it goes over";
    case LimitKind::kNotReached:
      break;
  }
  return "nothing up to there";
}

DataTable TorqueTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = TorqueColumns(), .rows = {}};
  for (const TorqueLift& lift : study.torques) {
    const size_t own = lift.axle, other = 1 - own;
    const bool stands = lift.stance.status == StanceStatus::kRests;
    const bool found = lift.limit.kind != LimitKind::kNotReached;
    const double sign = *study.torque < 0.0 ? -1.0 : 1.0;
    table.rows.push_back(
        {vehicle.axles[own].name, *study.torque, std::string(sign > 0.0 ? "right" : "left"),
         CellIf(stands, sign * lift.moved[own]), sign * lift.handbook[own],
         CellIf(stands, -sign * lift.moved[other]), lift.share[0], CellIf(stands, lift.body_roll),
         CellIf(found, lift.limit.share * *study.torque), DescribeLimit(vehicle, lift.limit)});
  }
  return table;
}

}  // namespace linkwright
