// SPDX-License-Identifier: MIT
// Where each part of a shaft points at rest, as a finder on it reads.
#include <algorithm>

#include "io/write/driveline_tables.h"

namespace linkwright {
namespace {

using enum Dimension;

std::string PartName(const Driveshaft& shaft, size_t part, size_t parts) {
  if (part == 0) return "output";
  if (part + 1 == parts) return "pinion";
  if (!shaft.center_bearing) return "shaft";
  return part == 1 ? "front piece" : "rear piece";
}

}  // namespace

std::vector<Column> SlopeColumns() {
  return {{"part", "part", kNumber, "", "output, the shaft or its pieces, pinion"},
          {"falls_floor", "falls, floor", kAngle, "",
           "at rest, against the floor, + falls from the output toward the axle: what is called "
           "down of a shaft"},
          {"falls_chassis", "falls, chassis", kAngle, "",
           "the same against the chassis' x axis, as output_angle and pinion.angle are"},
          {"yoke_up_floor", "yoke end up, floor", kAngle, "",
           "of output and pinion: their yoke end against the floor, up +"},
          {"yoke_up_chassis", "yoke end up, chassis", kAngle, "",
           "the same against the chassis: the sign of output_angle and pinion.angle"}};
}

DataTable SlopeTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = SlopeColumns(), .rows = {}};
  const size_t parts = report.slopes.size();
  for (size_t i = 0; i < parts; ++i) {
    const ShaftSlope& slope = report.slopes[i];
    Cell floor, chassis;
    // The output's yoke end is the one toward the axle, the pinion's the one away from it.
    if (i == 0) floor = -slope.floor, chassis = -slope.chassis;
    if (i + 1 == parts) floor = slope.floor, chassis = slope.chassis;
    table.rows.push_back({PartName(shaft, i, parts), slope.floor, slope.chassis, floor, chassis});
  }
  return table;
}

}  // namespace linkwright
