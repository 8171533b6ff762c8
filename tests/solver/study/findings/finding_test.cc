// SPDX-License-Identifier: MIT
#include "solver/study/findings/finding.h"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "solver/geometry/travel_limits.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

TEST(Finding, EveryKindHasASlugOfItsOwn) {
  std::set<std::string> slugs;
  for (size_t i = 0; i < kFindingKinds; ++i) {
    const std::string slug = TraitOf(static_cast<FindingKind>(i)).slug;
    EXPECT_EQ(slug.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string::npos) << slug;
    EXPECT_TRUE(slugs.insert(slug).second) << slug;
  }
}

TEST(Finding, IsHeldAgainstItsAimByTheSenseOfItsKind) {
  // At least: a coil's squeeze. At most: an axle's load. Within: a slope, either way.
  EXPECT_TRUE(Judged(FindingKind::kCoilUnseats, 0, 0.003, 0.005).past);
  EXPECT_FALSE(Judged(FindingKind::kCoilUnseats, 0, 0.005, 0.005).past);
  EXPECT_TRUE(Judged(FindingKind::kOverRating, 0, 901.0, 900.0).past);
  EXPECT_FALSE(Judged(FindingKind::kOverRating, 0, 900.0, 900.0).past);
  EXPECT_TRUE(Judged(FindingKind::kLinkSlopes, 0, -0.3, 0.2).past);
  EXPECT_FALSE(Judged(FindingKind::kLinkSlopes, 0, -0.1, 0.2).past);
  EXPECT_FALSE(Judged(FindingKind::kOverRating, 0, 1e6, std::nullopt).past);
}

// What a tape, a scale or a finder does not show is not told; a spline that bottoms always is.
TEST(Finding, IsNotPastItsAimByLessThanAnInstrumentShows) {
  EXPECT_FALSE(Judged(FindingKind::kCoilUnseats, 0, 0.0041, 0.005).past);
  EXPECT_TRUE(Judged(FindingKind::kCoilUnseats, 0, 0.0039, 0.005).past);
  EXPECT_FALSE(Judged(FindingKind::kOverRating, 0, 900.4, 900.0).past);
  EXPECT_FALSE(Judged(FindingKind::kPitches, 0, 0.0517, 0.05).past);
  EXPECT_TRUE(Judged(FindingKind::kPitches, 0, 0.0519, 0.05).past);
  EXPECT_FALSE(Judged(FindingKind::kSlipBottoms, 0, 0.0185, 0.019).past);
  EXPECT_TRUE(Judged(FindingKind::kSlipBottoms, 0, -1e-5, 0.0).past);
}

TEST(NameOf, IsTheMemberAsAPersonSaysIt) {
  const Vehicle van = sample::HarbourVan();
  const auto name = [&](const Finding& finding) { return NameOf(finding, van); };
  EXPECT_EQ(name({.kind = FindingKind::kCoilUnseats, .axle = kRear, .member = "coil left"}),
            "rear coil left");
  EXPECT_EQ(name({.kind = FindingKind::kPitches, .axle = kFront}), "front axle");
  EXPECT_EQ(name({.kind = FindingKind::kSlipParts, .member = "rear"}), "rear driveshaft");
  EXPECT_EQ(name({.kind = FindingKind::kEndsBeforeStop, .axle = kRear, .member = "tyre right"}),
            "rear right tyre");
  EXPECT_EQ(
      name({.kind = FindingKind::kTireNear, .axle = kFront, .member = "lip", .detail = "left"}),
      "front left tyre");
  EXPECT_EQ(name({.kind = FindingKind::kNotMirrored,
                  .axle = kRear,
                  .member = "lower arm left and right, frame end"}),
            "rear lower arm, frame end");
  EXPECT_EQ(name({.kind = FindingKind::kLeansInward}), "");
}

TEST(KeepWorst, MakesOneOfAPairAndOfAllLoadsTheWorst) {
  const auto coil = [](const char* member, const char* load, double left) {
    Finding finding = Judged(FindingKind::kCoilUnseats, kRear, left, 0.010);
    finding.member = member, finding.twins = "coil", finding.load = load;
    return finding;
  };
  Finding other = Judged(FindingKind::kCoilUnseats, kFront, 0.001, 0.010);
  other.twins = "coil";
  std::vector<Finding> findings{coil("coil left", "empty", 0.004),
                                coil("coil right", "crates", -0.002), other,
                                coil("coil left", "crates", 0.003)};
  KeepWorst(findings);
  ASSERT_EQ(findings.size(), 2U);
  EXPECT_EQ(findings[0].member, "coil right");
  EXPECT_EQ(findings[0].load, "crates");
  EXPECT_EQ(findings[1].axle, kFront);
}

// Two motions of one axle that no link holds are two findings.
TEST(KeepWorst, KeepsWhatIsNotTheSame) {
  Finding sideways{.kind = FindingKind::kAxleFree, .axle = kRear, .twins = "can move sideways"};
  Finding steer{.kind = FindingKind::kAxleFree, .axle = kRear, .twins = "can steer"};
  std::vector<Finding> findings{sideways, steer};
  KeepWorst(findings);
  EXPECT_EQ(findings.size(), 2U);
}

TEST(PartOf, IsThePathOfTheMemberInTheFile) {
  const Vehicle van = sample::HarbourVan();
  using Path = std::vector<std::string>;
  EXPECT_EQ(PartOf(van, kRear, {LimitKind::kDamperClosed, 1}),
            (Path{"axles", "rear", "dampers", van.axles[kRear].dampers[1].name.key}));
  EXPECT_EQ(PartOf(van, kFront, {LimitKind::kTireOnLip, 0, 1}), (Path{"openings", "front"}));
  EXPECT_EQ(PartOf(van, kRear, {LimitKind::kShaftParted, 0}),
            (Path{"driveshafts", van.driveshafts[0].name}));
}

}  // namespace
}  // namespace linkwright
