// SPDX-License-Identifier: MIT
#include "io/write/table_of.h"

#include <gtest/gtest.h>

namespace linkwright {
namespace {

using enum Dimension;

struct Wheel {
  double load;
  std::optional<double> camber;
};

struct Side {
  std::string name;
  Wheel wheel;
  std::optional<Wheel> spare = {};
};

const TableOf<Wheel> kWheelColumns{
    {"load", "load", kForce, "on the floor", &Wheel::load},
    {"camber", "camber", kAngle, "top out +", &Wheel::camber, "dropped by AddPart"}};

TEST(TableOf, FillsEachColumnFromItsOwnGetterWhateverTheOrder) {
  const ColumnOf<Side> name{"name", "name", kNumber, "which", &Side::name};
  const ColumnOf<Side> load{"load", "load", kForce, "on the floor",
                            [](auto& side) { return side.wheel.load; }};
  const std::vector<Side> rows{{"left", {100.0, {}}}, {"right", {200.0, {}}}};
  const DataTable one = ToTable(TableOf<Side>{name, load}, rows, UnitSystem::kInch);
  const DataTable other = ToTable(TableOf<Side>{load, name}, rows, UnitSystem::kInch);
  EXPECT_EQ(one.units, UnitSystem::kInch);
  ASSERT_EQ(one.rows.size(), 2U);
  for (size_t row = 0; row < 2; ++row) {
    for (size_t column = 0; column < 2; ++column) {
      EXPECT_EQ(one.columns[column].name, other.columns[1 - column].name);
      EXPECT_EQ(one.rows[row][column], other.rows[row][1 - column]);
    }
    EXPECT_EQ(one.rows[row][0], Cell(rows[row].name));
    EXPECT_EQ(one.rows[row][1], Cell(rows[row].wheel.load));
  }
}

TEST(TableOf, LeavesACellEmptyForAnAbsentMember) {
  const std::vector<Wheel> rows{{100.0, std::nullopt}, {100.0, -0.01}};
  const DataTable table = ToTable(kWheelColumns, rows);
  EXPECT_EQ(table.rows[0][1], Cell());
  EXPECT_EQ(table.rows[1][1], Cell(-0.01));
}

TEST(TableOf, HasItsColumnsWithoutRowsForTheOutputReference) {
  const DataTable table = ToTable(kWheelColumns);
  EXPECT_TRUE(table.rows.empty());
  ASSERT_EQ(table.columns.size(), 2U);
  EXPECT_EQ(table.columns[1].name, "camber");
  EXPECT_EQ(table.columns[1].head, "camber");
  EXPECT_EQ(table.columns[1].dimension, kAngle);
  EXPECT_EQ(table.columns[1].definition, "top out +");
}

TEST(AddPart, NamesTheColumnsOfAPartAndTakesTheirValuesFromIt) {
  TableOf<Side> columns{{"name", "name", kNumber, "which", &Side::name}};
  AddPart(columns, kWheelColumns, &Side::wheel, "Wheel", "wheel_");
  const DataTable table = ToTable(columns, std::vector<Side>{{"left", {100.0, 0.02}}});
  ASSERT_EQ(table.columns.size(), 3U);
  EXPECT_EQ(table.columns[1].name, "wheel_load");
  EXPECT_EQ(table.columns[2].name, "wheel_camber");
  EXPECT_EQ(table.columns[2].group, "Wheel");
  EXPECT_EQ(table.rows[0], (std::vector<Cell>{"left", 100.0, 0.02}));
}

TEST(AddPart, LeavesTheColumnsOfAnAbsentPartEmpty) {
  TableOf<Side> columns;
  AddPart(columns, kWheelColumns, &Side::spare);
  const std::vector<Side> rows{{"left", {100.0, 0.02}}, {"right", {1.0, 2.0}, Wheel{3.0, 4.0}}};
  const DataTable table = ToTable(columns, rows);
  EXPECT_EQ(table.rows[0], (std::vector<Cell>{Cell(), Cell()}));
  EXPECT_EQ(table.rows[1], (std::vector<Cell>{3.0, 4.0}));
}

TEST(Less, IsAbsentWhereEitherIs) {
  EXPECT_EQ(Less(3.0, 1.0), 2.0);
  EXPECT_EQ(Less(std::nullopt, 1.0), std::nullopt);
  EXPECT_EQ(Less(3.0, std::nullopt), std::nullopt);
}

}  // namespace
}  // namespace linkwright
