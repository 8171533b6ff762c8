// SPDX-License-Identifier: MIT
#include "io/write/original_tables.h"

namespace linkwright {
namespace {

using enum Dimension;

std::vector<Column> AxleColumns() {
  return {
      {"state", "", kNumber, "",
       "when new, now, and how far it has moved since: exactly, and by the handbook's link of 3/4 "
       "the half leaf"},
      {"wheel_x", "wheel x", kLength, "", "wheel centre in the old frame's axes; + forward"},
      {"wheel_z", "wheel z", kLength, "", "the same; + up against the frame"},
      {"camber", "camber", kLength, "", "as given: eyes' line over the leaf at the centre bolt"},
      {"eyes_apart", "eye to eye", kLength, "", "straight, centre to centre"},
      {"tilt", "leaf tilt", kAngle, "",
       "of the leaf at the centre bolt, and of the axle on it; + front end up"},
      {"shackle_lean", "shackle lean", kAngle, "",
       "from upright on the frame; + the leaf's eye rearward"},
      {"shackle_swing", "shackle to eyes", kAngle, "",
       "between the shackle and the line of the eyes; 90 deg is squarest"}};
}

std::vector<Cell> PoseRow(const std::string& state, const LeafPose& pose) {
  return {state,           pose.p_DW.x(), pose.p_DW.y(),     pose.camber,
          pose.eyes_apart, pose.tilt,     pose.shackle_lean, pose.swing};
}

DataTable AxleTable(const LeafAxle& axle, UnitSystem units) {
  DataTable table{.units = units, .columns = AxleColumns(), .rows = {}};
  table.rows.push_back(PoseRow("when new", axle.fresh));
  table.rows.push_back(PoseRow("now", axle.now));
  table.rows.push_back(
      {std::string("moved"), axle.moved.x(), axle.moved.y(), axle.now.camber - axle.fresh.camber,
       axle.now.eyes_apart - axle.fresh.eyes_apart, axle.now.tilt - axle.fresh.tilt,
       axle.now.shackle_lean - axle.fresh.shackle_lean, axle.now.swing - axle.fresh.swing});
  table.rows.push_back({std::string("moved, by a 3/4 link"), Cell(axle.link_moved), Cell(), Cell(),
                        Cell(), Cell(), Cell(), Cell()});
  return table;
}

std::vector<Column> CamberColumns() {
  return {{"camber_new", "camber when new", kLength, "", "if it had been this"},
          {"moved_x", "moved forward", kLength, "", "wheel centre since new; - back"},
          {"moved_z", "moved up", kLength, "", "the same against the frame"},
          {"wheel_x", "wheel x when new", kLength, "", "in the old frame's axes"},
          {"wheel_z", "wheel z when new", kLength, "", "the same"},
          {"wheelbase", "design wheelbase", kLength, "",
           "then, the other axle as given; empty where it cannot be known"}};
}

DataTable CamberTable(const LeafAxle& axle, UnitSystem units) {
  DataTable table{.units = units, .columns = CamberColumns(), .rows = {}};
  for (const CamberGuess& guess : axle.guesses) {
    table.rows.push_back({guess.camber_new, guess.moved.x(), guess.moved.y(), guess.p_DW.x(),
                          guess.p_DW.y(), Cell(guess.wheelbase)});
  }
  return table;
}

std::vector<Column> WheelbaseColumns() {
  return {{"wheelbase", "", kNumber, "", "which one, and where it comes from"},
          {"along", "along the frame", kLength, "",
           "wheel centre to wheel centre along the old frame's x; of the file's openings along the "
           "chassis x axis"},
          {"centers", "hub to hub", kLength, "",
           "straight between the wheel centres in side view; the wheelbase on the floor where both "
           "tyres stand equally high"},
          {"over_design", "over the design", kLength, "", "longer than the design wheelbase by"}};
}

std::optional<double> Less(const std::optional<double>& value, const std::optional<double>& base) {
  if (!value || !base) return std::nullopt;
  return *value - *base;
}

DataTable WheelbaseTable(const Vehicle& vehicle, const OriginalReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = WheelbaseColumns(), .rows = {}};
  const std::optional<double> design = DesignWheelbase(report);
  const auto add = [&](const char* name, const LeafWheelbase& wheelbase) {
    table.rows.push_back({std::string(name), Cell(wheelbase.along), Cell(wheelbase.centers),
                          Cell(Less(wheelbase.centers, design))});
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
    table.rows.push_back({std::string("openings of the file"), *report.spacing, std::monostate{},
                          Cell(Less(report.spacing, base))});
  }
  return table;
}

std::vector<Column> OpeningColumns() {
  return {
      {"axle", "axle", kNumber, "", "front or rear"},
      {"design_x", "designed x", kLength, "",
       "wheel centre when new, where the opening was drawn about it; old frame's axes"},
      {"design_z", "designed z", kLength, "", "the same"},
      {"wheel_ahead", "wheel now ahead", kLength, "",
       "old wheel now against that; - it stands behind it"},
      {"wheel_up", "wheel now up", kLength, "", "the same"},
      {"opening_ahead", "opening ahead", kLength, "",
       "opening as measured on the old body against the designed wheel; empty where not given"},
      {"opening_up", "opening up", kLength, "", "the same"},
      {"camber_centred", "camber to centre", kLength, "",
       "camber when new that would have stood the wheel under the measured opening's centre"},
      {"chassis_x", "designed x, chassis", kLength, "",
       "the designed wheel centre in this file's chassis axes; empty without datum"},
      {"chassis_z", "designed z, chassis", kLength, "", "the same"},
      {"file_ahead", "file's ahead", kLength, "", "the opening's centre in this file against that"},
      {"file_up", "file's up", kLength, "", "the same"}};
}

std::vector<Cell> OpeningRow(const Vehicle& vehicle, const LeafAxle& axle) {
  const std::optional<Eigen::Vector2d>& datum = vehicle.leaf_original->p_CD;
  const std::optional<Opening>& opening = vehicle.axles[axle.axle].opening;
  const Eigen::Vector2d& designed = axle.fresh.p_DW;
  Cell ahead, up, chassis_x, chassis_z, file_ahead, file_up;
  if (axle.off_opening) {
    ahead = -axle.off_opening->x();
    up = -axle.off_opening->y();
  }
  if (datum) {
    const Eigen::Vector2d p_CW = *datum + designed;
    chassis_x = p_CW.x();
    chassis_z = p_CW.y();
    if (opening) {
      file_ahead = opening->x - p_CW.x();
      file_up = opening->z - p_CW.y();
    }
  }
  return {vehicle.axles[axle.axle].name,
          designed.x(),
          designed.y(),
          axle.moved.x(),
          axle.moved.y(),
          ahead,
          up,
          Cell(axle.camber_centred),
          chassis_x,
          chassis_z,
          file_ahead,
          file_up};
}

DataTable OpeningTable(const Vehicle& vehicle, const OriginalReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = OpeningColumns(), .rows = {}};
  for (const LeafAxle& axle : report.axles) table.rows.push_back(OpeningRow(vehicle, axle));
  return table;
}

}  // namespace

std::vector<NamedTable> OriginalTables(const Vehicle& vehicle, const OriginalReport& report,
                                       UnitSystem units) {
  std::vector<NamedTable> tables;
  for (const LeafAxle& axle : report.axles) {
    const std::string& name = vehicle.axles[axle.axle].name;
    tables.push_back({name + " axle", AxleTable(axle, units)});
    tables.push_back({name + " camber", CamberTable(axle, units)});
  }
  tables.push_back({"wheelbase", WheelbaseTable(vehicle, report, units)});
  tables.push_back({"openings", OpeningTable(vehicle, report, units)});
  return tables;
}

std::vector<NamedTable> AllOriginalTables() {
  const auto table = [](const char* name, std::vector<Column> columns) {
    return NamedTable{name,
                      {.units = UnitSystem::kMetric, .columns = std::move(columns), .rows = {}}};
  };
  return {table("axle", AxleColumns()), table("camber", CamberColumns()),
          table("wheelbase", WheelbaseColumns()), table("openings", OpeningColumns())};
}

}  // namespace linkwright
