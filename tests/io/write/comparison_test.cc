// SPDX-License-Identifier: MIT
#include "io/write/comparison.h"

#include <gtest/gtest.h>

namespace linkwright::check {
namespace {

const Column kTravel{"travel", "travel", Dimension::kLength, "", ""};
const Column kShift{"shift", "shift", Dimension::kLength, "", ""};
const Column kForce{"force", "force", Dimension::kForce, "", ""};

DataTable Table(std::vector<Column> columns, std::vector<std::vector<Cell>> rows) {
  return {.units = UnitSystem::kMetric, .columns = std::move(columns), .rows = std::move(rows)};
}

TEST(CompareTables, TheDifferenceIsSecondLessFirst) {
  const auto values = CompareTables(Table({kTravel, kShift}, {{0.01, 0.5}}),
                                    Table({kTravel, kShift}, {{0.01, 0.75}}));
  ASSERT_EQ(values.size(), 1U);
  EXPECT_EQ(values[0].column.name, "shift");
  EXPECT_EQ(values[0].row, Cell(0.01));
  EXPECT_EQ(values[0].first, 0.5);
  EXPECT_EQ(values[0].second, 0.75);
  EXPECT_EQ(values[0].difference, 0.25);
}

TEST(CompareTables, PairsColumnsByNameAndLeavesOutWhatOnlyOneHas) {
  const auto values = CompareTables(Table({kTravel, kShift, kForce}, {{0.0, 1.0, 2.0}}),
                                    Table({kTravel, kForce}, {{0.0, 5.0}}));
  ASSERT_EQ(values.size(), 1U);
  EXPECT_EQ(values[0].column.name, "force");
  EXPECT_EQ(values[0].difference, 3.0);
}

TEST(CompareTables, PairsTravelsToWithinAMicrometre) {
  const auto pairs = [](double travel) {
    return CompareTables(Table({kTravel, kShift}, {{0.01, 1.0}}),
                         Table({kTravel, kShift}, {{travel, 1.0}}))
        .size();
  };
  EXPECT_EQ(pairs(0.01 + 0.9e-6), 1U);
  EXPECT_EQ(pairs(0.01 - 0.9e-6), 1U);
  EXPECT_EQ(pairs(0.01 + 1.1e-6), 0U);
}

TEST(CompareTables, PairsLoadsByNameInTheOrderOfTheFirst) {
  const Column load{"load", "load", Dimension::kNumber, "", ""};
  const auto values =
      CompareTables(Table({load, kForce}, {{"empty", 1.0}, {"driver", 2.0}, {"crates", 3.0}}),
                    Table({load, kForce}, {{"driver", 20.0}, {"empty", 10.0}, {"bricks", 30.0}}));
  ASSERT_EQ(values.size(), 2U);
  EXPECT_EQ(values[0].row, Cell("empty"));
  EXPECT_EQ(values[0].second, 10.0);
  EXPECT_EQ(values[1].row, Cell("driver"));
  EXPECT_EQ(values[1].second, 20.0);
}

TEST(CompareTables, HasNoDifferenceWhereEitherValueIsAbsent) {
  const auto values =
      CompareTables(Table({kTravel, kShift}, {{0.0, std::monostate{}}, {1.0, 2.0}}),
                    Table({kTravel, kShift}, {{0.0, 1.0}, {1.0, std::monostate{}}}));
  ASSERT_EQ(values.size(), 2U);
  EXPECT_EQ(values[0].first, std::nullopt);
  EXPECT_EQ(values[0].second, 1.0);
  EXPECT_EQ(values[0].difference, std::nullopt);
  EXPECT_EQ(values[1].difference, std::nullopt);
}

TEST(ComparisonTable, GivesEachValueInItsUnitAndNamesTheUnit) {
  const std::vector<ComparedValue> values{
      {.row = 0.0254, .column = kShift, .first = 0.0254, .second = 0.0508, .difference = 0.0254},
      {.row = 0.0, .column = kForce, .first = std::nullopt, .second = 1.0, .difference = {}}};
  const DataTable table = ToComparisonTable("sweep", kTravel, values, UnitSystem::kInch);
  std::string names;
  for (const Column& column : table.columns) names += column.name + " ";
  EXPECT_EQ(names, "part row quantity unit first second difference ");
  ASSERT_EQ(table.rows.size(), 2U);
  const std::vector<Cell> shift{"sweep", 1.0, "shift", "in", 1.0, 2.0, 1.0};
  EXPECT_EQ(table.rows[0], shift);
  EXPECT_EQ(table.rows[1][3], Cell("lbf"));
  EXPECT_EQ(table.rows[1][4], Cell(std::monostate{}));
  EXPECT_DOUBLE_EQ(std::get<double>(table.rows[1][5]), 1.0 / 4.4482216152605);
}

}  // namespace
}  // namespace linkwright::check
