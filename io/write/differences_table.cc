// SPDX-License-Identifier: MIT
#include "io/write/differences_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "io/write/note_writer.h"
#include "io/write/reading.h"
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
  std::string way;
  const auto add = [&](double by, const char* plus, const char* minus) {
    const std::string size = ShowBare(std::abs(by), Dimension::kLength, writer.units);
    if (size.find_first_of("123456789") == std::string::npos) return;
    way += (way.empty() ? "" : ", ") + writer.Way(by, plus, minus);
  };
  add(moved.x(), "ahead", "back");
  add(moved.y(), "left", "right");
  add(moved.z(), "up", "down");
  return way.empty() ? "less than a tape shows" : way;
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 2> kSides{
    {{" left", " right"}, {" right", " left"}}};

bool AreSame(const Difference& a, const Difference& b) {
  constexpr double kSame = 1e-9;  // [m, N/m of 1, kg] rounding of units
  const auto same = [](double x, double y) {
    return std::abs(x - y) <= kSame * std::max(1.0, std::abs(y));
  };
  return a.what == b.what && a.kind == b.kind && (a.moved - b.moved).norm() <= kSame &&
         same(a.first, b.first) && same(a.second, b.second);
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

std::vector<PartChange> PartChanges(const Differences& differences, UnitSystem units) {
  const NoteWriter writer{nullptr, units, nullptr};
  struct Scored {
    Difference of;
    double score;
  };
  std::vector<Scored> list;
  for (const Difference& of : differences.list) {
    const Dimension dimension = DimensionOf(of.kind);
    const Column like{"", "", dimension, "", ""};
    const double by = of.kind == DifferenceKind::kPlace ? of.moved.norm() : of.second - of.first;
    const bool one_sided = of.kind == DifferenceKind::kGone || of.kind == DifferenceKind::kNew;
    list.push_back({of, one_sided ? 1e12 : std::abs(by) / ReadsTo(like, of.first)});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Scored& a, const Scored& b) { return a.score > b.score; });
  std::vector<PartChange> changes;
  for (size_t i = 0; i < list.size(); ++i) {
    Difference of = list[i].of;
    for (const auto& [side, other_side] : kSides) {
      const size_t at = of.what.find(side);
      if (at == std::string::npos) continue;
      Difference twin = of;
      twin.what.replace(at, side.size(), other_side), twin.moved.y() *= -1.0;
      const auto other = std::find_if(list.begin() + static_cast<std::ptrdiff_t>(i) + 1, list.end(),
                                      [&](const Scored& each) { return AreSame(each.of, twin); });
      if (other == list.end()) break;
      list.erase(other);
      of.what.replace(at, side.size(), " left and right");
      break;
    }
    std::string change;
    switch (of.kind) {
      case DifferenceKind::kPlace:
        change = WayOf(of.moved, writer);
        break;
      case DifferenceKind::kGone:
        change = "only the first has it";
        break;
      case DifferenceKind::kNew:
        change = "only the second has it";
        break;
      default: {
        const Dimension dimension = DimensionOf(of.kind);
        const auto show = [&](double value) {
          return dimension == Dimension::kLength ? writer.Fine(value)
                                                 : writer.Amount(value, dimension);
        };
        change = show(of.first) + ", then " + show(of.second);
      }
    }
    changes.push_back({of.what, change});
  }
  return changes;
}

std::vector<std::string> AxleMovedSentences(const Vehicle& vehicle, const Differences& differences,
                                            UnitSystem units) {
  std::vector<std::string> sentences;
  const Column shift{"lateral_shift", "", Dimension::kLength, "", ""};
  const Column ahead{"opening_ahead", "", Dimension::kLength, "", ""};
  const Column steer{"axle_steer", "", Dimension::kAngle, "", ""};
  const Column pinion{"pinion_angle", "", Dimension::kAngle, "", ""};
  const Column nose{"housing_pitch", "", Dimension::kAngle, "", ""};
  for (size_t i = 0; i < 2; ++i) {
    const Pose& moved = differences.axle_moved[i];
    const Axle& axle = vehicle.axles[i];
    std::vector<std::string> moves;
    const auto add = [&](const Column& column, double by, const char* does) {
      const std::string shown = ReadOut(column, by, units);
      if (shown != "none") moves.push_back(does + shown);
    };
    add(ahead, moved.x, "moves ");
    add(shift, moved.y, moves.empty() ? "moves " : "");
    add(steer, moved.steer, "steers ");
    if (axle.pinion) {
      const bool yoke_ahead = axle.pinion->p_CY.x() > axle.p_CW_l.x();
      add(pinion, yoke_ahead ? moved.pitch : -moved.pitch, "turns its pinion ");
    } else {
      add(nose, moved.pitch, "turns ");
    }
    if (moves.empty()) continue;
    std::string text;
    for (size_t m = 0; m < moves.size(); ++m) {
      text += (m == 0 ? "" : m + 1 == moves.size() ? " and " : ", ") + moves[m];
    }
    sentences.push_back(
        fmt::format("For it the {} axle, at its measured height, {}.", axle.name, text));
  }
  return sentences;
}

}  // namespace linkwright
