// SPDX-License-Identifier: MIT
// No mass lies below the floor, nor does what they come to: such a body would lean into a turn.
#include <fmt/format.h>

#include "io/read/check.h"

namespace linkwright {
namespace {

// What the sums below are told in and measured from.
struct Ground {
  double floor;  // z [m]
  UnitSystem units;
  [[nodiscard]] std::string Show(double length) const {
    return FormatValue(length, Dimension::kLength, units);
  }
};

// Sum of masses and of their moments about the floor, with what pulls it down the most.
struct HeightSum {
  double mass = 0.0, moment = 0.0;  // [kg, kg m]
  double deepest = 0.0;             // [kg m]
  std::string pulls;                // "donor body"
  void Add(double by, double height, const std::string& what) {
    mass += by;
    moment += by * height;
    if (by * height < deepest) deepest = by * height, pulls = what;
  }
};

// Refuses one mass below the floor.
//   returns   false where it was, or where its place was refused already
bool StandsAbove(const Node& item, const std::string& path, std::string_view what,
                 const Ground& ground, Report& report) {
  const auto at = PointAt(item, "at");
  if (!at) return false;
  if (at->z() >= ground.floor) return true;
  AddError(report, Find(item, "at")->place, JoinPath(path, "at"),
           fmt::format("z is {}; {} is above the floor, which is at {}: is there a minus too many?",
                       ground.Show(at->z()), what, ground.Show(ground.floor)));
  return false;
}

// The items of a list: all of them are looked at, whatever the first says.
bool ItemsStandAbove(const Part& list, const Ground& ground, Report& report) {
  bool good = true;
  for (size_t i = 0; i < list.node().items.size(); ++i) {
    const std::string path = fmt::format("{}[{}]", list.path, i + 1);
    good = StandsAbove(list.node().items[i], path, "what has weight", ground, report) && good;
  }
  return good;
}

bool AddItems(const Part& ledger, std::string_view key, double sign, const Ground& ground,
              HeightSum& sum) {
  const Node* items = Find(ledger.node(), key);
  if (items == nullptr) return true;
  for (const Node& item : items->items) {
    const auto mass = NumberAt(item, "mass");
    const auto at = PointAt(item, "at");
    if (!mass || !at) return false;
    sum.Add(sign * *mass, at->z() - ground.floor, TextAt(item, "item"));
  }
  return true;
}

// As FinishedSprungMass, heights alone; nothing where a number for it is missing.
std::optional<HeightSum> SumOfLedger(const Part& vehicle, const Part& ledger,
                                     const Ground& ground) {
  HeightSum sum;
  const auto weighed = PartAt(ledger, "weighed");
  const auto height = weighed ? NumberAt(weighed->node(), "cg_height") : std::nullopt;
  if (!height) return std::nullopt;
  for (const std::string_view corner : {"front_left", "front_right", "rear_left", "rear_right"}) {
    const auto mass = NumberAt(weighed->node(), corner);
    if (!mass) return std::nullopt;
    sum.Add(*mass, *height, "the vehicle as weighed");
  }
  if (!AddItems(ledger, "removed", -1.0, ground, sum)) return std::nullopt;
  if (!AddItems(ledger, "added", 1.0, ground, sum)) return std::nullopt;
  const auto axles = PartAt(vehicle, "axles");
  for (const std::string_view name : {"front", "rear"}) {
    const auto axle = axles ? PartAt(*axles, name) : std::nullopt;
    const auto unsprung = axle ? PartAt(*axle, "unsprung") : std::nullopt;
    const auto mass = unsprung ? NumberAt(unsprung->node(), "mass") : std::nullopt;
    const auto at = unsprung ? PointAt(unsprung->node(), "at") : std::nullopt;
    if (!mass || !at) return std::nullopt;
    sum.Add(-*mass, at->z() - ground.floor, fmt::format("the {} axle's unsprung mass", name));
  }
  return sum;
}

void CheckResult(const Part& vehicle, const Part& ledger, const Ground& ground, Report& report) {
  const auto sum = SumOfLedger(vehicle, ledger, ground);
  if (!sum || !(sum->mass > 0.0) || sum->moment > 0.0) return;
  AddError(report, ledger.entry->key_place, ledger.path,
           fmt::format("the sprung mass's centre comes to {} below the floor: weighed.cg_height, "
                       "less what was removed and both unsprung, plus what was added, must leave "
                       "it above; what pulls it down most is {}, taken off too high or too heavy",
                       ground.Show(-sum->moment / sum->mass), sum->pulls));
}

}  // namespace

void CheckHeights(const Part& vehicle, double floor, Report& report) {
  const Ground ground{floor, vehicle.node().units};
  bool good = true;
  const auto axles = PartAt(vehicle, "axles");
  for (const std::string_view name : {"front", "rear"}) {
    const auto axle = axles ? PartAt(*axles, name) : std::nullopt;
    const auto unsprung = axle ? PartAt(*axle, "unsprung") : std::nullopt;
    if (!unsprung) continue;
    good = StandsAbove(unsprung->node(), unsprung->path, "an axle's mass", ground, report) && good;
  }
  if (const auto sprung = PartAt(vehicle, "sprung")) {
    good = StandsAbove(sprung->node(), sprung->path, "a body's centre of mass", ground, report) &&
           good;
  }
  const auto ledger = PartAt(vehicle, "ledger");
  if (ledger) {
    for (const std::string_view key : {"removed", "added"}) {
      const Entry* list = FindEntry(ledger->node(), key);
      if (list == nullptr) continue;
      good = ItemsStandAbove({list, JoinPath(ledger->path, key)}, ground, report) && good;
    }
  }
  // A load is added: with its items and the body above the floor, so is what they come to.
  for (const Part& load : PartsAt(vehicle, "loads")) {
    good = ItemsStandAbove(load, ground, report) && good;
  }
  if (ledger && good) CheckResult(vehicle, *ledger, ground, report);
}

}  // namespace linkwright
