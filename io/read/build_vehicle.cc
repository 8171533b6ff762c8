// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"

#include "io/read/format.h"
#include "io/read/keys_of.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

// Against the wind-up: under power a housing's front comes up, and with it a yoke that stands ahead
// of the wheels; one behind them, as on a front axle, goes down.
double UsualPinionLow(const Driveshaft& shaft, const Axle& axle) {
  if (shaft.output_joint != JointKind::kDouble || shaft.axle_joint != JointKind::kSingle) {
    return 0.0;
  }
  const double preset = ToSi(1.5, Dimension::kAngle, UnitSystem::kMetric);
  return axle.pinion && axle.pinion->p_CY.x() < axle.p_CW_l.x() ? -preset : preset;
}

// One axle; its wheel openings stand at the body.
Axle BuildAxle(const Node& root, const std::string& name) {
  Axle axle = Build<Axle>(*Find(*Find(root, "axles"), name));
  axle.name = name;
  if (axle.unsprung) axle.unsprung->item = name + " axle";
  const Node* openings = Find(root, "openings");
  const Node* opening = openings == nullptr ? nullptr : Find(*openings, name);
  if (opening != nullptr) axle.opening = Build<Opening>(*opening);
  return axle;
}

std::vector<Load> BuildLoads(const Node* loads) {
  std::vector<Load> built;
  if (loads != nullptr) {
    for (const Entry& entry : loads->entries) {
      built.push_back({entry.key, {}});
      for (const Node& item : entry.value.items) built.back().items.push_back(Build<Mass>(item));
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

void Complete(const Node& map, Driveshaft& shaft) {
  if (const Node* joints = Find(map, "joints")) {
    const Key& key = FindKey("driveshaft", "joints");
    Take(&joints->items[0], key, shaft.output_joint);
    Take(&joints->items[1], key, shaft.axle_joint);
  }
  if (shaft.slip && !shaft.slip_left) shaft.slip_left = *shaft.slip / 2.0;
}

void Complete(const Node& map, Opening& opening) {
  const Eigen::Vector2d center = SideOf(Find(map, "center")).value();
  opening.x = center.x();
  opening.z = center.y();
}

void Complete(const Node& map, Vehicle& vehicle) {
  vehicle.axles = {BuildAxle(map, "front"), BuildAxle(map, "rear")};
  for (Driveshaft& shaft : vehicle.driveshafts) {
    const Node& node = *Find(*Find(map, "driveshafts"), shaft.name);
    const Axle& axle = vehicle.axles[static_cast<std::size_t>(shaft.axle)];
    shaft.pinion_low = NumberAt(node, "pinion_low").value_or(UsualPinionLow(shaft, axle));
  }
  vehicle.loads = BuildLoads(Find(map, "loads"));
  if (const Node* marks = Find(map, "marks")) {
    for (const Entry& entry : marks->entries) {
      vehicle.marks.push_back({entry.key, PointOf(&entry.value).value()});
    }
  }
}

Vehicle BuildVehicle(const Node& root) { return Build<Vehicle>(root); }

SourceMap BuildSourceMap(const Node& root, const Report& report) {
  SourceMap map;
  map.entries[{}] = {root.place, "", ExcerptAt(report, root.place)};
  MapNode(root, {}, "", report, map);
  return map;
}

}  // namespace linkwright
