// SPDX-License-Identifier: MIT
#include "solver/study/walk/grid.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

std::vector<double> Millimetres(const std::vector<double>& grid) {
  std::vector<double> mm;
  for (double t : grid) mm.push_back(std::round(1e9 * t) / 1e6);
  return mm;
}

GridOptions Options(std::optional<double> from, std::optional<double> to, double step) {
  return {.from = from, .to = to, .step = step};
}

TEST(Grid, AskedForIsWhatItSays) {
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.03, Options(-0.02, 0.03, 0.01))),
            (std::vector<double>{-20, -10, 0, 10, 20, 30}));
}

TEST(Grid, AlwaysHasZero) {
  EXPECT_EQ(Millimetres(Grid(-0.015, 0.025, Options(-0.015, 0.025, 0.01))),
            (std::vector<double>{-15, -5, 0, 5, 15, 25}));
  EXPECT_EQ(Millimetres(Grid(0.02, 0.04, Options(0.02, 0.04, 0.01))),
            (std::vector<double>{0, 20, 30, 40}));
  EXPECT_EQ(Millimetres(Grid(-0.04, -0.03, Options(-0.04, -0.03, 0.01))),
            (std::vector<double>{-40, -30, 0}));
}

// Thirds of a millimetre do not add up to zero exactly; the row is at 0 all the same, and once.
TEST(Grid, ZeroIsExactAndOnce) {
  for (const double step : {0.001 / 3.0, 0.0127, 0.007}) {
    const std::vector<double> grid =
        Grid(-30.0 * step, 30.0 * step, Options(-30.0 * step, 30.0 * step, step));
    EXPECT_EQ(std::count(grid.begin(), grid.end(), 0.0), 1);
    EXPECT_EQ(grid.size(), 61u);
  }
}

TEST(Grid, StopsShortOfAnEndItDoesNotMeet) {
  EXPECT_EQ(Millimetres(Grid(0.0, 0.025, Options(0.0, 0.025, 0.01))),
            (std::vector<double>{0, 10, 20}));
}

TEST(Grid, UnaskedRunsInMultiplesToTheEndsThemselves) {
  EXPECT_EQ(Millimetres(Grid(-0.0234, 0.0171, Options({}, {}, 0.01))),
            (std::vector<double>{-23.4, -20, -10, 0, 10, 17.1}));
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.01, Options({}, {}, 0.01))),
            (std::vector<double>{-20, -10, 0, 10}));
}

TEST(Grid, OneEndAskedForTheOtherNot) {
  EXPECT_EQ(Millimetres(Grid(-0.02, 0.0171, Options(-0.02, {}, 0.01))),
            (std::vector<double>{-20, -10, 0, 10, 17.1}));
  EXPECT_EQ(Millimetres(Grid(-0.0234, 0.01, Options({}, 0.01, 0.01))),
            (std::vector<double>{-23.4, -20, -10, 0, 10}));
}

// Rows at the very ends of both axles, on a vehicle whose axles end apart, wherever its stance is.
TEST(WalkToEnds, TakesEachAxleToItsOwnEnd) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  for (const MotionKind motion : {MotionKind::kBounce, MotionKind::kCrossed}) {
    for (const double datum : {0.0, 1e-3}) {
      Walks walks(rig, nullptr);
      walks.start = {datum, datum};
      const GridWalk walked = WalkToEnds(walks, motion, 0, Options({}, {}, 0.01));
      const auto end = [&](size_t axle) { return *walked.high[axle].end->at; };
      EXPECT_GT(std::abs(end(0) - end(1)), 1e-3);
      EXPECT_EQ(walked.grid.back(), std::max(end(0), end(1)));
      EXPECT_EQ(walked.grid.front(), std::min(*walked.low[0].end->at, *walked.low[1].end->at));
      for (size_t axle = 0; axle < 2; ++axle) {
        EXPECT_EQ(std::count(walked.grid.begin(), walked.grid.end(), end(axle)), 1);
        const RowPlace at = PlaceIn(rig, walked, axle, end(axle));
        EXPECT_FALSE(at.past || at.folded);
        const double z = PathOf(rig, {datum, datum}, motion).place(end(axle), axle).z;
        EXPECT_NEAR(at.motion.pose.z, z, 1e-12);
        EXPECT_EQ(PlaceIn(rig, walked, axle, walked.grid.back()).past,
                  end(axle) < walked.grid.back());
      }
    }
  }
}

// Past its end an axle is where it ended, gone on rising with the row: what the floor line needs.
TEST(WalkToEnds, AnEndedAxleRisesOnWithTheRows) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Walks walks(rig, nullptr);
  const GridWalk walked = WalkToEnds(walks, MotionKind::kBounce, 0, Options({}, {}, 0.01));
  const size_t first = *walked.high[0].end->at < *walked.high[1].end->at ? 0 : 1;
  const double end = *walked.high[first].end->at, far = walked.grid.back();
  const HousingMotion at_end = PlaceIn(rig, walked, first, end).motion;
  const HousingMotion past = PlaceIn(rig, walked, first, far).motion;
  EXPECT_NEAR(past.pose.x, at_end.pose.x, 1e-12);
  EXPECT_NEAR(past.pose.z - at_end.pose.z, far - end, 1e-12);
  EXPECT_NEAR(past.p[2].v, past.pose.z, 1e-12);
}

TEST(WalkToEnds, OneAxleAloneGoesToItsEnd) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Walks walks(rig, nullptr);
  for (size_t axle = 0; axle < 2; ++axle) {
    GridOptions options = Options({}, {}, 0.01);
    options.axle = axle;
    const GridWalk walked = WalkToEnds(walks, MotionKind::kBounce, 0, options);
    EXPECT_EQ(walked.grid.back(), *walked.high[axle].end->at);
    EXPECT_FALSE(walked.moves[1 - axle]);
  }
}

TEST(WalkToEnds, GoesNoFartherThanAsked) {
  const Vehicle van = sample::HarbourVan();
  const Rig rig = PrepareRig(van);
  const Walks walks(rig, nullptr);
  const GridWalk walked = WalkToEnds(walks, MotionKind::kBounce, 0, Options(-0.02, 0.03, 0.01));
  EXPECT_EQ(Millimetres(walked.grid), (std::vector<double>{-20, -10, 0, 10, 20, 30}));
  for (size_t axle = 0; axle < 2; ++axle) {
    EXPECT_FALSE(walked.low[axle].end);
    EXPECT_FALSE(walked.high[axle].end);
  }
}

// Links that line up far beyond any travel end nothing, unless rows are asked for that far.
TEST(WalkToEnds, LinksBeyondWhatIsRealEndRowsOnlyWhereTheyAreAskedFor) {
  Vehicle truck = sample::LevelTruck();
  truck.axles = {sample::EqualParallelLinks(0.6, 0.8), sample::EqualParallelLinks(0.6, 0.8)};
  const Rig rig = PrepareRig(truck);
  const Walks walks(rig, nullptr);
  const GridWalk plain = WalkToEnds(walks, MotionKind::kBounce, 0, Options({}, {}, 0.05));
  EXPECT_EQ(Millimetres(plain.grid), (std::vector<double>{-100, -50, 0, 50, 100}));
  EXPECT_FALSE(plain.high[0].end);
  const GridWalk far = WalkToEnds(walks, MotionKind::kBounce, 0, Options(0.0, 0.6, 0.05));
  ASSERT_TRUE(far.high[0].end);
  EXPECT_EQ(far.high[0].end->limit.id.kind, LimitKind::kLinksStraight);
  EXPECT_NEAR(*far.high[0].end->at, 0.48, 1e-3);
  EXPECT_TRUE(PlaceIn(rig, far, 0, *far.high[0].end->at).folded);
  EXPECT_FALSE(PlaceIn(rig, far, 0, 0.45).folded);
}

}  // namespace
}  // namespace linkwright
