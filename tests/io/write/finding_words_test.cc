// SPDX-License-Identifier: MIT
#include "io/write/finding_words.h"

#include <gtest/gtest.h>

#include "io/write/check_tables.h"
#include "solver/study/findings/file_findings.h"
#include "tests/support/usual_aims.h"

namespace linkwright::check {
namespace {

// A vehicle whose axles are sound, and the report on it.
struct Sound {
  Vehicle vehicle;
  CheckReport report;
};

Sound SoundVehicle() {
  Sound sound{};
  sound.vehicle.aims = sample::UsualAims();
  sound.vehicle.axles[0].name = "front";
  sound.vehicle.axles[1].name = "rear";
  for (Axle& axle : sound.vehicle.axles) {
    axle.links.resize(5);
    axle.links[2].name = {"upper arm", Side::kLeft};
    axle.links[4].name = {"track bar", Side::kMiddle};
  }
  for (AxleCheck& axle : sound.report.axles) axle.freedom.rank = 4;
  return sound;
}

// A finding in words, and whether it is to be looked at.
struct Line {
  bool past;
  std::string text;
};

// The findings of the report; of its bare vehicle nothing else is looked at.
std::vector<Line> FindingsOf(const Sound& sound, UnitSystem units = UnitSystem::kMetric) {
  std::vector<Line> lines;
  for (const Finding& finding : FileFindings(sound.vehicle, sound.report)) {
    const FindingKind kind = finding.kind;
    if (kind == FindingKind::kShortLink) continue;
    lines.push_back({finding.past, Words(finding, sound.vehicle, units)});
  }
  return lines;
}

TEST(FindingWords, FourLinksThatHoldAllAreNoWarning) {
  const Sound sound = SoundVehicle();
  EXPECT_TRUE(FindingsOf(sound).empty());
  EXPECT_EQ(
      CheckNotes(sound.vehicle, sound.report, UnitSystem::kMetric),
      (std::vector<std::string>{"the front axle: four links hold its four motions, none too many",
                                "the rear axle: four links hold its four motions, none too many"}));
}

TEST(FindingWords, AFreeMotionIsAWarningInItsWords) {
  Sound sound = SoundVehicle();
  sound.report.axles[1].freedom.free = {
      {.direction = Eigen::Vector4d::UnitY(), .held = 0.0, .words = "can move sideways"}};
  const std::vector<Line> findings = FindingsOf(sound);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_TRUE(findings[0].past);
  EXPECT_EQ(findings[0].text, "the rear axle can move sideways");
}

TEST(FindingWords, AWeakMotionIsAWarningThatSaysWhatABushingMillimetreBecomes) {
  Sound sound = SoundVehicle();
  sound.report.axles[0].freedom.weak = {
      {.direction = Eigen::Vector4d::UnitX(), .held = 0.02, .words = "can wind up"}};
  const std::vector<Line> findings = FindingsOf(sound);
  EXPECT_TRUE(findings[0].past);
  EXPECT_EQ(findings[0].text,
            "the front axle is nearly free: it can wind up (1 mm of give in a bushing is 50 mm at "
            "the axle)");
}

TEST(FindingWords, LinksThatFightAreNamedWithTheirForces) {
  Sound sound = SoundVehicle();
  constexpr double kPerRadian = 180.0 / 3.14159265358979323846;  // 100 N a degree, in N a radian
  sound.report.axles[0].freedom.fight = LinkFight{.too_many = 1,
                                                  .bounce_rate = 0.0,
                                                  .roll_rate = 0.0,
                                                  .bounce_link_force = 5000.0,
                                                  .roll_link_force = 100.0 * kPerRadian,
                                                  .bounce_name = "track bar",
                                                  .roll_name = "upper arm left",
                                                  .bounce_link = 4,
                                                  .roll_link = 2};
  EXPECT_TRUE(FindingsOf(sound).empty());
  EXPECT_EQ(CheckNotes(sound.vehicle, sound.report, UnitSystem::kMetric).front(),
            "the front axle: 5 links where four would do, so it lives on bushing give: near the "
            "measured stance upper arm left takes 100 N a degree of roll, and track bar takes 50 N "
            "a 10 mm of bounce");
}

// The finding on the rear axle's coils against the scales.
Line WeightFinding(double by_coils) {
  Sound sound = SoundVehicle();
  sound.report.axles[1].weight = WeightCheck{.by_coils = by_coils,
                                             .by_scales = 700.0,
                                             .tire_height = std::nullopt,
                                             .measured_height = 0.36};
  return FindingsOf(sound).at(0);
}

TEST(FindingWords, CoilsAndScalesMayDifferByThreePercentAndNoMore) {
  EXPECT_FALSE(WeightFinding(700.0 * 1.0299).past);
  EXPECT_FALSE(WeightFinding(700.0 * 0.9701).past);
  EXPECT_TRUE(WeightFinding(700.0 * 1.0301).past);
  EXPECT_TRUE(WeightFinding(700.0 * 0.9699).past);
  EXPECT_EQ(WeightFinding(707.0).text,
            "the rear axle: its coils and stops at their measured length say 707.0 kg, the scales "
            "say 700.0 kg: +1.0 %");
}

TEST(FindingWords, MembersThatAreNoMirrorImagesAreAWarningWithTheDistance) {
  Sound sound = SoundVehicle();
  sound.report.mismatches = {{1, "wheel centres", 0.0254}};
  const std::vector<Line> findings = FindingsOf(sound, UnitSystem::kInch);
  EXPECT_TRUE(findings.back().past);
  EXPECT_EQ(findings.back().text,
            "the rear axle: wheel centres are no mirror images, 1.00 in apart; more than 0.06 in "
            "(common practice)");
}

// Of two ways of putting it the one that holds, one within the other too.
TEST(FindingWords, AWheelOffTheOpeningItHadIsToldBySideAndByWhatWouldCentreIt) {
  const Sound sound = SoundVehicle();
  Finding finding{.kind = FindingKind::kOldWheelOff, .past = false, .axle = 1, .value = -0.0123};
  const auto words = [&] { return Words(finding, sound.vehicle, UnitSystem::kMetric); };
  EXPECT_EQ(words(),
            "the rear wheel when new stood 12.3 mm behind the centre of its opening as measured on "
            "the old body");
  finding.value = 1e-5;
  EXPECT_EQ(words(), "the rear wheel when new stood centred in its opening as measured");
  finding.past = true, finding.value = 0.02, finding.more = {0.1};
  EXPECT_EQ(words(),
            "the rear wheel when new stood 20.0 mm ahead of the centre of its opening as measured "
            "on the old body; no camber when new would have centred it, so take the opening and "
            "the eyes again");
  finding.more = {0.1, 0.08};
  EXPECT_EQ(words(),
            "the rear wheel when new stood 20.0 mm ahead of the centre of its opening as measured "
            "on the old body; a camber of 80.0 mm when new, not 100.0 mm, would have centred it");
}

}  // namespace
}  // namespace linkwright::check
