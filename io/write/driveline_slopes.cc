// SPDX-License-Identifier: MIT
// Where each part of a shaft points at rest, as a finder on it reads.
#include <algorithm>

#include "io/write/driveline_tables.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

std::string PartName(const Driveshaft& shaft, size_t part, size_t parts) {
  if (part == 0) return "output";
  if (part + 1 == parts) return "pinion";
  if (!shaft.center_bearing) return "shaft";
  return part == 1 ? "front piece" : "rear piece";
}

struct PartSlope {
  std::string part;
  ShaftSlope falls;
  // The output's yoke end is the one toward the axle, the pinion's the one away from it.
  std::optional<ShaftSlope> yoke_up;
};

TableOf<PartSlope> SlopeColumns() {
  return {{"part", "part", kNumber, "output, the shaft or its pieces, pinion", &PartSlope::part},
          {"falls_floor", "falls, floor", kAngle,
           "at rest, against the floor, + falls from the output toward the axle: what is called "
           "down of a shaft",
           [](auto& row) { return row.falls.floor; }},
          {"falls_chassis", "falls, chassis", kAngle,
           "the same against the chassis' x axis, as output_angle and pinion.angle are",
           [](auto& row) { return row.falls.chassis; }},
          {"yoke_up_floor", "yoke end up, floor", kAngle,
           "of output and pinion: their yoke end against the floor, up +",
           [](auto& row) { return Within(row.yoke_up, &ShaftSlope::floor); }},
          {"yoke_up_chassis", "yoke end up, chassis", kAngle,
           "the same against the chassis: the sign of output_angle and pinion.angle",
           [](auto& row) { return Within(row.yoke_up, &ShaftSlope::chassis); }}};
}

}  // namespace

DataTable SlopeTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  std::vector<PartSlope> parts;
  const size_t count = report.slopes.size();
  for (size_t i = 0; i < count; ++i) {
    const ShaftSlope& falls = report.slopes[i];
    PartSlope& part = parts.emplace_back(PartSlope{PartName(shaft, i, count), falls, std::nullopt});
    if (i == 0) part.yoke_up = {-falls.floor, -falls.chassis};
    if (i + 1 == count) part.yoke_up = falls;
  }
  return ToTable(SlopeColumns(), parts, units);
}

}  // namespace linkwright
