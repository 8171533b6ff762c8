// SPDX-License-Identifier: MIT
// docs/output.md must say what the program writes: its tables stand between two comments each,
//   <!-- settle: generated from ... -->
//   <!-- end of settle -->
// and must be what io/write/output_reference.h makes of the column lists.
#include "io/write/output_reference.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "io/read/vehicle_file.h"
#include "io/write/arm_tables.h"
#include "io/write/check_tables.h"
#include "io/write/driveline_tables.h"
#include "io/write/limits_tables.h"
#include "io/write/motion_columns.h"
#include "io/write/openings_tables.h"
#include "io/write/original_tables.h"
#include "io/write/page_tables.h"
#include "io/write/ride_tables.h"
#include "io/write/roll_tables.h"
#include "io/write/settle_columns.h"
#include "io/write/steering_tables.h"
#include "io/write/sweep_columns.h"
#include "io/write/weighed_tables.h"
#include "solver/rest/settle.h"

namespace linkwright {
namespace {

const std::string kRoot = LINKWRIGHT_SOURCE_DIR;
const std::string kPage = kRoot + "/docs/output.md";

std::string ReadAll(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

struct Block {
  std::string name;  // in the page's comments
  std::string text;  // what must stand between them
};

// The harbour van has everything that the tables of `check` can show.
std::vector<Block> CheckBlocks() {
  const VehicleFile file = ReadVehicleFile(kRoot + "/fixtures/vehicles/harbour_van.yaml");
  std::vector<Block> blocks;
  const CheckReport report = CheckVehicle(file.vehicle);
  for (const NamedTable& named : CheckTables(file.vehicle, report, UnitSystem::kMetric)) {
    blocks.push_back({"check " + named.name, ColumnReference(named.table.columns)});
  }
  const DataTable gaps = GapTable(file.vehicle, {}, UnitSystem::kMetric);
  blocks.push_back({"check gaps", ColumnReference(gaps.columns)});
  return blocks;
}

// Of a vehicle with openings and a mark, called NAME.
std::vector<Column> SettleColumnsOfAll() {
  Vehicle vehicle{};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  for (Axle& axle : vehicle.axles) axle.opening = Opening{};
  vehicle.marks = {{"NAME", Eigen::Vector3d::Zero()}};
  return SettleTable(vehicle, {}, UnitSystem::kMetric).columns;
}

// Of a vehicle with everything that a sweep can show. What there is of either axle stands once,
// with "A" for the axle's name.
std::vector<Column> SweepColumnsOfAll() {
  Vehicle vehicle{};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  for (Axle& axle : vehicle.axles) {
    axle.pinion.emplace(), axle.kingpin.emplace(), axle.opening.emplace();
    axle.drive_share = axle.brake_share = 0.5;
    axle.springs.resize(1);
  }
  vehicle.axles[0].steering.emplace();
  vehicle.driveshafts.resize(1);
  vehicle.driveshafts[0].center_bearing.emplace();
  Sweep sweep{};
  sweep.stance.emplace();
  std::vector<Column> columns = SweepTable(vehicle, sweep, UnitSystem::kMetric).columns;
  for (size_t i = 0; i < columns.size(); ++i) {
    if (!columns[i].name.starts_with("front_")) continue;
    const std::string what = columns[i].name.substr(6);
    if (std::erase_if(columns, [&](auto& other) { return other.name == "rear_" + what; }) > 0) {
      columns[i].name = "A_" + what;
    }
  }
  return columns;
}

// Here and below columns alone: what stands in the rows does not matter. A two-piece shaft.
std::vector<NamedTable> ShaftTables() {
  Vehicle vehicle{};
  vehicle.driveshafts = {Driveshaft{}};
  vehicle.driveshafts[0].center_bearing = CenterBearing{.p_CB = Eigen::Vector3d::Zero()};
  ShaftPlace rest{};
  rest.kind = ShaftPlaceKind::kRest;
  rest.joints.resize(3);
  ShaftReport report{};
  report.travel = {rest};
  report.speed = 0.0;
  report.cures = {{.links = {}, .by = 0.0, .pinion = 0.0, .moved = 0.0, .after = rest}};
  report.wind_up = WindUp{};
  report.under_torque = rest;
  return DrivelineTables(vehicle, {report}, UnitSystem::kMetric);
}

// An axle with a drag link, a tie rod and a track bar.
std::vector<NamedTable> SteeredTables() {
  SteeredAxle steered{};
  steered.tie_rod = true;
  steered.travel.rows.resize(1), steered.roll.rows.resize(1);
  steered.travel.rows[0].axles[0].emplace(), steered.roll.rows[0].axles[0].emplace();
  steered.match = BarMatch{};
  SteeringReport report{};
  report.axles = {steered};
  return SteeringTables(Vehicle{}, report, UnitSystem::kMetric);
}

std::vector<NamedTable> LeafTables() {
  Vehicle vehicle{};
  vehicle.leaf_original = LeafOriginal{};
  OriginalReport report{};
  report.axles = {LeafAxle{}};
  std::vector<NamedTable> tables = AllWeighedTables(vehicle);
  for (NamedTable& named : OriginalTables(vehicle, report, UnitSystem::kMetric)) {
    tables.push_back(std::move(named));
  }
  return tables;
}

std::vector<NamedTable> RollAndRide() {
  const VehicleFile file = ReadVehicleFile(kRoot + "/fixtures/vehicles/harbour_van.yaml");
  RollStudy roll;
  roll.torque = 1.0;
  std::vector<NamedTable> tables = RollTables(file.vehicle, roll, UnitSystem::kMetric);
  for (NamedTable& named : tables) named.name = "roll " + named.name;
  for (NamedTable& named : RideTables(file.vehicle, RideStudy{}, UnitSystem::kMetric)) {
    tables.push_back({"ride " + named.name, std::move(named.table)});
  }
  return tables;
}

// Of the tables that there is one an axle of, the front one stands here.
std::vector<Block> LimitsBlocks() {
  const VehicleFile file = ReadVehicleFile(kRoot + "/fixtures/vehicles/harbour_van.yaml");
  const Rig rig = PrepareRig(file.vehicle);
  const Stance stance = Settle(rig, file.vehicle.loads[0]);
  const LimitsReport limits = FindLimits({rig, &stance});
  const PartsAdvice advice =
      AdviseParts(rig, nullptr, &stance, limits, {.split = {}, .bump = 0.2, .droop = 0.2},
                  file.vehicle.aims.damper_reserve);
  std::vector<Block> blocks;
  for (const NamedTable& named : LimitsTables(file.vehicle, limits, advice, UnitSystem::kMetric)) {
    std::string name = named.name;
    if (name.starts_with("front ")) name = "axle" + name.substr(5);
    if (name.starts_with("rear ")) continue;
    blocks.push_back({"limits " + name, ColumnReference(named.table.columns)});
  }
  const CentringPlan plan = Centre(file.vehicle, &file.vehicle.loads[0], 1.0);
  OpeningsAnswer answer{.report = SweepOpenings({rig, &stance}, 0.5),
                        .plans = {plan},
                        .hanging = HangAxles({rig, &stance}),
                        .hanging_moved = {}};
  answer.after = CarryOut(file.vehicle, &file.vehicle.loads[0], plan.move, 0.5);
  answer.trims = TrimsWanted(file.vehicle, answer.report);
  for (const NamedTable& named : OpeningsTables(file.vehicle, answer, UnitSystem::kMetric)) {
    if (named.name.find("clear") != std::string::npos && named.name.ends_with(" then")) continue;
    blocks.push_back({"openings " + named.name, ColumnReference(named.table.columns)});
  }
  return blocks;
}

std::vector<Block> WantedBlocks() {
  std::vector<Block> blocks{{"units", UnitReference()},
                            {"settle", ColumnReference(SettleColumnsOfAll())},
                            {"sweep", ColumnReference(SweepColumnsOfAll())},
                            {"motion", ColumnReference(AllMotionColumns())}};
  const VehicleFile van = ReadVehicleFile(kRoot + "/fixtures/vehicles/harbour_van.yaml");
  for (const NamedTable& named : AllPageTables(van.vehicle)) {
    blocks.push_back({"page " + named.name, ColumnReference(named.table.columns)});
  }
  for (Block& block : CheckBlocks()) blocks.push_back(std::move(block));
  // Their axles and shafts have no names, so that what follows a name begins with a blank.
  const auto add = [&](const std::string& command, const std::vector<NamedTable>& tables) {
    for (const NamedTable& named : tables) {
      const std::string blank = named.name.starts_with(' ') ? "" : " ";
      blocks.push_back({command + blank + named.name, ColumnReference(named.table.columns)});
    }
  };
  add("driveline", ShaftTables());
  add("steering", SteeredTables());
  add("original", LeafTables());
  for (const NamedTable& named : RollAndRide()) {
    blocks.push_back({named.name, ColumnReference(named.table.columns)});
  }
  for (Block& block : LimitsBlocks()) blocks.push_back(std::move(block));
  return blocks;
}

// Where a block's text begins and ends in the page; npos where its comments are not there.
struct Place {
  size_t begin = std::string::npos, end = std::string::npos;
};

Place FindBlock(const std::string& page, const std::string& name) {
  const size_t opening = page.find("<!-- " + name + ": generated from ");
  if (opening == std::string::npos) return {};
  const size_t begin = page.find("-->\n", opening);
  const size_t end = page.find("<!-- end of " + name + " -->", opening);
  if (begin == std::string::npos || end == std::string::npos) return {};
  return {begin + 4, end};
}

// The page as it should be, beside the test's other output, so that a person can look and copy.
std::string WriteWanted(std::string page) {
  for (const Block& block : WantedBlocks()) {
    const Place place = FindBlock(page, block.name);
    if (place.end != std::string::npos) {
      page.replace(place.begin, place.end - place.begin, block.text);
    }
  }
  const std::string path = std::string(LINKWRIGHT_GOLDEN_OUTPUT) + "/output.md";
  std::ofstream(path, std::ios::binary) << page;
  return path;
}

TEST(OutputReference, PageHoldsEveryColumnList) {
  const std::string page = ReadAll(kPage);
  ASSERT_FALSE(page.empty()) << kPage << " cannot be read";
  for (const Block& block : WantedBlocks()) {
    const Place place = FindBlock(page, block.name);
    ASSERT_NE(place.end, std::string::npos)
        << "docs/output.md has no place for this table. Put these two lines where it belongs:\n"
        << "<!-- " << block.name << ": generated from FILE -->\n<!-- end of " << block.name
        << " -->";
    if (page.substr(place.begin, place.end - place.begin) == block.text) continue;
    const std::string wanted = WriteWanted(page);
    ADD_FAILURE() << "docs/output.md: the table '" << block.name
                  << "' is not what the column list says. The page as it should be:\n  diff "
                  << kPage << " " << wanted << "\n  cp " << wanted << " " << kPage;
    return;
  }
}

TEST(OutputReference, NamesAColumnOnceWhereBothUnitSystemsAgree) {
  const Column angle{"rake", "rake", Dimension::kAngle, "", "nose up +"};
  const Column length{"cg_x", "x", Dimension::kLength, "", "+ forward | ahead"};
  EXPECT_EQ(ColumnReference({angle, length}),
            "| metric | inch | what it is |\n"
            "| --- | --- | --- |\n"
            "| `rake_deg` | the same | nose up + |\n"
            "| `cg_x_mm` | `cg_x_in` | + forward \\| ahead |\n");
}

TEST(OutputReference, EveryColumnSaysWhatItIs) {
  std::vector<Column> all = SettleColumnsOfAll();
  for (Column& column : SweepColumnsOfAll()) all.push_back(std::move(column));
  for (Column& column : AllMotionColumns()) all.push_back(std::move(column));
  for (const NamedTable& named : RollAndRide()) {
    all.insert(all.end(), named.table.columns.begin(), named.table.columns.end());
  }
  for (const Column& column : all) EXPECT_FALSE(column.definition.empty()) << column.name;
}

}  // namespace
}  // namespace linkwright
