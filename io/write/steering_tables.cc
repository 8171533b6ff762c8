// SPDX-License-Identifier: MIT
#include "io/write/steering_tables.h"

#include <fmt/format.h>
#include <cmath>

#include "io/write/name_in.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

constexpr const char* kHeld =
    "of the road wheel on the drag link's side, steering wheel held, against rest; + left";
constexpr const char* kToe =
    "change of both wheels' toe that the tie rod makes of it; + toe-in; 0 without a tie rod";
constexpr const char* kAxleSteer = "the housing's part of it, against the rest; + left";

//   a      index of the axle
//   rest   its row at rest
TableOf<SweepRow> TravelColumns(size_t a, const AxleRow& rest) {
  return {
      {"travel", "travel", kLength, "both wheels of every axle, from rest; + bump",
       &SweepRow::travel},
      {"steer", "steer", kAngle, kHeld, [=](auto& row) { return row.axles[a]->steer; }},
      {"steer_rate", "bump steer", kAngleRate, "its exact slope there; + left in bump",
       [=](auto& row) { return row.axles[a]->steer_rate; }},
      {"toe_in", "toe-in change", kAngle, kToe, [=](auto& row) { return row.axles[a]->toe_in; }},
      {"axle_steer", "axle steer", kAngle, kAxleSteer,
       [=, &rest](auto& row) { return row.axles[a]->axle_steer - rest.axle_steer; }},
      {"lateral_shift", "lateral shift", kLength, "housing centre; + left",
       [=](auto& row) { return row.axles[a]->lateral_shift; }},
      {"caster", "caster", kAngle, "to the floor; + the top leans back",
       [=](auto& row) { return row.axles[a]->caster; }},
      {"caster_change", "caster change", kAngle, "against rest",
       [=, &rest](auto& row) { return Less(row.axles[a]->caster, rest.caster); }}};
}

TableOf<MotionRow> RollColumns(size_t a, double rest_steer) {
  return {
      {"body_roll", "body roll", kAngle, "on level ground; left side up +", &MotionRow::parameter},
      {"steer", "steer", kAngle, kHeld, [=](auto& row) { return row.axles[a]->steer; }},
      {"steer_per_roll", "steer per roll", kAngleRatio,
       "its exact slope by body roll; + into the bend: oversteer in front",
       [=](auto& row) { return SteerPerBodyRoll(row, a); }},
      {"toe_in", "toe-in change", kAngle, kToe, [=](auto& row) { return row.axles[a]->toe_in; }},
      {"axle_steer", "axle steer", kAngle, kAxleSteer,
       [=](auto& row) { return row.axles[a]->axle_steer - rest_steer; }},
      {"lateral_shift", "lateral shift", kLength, "housing centre; + left",
       [=](auto& row) { return row.axles[a]->lateral_shift; }}};
}

DataTable RollTable(const SteeredAxle& steered, UnitSystem units) {
  const double rest_steer = AtRest(steered.roll).axles[steered.axle]->axle_steer;
  return ToTable(RollColumns(steered.axle, rest_steer), steered.roll.rows, units);
}

//   wheelbase   known: both axles are there
TableOf<HandRow> LockColumns(bool wheelbase) {
  TableOf<HandRow> columns{
      {"left", "left wheel", kAngle, "steer at rest; + left", &HandRow::left},
      {"right", "right wheel", kAngle, "steer at rest; + left", &HandRow::right},
      {"difference", "inner more than outer", kAngle, "what the tie rod gives",
       &HandRow::difference},
      {"ackermann", "Ackermann asks", kAngle,
       "the difference at which both spindles point at one place of the rear axle's line",
       &HandRow::wanted},
      {"toe_out", "toe-out error", kAngle, "given less wanted; - the front tyres scrub toe-in",
       [](auto& row) { return Less(row.difference, row.wanted); }}};
  if (!wheelbase) columns.erase(columns.begin() + 3, columns.end());
  return columns;
}

// The drag link, the track bar, or the second less the first.
struct Line {
  std::string name;
  double slope, length, share;
  std::optional<double> apart;
};

TableOf<Line> LineColumns() {
  return {
      {"line", "line", kNumber, "drag link, track bar, or the difference", &Line::name},
      {"slope", "slope", kAngle, "from in front, at rest; + rises toward the left", &Line::slope},
      {"length", "length", kLength, "joint to joint", &Line::length},
      {"length_share", "of the drag link", kPercent, "length against the drag link's",
       &Line::share},
      {"apart", "between them", kAngle, "angle between both lines in space", &Line::apart}};
}

std::vector<Line> LinesOf(const BarMatch& match) {
  const double share = match.bar_length / match.drag_length;
  return {{"drag link", match.drag_slope, match.drag_length, 1.0, std::nullopt},
          {match.bar, match.bar_slope, match.bar_length, share, match.apart},
          {"difference", match.bar_slope - match.drag_slope, match.bar_length - match.drag_length,
           share - 1.0, match.apart}};
}

const char* MoveName(BarMoveKind kind) {
  constexpr std::array kNames{"as it is", "frame end, to match", "axle end, to match",
                              "frame end, no steer"};
  return NameIn(kNames, kind);
}

TableOf<BarMove> MoveColumns() {
  TableOf<BarMove> columns{
      {"move", "track bar", kNumber,
       "which end goes where; to match: parallel to the drag link and as long, from in front; no "
       "steer: travel steers nothing at rest",
       [](auto& move) { return MoveName(move.kind); }},
      {"x", "x", kLength, "of that end, chassis axes, as it would be when measured",
       [](auto& move) { return move.p_C.x(); }},
      {"y", "y", kLength, "the same", [](auto& move) { return move.p_C.y(); }},
      {"z", "z", kLength, "the same", [](auto& move) { return move.p_C.z(); }},
      {"moved_y", "moved left", kLength, "from where that end is",
       [](auto& move) { return move.by.y(); }},
      {"moved_z", "moved up", kLength, "the same", [](auto& move) { return move.by.z(); }},
      {"length", "bar length", kLength, "so that the axle rests where it did", &BarMove::length},
      {"steer_rate", "bump steer", kAngleRate, "at rest, steering wheel held",
       &BarMove::steer_rate},
      {"steer_most", "greatest steer", kAngle, "over the travel, either way", &BarMove::steer_most},
      {"lateral_most", "greatest shift", kLength, "of the axle sideways over the travel",
       &BarMove::lateral_most}};
  LeaveToFull(columns, {"x", "y", "z", "lateral_most"});
  return columns;
}

TableOf<SidewaysCure> SidewaysColumns(const Vehicle& vehicle) {
  return {
      AxleColumn<SidewaysCure>(vehicle),
      {"offset", "off centre", kLength, "housing centre at rest; + left", &SidewaysCure::offset},
      {"bar", "link", kNumber, "the one that lies across",
       [](auto& cure) { return cure.bar ? cure.bar->name : "none"; }},
      {"longer", "longer by", kLength, "+ longer, - shorter, so that the axle is centred at rest",
       &SidewaysCure::by},
      {"turns", "turns", kNumber, "of its adjuster; empty where the file gives no thread",
       [](auto& cure) { return cure.by ? TurnsOf(*cure.bar, *cure.by) : std::nullopt; }},
      {"drag_link_longer", "drag link longer by", kLength,
       "so that the wheels then point as measured with the steering wheel held",
       &SidewaysCure::drag_link_by}};
}

void SayMissing(const NoteWriter& writer, const Axle& axle, const SteeredAxle& steered) {
  if (!steered.match) {
    writer.Say(
        "the {} axle: no link lies across, so there is no track bar to hold against the drag link",
        axle.name);
  }
  if (!steered.tie_rod) {
    writer.Say(
        "assumed: the {} axle has no tie_rod in the file, so both wheels are taken to steer alike "
        "and toe does not change",
        axle.name);
  }
}

// What centres an axle that stands off centre by more than a tape shows.
void SayCure(const NoteWriter& writer, const SidewaysCure& cure) {
  if (std::abs(cure.offset) < kCentred) return;
  if (!cure.bar) {
    writer.Say("no link lies across, so no one link centres it");
    return;
  }
  if (!cure.by) {
    writer.Say(
        "no length of {} within {} of the present one centres it: more is not for a shop to turn "
        "(common practice)",
        cure.bar->name, writer.Length(*cure.most));
    return;
  }
  const auto changed = [&](double by) {
    return fmt::format("{} by {}", by > 0.0 ? "longer" : "shorter", writer.Length(std::abs(by)));
  };
  std::string text = fmt::format("{} {} centres it", cure.bar->name, changed(*cure.by));
  if (const std::optional<double> turns = TurnsOf(*cure.bar, *cure.by)) {
    text += fmt::format(", {} turns", ShowNumber(std::abs(*turns), 2));
  }
  if (cure.drag_link_by) {
    text += fmt::format(", and the drag link {} keeps the wheels where they point",
                        changed(*cure.drag_link_by));
  }
  writer.Say(text);
}

}  // namespace

// The housing rolls against the chassis by as much as the body's left side goes up, reversed.
std::optional<double> SteerPerBodyRoll(const MotionRow& row, size_t a) {
  const MotionAxleRow& axle = *row.axles[a];
  if (!axle.steer_per_roll) return std::nullopt;
  return -*axle.steer_per_roll * std::cos(row.parameter) / std::cos(axle.housing_roll);
}

std::vector<NamedTable> SteeringTables(const Vehicle& vehicle, const SteeringReport& report,
                                       UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const SteeredAxle& steered : report.axles) {
    const std::string name = vehicle.axles[steered.axle].name;
    const auto add = [&](const char* what, DataTable table) {
      tables.push_back({name + what, std::move(table)});
    };
    const AxleRow& rest = *AtRest(steered.travel).axles[steered.axle];
    add(" travel", ToTable(TravelColumns(steered.axle, rest), steered.travel.rows, units));
    add(" roll", RollTable(steered, units));
    if (steered.tie_rod) {
      add(" lock to lock", ToTable(LockColumns(!vehicle.only_axle), steered.lock, units));
    }
    if (!steered.match) continue;
    add(" lines", ToTable(LineColumns(), LinesOf(*steered.match), units));
    add(" track bar moved", ToTable(MoveColumns(), steered.moves, units));
  }
  tables.push_back({"sideways", ToTable(SidewaysColumns(vehicle), report.sideways, units)});
  return tables;
}

std::vector<std::string> SteeringNotes(const Vehicle& vehicle, const SteeringReport& report,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const SidewaysCure& cure : report.sideways) {
    SayCure(writer.About("the " + vehicle.axles[cure.axle].name + " axle: "), cure);
  }
  for (const SteeredAxle& steered : report.axles) {
    SayMissing(writer, vehicle.axles[steered.axle], steered);
  }
  return notes;
}

}  // namespace linkwright
