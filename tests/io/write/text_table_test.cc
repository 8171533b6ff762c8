// SPDX-License-Identifier: MIT
#include "io/write/text_table.h"

#include <gtest/gtest.h>

#include <sstream>

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
                        .rows = {{-0.08, 1436.4, 0.01, 26721.0}, {0.0, 98.0, -0.02, 9.0e5}}};
  EXPECT_EQ(ToGroupedText(table),
            "Front\n"
            "  travel  coil force    rate\n"
            "      mm           N    N/mm\n"
            "   -80.0        1436   26.72\n"
            "     0.0          98  900.00\n"
            "\n"
            "Whole\n"
            "  travel  steer\n"
            "      mm    deg\n"
            "   -80.0   0.57\n"
            "     0.0  -1.15\n");
}

TEST(TitledText, WrapsALongHeadAndSetsItsUnitLowest) {
  const DataTable table{
      .units = UnitSystem::kMetric,
      .columns = {kTravel, {"h", "height of the roll centre", Dimension::kLength, "", ""}},
      .rows = {{0.0, 0.4837}}};
  EXPECT_EQ(ToTitledText("Front view", table),
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
  EXPECT_EQ(ToTitledText("T", table), "T\n  travel   x\n      mm  mm\n     0.0   -\n");
}

TEST(TitledText, NeverShowsAZeroWithASign) {
  const DataTable table{.units = UnitSystem::kMetric,
                        .columns = {kTravel, {"x", "x", Dimension::kAngle, "", ""}},
                        .rows = {{-0.00004, -1e-9}, {-0.00006, -1e-4}}};
  EXPECT_EQ(ToTitledText("T", table),
            "T\n"
            "  travel      x\n"
            "      mm    deg\n"
            "     0.0   0.00\n"
            "    -0.1  -0.01\n");
}

TEST(TitledText, ALengthInInchesAlsoStandsToTheNearestSixteenth) {
  constexpr double kInch = 0.0254;  // [m] exact
  const DataTable table{.units = UnitSystem::kInch,
                        .columns = {kTravel, {"m", "mass", Dimension::kMass, "", ""}},
                        .rows = {{13.49 * kInch, 100.0},
                                 {-0.4375 * kInch, 0.0},
                                 {0.03 * kInch, 0.0},
                                 {0.032 * kInch, 0.0},
                                 {-2.0 * kInch, 0.0}}};
  EXPECT_EQ(ToTitledText("T", table),
            "T\n"
            "          travel  mass\n"
            "              in    lb\n"
            "  13.49 (13 1/2)   220\n"
            "  -0.44  (-7/16)     0\n"
            "   0.03      (0)     0\n"
            "   0.03   (1/16)     0\n"
            "  -2.00     (-2)     0\n");
}

TEST(TitledText, InchesOfLongLengthsStillAlignTheirDecimals) {
  constexpr double kInch = 0.0254;  // [m] exact
  const DataTable table{.units = UnitSystem::kInch,
                        .columns = {{"w", "wheelbase", Dimension::kLength, "", ""}},
                        .rows = {{103.9375 * kInch}, {-104.6875 * kInch}, {9.5 * kInch}}};
  std::istringstream lines(ToTitledText("T", table));
  std::vector<size_t> points;
  for (std::string line; std::getline(lines, line);) {
    if (line.find('.') != std::string::npos) points.push_back(line.find('.'));
  }
  EXPECT_EQ(points, std::vector<size_t>(3, points.front())) << ToTitledText("T", table);
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
  EXPECT_EQ(ToTurnedText(Turned()),
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
       {ToTurnedText(table), ToTitledText("T", table), ToGroupedText(table)}) {
    EXPECT_EQ(text.find(" \n"), std::string::npos) << text;
  }
}

TEST(TextTables, DoNotDependOnTheLocale) {
  const std::string usual = ToTurnedText(Turned());
  const CommaLocale comma;
  EXPECT_EQ(ToTurnedText(Turned()), usual);
}

}  // namespace
}  // namespace linkwright::check
