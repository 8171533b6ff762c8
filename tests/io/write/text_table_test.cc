// SPDX-License-Identifier: MIT
#include "io/write/text_table.h"

#include <gtest/gtest.h>

#include "io/write/wrap.h"
#include "tests/io/write/comma_locale.h"

namespace linkwright::check {
namespace {

const Column kTravel{"travel", "travel", Dimension::kLength, "", ""};

TEST(GroupedText, PrintsATableAGroupEachBeginningWithTheFirstColumn) {
  const DataTable table{.units = UnitSystem::kMetric,
                        .columns = {kTravel,
                                    {"a", "coil force", Dimension::kForce, "Front", ""},
                                    {"b", "steer", Dimension::kAngle, "Whole", ""},
                                    {"c", "rate", Dimension::kRate, "Front", ""}},
                        .rows = {{-0.08, 1436.4, 0.01, 26721.0},
                                 {0.0, 98.0, -0.02, 9.0e5},
                                 {0.01, 98.0, -0.02, 9.0e5},
                                 {0.02, 98.0, -0.02, 9.0e5}}};
  EXPECT_EQ(ToText("", table, kUsualWidth),
            "Front\n"
            "  travel  coil force    rate\n"
            "      mm           N    N/mm\n"
            "   -80.0        1436   26.72\n"
            "     0.0          98  900.00\n"
            "    10.0          98  900.00\n"
            "    20.0          98  900.00\n"
            "\n"
            "Whole\n"
            "  travel  steer\n"
            "      mm    deg\n"
            "   -80.0   0.57\n"
            "     0.0  -1.15\n"
            "    10.0  -1.15\n"
            "    20.0  -1.15\n");
}

TEST(TitledText, WrapsALongHeadAndSetsItsUnitLowest) {
  const DataTable table{
      .units = UnitSystem::kMetric,
      .columns = {kTravel, {"h", "height of the roll centre", Dimension::kLength, "", ""}},
      .rows = {{0.0, 0.4837}}};
  EXPECT_EQ(ToText("Front view", table, kUsualWidth),
            "Front view\n"
            "          height of\n"
            "           the roll\n"
            "  travel     centre\n"
            "      mm         mm\n"
            "     0.0      483.7\n");
}

TEST(TitledText, ShowsAnAbsentValueAsADash) {
  const DataTable table{.units = UnitSystem::kMetric,
                        .columns = {kTravel, {"x", "x", Dimension::kLength, "", ""}},
                        .rows = {{0.0, std::monostate{}}}};
  EXPECT_EQ(ToText("T", table, kUsualWidth), "T\n  travel   x\n      mm  mm\n     0.0   -\n");
}

TEST(TitledText, NeverShowsAZeroWithASign) {
  const DataTable table{.units = UnitSystem::kMetric,
                        .columns = {kTravel, {"x", "x", Dimension::kAngle, "", ""}},
                        .rows = {{-0.00004, -1e-9}, {-0.00006, -1e-4}}};
  EXPECT_EQ(ToText("T", table, kUsualWidth),
            "T\n"
            "  travel      x\n"
            "      mm    deg\n"
            "     0.0   0.00\n"
            "    -0.1  -0.01\n");
}

TEST(TitledText, ALengthInInchesStandsToTheNearestSixteenth) {
  constexpr double kInch = 0.0254;  // [m] exact
  const DataTable table{.units = UnitSystem::kInch,
                        .columns = {kTravel, {"m", "mass", Dimension::kMass, "", ""}},
                        .rows = {{13.49 * kInch, 100.0},
                                 {-0.4375 * kInch, 0.0},
                                 {0.03 * kInch, 0.0},
                                 {0.032 * kInch, 0.0},
                                 {-2.0 * kInch, 0.0}}};
  EXPECT_EQ(ToText("T", table, kUsualWidth),
            "T\n"
            "  travel  mass\n"
            "      in    lb\n"
            "  13 1/2   220\n"
            "   -7/16     0\n"
            "       0     0\n"
            "    1/16     0\n"
            "      -2     0\n");
}

// Numbers 0 to 3 in each of so many rows.
DataTable Wide(size_t rows) {
  DataTable table{.units = UnitSystem::kMetric, .columns = {kTravel}, .rows = {}};
  for (const char* head : {"one", "two", "three"}) {
    table.columns.push_back({head, head, Dimension::kNumber, "", ""});
  }
  table.rows.assign(rows, {0.01, 1.0, 2.0, 3.0});
  return table;
}

TEST(NarrowText, SplitsATableOfManyRowsItsFirstColumnRepeated) {
  const std::string text = ToText("T", Wide(4), 24);
  EXPECT_EQ(text.substr(0, text.find("10.0")), "T\n  travel    one    two\n      mm\n    ");
  EXPECT_NE(text.find("\nT, continued\n  travel  three\n"), std::string::npos) << text;
  EXPECT_LE(WidestLine(text), 24);
}

TEST(NarrowText, TurnsATableOfFewRowsAndSharesThemAmongParts) {
  const std::string text = ToText("T", Wide(3), 28);
  EXPECT_NE(text.find("T\n  travel  mm   10.0   10.0\n"), std::string::npos) << text;
  EXPECT_NE(text.find("\n\n  travel  mm   10.0\n"), std::string::npos) << text;
  EXPECT_LE(WidestLine(text), 28);
}

// Before a table is split its heads are made narrow, parted at hyphens too.
TEST(NarrowText, SetsItsHeadsWordByWordWhereThatMakesItFit) {
  DataTable table{.units = UnitSystem::kMetric,
                  .columns = {kTravel,
                              {"a", "anti-squat", Dimension::kPercent, "", ""},
                              {"b", "roll centre", Dimension::kLength, "", ""}},
                  .rows = {}};
  table.rows.assign(4, {0.01, 0.5, 0.4});
  const std::string text = ToText("T", table, 24);
  EXPECT_EQ(text.substr(0, text.find("10.0")),
            "T\n"
            "          anti-    roll\n"
            "  travel  squat  centre\n"
            "      mm      %      mm\n"
            "    ");
  EXPECT_EQ(text.find("continued"), std::string::npos);
  EXPECT_NE(ToText("T", table, 40).find("anti-squat  roll centre\n"), std::string::npos);
}

TEST(NarrowText, WordsBesideWordsThatDoNotFitAreSentences) {
  const DataTable table{.units = UnitSystem::kMetric,
                        .columns = {{"what", "what", Dimension::kNumber, "", ""},
                                    {"change", "change", Dimension::kNumber, "", ""}},
                        .rows = {{"rear arm", "5 mm ahead, 41 mm down"}, {"front arm", "gone"}}};
  EXPECT_EQ(ToText("T", table, 24),
            "T\n"
            "  rear arm: 5 mm ahead,\n"
            "    41 mm down\n"
            "  front arm: gone\n");
}

DataTable Turned() {
  return {.units = UnitSystem::kMetric,
          .columns = {{"load", "load", Dimension::kNumber, "", ""},
                      {"m", "total mass", Dimension::kMass, "Weight", ""},
                      {"k", "Kühlergrill", Dimension::kLength, "Heights", ""},
                      {"s", "sill", Dimension::kLength, "Heights", ""}},
          .rows = {{"leer", 1655.0, 0.8332, 0.4}, {"Säcke", 98.25, 0.79, std::monostate{}}}};
}

TEST(TurnedText, PutsALineAColumnUnderTheHeadingOfItsGroup) {
  EXPECT_EQ(ToText("", Turned(), kUsualWidth),
            "  load               leer  Säcke\n"
            "\n"
            "Weight\n"
            "  total mass   kg  1655.0   98.2\n"
            "\n"
            "Heights\n"
            "  Kühlergrill  mm   833.2  790.0\n"
            "  sill         mm   400.0      -\n")
      << "a letter of two bytes takes one place";
}

TEST(TextTables, LeaveNoBlankAtTheEndOfALine) {
  DataTable table = Turned();
  table.columns[0].head = "";
  for (const std::string& text :
       {ToText("", table, kUsualWidth), ToText("T", table, kUsualWidth)}) {
    EXPECT_EQ(text.find(" \n"), std::string::npos) << text;
  }
}

TEST(TextTables, DoNotDependOnTheLocale) {
  const std::string usual = ToText("", Turned(), kUsualWidth);
  const CommaLocale comma;
  EXPECT_EQ(ToText("", Turned(), kUsualWidth), usual);
}

}  // namespace
}  // namespace linkwright::check
