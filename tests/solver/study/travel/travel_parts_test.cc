// SPDX-License-Identifier: MIT
// Advice is checked by fitting it and sweeping again: the stop and the strap must then end the
// travel where it was wanted, and the damper nowhere.
#include "solver/study/travel/travel_parts.h"

#include "solver/study/curves/motions.h"

#include <gtest/gtest.h>

#include <cmath>

#include "solver/study/curves/sweep.h"
#include "tests/solver/study/stood.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Stood;

constexpr double kReserve = 0.0127;  // [m]
constexpr double kSame = 1e-7;       // [m] lengths to rounding, ends to 1e-9 of a margin

// The reference vehicle with everything else out of the way.
Vehicle Roomy() {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) {
    for (Spring& spring : axle.springs) spring.solid_length = 0.05;
    axle.opening.reset();
  }
  van.driveshafts.clear();
  return van;
}

PartsAdvice Advise(const Stood& stood, const TravelWish& wish) {
  const LimitsReport limits = FindLimits({stood.rig, &stood.stance});
  return AdviseParts(stood.rig, nullptr, &stood.stance, limits, wish, kReserve);
}

// The advice carried out: stops, straps, and dampers of the lengths that were to be ordered.
Vehicle Fitted(const Vehicle& vehicle, const PartsAdvice& advice) {
  Vehicle fitted = WithStopsAndStraps(vehicle, advice);
  for (const DamperAdvice& each : advice.dampers) {
    for (Damper& damper : fitted.axles[each.axle].dampers) {
      if (DisplayName(damper.name) != each.member) continue;
      damper.shortest = each.closed, damper.longest = each.open;
    }
  }
  return fitted;
}

TEST(TravelParts, EndTheTravelWhereItIsWantedAndNeverOnTheDamper) {
  const Stood stood(Roomy());
  const PartsAdvice advice = Advise(stood, {.split = {}, .bump = 0.075, .droop = 0.095});
  ASSERT_EQ(advice.dampers.size(), 4U);
  ASSERT_EQ(advice.stops.size(), 4U);
  ASSERT_EQ(advice.straps.size(), 4U);  // none in the file: one beside each damper
  const Stood fitted(Fitted(stood.vehicle, advice));
  ASSERT_EQ(fitted.stance.status, StanceStatus::kRests);
  const Sweep sweep = SweepBounce({fitted.rig, &fitted.stance}, {});
  const MotionSweep crossed = SweepMotion({fitted.rig, &fitted.stance},
                                          {.kind = MotionKind::kCrossed, .wheel = 0, .grid = {}});
  for (size_t i = 0; i < 2; ++i) {
    // The stop is not touched at rest, so that the rest stays and so do the travels.
    EXPECT_NEAR(*sweep.bump[i]->at, 0.075, kSame);
    EXPECT_NEAR(*sweep.droop[i]->at, -0.095, kSame);
    EXPECT_NE(Describe(sweep.bump[i]->limit).find("cone"), std::string::npos)
        << Describe(sweep.bump[i]->limit);
    EXPECT_NE(Describe(sweep.droop[i]->limit).find("taut"), std::string::npos)
        << Describe(sweep.droop[i]->limit);
    for (const auto& end : {crossed.low[i], crossed.high[i]}) {
      ASSERT_TRUE(end);
      EXPECT_TRUE(Describe(end->limit).find("cone") != std::string::npos ||
                  Describe(end->limit).find("taut") != std::string::npos)
          << Describe(end->limit);
    }
  }
}

TEST(TravelParts, KeepTheReserveInTheDamperEverywhere) {
  const Stood stood(Roomy());
  const PartsAdvice advice = Advise(stood, {.split = {}, .bump = 0.075, .droop = 0.095});
  Vehicle vehicle = Fitted(stood.vehicle, advice);
  const Stood fitted(vehicle);
  const LimitsReport limits = FindLimits({fitted.rig, &fitted.stance});
  const double reserve = kReserve;
  const auto check = [&](const AxleLimit& limit) {
    for (const LimitHit& hit : limit.hits) {
      if (hit.limit.id.kind != LimitKind::kDamperClosed &&
          hit.limit.id.kind != LimitKind::kDamperOpen)
        continue;
      EXPECT_GT(*hit.left, reserve - kSame) << hit.limit.name;
    }
  };
  for (const auto& axle : limits.bounce) check(axle[0]), check(axle[1]);
  for (const CrossedLimit& crossed : limits.crossed)
    check(crossed.axles[0]), check(crossed.axles[1]);
}

TEST(TravelParts, ASplitSharesTheTravelThatWasFound) {
  const Stood stood(sample::HarbourVan());
  const LimitsReport limits = FindLimits({stood.rig, &stood.stance});
  const double whole = limits.bounce[0][0].parameter - limits.bounce[0][1].parameter;
  const WantedTravel found = WantedOf({}, limits, 0);
  EXPECT_EQ(*found.bump, limits.bounce[0][0].parameter);
  EXPECT_EQ(*found.droop, -limits.bounce[0][1].parameter);
  const WantedTravel split = WantedOf({.split = 0.4, .bump = {}, .droop = {}}, limits, 0);
  EXPECT_NEAR(*split.bump, 0.4 * whole, 1e-15);
  EXPECT_NEAR(*split.droop, 0.6 * whole, 1e-15);
}

TEST(TravelParts, AMovedTabMakesTheDamperAtHandDo) {
  // A damper of the right stroke and 30 mm too long: its tab goes up by about that.
  const Stood stood(Roomy());
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const PartsAdvice plain = Advise(stood, wish);
  Vehicle vehicle = stood.vehicle;
  for (const DamperAdvice& each : plain.dampers) {
    for (Damper& damper : vehicle.axles[each.axle].dampers) {
      if (DisplayName(damper.name) != each.member) continue;
      damper.shortest = each.closed - 0.003 + 0.030, damper.longest = each.open + 0.003 + 0.030;
    }
  }
  const Stood other(vehicle);
  const PartsAdvice moved = Advise(other, wish);
  for (size_t i = 0; i < moved.dampers.size(); ++i) {
    const DamperAdvice& each = moved.dampers[i];
    ASSERT_EQ(each.fit, DamperFit::kMoveTab) << each.member;
    EXPECT_NEAR(*each.tab_move, 0.030, 0.004);  // [m] the damper leans, so not quite
    for (Damper& damper : vehicle.axles[each.axle].dampers) {
      if (DisplayName(damper.name) == each.member) damper.span.p_CP = *each.p_CP;
    }
  }
  const Stood fitted(WithStopsAndStraps(vehicle, plain));
  for (const DamperAdvice& each : Advise(fitted, wish).dampers) {
    EXPECT_EQ(each.fit, DamperFit::kFits) << each.member;
  }
}

// A stroke so long that one of the damper's ends is kept wherever its tab could go.
TEST(TravelParts, ADamperWithPlentyOfStrokeFits) {
  const Stood stood(Roomy());
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const DamperAdvice needed = Advise(stood, wish).dampers[0];
  const auto with = [&](double shortest, double longest) {
    Vehicle vehicle = stood.vehicle;
    vehicle.axles[0].dampers[0].shortest = shortest, vehicle.axles[0].dampers[0].longest = longest;
    // Where the vehicle rests without it: one too long would prop it up.
    const Rig rig = PrepareRig(vehicle);
    const LimitsReport limits = FindLimits({rig, &stood.stance});
    return AdviseParts(rig, nullptr, &stood.stance, limits, wish, kReserve).dampers[0];
  };
  EXPECT_EQ(with(needed.closed - 0.002, needed.open + 0.6).fit, DamperFit::kFits);
  EXPECT_EQ(with(0.001, needed.open + 0.002).fit, DamperFit::kFits);
  // 20 mm too long closed, and no end of it open: its tab goes up by just that.
  const DamperAdvice moved = with(needed.closed + 0.020, needed.open + 0.6);
  ASSERT_EQ(moved.fit, DamperFit::kMoveTab);
  EXPECT_NEAR(*moved.tab_move, 0.020, 0.004);  // [m] the damper leans, so not quite
  EXPECT_EQ(with(needed.closed + 0.5, needed.open + 0.6).fit, DamperFit::kTabTooFar);
}

TEST(TravelParts, AShortStrokeIsSaidWithHowMuchItLacks) {
  const Stood stood(Roomy());
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const DamperAdvice needed = Advise(stood, wish).dampers[0];
  Vehicle vehicle = stood.vehicle;
  Damper& damper = vehicle.axles[0].dampers[0];
  damper.shortest = needed.closed + 0.010, damper.longest = needed.open - 0.010;
  const Stood other(vehicle);
  const DamperAdvice advice = Advise(other, wish).dampers[0];
  EXPECT_EQ(advice.fit, DamperFit::kStrokeShort);
  constexpr double kLean = 0.001;  // [m] a moved tab changes the stroke that is needed a little
  EXPECT_NEAR(*advice.stroke_short, 0.020, kLean);
}

// One order for left and right, and by it the travel that was wanted: the first of both ends it
// there.
TEST(TravelParts, OrderLeftAndRightAsAPair) {
  Vehicle uneven = Roomy();
  const Stood stood(uneven);
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const PartsAdvice advice = Advise(stood, wish);
  for (size_t i = 0; i < 4; i += 2) {
    const DamperAdvice &left = advice.dampers[i], &right = advice.dampers[i + 1];
    EXPECT_EQ(left.closed, right.closed);
    EXPECT_EQ(left.open, right.open);
    EXPECT_EQ(left.fit, right.fit);
    EXPECT_EQ(*advice.stops[i].height, *advice.stops[i + 1].height);
    EXPECT_EQ(advice.straps[i].length, advice.straps[i + 1].length);
    // The track bar makes the two sides differ, so that the order is one's.
    EXPECT_NE(left.at_droop, right.at_droop);
    EXPECT_NEAR(std::max(left.at_droop, right.at_droop), advice.straps[i].length, kSame);
    EXPECT_LE(left.closed, std::min(left.at_bump, right.at_bump) - kReserve + kSame);
    EXPECT_GE(left.open, std::max(left.at_droop, right.at_droop) + kReserve - kSame);
  }
}

TEST(TravelParts, OrderAloneWhatIsUnsymmetricalByMoreThanATapeShows) {
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const auto differ = [&](double moved) {
    Vehicle vehicle = Roomy();
    vehicle.axles[kRear].dampers[1].span.p_CP.z() += moved;
    const Stood stood(vehicle);
    const PartsAdvice advice = Advise(stood, wish);
    return std::abs(advice.dampers[2].closed - advice.dampers[3].closed);
  };
  EXPECT_EQ(differ(0.0015), 0.0);   // [m] a sixteenth of an inch is 1.5875 mm
  EXPECT_GT(differ(0.0017), 1e-4);  // then the sides' own
}

// A damper mounted so short that its stroke is longer than its body leaves; each remedy is then
// carried out, and the order is one that can just be had.
TEST(TravelParts, AnOrderThatNoDamperHasIsToldWithWhatMendsIt) {
  Vehicle vehicle = Roomy();
  for (Damper& damper : vehicle.axles[kRear].dampers) {
    damper.span.p_CP = damper.span.p_CQ + 0.62 * (damper.span.p_CP - damper.span.p_CQ);
    damper.shortest.reset(), damper.longest.reset();
  }
  const TravelWish wish{.split = {}, .bump = 0.075, .droop = 0.095};
  const auto spare = [](const DamperAdvice& each) {
    return each.closed - (each.open - each.closed) - 0.025;
  };
  const Stood stood(vehicle);
  const PartsAdvice advice = Advise(stood, wish);
  EXPECT_FALSE(advice.dampers[0].impossible) << "the front ones have room";
  const DamperAdvice& rear = advice.dampers[2];
  ASSERT_TRUE(rear.impossible);
  EXPECT_NEAR(rear.impossible->short_by, -spare(rear), 1e-12);
  ASSERT_TRUE(rear.impossible->tab_move && rear.impossible->less_bump);
  Vehicle moved = vehicle;
  const Eigen::Isometry3d at_rest =
      Transform(stood.stance.motion[kRear].pose) * stood.rig.axles[kRear].frame.X_CA.inverse();
  for (Damper& damper : moved.axles[kRear].dampers) {
    const Eigen::Vector3d along = damper.span.p_CP - at_rest * damper.span.p_CQ;
    damper.span.p_CP += *rear.impossible->tab_move * along.normalized();
  }
  // [m] advice is made with the axle level, the line here is that of a stance that leans a little
  EXPECT_NEAR(spare(Advise(Stood(moved), wish).dampers[2]), 0.0, 2e-4);
  const TravelWish less{.split = {}, .bump = 0.075 - *rear.impossible->less_bump, .droop = 0.095};
  EXPECT_NEAR(spare(Advise(stood, less).dampers[2]), 0.0, 5e-5);  // [m] it is told to 1e-5
}

// Where its cone is beside its pad at the wanted bump no height of a stop ends the travel.
TEST(TravelParts, AStopBesideItsPadIsNotOrdered) {
  Vehicle vehicle = Roomy();
  for (Stop& stop : vehicle.axles[kRear].bump_stops) stop.pad_radius = 0.002;
  const Stood stood(vehicle);
  const PartsAdvice advice = Advise(stood, {.split = {}, .bump = 0.075, .droop = 0.095});
  EXPECT_FALSE(advice.stops[0].misses);
  EXPECT_TRUE(advice.stops[0].height);
  EXPECT_TRUE(advice.stops[2].misses);
  EXPECT_FALSE(advice.stops[2].height);
}

TEST(TravelParts, TellWhetherACoilStaysInItsSeat) {
  // Vertical coil and straight motion: free length less length at droop, by plain sums.
  const Stood stood(sample::LevelTruck());
  const PartsAdvice advice = Advise(stood, {.split = {}, .bump = 0.05, .droop = 0.30});
  for (const CoilAdvice& coil : advice.coils) {
    const Spring& spring = stood.vehicle.axles[coil.axle].springs[0];
    const double squeezed = spring.law.free_length - 0.30;  // 300 mm as measured, where it rests
    EXPECT_NEAR(coil.length_at_bump, 0.25, 0.003);          // [m] the housing turns a little
    EXPECT_LT(coil.preload, squeezed - 0.25);
    EXPECT_LT(coil.preload, 0.0);
    EXPECT_EQ(coil.preload_force, 0.0);
    EXPECT_FALSE(coil.gap);
  }
}

TEST(TravelParts, NothingIsAdvisedForAnEndThatIsNeitherWantedNorFound) {
  const Stood stood(sample::LevelTruck());
  const PartsAdvice advice = Advise(stood, {});
  EXPECT_TRUE(advice.dampers.empty() && advice.coils.empty() && advice.stops.empty());
}

}  // namespace
}  // namespace linkwright
