// SPDX-License-Identifier: MIT
#include "io/read/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "io/read/suggest.h"
#include "io/shown.h"
#include "solver/study/findings/accepted.h"

namespace linkwright {
namespace {

constexpr double kShareSlip = 1e-9;  // rounding of shares written as decimals

void CheckWheel(const Part& axle, std::string_view key, bool left, double floor, Report& report) {
  const auto center = PointAt(axle.node, key);
  if (!center) return;
  if (left ? center->y() <= 0.0 : center->y() >= 0.0) {
    AddErrorAt(report, axle, key, "y is {}; the {} wheel's is {} than 0 (y points left)",
               center->y(), left ? "left" : "right", left ? "more" : "less");
  }
  if (center->z() <= floor) {
    AddErrorAt(report, axle, key, "z is {}; a wheel centre is above the floor, which is at {}",
               center->z(), floor);
  }
}

void CheckSteering(const Part& axle, Report& report) {
  const Part kingpin = PartAt(axle, "kingpin");
  const auto at = PointAt(kingpin.node, "at");
  if (at && at->y() <= 0.0) {
    AddErrorAt(report, kingpin, "at", "y is {}; the left kingpin's is more than 0",
               Show(at->y(), axle.node));
  }
  const Entry* steering = FindEntry(axle.node, "steering");
  if (steering == nullptr || Find(kingpin.node, "at") != nullptr) return;
  const Place blame = BlameFor(axle.node, "kingpin", steering->key_place);
  AddError(report, BlameFor(kingpin.node, "at", blame), JoinPath(axle.path, "steering"),
           "it needs a point of the kingpin axis: kingpin: {caster: ..., at: [x, y, z]}");
}

void CheckWheelbase(const Part& front, const Part& rear, Report& report) {
  const auto front_center = PointAt(front.node, "wheel_center");
  for (const std::string_view key : {"wheel_center", "wheel_center_right"}) {
    auto ahead = PointAt(front.node, key);
    const auto behind = PointAt(rear.node, key);
    if (!ahead) ahead = front_center;
    if (!ahead || !behind || ahead->x() > behind->x()) continue;
    AddErrorAt(report, rear, key, "x is {}, not behind the front wheel at {} (x points forward)",
               behind->x(), ahead->x());
  }
}

void CheckShares(const Part& front, const Part& rear, std::string_view key, Report& report) {
  const auto one = NumberAt(front.node, key);
  const auto other = NumberAt(rear.node, key);
  if (!one || !other || *one + *other <= 1.0 + kShareSlip) return;
  AddErrorAt(report, rear, key,
             "with the front axle's it comes to {}; the two shares make 1 at most",
             fmt::format("{:.6g}", *one + *other));
}

void CheckDriveshaft(const Part& shaft, const Part& axles, Report& report) {
  const auto slip = NumberAt(shaft.node, "slip");
  const auto left = NumberAt(shaft.node, "slip_left");
  if (slip && left && *left > *slip) {
    AddErrorAt(report, shaft, "slip_left", "it is more than the whole slip, {}", *slip);
  }
  const auto output = PointAt(shaft.node, "output");
  const Part bearing = PartAt(shaft, "center_bearing");
  const auto at = PointAt(bearing.node, "at");
  CheckApart(bearing, "at", output, "the output", report);
  const std::string name = TextAt(shaft.node, "axle");
  const Part axle = PartAt(axles, name);
  if (!axle) {
    if ((name == "front" || name == "rear") && Find(axles.node, name) == nullptr) {
      AddError(report, BlameFor(axles.node, name, Find(shaft.node, "axle")->place),
               JoinPath(shaft.path, "axle"),
               fmt::format("the file has no axles.{}; give that axle, or take this driveshaft out",
                           name));
    }
    return;
  }
  const Part pinion = PartAt(axle, "pinion");
  if (!pinion) {
    return AddError(
        report, BlameFor(axle.node, "pinion", Find(shaft.node, "axle")->place),
        JoinPath(shaft.path, "axle"),
        fmt::format("{} has no 'pinion'; a driveshaft needs its yoke and angle", axle.path));
  }
  const auto yoke = PointAt(pinion.node, "yoke");
  CheckApart(bearing, "at", yoke, "the pinion's yoke", report);
  if (yoke && at && output && (output->x() - at->x()) * (at->x() - yoke->x()) <= 0.0) {
    AddErrorAt(
        report, bearing, "at", "x is {}, not between the output at {} and the pinion's yoke at {}",
        Show(at->x(), shaft.node), Show(output->x(), shaft.node), Show(yoke->x(), shaft.node));
  }
  CheckApart(shaft, "output", yoke, "the pinion's yoke", report);
}

void CheckDefaultLoad(const Part& vehicle, Report& report) {
  const Node* given = Find(vehicle.node, "default_load");
  if (given == nullptr || given->kind != NodeKind::kScalar) return;
  std::vector<std::string_view> names;
  const Node* loads = Find(vehicle.node, "loads");
  if (loads != nullptr && loads->kind != NodeKind::kMap) return;
  if (loads != nullptr) {
    for (const Entry& load : loads->entries) names.push_back(load.key);
  }
  if (names.empty()) names.emplace_back("empty");  // what a file without loads has
  if (std::find(names.begin(), names.end(), given->text) != names.end()) return;
  const std::string nearest = NearestWord(given->text, names);
  AddErrorAt(report, vehicle, "default_load", "no load is called {}; {}", Quoted(given->text),
             nearest.empty() ? fmt::format("the file has '{}'", fmt::join(names, "', '"))
                             : fmt::format("did you mean '{}'?", nearest));
}

// A slug that no finding has would silence nothing and nobody would know.
void CheckAccept(const Part& vehicle, Report& report) {
  const Node* accept = Find(vehicle.node, "accept");
  if (accept == nullptr || accept->kind != NodeKind::kMap) return;
  std::vector<std::string_view> slugs;
  for (std::size_t i = 0; i < kFindingKinds; ++i) {
    slugs.emplace_back(TraitOf(static_cast<FindingKind>(i)).slug);
  }
  for (const Entry& entry : accept->entries) {
    const AcceptedName name = SplitName(entry.key);
    if (KindOf(name.slug)) continue;
    const std::string nearest = NearestWord(name.slug, slugs);
    AddError(report, entry.key_place, JoinPath("accept", entry.key),
             fmt::format("no finding is called {}; {}", Quoted(std::string(name.slug)),
                         nearest.empty() ? "linkwright explain lists them all"
                                         : fmt::format("did you mean '{}'?", nearest)));
  }
}

//   axle   of the opening: "front"
void CheckOpening(const Part& opening, const Part& axles, std::string_view axle, Report& report) {
  if (Find(axles.node, axle) == nullptr) {
    AddError(report, BlameFor(axles.node, axle, opening.place), opening.path,
             fmt::format("the file has no axles.{} to stand in it; give that axle, or take this "
                         "opening out",
                         axle));
  }
  const auto lip = NumberAt(opening.node, "lip_y");
  const auto panel = NumberAt(opening.node, "inner_panel_y");
  if (!lip || !panel || *panel < *lip) return;
  AddErrorAt(report, opening, "inner_panel_y", "it is not inside the lip, whose lip_y is {}", *lip);
}

}  // namespace

std::string Show(double length, const Node& node) {
  return FormatValue(length, Dimension::kLength, node.units);
}

void AddMessageAt(Report& report, const Part& part, std::string_view key, std::string message) {
  const Node* value = Find(part.node, key);
  AddError(report, value == nullptr ? part.place : value->place,
           value == nullptr ? part.path : JoinPath(part.path, key), std::move(message));
}

void CheckPairSide(const Part& part, std::initializer_list<std::string_view> keys, Report& report) {
  if (!FlagAt(part.node, "pair")) return;
  for (const std::string_view key : keys) {
    const auto point = PointAt(part.node, key);
    if (!point || point->y() >= 0.0) continue;
    AddErrorAt(report, part, key,
               "y is {}; a pair is given by its left member, whose y is more than 0", point->y());
  }
}

void CheckApart(const Part& part, std::string_view key, const std::optional<Eigen::Vector3d>& other,
                std::string_view what, Report& report) {
  const auto point = PointAt(part.node, key);
  if (!point || !other || (*point - *other).norm() >= kSamePoint) return;
  AddErrorAt(report, part, key, "it is the same point as {}", what);
}

void CheckMore(const Part& part, std::string_view key, std::string_view than, std::string_view what,
               Report& report, std::string_view after) {
  const auto more = NumberAt(part.node, key);
  const auto less = NumberAt(part.node, than);
  if (!more || !less || *more > *less) return;
  AddErrorAt(report, part, key, "it is not more than {}, {}{}", what, *less, after);
}

void CheckVehicle(const Node& root, const HousingMoved& moved, Report& report) {
  const Part vehicle{root, "", root.place};
  const double floor = NumberOr(root, "vehicle", "floor");
  CheckMasses(vehicle, floor, report);
  CheckLeafOriginal(vehicle, report);
  CheckDefaultLoad(vehicle, report);
  CheckAccept(vehicle, report);
  const Part axles = PartAt(vehicle, "axles");
  if (!axles) return;
  for (const Part& axle : AxleParts(axles)) {
    CheckWheel(axle, "wheel_center", true, floor, report);
    CheckWheel(axle, "wheel_center_right", false, floor, report);
    CheckSteering(axle, report);
    CheckMembers(vehicle, axle, moved[axle.path == "axles.front" ? 0 : 1], report);
  }
  const Part front = PartAt(axles, "front");
  const Part rear = PartAt(axles, "rear");
  CheckWheelbase(front, rear, report);
  CheckShares(front, rear, "drive_share", report);
  CheckShares(front, rear, "brake_share", report);
  for (const Part& shaft : PartsAt(vehicle, "driveshafts")) CheckDriveshaft(shaft, axles, report);
  for (const std::string_view axle : {"front", "rear"}) {
    const Part opening = PartAt(PartAt(vehicle, "openings"), axle);
    if (opening) CheckOpening(opening, axles, axle, report);
  }
}

}  // namespace linkwright
