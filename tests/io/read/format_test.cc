// SPDX-License-Identifier: MIT
// The format table itself: nothing in it may contradict the rest of the program.
#include "io/read/format.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstring>
#include <set>

#include "io/read/keys_of.h"
#include "solver/model/vehicle.h"
#include "tests/support/usual_aims.h"

namespace linkwright {
namespace {

// A struct of numbers, number by number.
template <typename Struct>
std::array<double, sizeof(Struct) / sizeof(double)> Numbers(const Struct& of) {
  std::array<double, sizeof(Struct) / sizeof(double)> numbers;
  static_assert(sizeof(numbers) == sizeof(of));
  std::memcpy(numbers.data(), static_cast<const void*>(&of), sizeof(of));
  return numbers;
}

// Each number of a table goes into a member, and none into another one's.
template <typename Struct>
void GoesIntoItsOwnMember() {
  std::set<std::size_t> taken;
  for (const BoundKey<Struct>& bound : KeysOf<Struct>().keys) {
    if (bound.key.kind != Kind::kNumber || !bound.take) continue;
    Struct into{};
    const auto before = Numbers(into);
    Node value;
    value.si = 12345.678;
    bound.take(&value, bound.key, into);
    const auto after = Numbers(into);
    std::size_t found = 0;
    for (std::size_t i = 0; i < after.size(); ++i) {
      if (after[i] != 12345.678 || before[i] == after[i]) continue;
      ++found;
      EXPECT_TRUE(taken.insert(i).second) << bound.key.name << " and another";
    }
    EXPECT_EQ(found, 1U) << bound.key.name;
  }
  EXPECT_FALSE(taken.empty());
}

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

TEST(KeysOf, BindNoTwoNumbersToOneMember) {
  GoesIntoItsOwnMember<Aims>();
  GoesIntoItsOwnMember<AArm>();
  GoesIntoItsOwnMember<Axle>();
  GoesIntoItsOwnMember<CenterBearing>();
  GoesIntoItsOwnMember<Damper>();
  GoesIntoItsOwnMember<Driveshaft>();
  GoesIntoItsOwnMember<Gap>();
  GoesIntoItsOwnMember<Kingpin>();
  GoesIntoItsOwnMember<LeafAims>();
  GoesIntoItsOwnMember<LeafOriginal>();
  GoesIntoItsOwnMember<LeafSpring>();
  GoesIntoItsOwnMember<LeafTolerances>();
  GoesIntoItsOwnMember<Ledger>();
  GoesIntoItsOwnMember<Link>();
  GoesIntoItsOwnMember<Mass>();
  GoesIntoItsOwnMember<Opening>();
  GoesIntoItsOwnMember<Pinion>();
  GoesIntoItsOwnMember<RadiusArm>();
  GoesIntoItsOwnMember<ShaftAims>();
  GoesIntoItsOwnMember<Spring>();
  GoesIntoItsOwnMember<SprungMass>();
  GoesIntoItsOwnMember<SteeringAims>();
  GoesIntoItsOwnMember<Stop>();
  GoesIntoItsOwnMember<Strap>();
  GoesIntoItsOwnMember<Tire>();
}

TEST(KeysOf, HasTheDefaultsThatTheDocumentsState) {
  Aims aims = sample::UsualAims();
  for (const BoundKey<Aims>& bound : KeysOf<Aims>().keys) {
    const auto usual = Numbers(aims);
    bound.take(nullptr, bound.key, aims);
    const auto read = Numbers(aims);
    for (std::size_t i = 0; i < read.size(); ++i) {
      if (std::memcmp(&usual[i], &read[i], sizeof(double)) == 0) continue;
      EXPECT_DOUBLE_EQ(read[i], usual[i]) << bound.key.name;
    }
  }
}

TEST(KeysOf, HasTheDefaultsOfTheModel) {
  EXPECT_DOUBLE_EQ(Build<Link>({}).rate, Link{}.rate);
  EXPECT_DOUBLE_EQ(Build<AArm>({}).rate, AArm{}.rate);
  EXPECT_DOUBLE_EQ(Build<RadiusArm>({}).frame_rate, RadiusArm{}.frame_rate);
  EXPECT_DOUBLE_EQ(Build<RadiusArm>({}).axle_rate, RadiusArm{}.axle_rate);
  EXPECT_DOUBLE_EQ(Build<WattsLink>({}).rate, WattsLink{}.rate);
  EXPECT_EQ(Build<WattsLink>({}).on_housing, WattsLink{}.on_housing);
  EXPECT_EQ(Build<LeafSpring>({}).hangs, LeafSpring{}.hangs);
  EXPECT_EQ(Build<CenterBearing>({}).joint, CenterBearing{}.joint);
  EXPECT_EQ(Driveshaft{}.output_joint, JointKind::kSingle);
  EXPECT_EQ(FindKey("driveshaft", "joints").default_text, "[single, single]");
  EXPECT_DOUBLE_EQ(DefaultOf("vehicle", "floor"), Vehicle{}.floor_z);
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
