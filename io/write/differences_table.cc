// SPDX-License-Identifier: MIT
#include "io/write/differences_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

Dimension DimensionOf(DifferenceKind kind) {
  switch (kind) {
    case DifferenceKind::kRate:
      return Dimension::kRate;
    case DifferenceKind::kMass:
      return Dimension::kMass;
    case DifferenceKind::kAngle:
      return Dimension::kAngle;
    default:
      return Dimension::kLength;
  }
}

// "5.0 mm ahead, 40.0 mm down"; what a tape does not show is left out.
std::string WayOf(const Eigen::Vector3d& moved, const NoteWriter& writer) {
  constexpr double kShown = 5e-5;  // [m]
  std::string way;
  const auto add = [&](double by, const char* plus, const char* minus) {
    if (std::abs(by) < kShown) return;
    way += (way.empty() ? "" : ", ") + writer.Way(by, plus, minus);
  };
  add(moved.x(), "ahead", "back");
  add(moved.y(), "left", "right");
  add(moved.z(), "up", "down");
  return way.empty() ? "less than a tape shows" : way;
}

bool HasNumbers(const Difference& difference) {
  return difference.kind != DifferenceKind::kPlace && difference.kind != DifferenceKind::kGone &&
         difference.kind != DifferenceKind::kNew;
}

}  // namespace

DataTable DifferencesTable(const Differences& differences, UnitSystem units) {
  const NoteWriter writer{nullptr, units, nullptr};
  const auto amount = [&](const Difference& difference, double value) {
    return HasNumbers(difference) ? Cell(writer.Amount(value, DimensionOf(difference.kind)))
                                  : Cell();
  };
  const TableOf<Difference> columns{{"what", "part or place", Dimension::kNumber,
                                     "axle, member, and which of its ends", &Difference::what},
                                    {"first", "first", Dimension::kNumber, "of a number",
                                     [&](const Difference& of) { return amount(of, of.first); }},
                                    {"second", "second", Dimension::kNumber, "of a number",
                                     [&](const Difference& of) { return amount(of, of.second); }},
                                    {"change", "change", Dimension::kNumber,
                                     "second less first; of a place how far it moved and which way",
                                     [&](const Difference& of) -> Cell {
                                       if (of.kind == DifferenceKind::kPlace)
                                         return WayOf(of.moved, writer);
                                       if (of.kind == DifferenceKind::kGone)
                                         return std::string("the second has none");
                                       if (of.kind == DifferenceKind::kNew)
                                         return std::string("the first has none");
                                       return amount(of, of.second - of.first);
                                     }}};
  return ToTable(columns, differences.list, units);
}

std::vector<std::string> AxleMovedNotes(const Vehicle& vehicle, const Differences& differences,
                                        UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (size_t i = 0; i < 2; ++i) {
    const Pose& moved = differences.axle_moved[i];
    constexpr double kSeen = 5e-5;  // [m, rad]
    if (std::max({std::abs(moved.x), std::abs(moved.y), std::abs(moved.steer),
                  std::abs(moved.pitch)}) < kSeen) {
      continue;
    }
    const Axle& axle = vehicle.axles[i];
    std::string text = fmt::format(
        "for it the {} axle moves {} and {} and steers {} {} at its measured height", axle.name,
        writer.Way(moved.x, "ahead", "back"), writer.Way(moved.y, "left", "right"),
        writer.Angle(std::abs(moved.steer)), moved.steer < 0.0 ? "right" : "left");
    if (axle.pinion) {
      const bool ahead = axle.pinion->p_CY.x() > axle.p_CW_l.x();
      const double up = ahead ? moved.pitch : -moved.pitch;
      text += fmt::format("; its pinion turns {} {}", writer.Angle(std::abs(up)),
                          up < 0.0 ? "down" : "up");
    }
    writer.Say(text);
  }
  return notes;
}

}  // namespace linkwright
