// SPDX-License-Identifier: MIT
#include "io/read/document.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

namespace linkwright {
namespace {

using testing::ElementsAre;

struct Parsed {
  std::optional<Node> root;
  std::vector<std::string> errors;  // "line:column text"
};

Parsed Parse(const std::string& text) {
  Report report;
  report.sources.push_back({"a.yaml", {}});
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) report.sources[0].lines.push_back(line);
  Parsed parsed{ParseDocument(text, "a.yaml", report), {}};
  for (const InputError& error : report.errors) {
    parsed.errors.push_back(std::to_string(error.place.line) + ":" +
                            std::to_string(error.place.column) + " " + ErrorText(error));
  }
  return parsed;
}

Node ParseWell(const std::string& text) {
  Parsed parsed = Parse(text);
  EXPECT_THAT(parsed.errors, ElementsAre());
  return parsed.root.value_or(Node{});
}

std::string PlaceText(const Place& place) {
  return place.file + ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
}

TEST(Document, KeepsTextPlaceAndQuotes) {
  const Node root = ParseWell("title: Van\nunits: 'metric'\nfloor: 12 mm # note\n");
  ASSERT_EQ(root.kind, NodeKind::kMap);
  ASSERT_EQ(root.entries.size(), 3U);
  EXPECT_EQ(root.entries[1].key, "units");
  EXPECT_EQ(PlaceText(root.entries[1].key_place), "a.yaml:2:1");
  const Node& units = *Find(root, "units");
  EXPECT_EQ(units.kind, NodeKind::kScalar);
  EXPECT_EQ(units.text, "metric");
  EXPECT_TRUE(units.quoted);
  EXPECT_EQ(PlaceText(units.place), "a.yaml:2:8");
  EXPECT_EQ(Find(root, "floor")->text, "12 mm");
  EXPECT_FALSE(Find(root, "floor")->quoted);
  EXPECT_EQ(Find(root, "nothing"), nullptr);
}

TEST(Document, KeepsTheOrderOfKeysAndItems) {
  const Node root = ParseWell("b: [3, 1, 2]\na: {z: 1, y: 2}\n");
  EXPECT_EQ(root.entries[0].key, "b");
  EXPECT_EQ(root.entries[1].key, "a");
  EXPECT_EQ(root.entries[0].value.items[2].text, "2");
  EXPECT_EQ(PlaceText(root.entries[0].value.items[2].place), "a.yaml:1:11");
  EXPECT_EQ(root.entries[1].value.entries[0].key, "z");
}

TEST(Document, CountsColumnsInCharacters) {
  const Node root = ParseWell("\u00e9\u00fc: [\u2713, x]\n");
  EXPECT_EQ(PlaceText(root.entries[0].value.place), "a.yaml:1:5");
  EXPECT_EQ(PlaceText(root.entries[0].value.items[1].place), "a.yaml:1:9");
}

TEST(Document, PutsAMissingValueAtItsKey) {
  const Node root = ParseWell("a:\n\n\nb: ~\n");
  EXPECT_EQ(root.entries[0].value.kind, NodeKind::kNull);
  EXPECT_EQ(PlaceText(root.entries[0].value.place), "a.yaml:1:1");
  EXPECT_EQ(root.entries[1].value.kind, NodeKind::kNull);
}

TEST(Document, RepeatsAnAnchorWhereItsAliasStands) {
  const Node root = ParseWell("a: &p {x: 1}\nb: *p\n");
  const Node& alias = root.entries[1].value;
  EXPECT_EQ(PlaceText(alias.place), "a.yaml:2:4");
  EXPECT_EQ(PlaceText(Find(alias, "x")->place), "a.yaml:1:11");
}

TEST(Document, TakesTheRestOfATextAfterACommaInBraces) {
  const Node root = ParseWell("- {item: doors, glass , and trim, mass: 3}\n- {a: x, b: }\n");
  ASSERT_EQ(root.items[0].entries.size(), 2U);
  EXPECT_EQ(root.items[0].entries[0].value.text, "doors, glass, and trim");
  EXPECT_EQ(root.items[0].entries[1].key, "mass");
  ASSERT_EQ(root.items[1].entries.size(), 2U);  // a key with a colon is a key
  EXPECT_EQ(root.items[1].entries[1].value.kind, NodeKind::kNull);
}

TEST(Document, LeavesAKeyWithoutColonWhereThereIsNoTextBefore) {
  const Node root = ParseWell("{a, b: 'x', c, d: [1], e}\n");
  std::vector<std::string> keys;
  for (const Entry& entry : root.entries) keys.push_back(entry.key);
  EXPECT_THAT(keys, ElementsAre("a", "b", "c", "d", "e"));
}

TEST(Document, ReportsAKeyGivenTwiceWithBothLines) {
  const Parsed parsed = Parse("a:\n  k: 1\n  l: 2\n  k: 3\n  k: 4\n");
  EXPECT_THAT(parsed.errors,
              ElementsAre("4:3 a.k: this key is given twice, lines 2 and 4; keep one",
                          "5:3 a.k: this key is given twice, lines 2 and 5; keep one"));
  EXPECT_EQ(parsed.root->entries[0].value.entries[0].value.text, "1");
}

TEST(Document, SaysWhereInAListAnErrorIs) {
  EXPECT_THAT(Parse("a: [{k: 1}, {k: 1, k: 2}]\n").errors,
              ElementsAre("1:20 a[2].k: this key is given twice on line 1, columns 14 and 20; keep "
                          "one"));
}

TEST(Document, RefusesWhatIsEmptyOrDouble) {
  EXPECT_THAT(Parse("").errors,
              ElementsAre("1:1 the file is empty; a vehicle file begins with 'title:'"));
  EXPECT_THAT(Parse("---\n").errors,
              ElementsAre("1:1 the file is empty; a vehicle file begins with 'title:'"));
  EXPECT_THAT(Parse("--- {a: 1}\n--- {a: 2}\n").errors,
              ElementsAre("2:1 a second document begins here; a file holds one vehicle"));
  EXPECT_THAT(ParseWell("---\na: 1\n...\n").entries.size(), 1U);
}

TEST(Document, RefusesKeysThatAreNoWords) {
  EXPECT_THAT(Parse("{[1]: 2}\n").errors,
              ElementsAre("1:2 ?: a key is a word; a list or map cannot be one"));
  EXPECT_THAT(Parse("'': 2\n").errors, ElementsAre("1:1 a key cannot be empty"));
  EXPECT_THAT(Parse("\"a\\nb\": 2\n").errors, ElementsAre("1:1 a b: a key stands on one line"));
}

TEST(Document, TakesAQuotedMergeKeyForAName) {
  EXPECT_EQ(ParseWell("'<<': 1\n").entries[0].key, "<<");
}

TEST(Document, FindsAQuoteLeftOpenEvenAtTheEndOfTheFile) {
  for (const char* text : {"a: 'x\n", "a: \"x\n", "a: \"x\\\"\n", "a: 'x''\n"}) {
    EXPECT_THAT(Parse(text).errors, ElementsAre("1:4 a: a quote is opened here and never closed"))
        << text;
  }
  EXPECT_EQ(ParseWell("a: 'it''s'\n").entries[0].value.text, "it's");
  EXPECT_EQ(ParseWell("a: \"5' 3\\\"\"\n").entries[0].value.text, "5' 3\"");
}

TEST(Document, StopsAtItsLimits) {
  std::string deep = "a: ";
  for (int i = 0; i < 31; ++i) deep += '[';
  std::string closed = deep;
  for (int i = 0; i < 31; ++i) closed += ']';
  EXPECT_THAT(Parse(closed).errors, ElementsAre());
  EXPECT_THAT(Parse(deep + "[" + closed.substr(deep.size()) + "]").errors,
              ElementsAre("1:35 lists and maps stand more than 32 deep in each other here"));
}

}  // namespace
}  // namespace linkwright
