// SPDX-License-Identifier: MIT
// Where each part of a shaft points at rest, as a finder on it reads.
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

// The output's yoke end is the one toward the axle, the pinion's the one away from it.
Cell YokeUp(const std::vector<ShaftSlope>& slopes, size_t part, double ShaftSlope::*against) {
  const double falls = slopes[part].*against;
  return part + 1 == slopes.size() ? Cell(falls) : CellIf(part == 0, -falls);
}

}  // namespace

DataTable SlopeTable(const Driveshaft& shaft, const ShaftReport& report, UnitSystem units) {
  const std::vector<ShaftSlope>& slopes = report.slopes;
  const TableOf<size_t> columns{
      {"part", "part", kNumber, "output, the shaft or its pieces, pinion",
       [&](auto i) { return PartName(shaft, i, slopes.size()); }},
      {"falls_floor", "falls, floor", kAngle,
       "at rest, against the floor, + falls from the output toward the axle: what is called down "
       "of a shaft",
       [&](auto i) { return slopes[i].floor; }},
      {"falls_chassis", "falls, chassis", kAngle,
       "the same against the chassis' x axis, as output_angle and pinion.angle are",
       [&](auto i) { return slopes[i].chassis; }},
      {"yoke_up_floor", "yoke end up, floor", kAngle,
       "of output and pinion: their yoke end against the floor, up +",
       [&](auto i) { return YokeUp(slopes, i, &ShaftSlope::floor); }},
      {"yoke_up_chassis", "yoke end up, chassis", kAngle,
       "the same against the chassis: the sign of output_angle and pinion.angle",
       [&](auto i) { return YokeUp(slopes, i, &ShaftSlope::chassis); }}};
  return ToTable(columns, Indices(slopes.size()), units);
}

}  // namespace linkwright
