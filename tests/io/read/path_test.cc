// SPDX-License-Identifier: MIT
#include "io/read/path.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "io/read/report.h"

namespace linkwright {
namespace {

using testing::ElementsAre;

Node Sample() {
  Report report{{{"a.yaml", {}}}, {}};
  return ParseDocument(
             "links: {upper arm: {frame: [1, 2, 3]}, upper: {arm: 4}}\n"
             "added: [{item: 'tank, full', mass: 5}, {item: seat, mass: 6}, {item: seat, mass: "
             "7}]\n"
             "marks: {sill 2.5: 8, sill 2: 9, 'a[b]': 10}\n",
             "a.yaml", report)
      .value();
}

std::string TextAtPath(std::string_view path) {
  Node root = Sample();
  const PathResult at = FollowPath(root, path);
  return at.missing.empty() ? at.node->text : "missing " + at.missing;
}

TEST(FollowPath, GoesByKeysWithBlanksInThem) {
  EXPECT_EQ(TextAtPath("links.upper.arm"), "4");
  EXPECT_EQ(TextAtPath("links.upper arm.frame[2]"), "2");
}

TEST(FollowPath, TakesTheLongestKeyThatFits) {
  EXPECT_EQ(TextAtPath("marks.sill 2.5"), "8");
  EXPECT_EQ(TextAtPath("marks.sill 2"), "9");
  EXPECT_EQ(TextAtPath("marks.a[b]"), "10");
}

TEST(FollowPath, TakesKeysInQuotes) {
  EXPECT_EQ(TextAtPath("marks.\"sill 2.5\""), "8");
  EXPECT_EQ(TextAtPath("\"links\".\"upper arm\".frame[1]"), "1");
}

TEST(FollowPath, FindsItemsByNumberAndByName) {
  EXPECT_EQ(TextAtPath("added[1].mass"), "5");
  EXPECT_EQ(TextAtPath("added.tank, full.mass"), "5");
  EXPECT_EQ(TextAtPath("added[3].mass"), "7");
}

TEST(FollowPath, DoesNotChooseBetweenTwoItemsOfOneName) {
  Node root = Sample();
  const PathResult at = FollowPath(root, "added.seat.mass");
  EXPECT_TRUE(at.ambiguous);
  EXPECT_EQ(at.missing, ".seat.mass");
}

TEST(FollowPath, SaysHowFarItCame) {
  Node root = Sample();
  const PathResult at = FollowPath(root, "links.upper arm.frame[4].x");
  EXPECT_EQ(at.found, "links.upper arm.frame");
  EXPECT_EQ(at.missing, "[4].x");
  EXPECT_EQ(at.node->items.size(), 3U);
  EXPECT_THAT(at.steps, ElementsAre(0, 0, 0));
}

TEST(FollowPath, StopsAtWhatIsNoPath) {
  for (const char* path : {"links..upper", "added[0].mass", "added[x]", "added[1", "added[-1]",
                           "links[1]", "links.\"upper", "links.", ".", "[1]", "links.upper arm."}) {
    EXPECT_THAT(TextAtPath(path), testing::StartsWith("missing ")) << path;
  }
}

TEST(FirstStep, TakesTheFirstKeyOff) {
  EXPECT_EQ(FirstStep(".upper arm.frame").name, "upper arm");
  EXPECT_EQ(FirstStep(".upper arm.frame").after, ".frame");
  EXPECT_EQ(FirstStep("[2].at").name, "[2]");
  EXPECT_EQ(FirstStep("[2].at").after, ".at");
  EXPECT_EQ(FirstStep(".frame[2]").name, "frame");
  EXPECT_EQ(FirstStep(".\"no. 2 sill\"").name, "no. 2 sill");
  EXPECT_EQ(FirstStep(".\"no. 2 sill\"").after, "");
  EXPECT_EQ(FirstStep(".last").after, "");
}

TEST(StepNames, AreKeysOrItemNames) {
  const Node root = Sample();
  EXPECT_THAT(StepNames(root), ElementsAre("links", "added", "marks"));
  EXPECT_THAT(StepNames(*Find(root, "added")), ElementsAre("tank, full", "seat", "seat"));
}

}  // namespace
}  // namespace linkwright
