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

TEST(SideBySide, PutsFirstSecondAndDifferenceOfEachColumnBesideOneAnother) {
  const DataTable table = SideBySide(Table({kTravel, kShift, kForce}, {{-0.01, 1.0, 7.0}}),
                                     Table({kTravel, kShift}, {{-0.01, 3.0}}));
  std::string names;
  for (const Column& column : table.columns) {
    names += NameWithUnit(column, UnitSystem::kMetric) + " ";
  }
  EXPECT_EQ(names, "travel_mm shift_first_mm shift_second_mm shift_difference_mm ");
  const std::vector<Cell> row{-0.01, 1.0, 3.0, 2.0};
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_EQ(table.rows[0], row);
}

TEST(SideBySide, HasTheTravelsOfEitherAscendingAndNoDifferenceWhereOneHasNone) {
  const DataTable table = SideBySide(Table({kTravel, kShift}, {{-0.02, 1.0}, {0.01, 2.0}}),
                                     Table({kTravel, kShift}, {{0.0, 5.0}, {0.01, 6.0}}));
  ASSERT_EQ(table.rows.size(), 3U);
  const Cell none;
  EXPECT_EQ(table.rows[0], (std::vector<Cell>{-0.02, 1.0, none, none}));
  EXPECT_EQ(table.rows[1], (std::vector<Cell>{0.0, none, 5.0, none}));
  EXPECT_EQ(table.rows[2], (std::vector<Cell>{0.01, 2.0, 6.0, 4.0}));
}

TEST(SideBySide, HasTheLoadsThatBothHave) {
  const Column load{"load", "load", Dimension::kNumber, "", ""};
  const DataTable table = SideBySide(Table({load, kForce}, {{"empty", 1.0}, {"crates", 3.0}}),
                                     Table({load, kForce}, {{"bricks", 30.0}, {"empty", 10.0}}));
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_EQ(table.rows[0], (std::vector<Cell>{"empty", 1.0, 10.0, 9.0}));
}

TEST(CompareEnds, TakesEachColumnAtItsOwnEndsAndAtRest) {
  const Cell none;
  const auto ends =
      CompareEnds(Table({kTravel, kShift},
                        {{-0.03, none}, {-0.02, 1.0}, {0.0, 2.0}, {0.01, 3.0}, {0.02, none}}),
                  Table({kTravel, kShift}, {{-0.03, 7.0}, {-0.02, 8.0}, {0.0, 9.0}}));
  ASSERT_EQ(ends.size(), 1U);
  EXPECT_EQ(ends[0].first, (std::array<std::optional<double>, 3>{1.0, 2.0, 3.0}));
  EXPECT_EQ(ends[0].second, (std::array<std::optional<double>, 3>{7.0, 9.0, std::nullopt}));
}

}  // namespace
}  // namespace linkwright::check
