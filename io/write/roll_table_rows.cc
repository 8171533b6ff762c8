// SPDX-License-Identifier: MIT
#include "io/write/roll_table_rows.h"

namespace linkwright {
namespace {

using enum Dimension;

std::vector<Column> TorqueColumns() {
  return {
      {"axle", "driven axle", kNumber, "", "the axle whose shaft carries the torque"},
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
       "shaft torque at which something happens first; empty where nothing does up to 20 times the "
       "torque asked about, or where it does with hardly any"},
      {"limit", "with", kNumber, "",
       "what happens there: a wheel lifts, or a damper, coil, stop or strap is at its end"}};
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

std::string WheelName(const Vehicle& vehicle, size_t wheel) {
  return vehicle.axles[wheel / 2].name + (wheel % 2 == 0 ? " left" : " right");
}

namespace {

// The first thing that happens as the torque grows.
struct FirstEnd {
  std::optional<double> share;
  std::string what = "nothing";
};

FirstEnd FirstOf(const Vehicle& vehicle, const PushEnds& ends) {
  FirstEnd first;
  const auto take = [&](double share, const std::string& what) {
    if (!first.share || share < *first.share) first = {share, what};
  };
  if (ends.lift) take(ends.lift->share, WheelName(vehicle, ends.lift->wheel) + " wheel lifts");
  if (ends.member) take(ends.member->share, ends.member->what);
  if (ends.over) take(*ends.over, "it stands no longer");
  return first;
}

}  // namespace

DataTable TorqueTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = TorqueColumns(), .rows = {}};
  for (const TorqueLift& lift : study.torques) {
    const size_t own = lift.axle, other = 1 - own;
    const bool stands = lift.stance.status == StanceStatus::kRests;
    FirstEnd first = FirstOf(vehicle, lift.ends);
    const bool at_rest = first.share && AtOnce(*first.share);
    if (at_rest) first = {std::nullopt, first.what + ", with hardly any torque"};
    const double sign = *study.torque < 0.0 ? -1.0 : 1.0;
    table.rows.push_back(
        {vehicle.axles[own].name, *study.torque, std::string(sign > 0.0 ? "right" : "left"),
         CellIf(stands, sign * lift.moved[own]), sign * lift.handbook[own],
         CellIf(stands, -sign * lift.moved[other]), lift.share[0], CellIf(stands, lift.body_roll),
         CellIf(first.share.has_value(), first.share.value_or(0.0) * *study.torque), first.what});
  }
  return table;
}

}  // namespace linkwright
