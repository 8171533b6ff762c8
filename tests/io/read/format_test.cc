// SPDX-License-Identifier: MIT
// The format table itself: nothing in it may contradict the rest of the program.
#include "io/read/format.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "solver/model/vehicle.h"

namespace linkwright {
namespace {

TEST(Format, NamesEachGroupAndKeyOnce) {
  std::set<std::string_view> groups;
  for (const Group& group : Format()) {
    EXPECT_TRUE(groups.insert(group.name).second) << group.name;
    std::set<std::string_view> keys;
    for (const Key& key : group.keys) EXPECT_TRUE(keys.insert(key.name).second) << key.name;
  }
}

TEST(Format, PointsOnlyToGroupsAndKeysThatAreThere) {
  std::set<std::string_view> used = {"vehicle", "variant"};
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      EXPECT_EQ(key.kind == Kind::kGroup, !key.group.empty()) << key.name;
      if (!key.group.empty()) used.insert(FindGroup(key.group).name);
    }
    for (const Rule& rule : group.rules) {
      EXPECT_GE(rule.keys.size(), 2U);
      for (const auto key : rule.keys) EXPECT_EQ(FindKey(group.name, key).name, key);
    }
  }
  EXPECT_EQ(used.size(), Format().size()) << "a group that no key leads to";
}

// YAML 1.1 readers take these bare words for true and false.
TEST(Format, HasNoKeyOrWordThatAReaderTakesForAFlag) {
  const std::set<std::string_view> flags = {"y", "n", "yes", "no", "on", "off", "true", "false"};
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      EXPECT_EQ(flags.count(key.name), 0U) << key.name;
      for (const auto word : key.words) EXPECT_EQ(flags.count(word), 0U) << word;
    }
  }
}

TEST(Format, ExplainsEachKeyInOneSentence) {
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      EXPECT_TRUE(key.meaning.ends_with('.')) << group.name << "." << key.name;
      EXPECT_EQ(key.meaning.find('|'), std::string_view::npos);  // would end a table's cell
      EXPECT_FALSE(key.required && !key.default_text.empty()) << key.name;
      const bool needs_words = key.kind == Kind::kWord || key.kind == Kind::kWords;
      EXPECT_TRUE(!needs_words || key.words.size() >= 2) << key.name;
    }
  }
}

TEST(Format, HasTheDefaultsOfTheModel) {
  EXPECT_DOUBLE_EQ(DefaultOf("link", "rate"), Link{}.rate);
  EXPECT_DOUBLE_EQ(DefaultOf("vehicle", "floor"), Vehicle{}.floor_z);
  EXPECT_DOUBLE_EQ(DefaultOf("kingpin", "inclination"), Kingpin{}.inclination);
  EXPECT_DOUBLE_EQ(DefaultOf("driveshaft", "phase"), Driveshaft{}.phase);
  EXPECT_EQ(Driveshaft{}.output_joint, JointKind::kSingle);
  EXPECT_EQ(FindKey("driveshaft", "joints").default_text, "[single, single]");
  EXPECT_DOUBLE_EQ(DefaultOf("spring", "shear_modulus"), 81.5e9);  // EN 13906-1
}

TEST(Format, HasARangeForEveryNumber) {
  for (const Group& group : Format()) {
    for (const Key& key : group.keys) {
      const Range range = RangeOf(key);
      EXPECT_TRUE(std::isfinite(range.low) && std::isfinite(range.high)) << key.name;
      EXPECT_LT(range.low, range.high) << key.name;
    }
  }
}

TEST(RangeText, IsInTheFilesUnits) {
  EXPECT_EQ(RangeText(FindKey("unsprung", "mass"), UnitSystem::kInch), "more than 0 lb");
  EXPECT_EQ(RangeText(FindKey("axle", "drive_share"), UnitSystem::kMetric), "0 to 1");
  EXPECT_EQ(RangeText(FindKey("damper", "bump"), UnitSystem::kMetric), "0 N*s/mm or more");
  EXPECT_EQ(RangeText(FindKey("vehicle", "floor"), UnitSystem::kMetric), "");
}

}  // namespace
}  // namespace linkwright
