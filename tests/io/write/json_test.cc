// SPDX-License-Identifier: MIT
#include "io/write/json.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/io/write/comma_locale.h"

namespace linkwright::check {
namespace {

using Json = nlohmann::json;

Document Sample(UnitSystem units = UnitSystem::kMetric) {
  return {.command = "settle",
          .file = "van.yaml",
          .title = "Harbour van",
          .answer = {},
          .tables = {{"stances",
                      {.units = units,
                       .columns = {{"load", "load", Dimension::kNumber, "", "name of the load"},
                                   {"rise", "rise", Dimension::kLength, "", "+ up"},
                                   {"gradient", "gradient", Dimension::kRollGradient, "", "roll"}},
                       .rows = {{"empty", 0.0254, std::monostate{}}, {"driver", -0.0, 0.0}}}}},
          .notes = {"empty: no stop touches", "assumed: an index of 1"}};
}

TEST(Json, SaysWhatWasAsked) {
  const Json json = Json::parse(ToJson(Sample()));
  EXPECT_EQ(json.at("program"), "linkwright");
  EXPECT_EQ(json.at("command"), "settle");
  EXPECT_EQ(json.at("file"), "van.yaml");
  EXPECT_EQ(json.at("title"), "Harbour van");
  EXPECT_EQ(json.at("notes"), Json({"empty: no stop touches", "assumed: an index of 1"}));
}

TEST(Json, GivesEveryColumnItsUnitAndDefinitionInTheOrderOfTheTable) {
  const Json columns = Json::parse(ToJson(Sample())).at("stances").at("columns");
  const Json expected = Json::parse(R"([
    {"name": "load", "quantity": "load", "unit": "", "definition": "name of the load"},
    {"name": "rise_mm", "quantity": "rise", "unit": "mm", "definition": "+ up"},
    {"name": "gradient_deg_per_g", "quantity": "gradient", "unit": "deg/g",
     "definition": "roll"}])");
  EXPECT_EQ(columns, expected);
}

TEST(Json, AnAbsentValueIsNullAndANumberIsANumber) {
  const Json rows = Json::parse(ToJson(Sample())).at("stances").at("rows");
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_TRUE(rows[0].at("gradient_deg_per_g").is_null());
  EXPECT_DOUBLE_EQ(rows[0].at("rise_mm").get<double>(), 25.4);
  EXPECT_EQ(rows[1].at("load"), "driver");
}

TEST(Json, NumbersStandInTheUnitsOfTheTable) {
  const Json inch = Json::parse(ToJson(Sample(UnitSystem::kInch))).at("stances");
  EXPECT_EQ(inch.at("units"), "inch");
  EXPECT_DOUBLE_EQ(inch.at("rows")[0].at("rise_in").get<double>(), 1.0);
}

TEST(Json, ZeroNeverHasASign) { EXPECT_EQ(ToJson(Sample()).find("-0"), std::string::npos); }

TEST(Json, KeysStandInTheOrderOfTheColumns) {
  const auto json = nlohmann::ordered_json::parse(ToJson(Sample()));
  std::string keys;
  for (const auto& [key, value] : json.at("stances").at("rows")[0].items()) keys += key + " ";
  EXPECT_EQ(keys, "load rise_mm gradient_deg_per_g ");
}

TEST(Json, TextThatIsNotUtf8DoesNotStopTheWriter) {
  Document document = Sample();
  document.file = "van-\xFF\xC3.yaml";
  document.tables[0].table.rows[0][0] = std::string("caf\xE9");
  document.notes.emplace_back("\xF0\x28");
  const Json json = Json::parse(ToJson(document));
  EXPECT_EQ(json.at("stances").at("rows")[0].at("load"), "caf\xEF\xBF\xBD") << "U+FFFD";
  EXPECT_EQ(json.at("title"), "Harbour van") << "what is UTF-8 stays as it was";
}

TEST(Json, QuotesControlCharactersAndOtherAlphabetsComeBackAsTheyWere) {
  Document document = Sample();
  const std::string title = "the \"van\" \\ Kühler\t\x01 \xE6\xBC\xA2";
  document.title = title;
  EXPECT_EQ(Json::parse(ToJson(document)).at("title"), title);
}

TEST(Json, DoesNotDependOnTheLocale) {
  Document document = Sample();
  document.tables[0].table.rows[0][1] = 12.3456789;
  const std::string usual = ToJson(document);
  const CommaLocale comma;
  EXPECT_EQ(ToJson(document), usual);
}

TEST(Json, EndsWithALineFeed) { EXPECT_EQ(ToJson(Sample()).back(), '\n'); }

}  // namespace
}  // namespace linkwright::check
