// SPDX-License-Identifier: MIT
#include "solver/study/walk/walks.h"

#include <gtest/gtest.h>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

struct TestWalks : testing::Test {
  Vehicle van = sample::HarbourVan();
  Rig rig = PrepareRig(van);
};

TEST_F(TestWalks, AreWalkedOnce) {
  const Walks walks(rig, nullptr, Watch::kAll);
  const AxleWalk& all = Walked(walks, kRear, MotionKind::kRoll, 0, 1.0, Watch::kAll);
  EXPECT_EQ(&Walked(walks, kRear, MotionKind::kRoll, 3, 1.0, Watch::kRows), &all);
  (void)Walked(walks, kRear, MotionKind::kCrossed, 0, -1.0, Watch::kAll);
  EXPECT_EQ(walks.kept.size(), 2U);  // the crossing came from the roll
  // What watches less is walked anew once more is asked for.
  const Walks rows(rig, nullptr);
  const size_t few = Walked(rows, kRear, MotionKind::kBounce, 0, 1.0, Watch::kRows).hits.size();
  EXPECT_GT(Walked(rows, kRear, MotionKind::kBounce, 0, 1.0, Watch::kAll).hits.size(), few);
}

TEST_F(TestWalks, AWideWalkEndsRowsWhereANarrowOneDoes) {
  const Walks wide(rig, nullptr, Watch::kAll), narrow(rig, nullptr);
  for (const MotionKind motion : {MotionKind::kBounce, MotionKind::kRoll, MotionKind::kOneWheel}) {
    for (const double sign : {-1.0, 1.0}) {
      const auto end = [&](const Walks& walks) {
        const auto& hits = Walked(walks, kRear, motion, 2, sign, Watch::kRows).hits;
        const LimitHit* first = FirstEnd(hits, Watch::kRows, 1.0);
        return first != nullptr ? first->at : std::nullopt;
      };
      EXPECT_TRUE(end(wide));
      EXPECT_EQ(end(wide), end(narrow));
    }
  }
}

// The other road: the rear axle crossed by its own path.
TEST_F(TestWalks, ACrossingIsTheRollTheOtherWayRound) {
  const Walks walks(rig, nullptr);
  const MotionReach reach = ReachOf(van, MotionKind::kCrossed);
  const AxlePath path = PathOf(rig, walks.start, MotionKind::kCrossed);
  for (size_t axle = 0; axle < 2; ++axle) {
    const AxleWalk& kept = Walked(walks, axle, MotionKind::kCrossed, 0, -1.0, Watch::kAll);
    const AxleWalk own = WalkAxle(rig, axle, path, {.far = -reach.far, .step = reach.step});
    ASSERT_EQ(kept.places.size(), own.places.size());
    for (size_t i = 0; i < own.places.size(); ++i) {
      EXPECT_NEAR(kept.places[i].parameter, own.places[i].parameter, 1e-12);
      EXPECT_NEAR(kept.places[i].motion.pose.roll, own.places[i].motion.pose.roll, 1e-12);
      EXPECT_NEAR(kept.places[i].motion.pose.x, own.places[i].motion.pose.x, 1e-10);
    }
    ASSERT_EQ(kept.hits.size(), own.hits.size());
    for (size_t i = 0; i < own.hits.size(); ++i) {
      EXPECT_EQ(kept.hits[i].limit.id, own.hits[i].limit.id);
      ASSERT_EQ(kept.hits[i].at.has_value(), own.hits[i].at.has_value());
      if (own.hits[i].at) {
        EXPECT_NEAR(*kept.hits[i].at, *own.hits[i].at, 1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace linkwright
