// SPDX-License-Identifier: MIT
// The columns of `sweep` and `settle`, in the order of the design: written out by hand.
#include <gtest/gtest.h>

#include <algorithm>

#include "io/units.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

// Stands in a header for the unit that the system gives the quantity.
std::string WithUnits(std::string name, UnitSystem units) {
  const bool metric = units == UnitSystem::kMetric;
  const std::vector<std::pair<std::string, std::string>> suffixes{
      {"[length]", metric ? "_mm" : "_in"},
      {"[force]", metric ? "_n" : "_lbf"},
      {"[rate]", metric ? "_n_per_mm" : "_lbf_per_in"},
      {"[mass]", metric ? "_kg" : "_lb"},
      {"[roll rate]", metric ? "_n_m_per_deg" : "_lbf_ft_per_deg"}};
  for (const auto& [quantity, suffix] : suffixes) {
    const size_t at = name.find(quantity);
    if (at != std::string::npos) name.replace(at, quantity.size(), suffix);
  }
  return name;
}

CsvRecord WithUnits(CsvRecord names, UnitSystem units) {
  for (std::string& name : names) name = WithUnits(name, units);
  return names;
}

// What geometry alone gives: without the columns that need masses.
const CsvRecord kPositionColumns{"travel[length]",
                                 "wheelbase[length]",
                                 "wheelbase_change[length]",
                                 "front_wheelbase_change[length]",
                                 "rear_wheelbase_change[length]",
                                 "front_lateral_shift[length]",
                                 "rear_lateral_shift[length]",
                                 "front_axle_steer_deg",
                                 "rear_axle_steer_deg",
                                 "front_housing_pitch_deg",
                                 "rear_housing_pitch_deg",
                                 "rear_pinion_angle_deg",
                                 "front_caster_deg",
                                 "front_instant_center_ahead[length]",
                                 "rear_instant_center_ahead[length]",
                                 "front_instant_center_height[length]",
                                 "rear_instant_center_height[length]"};
const CsvRecord kAntiColumns{"rear_anti_squat_pct", "front_anti_lift_drive_pct",
                             "front_anti_dive_pct", "rear_anti_lift_brake_pct"};
const CsvRecord kRollCenterColumns{"front_roll_center_height[length]",
                                   "rear_roll_center_height[length]"};
const CsvRecord kRollSteerColumns{"roll_axis_slope_deg", "front_roll_steer_deg_per_deg",
                                  "rear_roll_steer_deg_per_deg", "front_spring_length[length]",
                                  "rear_spring_length[length]"};
const CsvRecord kRideColumns{
    "front_spring_force[force]", "rear_spring_force[force]",       "front_wheel_rate[rate]",
    "rear_wheel_rate[rate]",     "front_ride_rate[rate]",          "rear_ride_rate[rate]",
    "front_ride_frequency_hz",   "rear_ride_frequency_hz",         "front_rest_frequency_hz",
    "rear_rest_frequency_hz",    "front_link_strain_force[force]", "rear_link_strain_force[force]"};
const CsvRecord kLastColumns{"driveshaft_length[length]",
                             "driveshaft_front_joint_deg",
                             "driveshaft_rear_joint_deg",
                             "driveshaft_speed_ripple_pct",
                             "steer_deg",
                             "front_opening_ahead[length]",
                             "rear_opening_ahead[length]",
                             "front_opening_up[length]",
                             "rear_opening_up[length]"};

const CsvRecord kSettleColumns{"load",
                               "total_mass[mass]",
                               "cg_x[length]",
                               "cg_y[length]",
                               "cg_height[length]",
                               "rake_deg",
                               "roll_deg",
                               "body_rise_front[length]",
                               "body_rise_rear[length]",
                               "travel_front_left[length]",
                               "travel_front_right[length]",
                               "travel_rear_left[length]",
                               "travel_rear_right[length]",
                               "wheel_load_front_left[force]",
                               "wheel_load_front_right[force]",
                               "wheel_load_rear_left[force]",
                               "wheel_load_rear_right[force]",
                               "wheelbase_left[length]",
                               "wheelbase_right[length]",
                               "front_opening_ahead[length]",
                               "rear_opening_ahead[length]",
                               "front_opening_up[length]",
                               "rear_opening_up[length]",
                               "front_ride_frequency_hz",
                               "rear_ride_frequency_hz",
                               "bounce_hz",
                               "pitch_hz",
                               "front_roll_stiffness[roll rate]",
                               "rear_roll_stiffness[roll rate]",
                               "roll_gradient_deg_per_g",
                               "height front arch lip left[length]",
                               "height rear arch lip left[length]",
                               "height sill front left[length]",
                               "height sill rear left[length]"};

CsvRecord Joined(const std::vector<CsvRecord>& parts, UnitSystem units) {
  CsvRecord all;
  for (const CsvRecord& part : parts) all.insert(all.end(), part.begin(), part.end());
  return WithUnits(all, units);
}

CsvRecord SweepColumns(UnitSystem units) {
  return Joined({kPositionColumns,
                 kAntiColumns,
                 kRollCenterColumns,
                 {"roll_axis_height[length]"},
                 kRollSteerColumns,
                 kRideColumns,
                 kLastColumns},
                units);
}

const std::vector<std::string> kShort{"--from", "0", "--to", "10 mm", "--step", "10 mm"};

// Where two headers part, in words; empty where they are the same.
std::string Difference(const CsvRecord& actual, const CsvRecord& expected) {
  for (size_t i = 0; i < std::max(actual.size(), expected.size()); ++i) {
    const std::string is = i < actual.size() ? actual[i] : "nothing";
    const std::string wanted = i < expected.size() ? expected[i] : "nothing";
    if (is != wanted) return "column " + std::to_string(i + 1) + ": " + is + ", not " + wanted;
  }
  return "";
}

CsvRecord HeaderOf(std::vector<std::string> arguments, const std::vector<std::string>& more) {
  arguments.insert(arguments.end(), more.begin(), more.end());
  return RunToSheet(arguments).header;
}

TEST(SweepHeader, IsThatOfTheDesignInMetric) {
  EXPECT_EQ(Difference(HeaderOf({"sweep", VehiclePath("harbour_van")}, kShort),
                       SweepColumns(UnitSystem::kMetric)),
            "");
}

TEST(SweepHeader, IsThatOfTheDesignInInches) {
  EXPECT_EQ(Difference(HeaderOf({"sweep", VehiclePath("harbour_van"), "--units", "inch"}, kShort),
                       SweepColumns(UnitSystem::kInch)),
            "");
}

TEST(SweepHeader, OfGeometryAloneLeavesOutWhatDependsOnLoad) {
  EXPECT_EQ(
      Difference(HeaderOf({"sweep", VehiclePath("bare_frame")}, kShort),
                 Joined({kPositionColumns, kRollCenterColumns, kRollSteerColumns, kLastColumns},
                        UnitSystem::kMetric)),
      "");
}

TEST(SweepHeader, NamesEachOfSeveralDriveshafts) {
  const Sheet sheet = RunToSheet({"sweep", VehiclePath("fire_patrol"), "--from", "0", "--to", "0"});
  for (const char* shaft : {"front", "rear"}) {
    for (const char* column :
         {"length_mm", "front_joint_deg", "rear_joint_deg", "speed_ripple_pct"}) {
      EXPECT_TRUE(sheet.Has(std::string(shaft) + "_driveshaft_" + column)) << shaft << column;
    }
  }
  EXPECT_FALSE(sheet.Has("driveshaft_length_mm"));
}

TEST(SweepHeader, GuardsADriveshaftNamedLikeAFormula) {
  const Folder folder;
  const std::string file = folder.Write(
      "shafts.yaml", "base: " + VehiclePath("harbour_van") +
                         "\nadd:\n"
                         "  driveshafts.=1+2: {output: [-1130, 0, 470], output_angle: -3.0, "
                         "axle: rear, joints: [single, single], slip: 55}\n");
  const Sheet sheet = RunToSheet({"sweep", file, "--from", "0", "--to", "0"});
  EXPECT_TRUE(sheet.Has("'=1+2_driveshaft_length_mm"));
  EXPECT_TRUE(sheet.Has("rear_driveshaft_length_mm"));
}

// A variant of the reference vehicle's sweep header, without some keys.
CsvRecord HeaderWithout(const std::string& removed) {
  const Folder folder;
  const std::string file = folder.Write(
      "less.yaml", "base: " + VehiclePath("harbour_van") + "\nremove: [" + removed + "]\n");
  return HeaderOf({"sweep", file}, kShort);
}

TEST(SweepHeader, LeavesOutWhatTheFileGivesNoDataFor) {
  const std::string removed =
      "axles.rear.pinion, axles.front.kingpin, axles.front.steering, axles.front.drive_share, "
      "axles.rear.brake_share, driveshafts, openings.rear";
  CsvRecord expected;
  for (const std::string& name : SweepColumns(UnitSystem::kMetric)) {
    const bool gone = name.starts_with("rear_pinion") || name.starts_with("front_caster") ||
                      name.starts_with("steer") || name.starts_with("front_anti_lift_drive") ||
                      name.starts_with("rear_anti_lift_brake") || name.starts_with("driveshaft") ||
                      name.starts_with("rear_opening");
    if (!gone) expected.push_back(name);
  }
  EXPECT_EQ(Difference(HeaderWithout(removed), expected), "");
}

TEST(SettleHeader, IsThatOfTheDesignInMetric) {
  EXPECT_EQ(Difference(HeaderOf({"settle", VehiclePath("harbour_van")}, {}),
                       WithUnits(kSettleColumns, UnitSystem::kMetric)),
            "");
}

TEST(SettleHeader, IsThatOfTheDesignInInches) {
  EXPECT_EQ(Difference(HeaderOf({"settle", VehiclePath("harbour_van"), "--units", "inch"}, {}),
                       WithUnits(kSettleColumns, UnitSystem::kInch)),
            "");
}

}  // namespace
}  // namespace linkwright::check
