// SPDX-License-Identifier: MIT
#include "io/read/check.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "io/read/format.h"

namespace linkwright {
namespace {

constexpr double kShareSlip = 1e-9;  // rounding of shares written as decimals

void CheckWheel(const Part& axle, std::string_view key, bool left, double floor, Report& report) {
  const auto center = PointAt(axle.node(), key);
  if (!center) return;
  if (left ? center->y() <= 0.0 : center->y() >= 0.0) {
    AddErrorAt(report, axle, key,
               fmt::format("y is {}; the {} wheel's is {} than 0 (y points left)",
                           Show(center->y(), axle.node()), left ? "left" : "right",
                           left ? "more" : "less"));
  }
  if (center->z() <= floor) {
    AddErrorAt(report, axle, key,
               fmt::format("z is {}; a wheel centre is above the floor, which is at {}",
                           Show(center->z(), axle.node()), Show(floor, axle.node())));
  }
}

void CheckSteering(const Part& axle, Report& report) {
  const auto kingpin = PartAt(axle, "kingpin");
  const auto at = kingpin ? PointAt(kingpin->node(), "at") : std::nullopt;
  if (at && at->y() <= 0.0) {
    AddErrorAt(
        report, *kingpin, "at",
        fmt::format("y is {}; the left kingpin's is more than 0", Show(at->y(), axle.node())));
  }
  const Entry* steering = FindEntry(axle.node(), "steering");
  if (steering == nullptr) return;
  const bool has_point = kingpin && Find(kingpin->node(), "at") != nullptr;
  if (has_point) return;
  const Place blame = BlameFor(axle.node(), "kingpin", steering->key_place);
  AddError(report, kingpin ? BlameFor(kingpin->node(), "at", blame) : blame,
           JoinPath(axle.path, "steering"),
           "it needs a point of the kingpin axis: kingpin: {caster: ..., at: [x, y, z]}");
}

void CheckWheelbase(const Part& front, const Part& rear, Report& report) {
  const auto front_center = PointAt(front.node(), "wheel_center");
  for (const std::string_view key : {"wheel_center", "wheel_center_right"}) {
    auto ahead = PointAt(front.node(), key);
    const auto behind = PointAt(rear.node(), key);
    if (!ahead) ahead = front_center;
    if (!ahead || !behind || ahead->x() > behind->x()) continue;
    AddErrorAt(report, rear, key,
               fmt::format("x is {}, not behind the front wheel at {} (x points forward)",
                           Show(behind->x(), rear.node()), Show(ahead->x(), rear.node())));
  }
}

void CheckShares(const Part& front, const Part& rear, std::string_view key, Report& report) {
  const auto one = NumberAt(front.node(), key);
  const auto other = NumberAt(rear.node(), key);
  if (!one || !other || *one + *other <= 1.0 + kShareSlip) return;
  AddErrorAt(report, rear, key,
             fmt::format("with the front axle's it comes to {:.6g}; the two shares make 1 at most",
                         *one + *other));
}

void CheckDriveshaft(const Part& shaft, const Part& axles, Report& report) {
  const auto slip = NumberAt(shaft.node(), "slip");
  const auto left = NumberAt(shaft.node(), "slip_left");
  if (slip && left && *left > *slip) {
    AddErrorAt(report, shaft, "slip_left",
               fmt::format("it is more than the whole slip, {}", Show(*slip, shaft.node())));
  }
  const auto output = PointAt(shaft.node(), "output");
  const auto bearing = PartAt(shaft, "center_bearing");
  const auto at = bearing ? PointAt(bearing->node(), "at") : std::nullopt;
  constexpr double kShortestShaft = 1e-3;  // [m] the two joints would be one
  if (at && output && (*at - *output).norm() < kShortestShaft) {
    AddErrorAt(report, *bearing, "at", "it is the same point as the output");
  }
  const auto axle = PartAt(axles, TextAt(shaft.node(), "axle"));
  if (!axle) return;
  const auto pinion = PartAt(*axle, "pinion");
  if (!pinion) {
    return AddError(
        report, BlameFor(axle->node(), "pinion", Find(shaft.node(), "axle")->place),
        JoinPath(shaft.path, "axle"),
        fmt::format("{} has no 'pinion'; a driveshaft needs its yoke and angle", axle->path));
  }
  const auto yoke = PointAt(pinion->node(), "yoke");
  if (yoke && at && (*yoke - *at).norm() < kShortestShaft) {
    AddErrorAt(report, *bearing, "at", "it is the same point as the pinion's yoke");
  }
  if (yoke && at && output && (output->x() - at->x()) * (at->x() - yoke->x()) <= 0.0) {
    AddErrorAt(report, *bearing, "at",
               fmt::format("x is {}, not between the output at {} and the pinion's yoke at {}",
                           Show(at->x(), shaft.node()), Show(output->x(), shaft.node()),
                           Show(yoke->x(), shaft.node())));
  }
  if (!yoke || !output || (*yoke - *output).norm() >= kShortestShaft) return;
  AddErrorAt(report, shaft, "output", "it is the same point as the pinion's yoke");
}

void CheckOpening(const Part& opening, Report& report) {
  const auto lip = NumberAt(opening.node(), "lip_y");
  const auto panel = NumberAt(opening.node(), "inner_panel_y");
  if (!lip || !panel || *panel < *lip) return;
  AddErrorAt(
      report, opening, "inner_panel_y",
      fmt::format("it is not inside the lip, whose lip_y is {}", Show(*lip, opening.node())));
}

}  // namespace

std::string Show(double length, const Node& node) {
  return FormatValue(length, Dimension::kLength, node.units);
}

void AddErrorAt(Report& report, const Part& part, std::string_view key, std::string message) {
  const Node* value = Find(part.node(), key);
  AddError(report, value == nullptr ? part.entry->key_place : value->place,
           value == nullptr ? part.path : JoinPath(part.path, key), std::move(message));
}

void CheckVehicle(const Node& root, Report& report) {
  const Entry whole{"", root.place, root};
  const Part vehicle{&whole, ""};
  const double floor = NumberOr(root, "vehicle", "floor");
  CheckMasses(vehicle, report);
  CheckHeights(vehicle, floor, report);
  CheckLeafOriginal(vehicle, report);
  const auto axles = PartAt(vehicle, "axles");
  if (!axles) return;
  const auto front = PartAt(*axles, "front");
  const auto rear = PartAt(*axles, "rear");
  for (const auto& axle : {front, rear}) {
    if (!axle) continue;
    CheckWheel(*axle, "wheel_center", true, floor, report);
    CheckWheel(*axle, "wheel_center_right", false, floor, report);
    CheckSteering(*axle, report);
    CheckMembers(vehicle, *axle, report);
  }
  if (front && rear) {
    CheckWheelbase(*front, *rear, report);
    CheckShares(*front, *rear, "drive_share", report);
    CheckShares(*front, *rear, "brake_share", report);
  }
  for (const Part& shaft : PartsAt(vehicle, "driveshafts")) CheckDriveshaft(shaft, *axles, report);
  const auto openings = PartAt(vehicle, "openings");
  for (const std::string_view axle : {"front", "rear"}) {
    const auto opening = openings ? PartAt(*openings, axle) : std::nullopt;
    if (opening) CheckOpening(*opening, report);
  }
}

}  // namespace linkwright
