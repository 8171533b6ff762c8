// SPDX-License-Identifier: MIT
#include "io/write/csv.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/io/write/comma_locale.h"
#include "tests/io/write/read_csv.h"

namespace linkwright::check {
namespace {

// A table of one text column and one number column, with the given rows.
DataTable TextAndNumber(std::vector<std::vector<Cell>> rows, Dimension dimension,
                        UnitSystem units = UnitSystem::kMetric) {
  return {.units = units,
          .columns = {{"load", "load", Dimension::kNumber, "", ""},
                      {"shift", "shift", dimension, "", ""}},
          .rows = std::move(rows)};
}

// The text field of a one-row CSV, as it stands in the file.
std::string RawField(const std::string& text) {
  const std::string csv = ToCsv(TextAndNumber({{text, 0.0}}, Dimension::kNumber));
  const std::string head = "load,shift\r\n";
  return csv.substr(head.size(), csv.size() - head.size() - std::string(",0\r\n").size());
}

std::string RawNumber(double si, Dimension dimension, UnitSystem units = UnitSystem::kMetric) {
  return ReadSheet(ToCsv(TextAndNumber({{"a", si}}, dimension, units))).rows[0][1];
}

TEST(Csv, HasOneHeaderRowAndEndsEveryLineWithCarriageReturnAndLineFeed) {
  const DataTable table = TextAndNumber({{"empty", 0.0125}, {"driver", -2.5}}, Dimension::kLength);
  EXPECT_EQ(ToCsv(table), "load,shift_mm\r\nempty,12.5\r\ndriver,-2500\r\n");
}

TEST(Csv, WithoutRowsIsItsHeaderAlone) {
  EXPECT_EQ(ToCsv(TextAndNumber({}, Dimension::kForce)), "load,shift_n\r\n");
}

TEST(Csv, QuotesATextWithACommaAQuoteOrALineEndAndDoublesItsQuotes) {
  EXPECT_EQ(RawField("plain text; no quotes"), "plain text; no quotes");
  EXPECT_EQ(RawField("driver, crates"), "\"driver, crates\"");
  EXPECT_EQ(RawField("the \"big\" one"), "\"the \"\"big\"\" one\"");
  EXPECT_EQ(RawField("two\nlines"), "\"two\nlines\"");
  EXPECT_EQ(RawField("two\rlines"), "\"two\rlines\"");
  EXPECT_EQ(RawField("\""), "\"\"\"\"");
}

TEST(Csv, TextComesBackAsItWentIn) {
  for (const std::string text : {"a,b", "\"\"", "x\r\ny", "Kühler, \"außen\"", " blanks ", ""}) {
    const std::string csv = ToCsv(TextAndNumber({{text, 1.0}}, Dimension::kNumber));
    EXPECT_EQ(ReadSheet(csv).rows[0][0], text);
  }
}

TEST(Csv, TextThatASpreadsheetWouldRunAsAFormulaGetsAnApostropheBeforeIt) {
  EXPECT_EQ(RawField("=1+2"), "'=1+2");
  EXPECT_EQ(RawField("+49"), "'+49");
  EXPECT_EQ(RawField("-5"), "'-5");
  EXPECT_EQ(RawField("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(RawField("\t=1"), "'\t=1");
  EXPECT_EQ(RawField("\r=1"), "\"'\r=1\"");
  EXPECT_EQ(RawField("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
  EXPECT_EQ(RawField("a=1"), "a=1") << "a formula begins the field";
}

TEST(Csv, AHeaderMadeOfANameFromTheFileIsGuardedLikeAnyText) {
  DataTable table = TextAndNumber({}, Dimension::kLength);
  table.columns[1].name = "=cmd,\"x\"_driveshaft_length";
  EXPECT_EQ(ToCsv(table), "load,\"'=cmd,\"\"x\"\"_driveshaft_length_mm\"\r\n");
}

TEST(Csv, ANegativeNumberIsNoFormulaAndStaysANumber) {
  EXPECT_EQ(RawNumber(-0.0015, Dimension::kLength), "-1.5");
}

TEST(Csv, AnAbsentValueIsAnEmptyField) {
  const DataTable table =
      TextAndNumber({{"a", std::monostate{}}, {std::monostate{}, 1.0}}, Dimension::kNumber);
  EXPECT_EQ(ToCsv(table), "load,shift\r\na,\r\n,1\r\n");
}

TEST(Csv, NumbersKeepTwelveSignificantDigitsWhateverTheirSize) {
  // Half a unit of the twelfth digit; DESIGN.md wants nine digits at least.
  constexpr double kHalfDigit = 5e-12;
  for (const double exponent : {-9.0, -4.0, 0.0, 3.0, 8.0}) {
    const double value = std::numbers::pi * std::pow(10.0, exponent);
    const double read = ToNumber(RawNumber(value, Dimension::kNumber));
    EXPECT_NEAR(read / value, 1.0, kHalfDigit) << value;
  }
}

TEST(Csv, ZeroNeverHasASign) {
  EXPECT_EQ(RawNumber(-0.0, Dimension::kLength), "0");
  EXPECT_EQ(RawNumber(-0.0, Dimension::kAngle), "0");
}

TEST(Csv, NumbersStandInTheUnitsOfTheTableAndTheHeaderSaysWhich) {
  const DataTable metric = TextAndNumber({{"a", 0.0254}}, Dimension::kLength);
  const DataTable inch = TextAndNumber({{"a", 0.0254}}, Dimension::kLength, UnitSystem::kInch);
  EXPECT_EQ(ToCsv(metric), "load,shift_mm\r\na,25.4\r\n");
  EXPECT_EQ(ToCsv(inch), "load,shift_in\r\na,1\r\n");
}

TEST(Csv, DecimalsDoNotDependOnTheLocale) {
  const DataTable table = TextAndNumber({{"a", 12345.6789}}, Dimension::kNumber);
  const std::string usual = ToCsv(table);
  const CommaLocale comma;
  EXPECT_EQ(ToCsv(table), usual);
  EXPECT_EQ(usual, "load,shift\r\na,12345.6789\r\n");
}

TEST(ReadCsv, RefusesWhatIsNotTheStandard) {
  EXPECT_THROW((void)ReadCsv("a,b\n1,2\n"), std::runtime_error) << "bare line feeds";
  EXPECT_THROW((void)ReadCsv("a,b\r\n1,2"), std::runtime_error) << "no line end";
  EXPECT_THROW((void)ReadCsv("a,b\r\n1\r\n"), std::runtime_error) << "a field is missing";
  EXPECT_THROW((void)ReadCsv("a\r\nx\"y\r\n"), std::runtime_error) << "a bare quote";
  EXPECT_THROW((void)ReadCsv("a\r\n\"x\" \r\n"), std::runtime_error) << "text after a quote";
  EXPECT_THROW((void)ReadCsv("a\r\n\"x\r\n"), std::runtime_error) << "an open quote";
  EXPECT_THROW((void)ToNumber("1,5"), std::runtime_error);
  EXPECT_THROW((void)ToNumber(""), std::runtime_error);
}

}  // namespace
}  // namespace linkwright::check
