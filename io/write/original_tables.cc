// SPDX-License-Identifier: MIT
#include "io/write/original_tables.h"

#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

// One line of an axle's table: a leaf, or what it moved.
struct LeafState {
  std::string name;
  std::optional<double> wheel_x, wheel_z;
  std::optional<LeafPose> pose;  // or the difference of two
};

TableOf<LeafState> LeafColumns() {
  TableOf<LeafState> columns{
      {"state", "", kNumber,
       "when new, now, and how far it has moved since: exactly, and by the handbook's link of 3/4 "
       "the half leaf",
       &LeafState::name},
      {"wheel_x", "wheel x", kLength, "wheel centre in the old frame's axes; + forward",
       &LeafState::wheel_x},
      {"wheel_z", "wheel z", kLength, "the same; + up against the frame", &LeafState::wheel_z}};
  const TableOf<LeafPose> of_pose{
      {"camber", "camber", kLength, "as given: eyes' line over the leaf at the centre bolt",
       &LeafPose::camber},
      {"eyes_apart", "eye to eye", kLength, "straight, centre to centre", &LeafPose::eyes_apart},
      {"tilt", "leaf tilt", kAngle,
       "of the leaf at the centre bolt, and of the axle on it; + front end up", &LeafPose::tilt},
      {"shackle_lean", "shackle lean", kAngle,
       "from upright on the frame; + the leaf's eye rearward", &LeafPose::shackle_lean},
      {"shackle_swing", "shackle to eyes", kAngle,
       "between the shackle and the line of the eyes; 90 deg is squarest", &LeafPose::swing}};
  AddPart(columns, of_pose, &LeafState::pose);
  return columns;
}

std::vector<LeafState> StatesOf(const LeafAxle& axle) {
  LeafPose change = axle.now;
  for (const auto member : {&LeafPose::camber, &LeafPose::eyes_apart, &LeafPose::tilt,
                            &LeafPose::shackle_lean, &LeafPose::swing}) {
    change.*member -= axle.fresh.*member;
  }
  return {{"when new", axle.fresh.p_DW.x(), axle.fresh.p_DW.y(), axle.fresh},
          {"now", axle.now.p_DW.x(), axle.now.p_DW.y(), axle.now},
          {"moved", axle.moved.x(), axle.moved.y(), change},
          {"moved, by a 3/4 link", axle.link_moved, std::nullopt, std::nullopt}};
}

TableOf<CamberGuess> CamberColumns() {
  return {
      {"camber_new", "camber when new", kLength, "if it had been this", &CamberGuess::camber_new},
      {"moved_x", "moved forward", kLength, "wheel centre since new; - back",
       [](auto& guess) { return guess.moved.x(); }},
      {"moved_z", "moved up", kLength, "the same against the frame",
       [](auto& guess) { return guess.moved.y(); }},
      {"wheel_x", "wheel x when new", kLength, "in the old frame's axes",
       [](auto& guess) { return guess.p_DW.x(); }},
      {"wheel_z", "wheel z when new", kLength, "the same",
       [](auto& guess) { return guess.p_DW.y(); }},
      {"wheelbase", "design wheelbase", kLength,
       "then, the other axle as given; empty where it cannot be known", &CamberGuess::wheelbase}};
}

struct NamedWheelbase {
  std::string name;
  LeafWheelbase is;
  std::optional<double> over_design;
};

TableOf<NamedWheelbase> WheelbaseColumns() {
  return {{"wheelbase", "", kNumber, "which one, and where it comes from", &NamedWheelbase::name},
          {"along", "along the frame", kLength,
           "wheel centre to wheel centre along the old frame's x; of the file's openings along the "
           "chassis x axis",
           [](auto& wheelbase) { return wheelbase.is.along; }},
          {"centers", "hub to hub", kLength,
           "straight between the wheel centres in side view; the wheelbase on the floor where both "
           "tyres stand equally high",
           [](auto& wheelbase) { return wheelbase.is.centers; }},
          {"over_design", "over the design", kLength, "longer than the design wheelbase by",
           &NamedWheelbase::over_design}};
}

std::vector<NamedWheelbase> WheelbasesOf(const Vehicle& vehicle, const OriginalReport& report) {
  std::vector<NamedWheelbase> all;
  const std::optional<double> design = DesignWheelbase(report);
  const auto add = [&](const char* name, const LeafWheelbase& wheelbase) {
    all.push_back({name, wheelbase, Less(wheelbase.centers, design)});
  };
  if (report.fresh.centers) {
    add("as designed", report.fresh);
    add("now, worked out", report.now);
  }
  const std::optional<double>& measured = vehicle.leaf_original->wheelbase_now;
  if (measured) {
    add("now, measured", {std::nullopt, measured});
    add("as designed, from the measured one", {std::nullopt, report.from_measured});
  }
  if (report.spacing) {
    const std::optional<double>& base = report.fresh.along ? report.fresh.along : design;
    all.push_back(
        {"openings of the file", {report.spacing, std::nullopt}, Less(report.spacing, base)});
  }
  return all;
}

// The designed wheel centre in this file's chassis axes; absent without datum.
using MaybePlace = std::optional<Eigen::Vector2d>;
MaybePlace DesignedIn(const Vehicle& vehicle, const LeafAxle& axle) {
  const MaybePlace& datum = vehicle.leaf_original->p_CD;
  return datum ? MaybePlace(*datum + axle.fresh.p_DW) : std::nullopt;
}

// This file's opening against that.
MaybePlace OpeningOff(const Vehicle& vehicle, const LeafAxle& axle) {
  const std::optional<Opening>& opening = vehicle.axles[axle.axle].opening;
  const MaybePlace designed = DesignedIn(vehicle, axle);
  if (!opening || !designed) return std::nullopt;
  return MaybePlace({opening->x - designed->x(), opening->z - designed->y()});
}

TableOf<LeafAxle> OpeningColumns(const Vehicle& vehicle) {
  const auto x = [](const Eigen::Vector2d& p) { return p.x(); };
  const auto z = [](const Eigen::Vector2d& p) { return p.y(); };
  return {
      AxleColumn<LeafAxle>(vehicle),
      {"design_x", "designed x", kLength,
       "wheel centre when new, where the opening was drawn about it; old frame's axes",
       [](auto& axle) { return axle.fresh.p_DW.x(); }},
      {"design_z", "designed z", kLength, "the same",
       [](auto& axle) { return axle.fresh.p_DW.y(); }},
      {"wheel_ahead", "wheel now ahead", kLength,
       "old wheel now against that; - it stands behind it",
       [](auto& axle) { return axle.moved.x(); }},
      {"wheel_up", "wheel now up", kLength, "the same", [](auto& axle) { return axle.moved.y(); }},
      {"opening_ahead", "opening ahead", kLength,
       "opening as measured on the old body against the designed wheel; empty where not given",
       [](auto& axle) { return Within(axle.off_opening, [](auto& off) { return -off.x(); }); }},
      {"opening_up", "opening up", kLength, "the same",
       [](auto& axle) { return Within(axle.off_opening, [](auto& off) { return -off.y(); }); }},
      {"camber_centred", "camber to centre", kLength,
       "camber when new that would have stood the wheel under the measured opening's centre",
       &LeafAxle::camber_centred},
      {"chassis_x", "designed x, chassis", kLength,
       "the designed wheel centre in this file's chassis axes; empty without datum",
       [&vehicle, x](auto& axle) { return Within(DesignedIn(vehicle, axle), x); }},
      {"chassis_z", "designed z, chassis", kLength, "the same",
       [&vehicle, z](auto& axle) { return Within(DesignedIn(vehicle, axle), z); }},
      {"file_ahead", "file's ahead", kLength, "the opening's centre in this file against that",
       [&vehicle, x](auto& axle) { return Within(OpeningOff(vehicle, axle), x); }},
      {"file_up", "file's up", kLength, "the same",
       [&vehicle, z](auto& axle) { return Within(OpeningOff(vehicle, axle), z); }}};
}

void SayRule(const NoteWriter& writer, const Axle& axle, const LeafAxle& leaf) {
  if (!leaf.link_moved || leaf.moved.norm() < kNothing) return;
  writer.Say("the {} axle by the 3/4 link rule, which leaves the tilt of the leaf out: {}",
             axle.name, writer.Way(*leaf.link_moved, "forward", "back"));
}

// What a doubt about the camber when new does to the answer.
void SayDoubt(const NoteWriter& writer, const Axle& axle, const LeafAxle& leaf) {
  if (leaf.guesses.size() < 2) return;
  const CamberGuess& low = leaf.guesses.front();
  const CamberGuess& high = leaf.guesses.back();
  writer.Say(
      "the {} camber when new is the reading known worst: between {} and {} of it the axle moved "
      "{} to {}",
      axle.name, writer.Length(low.camber_new), writer.Length(high.camber_new),
      writer.Way(low.moved.x(), "forward", "back"), writer.Way(high.moved.x(), "forward", "back"));
}

void SayWheelbase(const NoteWriter& writer, const OriginalReport& report) {
  const std::string changed = writer.Way(report.change, "longer", "shorter");
  if (const std::optional<double> design = DesignWheelbase(report)) {
    writer.Say("{} the design wheelbase is {}; the old axles have made it {} since",
               report.fresh.centers ? "by bolts, arcs and cambers alone"
                                    : "by the wheelbase now and one spring alone",
               writer.Length(*design), changed);
  } else {
    writer.Say(
        "the old axle has made the wheelbase {}; give wheelbase_now or the other spring for the "
        "design wheelbase",
        changed);
  }
}

}  // namespace

std::vector<NamedTable> OriginalTables(const Vehicle& vehicle, const OriginalReport& report,
                                       UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const LeafAxle& axle : report.axles) {
    const std::string& name = vehicle.axles[axle.axle].name;
    tables.push_back({name + " axle", ToTable(LeafColumns(), StatesOf(axle), units)});
    tables.push_back({name + " camber", ToTable(CamberColumns(), axle.guesses, units)});
  }
  tables.push_back(
      {"wheelbase", ToTable(WheelbaseColumns(), WheelbasesOf(vehicle, report), units)});
  tables.push_back({"openings", ToTable(OpeningColumns(vehicle), report.axles, units)});
  return tables;
}

std::vector<NamedTable> AllOriginalTables() {
  const Vehicle any;
  return {{"axle", ToTable(LeafColumns())},
          {"camber", ToTable(CamberColumns())},
          {"wheelbase", ToTable(WheelbaseColumns())},
          {"openings", ToTable(OpeningColumns(any))}};
}

std::vector<std::string> OriginalNotes(const Vehicle& vehicle, const OriginalReport& report,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  SayWheelbase(writer, report);
  for (const LeafAxle& leaf : report.axles) {
    const Axle& axle = vehicle.axles[static_cast<size_t>(leaf.axle)];
    SayRule(writer, axle, leaf);
    SayDoubt(writer, axle, leaf);
  }
  if (!vehicle.leaf_original->p_CD) {
    writer.Say(
        "without leaf_original.datum only distances are held against the file's openings, not "
        "places");
  }
  if (report.axles.size() == 1) {
    writer.Say("assumed: the {} axle, whose spring is not given, has not moved",
               vehicle.axles[static_cast<size_t>(1 - report.axles[0].axle)].name);
  }
  writer.Say(
      "assumed: the leaf keeps its length and bends to arcs of one circle outside its clamp; bolts "
      "without play; the wheel stood centred in its opening when new; both cambers read under the "
      "same load");
  return notes;
}

}  // namespace linkwright
