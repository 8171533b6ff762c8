// SPDX-License-Identifier: MIT
#include "io/write/roll_table_rows.h"

#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

// The rows are the axles that are taken together: one, the other, both.
using Axles = std::vector<size_t>;

// The sum over a row's axles.
template <typename OfAxle>
std::function<Cell(const Axles&)> SumIf(bool known, const OfAxle& of_axle) {
  return [=](const Axles& axles) {
    double sum = 0.0;
    for (size_t i = 0; known && i < axles.size(); ++i) sum += of_axle(axles[i]);
    return CellIf(known, sum);
  };
}

TableOf<Axles> TransferColumns(const Vehicle& vehicle, const RollStudy& study) {
  const Corner& corner = study.corner;
  const bool stands = Stands(study);
  const auto handbook = [&](double HandbookTransfer::*part) {
    return SumIf(corner.handbook.has_value(),
                 [&corner, part](size_t i) { return (*corner.handbook)[i].*part; });
  };
  return {
      {"axle", "axle", kNumber, "front, rear or both",
       [&](auto& axles) { return axles.size() > 1 ? "both" : vehicle.axles[axles[0]].name; }},
      {"sprung_direct", "sprung direct", kForce,
       "by the handbook: what the sprung mass moves through the links, at the roll centre",
       handbook(&HandbookTransfer::sprung)},
      {"unsprung", "unsprung", kForce, "by the handbook: the axle's own mass",
       handbook(&HandbookTransfer::unsprung)},
      {"roll_moment", "roll moment", kForce,
       "by the handbook: through coils, stops and bar, by the body's roll",
       handbook(&HandbookTransfer::roll_moment)},
      {"handbook", "handbook", kForce, "the three together; + from left to right",
       handbook(&HandbookTransfer::total)},
      {"moved", "equilibrium", kForce,
       "moved from left to right as the whole vehicle stands in the turn, solved as at rest; empty "
       "where it finds no position",
       SumIf(stands, [&corner](size_t i) { return corner.moved[i]; })},
      {"axle_steer", "axle steer", kAngle,
       "of the housing against the chassis and the rest; + left", [&corner, stands](auto& axles) {
         return CellIf(stands && axles.size() == 1, corner.axle_steer[axles[0]]);
       }}};
}

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
  if (first.share && AtOnce(*first.share)) {
    first = {std::nullopt, first.what + ", with hardly any torque"};
  }
  return first;
}

TableOf<TorqueLift> TorqueColumns(const Vehicle& vehicle, double torque) {
  const double sign = torque < 0.0 ? -1.0 : 1.0;
  const auto if_stands = [](const TorqueLift& lift, double value) {
    return CellIf(lift.stance.status == StanceStatus::kRests, value);
  };
  return {
      {"axle", "driven axle", kNumber, "the axle whose shaft carries the torque",
       [&](auto& lift) { return vehicle.axles[lift.axle].name; }},
      {"torque", "shaft torque", kTorque,
       "in the shaft; + presses the left wheel down, as an engine does that turns clockwise seen "
       "from its front",
       [=](auto&) { return torque; }},
      {"lifted_wheel", "lighter wheel", kNumber, "which of its wheels loses load",
       [=](auto&) { return sign > 0.0 ? "right" : "left"; }},
      {"moved", "moved", kForce,
       "from the lighter wheel to the other, by the equilibrium; empty where there is none",
       [=](auto& lift) { return if_stands(lift, sign * lift.moved[lift.axle]); }},
      {"moved_handbook", "by handbook", kForce,
       "torque over the track, less the share of the body's reaction that the axle takes back",
       [=](auto& lift) { return sign * lift.handbook[lift.axle]; }},
      {"other_axle", "other axle moves", kForce,
       "by the equilibrium, the other way round; the two differ by what the leaning body moves "
       "over",
       [=](auto& lift) { return if_stands(lift, -sign * lift.moved[1 - lift.axle]); }},
      {"front_share", "front takes", kPercent,
       "of the body's reaction, by roll stiffness with tyres",
       [](auto& lift) { return lift.share[0]; }},
      {"body_roll", "body roll", kAngle, "against the rest; + left side up",
       [=](auto& lift) { return if_stands(lift, lift.body_roll); }},
      {"limit_torque", "ends at", kTorque,
       "shaft torque at which something happens first; empty where nothing does up to 20 times the "
       "torque asked about, or where it does with hardly any",
       [=, &vehicle](auto& lift) {
         return Within(FirstOf(vehicle, lift.ends).share,
                       [=](double share) { return share * torque; });
       }},
      {"limit", "with", kNumber,
       "what happens there: a wheel lifts, or a damper, coil, stop or strap is at its end",
       [&](auto& lift) { return FirstOf(vehicle, lift.ends).what; }}};
}

}  // namespace

bool Stands(const RollStudy& study) { return study.corner.stance.status == StanceStatus::kRests; }

std::string WheelName(const Vehicle& vehicle, size_t wheel) {
  return vehicle.axles[wheel / 2].name + (wheel % 2 == 0 ? " left" : " right");
}

DataTable TransferTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  const std::vector<Axles> rows{{kFront}, {kRear}, {kFront, kRear}};
  return ToTable(TransferColumns(vehicle, study), rows, units);
}

DataTable TorqueTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  return ToTable(TorqueColumns(vehicle, study.torque.value_or(0.0)), study.torques, units);
}

}  // namespace linkwright
