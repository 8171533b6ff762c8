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

TEST(FindingWords, ALengthThatPutsTwoPointsRightIsToldWhileTheyStandSo) {
  Sound sound = SoundVehicle();
  Link& bar = sound.vehicle.axles[1].links[4];
  bar.taped_short = -0.0017;
  bar.corrected = {Eigen::Vector3d(0.0, 0.00085, 0.0), Eigen::Vector3d(0.0, -0.00085, 0.0)};
  const auto notes = [&] { return CheckNotes(sound.vehicle, sound.report, UnitSystem::kMetric); };
  EXPECT_EQ(notes().at(1),
            "the rear axle: track bar by its own length is 1.7 mm shorter than its two points were "
            "taped apart; each stands moved by half of that, along it");
  bar.corrected[0].setZero();  // a variant has moved that hole
  EXPECT_EQ(notes().size(), 2U);
}

std::string WordsOf(const Finding& finding, UnitSystem units = UnitSystem::kMetric) {
  return Words(finding, SoundVehicle().vehicle, units);
}

TEST(FindingWords, AnArmThatDoesNotFitIsLongerOrShorterAndMovesTheAxle) {
  Finding misfit{.kind = FindingKind::kArmMisfit,
                 .axle = 1,
                 .member = "lower arm left",
                 .value = 0.0234,
                 .aim = 0.010,
                 .detail = "length: fit"};
  EXPECT_EQ(WordsOf(misfit),
            "the rear axle: lower arm left is 23.4 mm longer than its two holes are apart, more "
            "than 10.0 mm, and the axle stands off its measured place for it: turn or make it to "
            "fit (length: fit), or move a hole");
  misfit.value = -0.0234, misfit.more = {10400.0}, misfit.detail = "";
  EXPECT_EQ(WordsOf(misfit),
            "the rear axle: lower arm left is 23.4 mm shorter than its two holes are apart, more "
            "than 10.0 mm, and the axle stands off its measured place for it; the arms then pull "
            "up to 10400 N on one another, which hangs on their rates: turn or make it to fit, or "
            "move a hole");
}

TEST(FindingWords, AHousingThatItsArmsPitchIsNoseUpOrDownAndItsYokeToo) {
  Finding pitch{.kind = FindingKind::kArmsPitch,
                .axle = 0,
                .value = 0.06,  // 3.44 deg
                .aim = 0.0523598775598299,
                .detail = "down"};
  EXPECT_EQ(WordsOf(pitch),
            "the front axle: arms that do not fit their holes pitch its housing 3.44 deg nose up, "
            "its yoke end down, off its measured stance, more than 3.00 deg: pinion angle and "
            "caster go with it");
  pitch.value = -0.06, pitch.detail = "";
  EXPECT_EQ(WordsOf(pitch),
            "the front axle: arms that do not fit their holes pitch its housing 3.44 deg nose down "
            "off its measured stance, more than 3.00 deg: pinion angle and caster go with it");
}

TEST(FindingWords, WeighedCoilsThatDifferNameTheLongerOneAndWhatElseItMayBe) {
  EXPECT_EQ(WordsOf({.kind = FindingKind::kCoilsDiffer,
                     .axle = 0,
                     .member = "coil right",
                     .value = -0.0082,
                     .aim = 0.006,
                     .detail = "coil left"}),
            "the front axle: by the scales coil right is 8.2 mm longer than coil left with nothing "
            "on it, more than 6.0 mm: either coil left has sagged and the body hangs to that side, "
            "or scales or tape are off: a wheel's scale, a seat's height, a floor that is not "
            "level");
}

TEST(FindingWords, ATyresRadiusIsHeldAgainstItsScale) {
  Finding tire{.kind = FindingKind::kTireRadius,
               .axle = 0,
               .member = "left one",
               .value = 0.0042,
               .aim = 0.003,
               .more = {0.382, 0.3778}};
  EXPECT_EQ(WordsOf(tire),
            "the front axle: its tyres are given a radius of 382.0 mm, 4.2 mm more than the 377.8 "
            "mm with which the left one stands at its measured height under its scale; more than "
            "3.0 mm: leave radius out and the scales tell it, or look at their rate and the hub's "
            "height: was it on stands?");
  tire.value = -0.0128, tire.more = {0.365, 0.3778};
  EXPECT_EQ(WordsOf(tire),
            "the front axle: its tyres are given a radius of 365.0 mm, 12.8 mm less than the 377.8 "
            "mm with which the left one stands at its measured height under its scale; more than "
            "3.0 mm: leave radius out and the scales tell it, or look at their rate and the hub's "
            "height: was it on stands, is it the loaded radius?");
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
