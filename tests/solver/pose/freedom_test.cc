// SPDX-License-Identifier: MIT
#include "solver/pose/freedom.h"

#include <gtest/gtest.h>

#include "solver/model/error.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

// Level, square to the chassis: each link holds what it looks like.
Axle SquareAxle() {
  Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.35);
  sample::AddPair(axle.links, "lower arm", {0.6, 0.45, 0.35}, {0.0, 0.45, 0.35});
  sample::AddSingle(axle.links, "upper arm", {0.5, 0.0, 0.55}, {0.0, 0.0, 0.55});
  sample::AddSingle(axle.links, "track bar", {0.0, 0.45, 0.40}, {0.0, -0.45, 0.40});
  return axle;
}

void Remove(Axle& axle, const std::string& key) {
  std::erase_if(axle.links, [&](const Link& link) { return link.name.key == key; });
}

std::string Complaint(const Axle& axle, std::vector<std::string>* part = nullptr) {
  try {
    const AxleFrame frame = PrepareAxle(axle);
    RequireLocated(axle, frame, frame.measured);
  } catch (const ModelError& error) {
    if (part != nullptr) *part = error.part;
    return error.what();
  }
  return "";
}

TEST(Freedom, FourGoodLinksHoldEverything) {
  for (const Axle& axle : {SquareAxle(), sample::TriangulatedRear(), sample::ThreeLinkTrackBar()}) {
    const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
    EXPECT_EQ(freedom.rank, 4);
    EXPECT_TRUE(freedom.free.empty());
    EXPECT_FALSE(freedom.fight);
    EXPECT_EQ(Complaint(axle), "");
  }
}

TEST(Freedom, WithoutATrackBarItMovesSideways) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  std::vector<std::string> part;
  EXPECT_EQ(Complaint(axle, &part),
            "the rear axle can move sideways: nothing like a track bar holds it; it has 3 links "
            "where four motions want holding");
  EXPECT_EQ(part, (std::vector<std::string>{"axles", "rear", "links"}));
  const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
  ASSERT_EQ(freedom.free.size(), 1u);
  EXPECT_EQ(freedom.rank, 3);
  EXPECT_NEAR(std::abs(freedom.free[0].direction[1]), 1.0, 1e-12);
  EXPECT_NEAR(freedom.free[0].held, 0.0, 1e-12);
}

TEST(Freedom, WithoutAnUpperArmItWindsUp) {
  Axle axle = SquareAxle();
  Remove(axle, "upper arm");
  EXPECT_EQ(Complaint(axle),
            "the rear axle can wind up about its own tube: nothing like an upper arm holds it; it "
            "has 3 links where four motions want holding");
}

TEST(Freedom, WithOneLowerArmItSteers) {
  Axle axle = SquareAxle();
  Remove(axle, "lower arm");
  sample::AddSingle(axle.links, "lower arm", {0.6, 0.0, 0.35}, {0.0, 0.0, 0.35});
  EXPECT_EQ(Complaint(axle),
            "the rear axle can steer: nothing holds it square to the chassis; it has 3 links where "
            "four motions want holding");
}

TEST(Freedom, NoLinksAtAllLeaveFourMotions) {
  Axle axle = SquareAxle();
  axle.links.clear();
  const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
  EXPECT_EQ(freedom.rank, 0);
  EXPECT_EQ(freedom.free.size(), 4u);
  EXPECT_NE(Complaint(axle).find("can move fore and aft"), std::string::npos);
}

// Four trailing arms and no bar: enough in number, yet sideways is free.
TEST(Freedom, FourLinksThatHoldTheSameThingAreNotEnough) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  Remove(axle, "upper arm");
  sample::AddPair(axle.links, "upper arm", {0.5, 0.35, 0.55}, {0.0, 0.35, 0.55});
  EXPECT_EQ(Complaint(axle),
            "the rear axle can move sideways: nothing like a track bar holds it; its links are "
            "enough in number but two or more of them hold the same motion");
}

// One pair turned out by angle g holds sideways with a stretch of sqrt(2) sin g; both sides of
// kFree and of kWeak.
Axle NearlyParallelArms(double hold) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  Remove(axle, "upper arm");
  const double out = std::asin(hold / std::sqrt(2.0));
  sample::AddPair(axle.links, "upper arm", {0.5, 0.35 + 0.5 * std::tan(out), 0.55},
                  {0.0, 0.35, 0.55});
  return axle;
}

TEST(Freedom, FreeAndWeakMeanWhatTheySay) {
  const auto analyse = [](double hold) {
    const Axle axle = NearlyParallelArms(hold);
    return AnalyseFreedom(PrepareAxle(axle));
  };
  // The least singular value differs from the stretch sideways by the coupling, a few per cent.
  const Freedom loose = analyse(0.8 * kFree), barely = analyse(1.6 * kFree);
  EXPECT_EQ(loose.rank, 3);
  EXPECT_EQ(loose.free.size(), 1u);
  EXPECT_EQ(barely.rank, 4);
  ASSERT_EQ(barely.weak.size(), 1u);
  EXPECT_GE(barely.weak[0].held, kFree);
  EXPECT_TRUE(barely.free.empty());
  const Freedom weak = analyse(0.8 * kWeak), firm = analyse(1.6 * kWeak);
  EXPECT_EQ(weak.weak.size(), 1u);
  EXPECT_TRUE(firm.weak.empty());
}

// A pair of radius arms, level and square to the chassis; nothing across.
Axle OnRadiusArms() {
  Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.35);
  for (const bool left : {true, false}) {
    const double y = left ? 0.4 : -0.4;
    RadiusArm arm;
    arm.name = {"radius arm", left ? Side::kLeft : Side::kRight};
    arm.p_CP = {0.9, y, 0.35};
    arm.p_CQ = {Eigen::Vector3d(0.09, y, 0.35), Eigen::Vector3d(-0.09, y, 0.35)};
    arm.frame_rate = arm.axle_rate = 4e6;
    axle.radius_arms.push_back(arm);
  }
  return axle;
}

// The motion that a set holds weakly, by what it holds of it.
FreeMotion OnlyWeak(const Axle& axle) {
  const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
  EXPECT_EQ(freedom.rank, 4);
  EXPECT_TRUE(freedom.free.empty());
  EXPECT_EQ(freedom.weak.size(), 1u);
  return freedom.weak.empty() ? FreeMotion{} : freedom.weak[0];
}

TEST(Freedom, RadiusArmsAloneMoveSideways) {
  EXPECT_EQ(Complaint(OnRadiusArms()),
            "the rear axle can move sideways: nothing like a track bar holds it; its links are "
            "enough in number but two or more of them hold the same motion");
}

// A bar at an angle g to fore and aft, in the plane of the tube, holds sideways sin g against arms
// that hold the rest.
TEST(Freedom, RadiusArmsAndABarNearlyAlongThemAreWeakSideways) {
  Axle axle = OnRadiusArms();
  sample::AddSingle(axle.links, "track bar", {0.5, 0.5 * 0.03, 0.35}, {0.0, 0.0, 0.35});
  const FreeMotion weak = OnlyWeak(axle);
  EXPECT_NEAR(std::abs(weak.direction[1]), 1.0, 1e-3);
  EXPECT_NEAR(weak.held, 0.03, 0.03 * 0.3);  // arms hold fore and aft with it: a little less
  EXPECT_NE(weak.words.find("sideways"), std::string::npos) << weak.words;
}

// One arm alone, a bar and a link: steer is what the link holds, by how far it stands from the arm.
TEST(Freedom, OneRadiusArmAndALinkBesideItAreWeakInSteer) {
  Axle axle = OnRadiusArms();
  axle.radius_arms.resize(1);
  sample::AddSingle(axle.links, "track bar", {0.0, 0.45, 0.35}, {0.0, -0.45, 0.35});
  sample::AddSingle(axle.links, "lower arm", {0.6, 0.38, 0.35}, {0.0, 0.38, 0.35});
  const FreeMotion weak = OnlyWeak(axle);
  EXPECT_GT(std::abs(weak.direction[2]), 0.8);
  EXPECT_NE(weak.words.find("steer"), std::string::npos) << weak.words;
}

// The crank's links stand almost upright: its pivot is held sideways only by what they lean.
TEST(Freedom, AWattsLinkWithUprightLinksIsWeakSideways) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  WattsLink watt;
  watt.name = "Watt's link";
  watt.on_housing = true;
  watt.pivot = {0.0, 0.0, 0.40};
  watt.axis = Eigen::Vector3d::UnitX();
  watt.end = {Eigen::Vector3d(0.0, 0.08, 0.40), Eigen::Vector3d(0.0, -0.08, 0.40)};
  const double lean = 0.02;
  watt.far = {watt.end[0] + Eigen::Vector3d(0.0, 0.5 * lean, 0.5),
              watt.end[1] + Eigen::Vector3d(0.0, -0.5 * lean, -0.5)};
  axle.watts_links = {watt};
  const FreeMotion weak = OnlyWeak(axle);
  EXPECT_NEAR(std::abs(weak.direction[1]), 1.0, 1e-3);
  EXPECT_NE(weak.words.find("sideways"), std::string::npos) << weak.words;
}

// Both legs of an A-arm nearly alike: as two arms nearly parallel.
TEST(Freedom, AnAArmWithItsEyesCloseTogetherIsWeakSideways) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  Remove(axle, "upper arm");
  AArm arm;
  arm.name = {"upper arm", Side::kMiddle};
  const double half = 0.01;
  arm.p_CP = {Eigen::Vector3d(0.5, half, 0.55), Eigen::Vector3d(0.5, -half, 0.55)};
  arm.p_CQ = {0.0, 0.0, 0.55};
  arm.rate = 5e6;
  axle.a_arms = {arm};
  const FreeMotion weak = OnlyWeak(axle);
  EXPECT_NEAR(std::abs(weak.direction[1]), 1.0, 1e-3);
  // Each leg stretches by half/0.5 of it, one and the other: sqrt(2) half/0.5.
  EXPECT_NEAR(weak.held, std::sqrt(2.0) * half / std::hypot(0.5, half), 1e-3);
  EXPECT_NE(weak.words.find("sideways"), std::string::npos) << weak.words;
}

// Two bars slanted opposite ways by angle g: per unit of bounce each is stretched sin g, the axle
// staying put; strain energy's second derivative is 2 k sin^2 g. kLocked k is reached at
// sin g = sqrt(kLocked / 2).
Axle OpposedBars(double sine) {
  Axle axle = SquareAxle();
  Remove(axle, "track bar");
  const double rise = 0.9 * std::tan(std::asin(sine));
  sample::AddSingle(axle.links, "track bar", {0.0, 0.45, 0.40 + rise}, {0.0, -0.45, 0.40});
  sample::AddSingle(axle.links, "second bar", {0.0, -0.45, 0.40 + rise}, {0.0, 0.45, 0.40});
  return axle;
}

TEST(Freedom, OpposedBarsStrainAsTheClosedForm) {
  const Axle axle = OpposedBars(0.2);
  const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
  ASSERT_TRUE(freedom.fight);
  EXPECT_EQ(freedom.fight->too_many, 1u);
  EXPECT_NEAR(freedom.fight->bounce_rate, 2.0 * 5e6 * 0.04, 1e-3);  // [N/m] 4e5, rounding times 1e6
  EXPECT_NEAR(freedom.fight->bounce_link_force, 5e6 * 0.2, 1e-3);   // [N/m]
}

TEST(Freedom, BarsThatLockTheAxleAreAnErrorOnOneSideOfTheThresholdOnly) {
  const double threshold = std::sqrt(0.5 * kLocked);
  EXPECT_EQ(Complaint(OpposedBars(0.99 * threshold)), "");
  std::vector<std::string> part;
  const std::string complaint = Complaint(OpposedBars(1.01 * threshold), &part);
  ASSERT_EQ(part.size(), 4u);
  EXPECT_TRUE(part[3] == "track bar" || part[3] == "second bar");
  EXPECT_EQ(
      complaint,
      "the links lock the rear axle in bounce: there are 1 more than its four motions, and " +
          part[3] +
          " fights the rest rigidly; take a link out, or line it up so that the axle can move");
}

TEST(Freedom, ReferenceVehicleMovesOnFiveLinks) {
  for (const Axle& axle : sample::HarbourVan().axles) {
    const Freedom freedom = AnalyseFreedom(PrepareAxle(axle));
    EXPECT_EQ(freedom.rank, 4);
    ASSERT_TRUE(freedom.fight);
    EXPECT_EQ(Complaint(axle), "");
  }
}

}  // namespace
}  // namespace linkwright
