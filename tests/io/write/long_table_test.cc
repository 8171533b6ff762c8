// SPDX-License-Identifier: MIT
#include "io/write/long_table.h"

#include <gtest/gtest.h>

namespace linkwright::check {
namespace {

const Column kCoil{"coil", "coil", Dimension::kNumber, "", ""};
const Column kLength{"length", "length", Dimension::kLength, "", ""};
const Column kRate{"rate", "rate", Dimension::kRate, "", ""};

TEST(LongTable, HasALineAValueUnderItsTableRowQuantityAndUnit) {
  const DataTable table = ToLongTable({{"coils",
                                        {.units = UnitSystem::kMetric,
                                         .columns = {kCoil, kLength, kRate},
                                         .rows = {{"front", 0.3, 26000.0}}}}});
  std::string names;
  for (const Column& column : table.columns) names += column.name + " ";
  EXPECT_EQ(names, "table row quantity unit value ");
  const std::vector<std::vector<Cell>> expected{{"coils", "front", "length", "mm", 300.0},
                                                {"coils", "front", "rate", "N/mm", 26.0}};
  EXPECT_EQ(table.rows, expected);
}

TEST(LongTable, ValuesKeepTheUnitsOfTheTableTheyCameFrom) {
  const DataTable inch{
      .units = UnitSystem::kInch, .columns = {kCoil, kLength}, .rows = {{"rear", 0.0254}}};
  const DataTable table = ToLongTable({{"coils", inch}});
  EXPECT_EQ(table.rows[0][3], Cell("in"));
  EXPECT_EQ(table.rows[0][4], Cell(1.0));
}

TEST(LongTable, KeepsTextAndAbsentValues) {
  const DataTable table =
      ToLongTable({{"axles",
                    {.units = UnitSystem::kMetric,
                     .columns = {kCoil, {"free", "", Dimension::kNumber, "", ""}, kRate},
                     .rows = {{"front", "none", std::monostate{}}}}}});
  EXPECT_EQ(table.rows[0][4], Cell("none"));
  EXPECT_EQ(table.rows[1][4], Cell(std::monostate{}));
}

TEST(LongTable, ARowWhoseFirstCellIsANumberIsNamedInItsUnit) {
  const DataTable table = ToLongTable({{"rows",
                                        {.units = UnitSystem::kMetric,
                                         .columns = {kLength, kRate},
                                         .rows = {{-0.0125, 1.0}, {-0.0, 1.0}}}}});
  EXPECT_EQ(table.rows[0][1], Cell("-12.5"));
  EXPECT_EQ(table.rows[1][1], Cell("0"));
}

}  // namespace
}  // namespace linkwright::check
