// SPDX-License-Identifier: MIT
// What everything that can end one axle's travel has left, and where each would end it.
#include <algorithm>

#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

using enum Dimension;

// Bump, droop, crossed +, crossed -.
std::array<const AxleLimit*, 4> WaysOf(const LimitsReport& limits, size_t axle) {
  return {&limits.bounce[axle][0], &limits.bounce[axle][1], &limits.crossed[0].axles[axle],
          &limits.crossed[1].axles[axle]};
}

const RunOut* Same(const AxleLimit& limit, const RunOut& wanted) {
  for (const RunOut& each : limit.run_outs) {
    if (each.end == wanted.end && each.member == wanted.member) return &each;
  }
  return nullptr;
}

std::string RowName(const RunOut& run_out) {
  return NameOf(run_out) + (run_out.event ? " (passed)" : "");
}

}  // namespace

DataTable MarginTable(const LimitsReport& limits, size_t axle, bool joints, UnitSystem units) {
  const Dimension d = joints ? kAngle : kLength;
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"what", "what is left", kNumber, "",
       "before a member is at its end, along the member; (passed) where that ends no travel; below "
       "0: past it"},
      {"rest", "at rest", d, "", "both wheels at rest"},
      {"bump", "at bump", d, "", "where bump ends; empty where nothing in the file ends it"},
      {"droop", "at droop", d, "", "where droop ends; the same"},
      {"crossed_up", "crossed +", d, "", "where the first axle ends that crossing; the same"},
      {"crossed_down", "crossed -", d, "", "the same the other way"}};
  const std::array<const AxleLimit*, 4> ways = WaysOf(limits, axle);
  std::vector<const RunOut*> all;
  for (const RunOut& each : ways[0]->run_outs) {
    if (each.at_rest && IsAngle(each.end) == joints) all.push_back(&each);
  }
  std::stable_sort(all.begin(), all.end(), [](const RunOut* a, const RunOut* b) {
    return a->end != b->end ? a->end < b->end : a->member < b->member;
  });
  for (const RunOut* each : all) {
    std::vector<Cell> row{RowName(*each), Cell(each->at_rest)};
    for (const AxleLimit* way : ways) {
      const RunOut* there = Same(*way, *each);
      row.push_back(Cell(there == nullptr ? std::nullopt : there->left));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

DataTable EndsTable(const LimitsReport& limits, size_t axle, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"what", "would end at", kNumber, "",
       "a member and how it ends, those that bump brings first; (passed) where that ends no "
       "travel"},
      {"bump", "bump", kLength, "",
       "wheel travel at which it would end bump alone; empty where it lasts as far as the links "
       "follow"},
      {"droop", "droop", kLength, "", "the same in droop"},
      {"crossed_up", "crossed +", kLength, "", "the same crossed, of the wheel that rises"},
      {"crossed_down", "crossed -", kLength, "", "the same the other way"},
      {"cross_up", "crossed +", kAngle, "", "the cross angle then"},
      {"cross_down", "crossed -", kAngle, "", "the same the other way"}};
  const std::array<const AxleLimit*, 4> ways = WaysOf(limits, axle);
  std::vector<const RunOut*> all;
  for (const AxleLimit* way : ways) {
    for (const RunOut& each : way->run_outs) {
      const bool known = std::any_of(all.begin(), all.end(), [&](const RunOut* other) {
        return other->end == each.end && other->member == each.member;
      });
      if (each.at && !known) all.push_back(&each);
    }
  }
  for (const RunOut* each : all) {
    std::vector<Cell> row{RowName(*each)};
    for (const AxleLimit* way : ways) {
      const RunOut* there = Same(*way, *each);
      row.push_back(Cell(there == nullptr ? std::nullopt : there->wheel_travel));
    }
    for (const AxleLimit* way : {ways[2], ways[3]}) {
      const RunOut* there = Same(*way, *each);
      row.push_back(Cell(there == nullptr ? std::nullopt : there->at));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace linkwright
