// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"

#include "io/read/format.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

std::vector<Mass> BuildMasses(const Node* list) {
  std::vector<Mass> masses;
  if (list == nullptr) return masses;
  for (const Node& item : list->items) masses.push_back(BuildMass(item));
  return masses;
}

JointKind JointOf(std::string_view word) {
  return word == "double" ? JointKind::kDouble : JointKind::kSingle;
}

CenterBearing BuildCenterBearing(const Node& node) {
  return {.p_CB = PointAt(node, "at").value(),
          .joint = JointOf(TextAt(node, "joint")),
          .phase = NumberOr(node, "center_bearing", "phase")};
}

ShaftAims BuildShaftAims(const Node& node) {
  const auto limit = [&](std::string_view key) { return NumberOr(node, "driveshaft_limits", key); };
  return {.joint_least = limit("joint_least"),
          .joint_most = limit("joint_most"),
          .pair_differ = limit("pair_differ"),
          .double_most = limit("double_most"),
          .torsional = limit("torsional"),
          .inertial = limit("inertial"),
          .angle_at_speed = NumberAt(node, "angle_at_speed"),
          .bottom_least = NumberAt(node, "bottom_least"),
          .part_least = NumberAt(node, "part_least")};
}

// Against the wind-up: under power a housing's front comes up, and with it a yoke that stands ahead
// of the wheels; one behind them, as on a front axle, goes down.
double UsualPinionLow(const Driveshaft& shaft, const Axle& axle) {
  if (shaft.output_joint != JointKind::kDouble || shaft.axle_joint != JointKind::kSingle) {
    return 0.0;
  }
  const double preset = ToSi(1.5, Dimension::kAngle, UnitSystem::kMetric);
  return axle.pinion && axle.pinion->p_CY.x() < axle.p_CW_l.x() ? -preset : preset;
}

Driveshaft BuildDriveshaft(const std::string& name, const Node& node,
                           const std::array<Axle, 2>& axles) {
  Driveshaft shaft;
  shaft.name = name;
  shaft.p_CO = PointAt(node, "output").value();
  shaft.output_angle = NumberAt(node, "output_angle").value();
  shaft.axle = TextAt(node, "axle") == "front" ? kFront : kRear;
  const Axle& axle = axles[static_cast<size_t>(shaft.axle)];
  if (const Node* joints = Find(node, "joints")) {
    shaft.output_joint = JointOf(joints->items[0].text);
    shaft.axle_joint = JointOf(joints->items[1].text);
  }
  shaft.phase = NumberOr(node, "driveshaft", "phase");
  shaft.slip = NumberAt(node, "slip");
  shaft.slip_left = NumberAt(node, "slip_left");
  if (shaft.slip && !shaft.slip_left) shaft.slip_left = *shaft.slip / 2.0;
  shaft.top_speed = NumberAt(node, "top_speed_rpm");
  if (const Node* bearing = Find(node, "center_bearing")) {
    shaft.center_bearing = BuildCenterBearing(*bearing);
  }
  shaft.pinion_low = NumberAt(node, "pinion_low").value_or(UsualPinionLow(shaft, axle));
  const Node none;
  const Node* aims = Find(node, "limits");
  shaft.aims = BuildShaftAims(aims == nullptr ? none : *aims);
  return shaft;
}

Ledger BuildLedger(const Node& node) {
  const Node& weighed = *Find(node, "weighed");
  const auto scale = [&](std::string_view corner) { return NumberAt(weighed, corner).value(); };
  Ledger ledger;
  ledger.weighed = {scale("front_left"), scale("front_right"), scale("rear_left"),
                    scale("rear_right")};
  ledger.cg_height = scale("cg_height");
  ledger.removed = BuildMasses(Find(node, "removed"));
  ledger.added = BuildMasses(Find(node, "added"));
  ledger.pitch_inertia = NumberAt(node, "pitch_inertia");
  ledger.roll_inertia = NumberAt(node, "roll_inertia");
  return ledger;
}

std::vector<Load> BuildLoads(const Node* loads) {
  std::vector<Load> built;
  if (loads != nullptr) {
    for (const Entry& entry : loads->entries) {
      built.push_back({entry.key, BuildMasses(&entry.value)});
    }
  }
  if (built.empty()) built.push_back({"empty", {}});
  return built;
}

void MapNode(const Node& node, const std::vector<std::string>& part, const std::string& path,
             const Report& report, SourceMap& map);

void MapEntry(const Entry& entry, std::vector<std::string> part, const std::string& path,
              const Report& report, SourceMap& map) {
  part.push_back(entry.key);
  const std::string entry_path = JoinPath(path, entry.key);
  // What is wrong with a group from which a variant took something is the variant's doing.
  const std::vector<Removal>& removals = entry.value.removals;
  const Place& place = removals.empty() ? entry.key_place : removals.back().place;
  map.entries[part] = {place, entry_path, ExcerptAt(report, place)};
  MapNode(entry.value, part, entry_path, report, map);
}

void MapItem(const Node& item, std::size_t index, std::vector<std::string> part,
             const std::string& path, const Report& report, SourceMap& map) {
  const std::string item_path = path + "[" + std::to_string(index + 1) + "]";
  const SourceEntry entry{item.place, item_path, ExcerptAt(report, item.place)};
  part.push_back(std::to_string(index + 1));
  map.entries[part] = entry;
  MapNode(item, part, item_path, report, map);
  if (const std::string name = TextAt(item, "item"); !name.empty()) {
    part.back() = name;
    map.entries.emplace(part, entry);  // the first of two items with one name keeps it
  }
}

void MapNode(const Node& node, const std::vector<std::string>& part, const std::string& path,
             const Report& report, SourceMap& map) {
  for (const Entry& entry : node.entries) MapEntry(entry, part, path, report, map);
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    MapItem(node.items[i], i, part, path, report, map);
  }
}

}  // namespace

Mass BuildMass(const Node& item) {
  Mass mass{TextAt(item, "item"), NumberAt(item, "mass").value(), PointAt(item, "at").value()};
  const std::string place = TextAt(item, "fixed_to");
  if (place == "body") mass.fixed_to = FixedTo::kBody;
  if (place == "chassis") mass.fixed_to = FixedTo::kChassis;
  if (place == "rear") mass.fixed_to = FixedTo::kRear;
  return mass;
}

namespace {

Aims BuildAims(const Node& node) {
  const auto number = [&](std::string_view key) { return NumberOr(node, "limits", key); };
  Aims aims;
  aims.coil_preload = number("coil_preload");
  aims.coil_gap = number("coil_gap");
  aims.stop_crush = number("stop_crush");
  aims.height_change = number("height_change");
  aims.tire_squash = number("tire_squash");
  aims.mirror = number("mirror");
  aims.triangulation = number("triangulation");
  aims.pitch = number("pitch");
  aims.link_slope = number("link_slope");
  aims.roll_steer = number("roll_steer");
  aims.frequency = number("frequency");
  aims.damping_least = number("damping_least");
  aims.damping_most = number("damping_most");
  aims.flat_ride_least = number("flat_ride_least");
  aims.flat_ride_most = number("flat_ride_most");
  aims.hop_least = number("hop_least");
  aims.hop_most = number("hop_most");
  aims.tire_grip = number("tire_grip");
  aims.side_to_side = number("side_to_side");
  aims.bump_left = number("bump_left");
  aims.damper_reserve = number("damper_reserve");
  aims.damper_left = number("damper_left");
  aims.slip_at_bump = number("slip_at_bump");
  aims.slip_at_droop = number("slip_at_droop");
  aims.joint_reserve = number("joint_reserve");
  aims.tire_clearance = number("tire_clearance");
  aims.wheel_off_center = number("wheel_off_center");
  aims.scales = number("scales");
  aims.hub_height = number("hub_height");
  aims.gap = number("gap");
  aims.link_force = NumberAt(node, "link_force");
  return aims;
}

}  // namespace

Vehicle BuildVehicle(const Node& root) {
  Vehicle vehicle;
  vehicle.title = TextAt(root, "title");
  vehicle.floor_z = NumberOr(root, "vehicle", "floor");
  vehicle.axles = {BuildAxle(root, "front"), BuildAxle(root, "rear")};
  if (const Node* shafts = Find(root, "driveshafts")) {
    for (const Entry& entry : shafts->entries) {
      vehicle.driveshafts.push_back(BuildDriveshaft(entry.key, entry.value, vehicle.axles));
    }
  }
  if (const Node* sprung = Find(root, "sprung")) {
    vehicle.sprung = {NumberAt(*sprung, "mass").value(), PointAt(*sprung, "at").value(),
                      NumberAt(*sprung, "pitch_inertia"), NumberAt(*sprung, "roll_inertia")};
  }
  if (const Node* ledger = Find(root, "ledger")) vehicle.ledger = BuildLedger(*ledger);
  vehicle.loads = BuildLoads(Find(root, "loads"));
  if (const Node* marks = Find(root, "marks")) {
    for (const Entry& entry : marks->entries) {
      vehicle.marks.push_back({entry.key, PointAt(*marks, entry.key).value()});
    }
  }
  if (const Node* aims = Find(root, "limits")) vehicle.aims = BuildAims(*aims);
  if (const Node* leaf = Find(root, "leaf_original")) {
    vehicle.leaf_original = BuildLeafOriginal(*leaf);
  }
  return vehicle;
}

SourceMap BuildSourceMap(const Node& root, const Report& report) {
  SourceMap map;
  map.entries[{}] = {root.place, "", ExcerptAt(report, root.place)};
  MapNode(root, {}, "", report, map);
  return map;
}

}  // namespace linkwright
