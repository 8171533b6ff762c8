// SPDX-License-Identifier: MIT
// What everything that can end one axle's travel has left, and where each would end it.
#include <algorithm>

#include "io/write/limits_tables.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

// Bump, droop, crossed +, crossed -.
std::array<const AxleLimit*, 4> WaysOf(const LimitsReport& limits, size_t axle) {
  return {&limits.bounce[axle][0], &limits.bounce[axle][1], &limits.crossed[0].axles[axle],
          &limits.crossed[1].axles[axle]};
}

bool AreSame(const LimitHit& a, const LimitHit& b) { return a.limit.id == b.limit.id; }

// What the same thing has in one of the ways, where it is there.
std::function<Cell(const LimitHit&)> In(const AxleLimit& way,
                                        std::optional<double> LimitHit::*what) {
  return [&way, what](const LimitHit& wanted) {
    for (const LimitHit& each : way.hits) {
      if (AreSame(each, wanted)) return Cell(each.*what);
    }
    return Cell();
  };
}

std::string RowName(const LimitHit& hit) {
  return NameOf(hit.limit) + (hit.limit.role == LimitRole::kPassed ? " (passed)" : "");
}

}  // namespace

DataTable MarginTable(const LimitsReport& limits, size_t axle, bool joints, UnitSystem units) {
  const Dimension d = joints ? kAngle : kLength;
  const auto [bump, droop, up, down] = WaysOf(limits, axle);
  const auto left = &LimitHit::left;
  const TableOf<LimitHit> columns{
      {"what", "what is left", kNumber,
       "before a member is at its end, along the member; (passed) where that ends no travel; below "
       "0: past it",
       RowName},
      {"rest", "at rest", d, "both wheels at rest", &LimitHit::at_rest},
      {"bump", "at bump", d, "where bump ends; empty where nothing in the file ends it",
       In(*bump, left)},
      {"droop", "at droop", d, "where droop ends; the same", In(*droop, left)},
      {"crossed_up", "crossed +", d, "where the first axle ends that crossing; the same",
       In(*up, left)},
      {"crossed_down", "crossed -", d, "the same the other way", In(*down, left)}};
  std::vector<LimitHit> all = bump->hits;
  std::erase_if(all,
                [&](auto& each) { return !each.at_rest || IsAngle(each.limit.id.kind) != joints; });
  std::stable_sort(all.begin(), all.end(), [](const LimitHit& a, const LimitHit& b) {
    return a.limit.id.kind != b.limit.id.kind ? a.limit.id.kind < b.limit.id.kind
                                              : a.limit.name < b.limit.name;
  });
  return ToTable(columns, all, units);
}

DataTable EndsTable(const LimitsReport& limits, size_t axle, UnitSystem units) {
  const auto [bump, droop, up, down] = WaysOf(limits, axle);
  const auto travel = &LimitHit::wheel_travel;
  const TableOf<LimitHit> columns{
      {"what", "would end at", kNumber,
       "a member and how it ends, those that bump brings first; (passed) where that ends no "
       "travel",
       RowName},
      {"bump", "bump", kLength,
       "wheel travel at which it would end bump alone; empty where it lasts as far as the links "
       "follow",
       In(*bump, travel)},
      {"droop", "droop", kLength, "the same in droop", In(*droop, travel)},
      {"crossed_up", "crossed +", kLength, "the same crossed, of the wheel that rises",
       In(*up, travel)},
      {"crossed_down", "crossed -", kLength, "the same the other way", In(*down, travel)},
      {"cross_up", "crossed +", kAngle, "the cross angle then", In(*up, &LimitHit::at)},
      {"cross_down", "crossed -", kAngle, "the same the other way", In(*down, &LimitHit::at)}};
  std::vector<LimitHit> all;
  for (const AxleLimit* way : {bump, droop, up, down}) {
    for (const LimitHit& each : way->hits) {
      const bool known =
          std::any_of(all.begin(), all.end(), [&](auto& other) { return AreSame(other, each); });
      if (each.at && !known) all.push_back(each);
    }
  }
  return ToTable(columns, all, units);
}

}  // namespace linkwright
