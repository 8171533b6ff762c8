// SPDX-License-Identifier: MIT
#include "io/read/moves.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>

#include "io/read/format.h"
#include "io/read/keys_of.h"
#include "io/read/validate.h"
#include "solver/model/moves.h"

namespace linkwright {
namespace {

struct PlaceKey {
  std::string_view group, key;
  GoesWith goes;
};

constexpr auto kChassis = GoesWith::kChassis, kHousing = GoesWith::kHousing;

// Between chassis and axle.
constexpr std::array<std::string_view, 7> kMembers{"link",  "spring", "bump_stop", "damper",
                                                   "strap", "gap",    "drag_link"};

constexpr std::array<PlaceKey, 32> kPlaces{{
    {"axle", "wheel_center", kHousing},
    {"axle", "wheel_center_right", kHousing},
    {"a_arm", "first_eye", kChassis},
    {"a_arm", "second_eye", kChassis},
    {"a_arm", "axle", kHousing},
    {"radius_arm", "frame", kChassis},
    {"radius_arm", "first_eye", kHousing},
    {"radius_arm", "second_eye", kHousing},
    {"watts_link", "pivot", GoesWith::kCrank},
    {"watts_link", "bolt", GoesWith::kCrank},
    {"watts_link", "first_crank", GoesWith::kCrank},
    {"watts_link", "second_crank", GoesWith::kCrank},
    {"watts_link", "first_far", GoesWith::kFar},
    {"watts_link", "second_far", GoesWith::kFar},
    {"unsprung", "at", kHousing},
    {"kingpin", "at", kHousing},
    {"pinion", "yoke", kHousing},
    {"tie_rod", "left", kHousing},
    {"tie_rod", "right", kHousing},
    {"driveshaft", "output", kChassis},
    {"center_bearing", "at", kChassis},
    {"item", "at", GoesWith::kMass},
    {"sprung", "at", GoesWith::kMass},
    {"opening", "center", GoesWith::kBody},
    {"vehicle", "marks", GoesWith::kBody},
    {"leaf_original", "datum", GoesWith::kBody},
    {"leaf_spring", "fixed_eye", GoesWith::kStays},
    {"leaf_spring", "shackle_pivot", GoesWith::kStays},
    {"leaf_spring", "opening", GoesWith::kStays},
    {"leaf_spring", "wheel_now", GoesWith::kStays},
    {"leaf_spring", "wheel_in_opening", GoesWith::kStays},
    // A variant's own.
    {"body", "move", GoesWith::kStays},
}};

// Where a point stands in the file.
struct Spot {
  Node& node;
  GoesWith goes;
  std::size_t axle;       // index, under axles.front or axles.rear
  std::string_view list;  // of an item: "removed", "added" or "loads"; else empty
  const Node* owner;      // the map with the point in it
};

using VisitSpot = std::function<void(const Spot&)>;

struct Way {
  std::size_t axle = 0;
  std::string_view list = {};
};

GoesWith Resolved(GoesWith goes, const Node& owner) {
  const bool on_frame = TextAt(owner, "crank_on") == "frame";
  if (goes == GoesWith::kCrank) return on_frame ? kChassis : kHousing;
  if (goes == GoesWith::kFar) return on_frame ? kHousing : kChassis;
  return goes;
}

void VisitGroup(Node& map, const Group& group, const Way& way, const VisitSpot& visit);

void VisitMany(Node& node, const Key& key, Many many, std::string_view group, const Node& owner,
               const Way& way, const VisitSpot& visit) {
  if (many != Many::kOne) {
    const Many below = many == Many::kNamedList ? Many::kList : Many::kOne;
    for (Node& item : node.items) VisitMany(item, key, Many::kOne, group, owner, way, visit);
    for (Entry& entry : node.entries) VisitMany(entry.value, key, below, group, owner, way, visit);
    return;
  }
  if (key.kind == Kind::kGroup) return VisitGroup(node, FindGroup(key.group), way, visit);
  if (key.kind != Kind::kPoint && key.kind != Kind::kSide) return;
  visit({node, Resolved(GoesWithOf(group, key.name).value_or(GoesWith::kStays), owner), way.axle,
         way.list, &owner});
}

// Every point under a map, with what it goes along with.
void VisitGroup(Node& map, const Group& group, const Way& way, const VisitSpot& visit) {
  for (Entry& entry : map.entries) {
    const Key* key = KeyIn(group, entry.key);
    if (key == nullptr) continue;
    Way below = way;
    if (group.name == "axles") below.axle = entry.key == "rear" ? 1 : 0;
    if (key->group == "item") below.list = key->name;
    VisitMany(entry.value, *key, key->many, group.name, map, below, visit);
  }
}

std::optional<double> LengthOf(const Node& node) {
  if (node.kind != NodeKind::kScalar) return std::nullopt;
  return ParseValue(node.text, Dimension::kLength, node.units).si;
}

// Writes a length anew, to the last digit.
void SetLength(Node& node, double si) {
  if (si == LengthOf(node)) return;
  node.text = fmt::format("{:.17g} m", si);
}

// x and z of a point or of a point in side view; null where there is none that can be read.
struct InSideView {
  Node *x = nullptr, *z = nullptr;
  Eigen::Vector3d at = Eigen::Vector3d::Zero();
  explicit operator bool() const { return x != nullptr; }
};

InSideView SideViewOf(Node& point) {
  if (point.kind != NodeKind::kList || point.items.size() < 2 || point.items.size() > 3) return {};
  Node &x = point.items.front(), &z = point.items.back();
  const auto at_x = LengthOf(x), at_z = LengthOf(z);
  if (!at_x || !at_z) return {};
  return {&x, &z, {*at_x, 0.0, *at_z}};
}

std::optional<FixedTo> FixedToOf(const Spot& spot) {
  // What came off went before any cut; of the sprung mass only its sum is known.
  if (spot.list != "added" && spot.list != "loads") return std::nullopt;
  const auto index = WordIndex(Find(*spot.owner, "fixed_to"), FindKey("item", "fixed_to"));
  if (index) return static_cast<FixedTo>(*index);
  return spot.list == "loads" ? std::optional(LoadGoesWith({})) : std::nullopt;
}

// Where the hubs stand; of a file with one axle both where that one does. Absent where a wheel
// centre cannot be read.
std::optional<std::array<double, 2>> HubsOf(Node& root) {
  std::array<double, 2> sum{}, count{};
  VisitGroup(root, FindGroup("vehicle"), {}, [&](const Spot& spot) {
    const bool is_center =
        spot.goes == kHousing && (Find(*spot.owner, "wheel_center") == &spot.node ||
                                  Find(*spot.owner, "wheel_center_right") == &spot.node);
    const InSideView point = is_center ? SideViewOf(spot.node) : InSideView{};
    if (point) sum[spot.axle] += point.at.x(), count[spot.axle] += 1.0;
  });
  const Node* axles = Find(root, "axles");
  if (axles == nullptr) return std::nullopt;
  for (const std::size_t alone : {0, 1}) {
    const bool other = Find(*axles, alone == 0 ? "rear" : "front") != nullptr;
    if (other || count[alone] == 0.0) continue;
    const double hub = sum[alone] / count[alone];
    return std::array{hub, hub};
  }
  if (count[0] == 0.0 || count[1] == 0.0) return std::nullopt;
  const std::array hubs{sum[0] / count[0], sum[1] / count[1]};
  return hubs[0] > hubs[1] ? std::optional(hubs) : std::nullopt;
}

// How far back a place goes; nothing of one in other axes, or of a mass of which only both axles
// together would say it, where there is one.
std::optional<double> BackOf(const Cut& cut, const Spot& spot, double x) {
  switch (spot.goes) {
    case kChassis:
      return ChassisBack(cut, x);
    case kHousing:
      return AxleBack(cut, spot.axle);
    case GoesWith::kMass: {
      const std::optional<FixedTo> fixed_to = FixedToOf(spot);
      if (!fixed_to && cut.hub_x[0] == cut.hub_x[1]) return std::nullopt;
      return MassBack(cut, fixed_to, x);
    }
    case GoesWith::kBody:
      return 0.0;
    default:
      return std::nullopt;
  }
}

//   at   where the variant says its station
void StretchAll(const Stretch& stretch, const Node& at, Node& root, Report& report) {
  const auto hubs = HubsOf(root);
  if (!hubs || stretch.by == 0.0) return;
  const Cut cut{.stretch = stretch, .hub_x = *hubs};
  bool any_goes = false, any_stays = false;
  VisitGroup(root, FindGroup("vehicle"), {}, [&](const Spot& spot) {
    const InSideView point = SideViewOf(spot.node);
    const auto back = point ? BackOf(cut, spot, point.at.x()) : std::nullopt;
    if (!back) return;
    (*back == 0.0 ? any_stays : any_goes) = true;
    SetLength(*point.x, point.at.x() - *back);
  });
  if (any_goes && any_stays) return;
  const std::string station = FormatValue(stretch.at, Dimension::kLength, at.units);
  AddError(report, at.place, "stretch.at",
           any_stays ? fmt::format("nothing on the chassis stands behind {}, so the cut moves "
                                   "nothing; give a station ahead of what is to go back (x is "
                                   "forward, so what lies behind the datum has a minus)",
                                   station)
                     : fmt::format("everything in the file stands behind {}, so the cut parts "
                                   "nothing; give a station with some of it ahead, or the body's "
                                   "openings or marks",
                                   station));
}

//   key   where the variant says it
void PlaceBody(const BodyPlacing& placing, const Place& key, Node& root, Report& report) {
  const Node* floor = Find(root, "floor");
  const double floor_z =
      (floor == nullptr ? std::nullopt : LengthOf(*floor)).value_or(DefaultOf("vehicle", "floor"));
  const Eigen::Isometry3d way = BodyWay(placing, floor_z);
  bool any_goes = false;
  VisitGroup(root, FindGroup("vehicle"), {}, [&](const Spot& spot) {
    const bool goes = spot.goes == GoesWith::kBody ||
                      (spot.goes == GoesWith::kMass && FixedToOf(spot) == FixedTo::kBody);
    if (!goes) return;
    any_goes = true;
    const InSideView point = SideViewOf(spot.node);
    if (!point) return;
    const Eigen::Vector3d moved = way * point.at;
    SetLength(*point.x, moved.x());
    SetLength(*point.z, moved.z());
  });
  if (any_goes) return;
  AddError(report, key, "body",
           "the file has nothing that goes with the body, so it moves nothing; give the body's "
           "openings or marks, or say 'fixed_to: body' of what the ledger adds");
}

// A group of the variant; absent where Validate refuses something in it.
template <typename Struct>
std::optional<Struct> GroupIn(const Node& variant, std::string_view key) {
  const Node* given = Find(variant, key);
  if (given == nullptr) return std::nullopt;
  Node group = *given;  // its values are read here, in the variant's units
  Report report;
  Validate(group, key, report);
  return report.errors.empty() ? std::optional(Build<Struct>(group)) : std::nullopt;
}

}  // namespace

std::optional<GoesWith> GoesWithOf(std::string_view group, std::string_view key) {
  if (std::find(kMembers.begin(), kMembers.end(), group) != kMembers.end()) {
    if (key == "frame") return kChassis;
    if (key == "axle") return kHousing;
  }
  const auto found = std::find_if(kPlaces.begin(), kPlaces.end(), [&](const PlaceKey& place) {
    return place.group == group && place.key == key;
  });
  return found == kPlaces.end() ? std::nullopt : std::optional(found->goes);
}

void ApplyMoves(const Node& variant, Node& root, Report& report) {
  if (const auto stretch = GroupIn<Stretch>(variant, "stretch")) {
    StretchAll(*stretch, *Find(*Find(variant, "stretch"), "at"), root, report);
  }
  if (const auto body = GroupIn<BodyPlacing>(variant, "body")) {
    PlaceBody(*body, FindEntry(variant, "body")->key_place, root, report);
  }
}

}  // namespace linkwright
