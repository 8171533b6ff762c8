// SPDX-License-Identifier: MIT
#include "io/units.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <numbers>
#include <regex>
#include <string>
#include <vector>

namespace linkwright {
namespace {

using testing::ElementsAre;

constexpr UnitSystem kMetric = UnitSystem::kMetric;
constexpr UnitSystem kInch = UnitSystem::kInch;
constexpr double kRounding = 1e-15;  // [m] of a few metres: a few roundings of a double
constexpr double kExact = 1e-15;     // relative; a few roundings of a double

double Si(std::string_view text, Dimension dimension, UnitSystem system = kMetric) {
  const ParsedValue value = ParseValue(text, dimension, system);
  EXPECT_TRUE(value.si.has_value()) << text << ": " << value.error;
  EXPECT_EQ(value.error, "");
  return value.si.value_or(std::nan(""));
}

std::string Error(std::string_view text, Dimension dimension) {
  const ParsedValue value = ParseValue(text, dimension, kMetric);
  EXPECT_FALSE(value.si.has_value()) << text;
  return value.error;
}

#define EXPECT_SAME(actual, expected) EXPECT_NEAR(actual, expected, std::abs(expected) * kExact)

// NIST SP 811 (2008), appendix B.8: factors in bold are exact.
TEST(Units, FactorsAreThoseOfNistSp811) {
  EXPECT_SAME(Si("1 in", Dimension::kLength), 0.0254);
  EXPECT_SAME(Si("1 ft", Dimension::kLength), 0.3048);
  EXPECT_SAME(Si("1 lb", Dimension::kMass), 0.45359237);
  EXPECT_SAME(Si("1 lbf", Dimension::kForce), 4.4482216152605);
  EXPECT_SAME(Si("1 kgf", Dimension::kForce), 9.80665);
  EXPECT_SAME(Si("1 rpm", Dimension::kShaftSpeed), 2.0 * std::numbers::pi / 60.0);
}

// Products of the exact factors above, worked out to sixteen digits.
TEST(Units, DerivedFactorsFollowFromThem) {
  EXPECT_SAME(Si("1 lbf/in", Dimension::kRate), 175.12683524647636);
  EXPECT_SAME(Si("1 lbf*ft/rad", Dimension::kRollRate), 1.3558179483314004);
  EXPECT_SAME(Si("1 lbf*in/rad", Dimension::kRollRate), 0.1129848290276167);
  EXPECT_SAME(Si("1 psi", Dimension::kModulus), 6894.757293168361);
  EXPECT_SAME(Si("1 slug*ft2", Dimension::kInertia), 1.3558179483314004);
  EXPECT_SAME(Si("1 lbf*in*s2", Dimension::kInertia), 0.1129848290276167);
  // Printed to 13 digits.
  EXPECT_NEAR(Si("1 lb*in2", Dimension::kInertia), 2.926396534292e-4, 5e-17);
  EXPECT_SAME(Si("1 lb*ft2", Dimension::kInertia), 144.0 * Si("1 lb*in2", Dimension::kInertia));
}

TEST(Units, PlainNumbersTakeTheFilesUnit) {
  EXPECT_SAME(Si("345", Dimension::kLength, kMetric), 0.345);
  EXPECT_SAME(Si("13 1/2", Dimension::kLength, kInch), 0.3429);
  EXPECT_SAME(Si("26", Dimension::kRate, kMetric), 26000.0);
  EXPECT_SAME(Si("150", Dimension::kRate, kInch), 150.0 * 175.12683524647636);
  EXPECT_SAME(Si("2600", Dimension::kMass, kInch), 2600.0 * 0.45359237);
  EXPECT_SAME(Si("700", Dimension::kForce, kInch), 700.0 * 4.4482216152605);
  EXPECT_SAME(Si("180", Dimension::kAngle, kInch), std::numbers::pi);
  EXPECT_SAME(Si("210", Dimension::kRollRate), 210.0 * 180.0 / std::numbers::pi);
  EXPECT_SAME(Si("1.1", Dimension::kDamping), 1100.0);
  EXPECT_SAME(Si("81.5", Dimension::kModulus), 81.5e9);
  EXPECT_SAME(Si("2100", Dimension::kInertia), 2100.0);
  EXPECT_SAME(Si("0.5", Dimension::kLateral), 0.5 * 9.80665);
  EXPECT_SAME(Si("4.9 m/s2", Dimension::kLateral, kInch), 4.9);
  EXPECT_SAME(Si("0.64", Dimension::kNumber), 0.64);
}

TEST(Units, ThereAndBackIsTheSame) {
  for (int i = 0; i <= static_cast<int>(Dimension::kNumber); ++i) {
    for (const UnitSystem system : {kMetric, kInch}) {
      const auto dimension = static_cast<Dimension>(i);
      EXPECT_SAME(FromSi(ToSi(12.5, dimension, system), dimension, system), 12.5);
    }
  }
}

TEST(Units, ARoundAmountIsRoundInTheSystemItIsShownIn) {
  EXPECT_SAME(RoundAmount(20.0, 1.0, Dimension::kLength, kMetric), 0.02);
  EXPECT_SAME(RoundAmount(20.0, 1.0, Dimension::kLength, kInch), 0.0254);
}

struct Sample {
  std::string text;
  double inches;
};

TEST(Units, LengthsAreReadAsATapeShowsThem) {
  const Sample samples[] = {
      {"13 1/2 in", 13.5},
      {"13-1/2\"", 13.5},
      {"5' 3 1/4\"", 63.25},
      {"5'3\"", 63.0},
      {"5' 3 1/4", 63.25},
      {"1'-7 3/4\"", 19.75},
      {"104.5 in", 104.5},
      {"19-3/4\"", 19.75},
      {"18 13/16 in", 18.8125},
      {"7/16", 0.4375},
      {"-7/16", -0.4375},
      {"-13 1/2 in", -13.5},
      {"-5' 3\"", -63.0},
      {"+2", 2.0},
      {".5", 0.5},
      {"1e1", 10.0},
      {"6'", 72.0},
      {"6 ft", 72.0},
      {"5 ft 3 1/4 in", 63.25},
      {"5 feet 3 inches", 63.0},
      {"25.4 mm", 1.0},
      {"2.54cm", 1.0},
      {"0.0254 m", 1.0},
      {"  12 IN ", 12.0},
      {"0", 0.0},
      {"-0", 0.0},
      {"5\u2032 3 1/4\u2033", 63.25},
      {"13 1/2\u201d", 13.5},
      {"13\u00bd in", 13.5},
      {"13 \u00bc", 13.25},
      {"\u215e\"", 0.875},
      {"\u221213 1/2''", -13.5},
  };
  for (const Sample& sample : samples) {
    EXPECT_NEAR(Si(sample.text, Dimension::kLength, kInch), sample.inches * 0.0254, kRounding)
        << sample.text;
  }
}

TEST(Units, SignsBetweenUnitsMayBeLeftOut) {
  for (const char* text : {"1.1 N*s/mm", "1.1 N s/mm", "1.1 Ns/mm", "1.1 N-s/mm", "1.1 N.s/mm",
                           "1.1 N\u00b7s/mm", "1.1 n*s / mm", "1.1 N s per mm"}) {
    EXPECT_SAME(Si(text, Dimension::kDamping), 1100.0) << text;
  }
  for (const char* text : {"155 lbf*ft/deg", "155 lbf ft/deg", "155 ft-lb/deg", "155 ft lbf/deg"}) {
    EXPECT_SAME(Si(text, Dimension::kRollRate),
                155.0 * 1.3558179483314004 * 180.0 / std::numbers::pi)
        << text;
  }
  for (const char* text : {"10 kg m2", "10 kg*m2", "10 kgm2", "10 kg m^2", "10 kg\u00b7m\u00b2"}) {
    EXPECT_SAME(Si(text, Dimension::kInertia), 10.0) << text;
  }
  EXPECT_SAME(Si("3\u00b0", Dimension::kAngle), std::numbers::pi / 60.0);
  EXPECT_SAME(Si("3600 1/min", Dimension::kShaftSpeed), 120.0 * std::numbers::pi);
}

TEST(Units, PoundsAreMassOrForceAsWanted) {
  EXPECT_SAME(Si("10 lb", Dimension::kMass), 4.5359237);
  EXPECT_SAME(Si("10 lbs", Dimension::kForce), 44.482216152605);
  EXPECT_SAME(Si("150 lb/in", Dimension::kRate), 150.0 * 175.12683524647636);
  for (const char* rate :
       {"150 lbs/in", "150 #/in", "150 ppi", "150 pounds per inch", "150 lb/inch"}) {
    EXPECT_SAME(Si(rate, Dimension::kRate), 150.0 * 175.12683524647636) << rate;
  }
  EXPECT_SAME(Si("128 kgs", Dimension::kMass), 128.0);
  EXPECT_SAME(Si("100 #", Dimension::kMass), 45.359237);
  EXPECT_SAME(Si("6 lb*s/in", Dimension::kDamping), 6.0 * 175.12683524647636);
}

TEST(Units, PoundsPerInchAreNoDampingRate) {
  EXPECT_EQ(Error("150 lbs/in", Dimension::kDamping),
            "'150 lbs/in' is a spring rate; wanted: a damping rate such as 1.1, '1.1 N*s/mm' or "
            "'6.3 lbf*s/in'");
}

TEST(Units, ErrorsSayWhatIsWanted) {
  const std::string length = "; wanted: a length such as 345, '13 1/2 in' or '345 mm'";
  const auto error = [](std::string_view text) { return Error(text, Dimension::kLength); };
  EXPECT_EQ(error("26 N/mm"), "'26 N/mm' is a spring rate" + length);
  EXPECT_EQ(error("3 deg"), "'3 deg' is an angle" + length);
  EXPECT_EQ(error("abc"), "'abc' cannot be read as a number" + length);
  EXPECT_EQ(error(""), "'' is empty" + length);
  EXPECT_EQ(
      error("12 cubits"),
      "'12 cubits' carries an unknown unit 'cubits' (known here: mm, cm, m, in, ft)" + length);
  EXPECT_EQ(error("345,5"),
            "'345,5' has a comma: decimals take a point, thousands no mark" + length);
  EXPECT_EQ(error("5' 12\""),
            "'5' 12\"' wants whole feet and less than 12 inches after them" + length);
  EXPECT_EQ(error("5.5' 3\""),
            "'5.5' 3\"' wants whole feet and less than 12 inches after them" + length);
  EXPECT_EQ(Error("5' 3\"", Dimension::kMass),
            "'5' 3\"' is a length; wanted: a mass such as 128, '128 kg' or '282 lb'");
  EXPECT_EQ(Error("0.64 %", Dimension::kNumber),
            "'0.64 %' is a percentage; wanted: a plain number such as 0.64");
}

TEST(Units, WeightsInForceUnitsAreRefusedKindly) {
  EXPECT_EQ(Error("446 lbf", Dimension::kMass),
            "'446 lbf' is a force; a weight is given as the scale shows it, in kg or lb; wanted: a "
            "mass such as 128, '128 kg' or '282 lb'");
}

TEST(Units, OnlyFiniteNumbersAreRead) {
  for (const char* text :
       {".nan", "nan", ".inf", "-.inf", "inf", "infinity", "1e999", "1e308 m2", "1e308 km"}) {
    EXPECT_FALSE(ParseValue(text, Dimension::kLength, kMetric).si.has_value()) << text;
  }
  EXPECT_THAT(Error("-.inf", Dimension::kLength), testing::HasSubstr("is not a finite number"));
  EXPECT_THAT(Error("1e999", Dimension::kLength), testing::HasSubstr("is not a finite number"));
  EXPECT_THAT(Error("1e305 GPa", Dimension::kModulus), testing::HasSubstr("is not a finite"));
}

TEST(Units, HalfWrittenNumbersAreNoNumbers) {
  for (const char* text : {"13 1/", "1/0", "13 3/2", "--5", "5 -", "1.2.3", "3 4", "0x10", "1_000",
                           "'", "\"", "-", "3 ft2", "1/2/3", "5' 3' 2\"", "13 1/2 1/2"}) {
    EXPECT_FALSE(ParseValue(text, Dimension::kLength, kMetric).si.has_value()) << text;
  }
}

TEST(Units, LongTextsAreCutInErrors) {
  const std::string error = Error(std::string(1000, 'x'), Dimension::kLength);
  EXPECT_THAT(error, testing::StartsWith("'" + std::string(60, 'x') + "...' cannot be read"));
}

TEST(Units, DoNotDependOnTheLocale) {
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "C.UTF-8"}) {
    if (std::setlocale(LC_ALL, name) == nullptr) continue;
    EXPECT_SAME(Si("104.5 in", Dimension::kLength), 104.5 * 0.0254) << name;
    EXPECT_EQ(FormatValue(0.1045, Dimension::kLength, kMetric), "104.5 mm") << name;
  }
  std::setlocale(LC_ALL, before.c_str());
}

TEST(Units, SuffixesAreThoseOfTheColumns) {
  const auto suffix = [](Dimension dimension, UnitSystem system) {
    return std::string(UnitOf(dimension, system).suffix);
  };
  std::vector<std::string> metric;
  std::vector<std::string> inch;
  for (const Dimension dimension :
       {Dimension::kLength, Dimension::kMass, Dimension::kForce, Dimension::kRate,
        Dimension::kAngle, Dimension::kRollRate, Dimension::kFrequency, Dimension::kPercent,
        Dimension::kAngleRatio, Dimension::kRollGradient, Dimension::kNumber}) {
    metric.push_back(suffix(dimension, kMetric));
    inch.push_back(suffix(dimension, kInch));
  }
  EXPECT_THAT(metric, ElementsAre("_mm", "_kg", "_n", "_n_per_mm", "_deg", "_n_m_per_deg", "_hz",
                                  "_pct", "_deg_per_deg", "_deg_per_g", ""));
  EXPECT_THAT(inch, ElementsAre("_in", "_lb", "_lbf", "_lbf_per_in", "_deg", "_lbf_ft_per_deg",
                                "_hz", "_pct", "_deg_per_deg", "_deg_per_g", ""));
}

TEST(Units, AGradientOfOneDegreePerGIsOverStandardGravity) {
  EXPECT_SAME(ToSi(1.0, Dimension::kRollGradient, kMetric), std::numbers::pi / 180.0 / 9.80665);
}

TEST(FormatFraction, RoundsToTheNearest) {
  EXPECT_EQ(FormatFraction(0.3429), "13 1/2");
  EXPECT_EQ(FormatFraction(-0.0111125), "-7/16");
  EXPECT_EQ(FormatFraction(0.0), "0");
  EXPECT_EQ(FormatFraction(0.0254), "1");
  EXPECT_EQ(FormatFraction(-0.0254 * 2.75), "-2 3/4");
  EXPECT_EQ(FormatFraction(0.0254 / 32 * 0.99), "0");
  EXPECT_EQ(FormatFraction(0.0254 / 32 * 1.01), "1/16");
  EXPECT_EQ(FormatFraction(-0.0254 / 32 * 0.99), "0");
  EXPECT_EQ(FormatFraction(0.0254 * (1 - 1.0 / 64)), "1");
}

TEST(FormatValue, WritesNoMoreThanItMust) {
  EXPECT_EQ(FormatValue(0.359, Dimension::kLength, kMetric), "359 mm");
  EXPECT_EQ(FormatValue(0.359, Dimension::kLength, kInch), "14.1339 in");
  EXPECT_EQ(FormatValue(0.64, Dimension::kNumber, kInch), "0.64");
  EXPECT_EQ(FormatValue(-0.0, Dimension::kMass, kMetric), "0 kg");
}

// The pattern must draw the line where the parser draws it.
TEST(ValuePattern, TakesWhatTheParserTakes) {
  const std::vector<std::string> texts = {
      "345",        "13 1/2",      "13-1/2\"",      "5' 3 1/4\"", "5 ft 3 in", "1'-7 3/4\"",
      "7/16",       "-7/16",       "1e3",           "104.5 in",   "26 N/mm",   "150 lb/in",
      "150 lbs/in", "1.1 N s/mm",  "1.1 Ns/mm",     "3 deg",      "2 kg",      "446 lbf",
      "10 lb",      "210 N*m/deg", "155 ft-lb/deg", "10 kg m^2",  "81.5 GPa",  "11.5 Mpsi",
      "3600 rpm",   "3600 1/min",  "abc",           "12 cubits",  "345,5",     "",
      "1.2.3",      "3 4",         "13 1/",         "nan",        "mm",        "1 N per mm",
      "--5",        "3 ft2",       "5ft 3in",       "5'3",        "0x10",      "7 lb s/in"};
  for (int i = 0; i < static_cast<int>(Dimension::kFrequency); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    const std::regex pattern(ValuePattern(dimension), std::regex::ECMAScript);
    for (const std::string& text : texts) {
      EXPECT_EQ(std::regex_search(text, pattern),
                ParseValue(text, dimension, kMetric).si.has_value())
          << "'" << text << "' as " << DimensionName(dimension);
    }
  }
}

TEST(UnitSystems, HaveTheNamesOfTheFile) {
  EXPECT_EQ(ParseUnitSystem("metric"), kMetric);
  EXPECT_EQ(ParseUnitSystem("inch"), kInch);
  EXPECT_EQ(ParseUnitSystem("Metric"), std::nullopt);
  EXPECT_EQ(UnitSystemName(kInch), "inch");
  EXPECT_EQ(UnitSystemName(kMetric), "metric");
}

}  // namespace
}  // namespace linkwright
