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
struct Told {
  bool past;
  std::string text;
};

// The findings of the report; of its bare vehicle nothing else is looked at.
std::vector<Told> FindingsOf(const Sound& sound, UnitSystem units = UnitSystem::kMetric) {
  std::vector<Told> lines;
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
      (std::vector<std::string>{"the front axle: four links hold it all four ways, none too many",
                                "the rear axle: four links hold it all four ways, none too many"}));
}

TEST(FindingWords, AFreeMotionIsAWarningInItsWords) {
  Sound sound = SoundVehicle();
  sound.report.axles[1].freedom.free = {
      {.direction = Eigen::Vector4d::UnitY(), .held = 0.0, .words = "can move sideways"}};
  const std::vector<Told> findings = FindingsOf(sound);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_TRUE(findings[0].past);
  EXPECT_EQ(findings[0].text, "rear axle: can move sideways");
}

TEST(FindingWords, AWeakMotionIsAWarningThatSaysWhatABushingMillimetreBecomes) {
  Sound sound = SoundVehicle();
  sound.report.axles[0].freedom.weak = {
      {.direction = Eigen::Vector4d::UnitX(), .held = 0.02, .words = "can wind up"}};
  const std::vector<Told> findings = FindingsOf(sound);
  EXPECT_TRUE(findings[0].past);
  EXPECT_EQ(
      findings[0].text,
      "front axle: is nearly free: it can wind up. Whatever a bushing gives comes out 50 times "
      "as large at the axle");
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
            "the front axle: 5 links where four would do, so its bushings must give: near the "
            "measured stance upper arm left takes 100 N a degree of roll, and track bar takes 50 N "
            "a 10 mm of bounce");
}

// The finding on the rear axle's coils against the scales.
Told WeightFinding(double by_coils) {
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
  EXPECT_TRUE(WeightFinding(700.0 * 1.0311).past);
  EXPECT_TRUE(WeightFinding(700.0 * 0.9689).past);
  EXPECT_EQ(WeightFinding(707.0).text,
            "rear axle: at their measured length its coils and stops carry 707 kg, the scales show "
            "700 kg: 1.0 % more");
}

TEST(FindingWords, MembersThatAreNoMirrorImagesAreAWarningWithTheDistance) {
  Sound sound = SoundVehicle();
  sound.report.mismatches = {{1, "wheel centres", 0.0254}};
  const std::vector<Told> findings = FindingsOf(sound, UnitSystem::kInch);
  EXPECT_TRUE(findings.back().past);
  EXPECT_EQ(
      findings.back().text,
      "rear wheel centres: left and right are no mirror images, 1 in apart, more than 1/16 in "
      "(common practice): measure both again");
}

TEST(FindingWords, ALengthThatPutsTwoPointsRightIsToldWhileTheyStandSo) {
  Sound sound = SoundVehicle();
  Link& bar = sound.vehicle.axles[1].links[4];
  bar.taped_short = -0.0017;
  bar.corrected = {Eigen::Vector3d(0.0, 0.00085, 0.0), Eigen::Vector3d(0.0, -0.00085, 0.0)};
  const auto notes = [&] { return CheckNotes(sound.vehicle, sound.report, UnitSystem::kMetric); };
  EXPECT_EQ(notes().at(1),
            "the rear axle: track bar by its own length is 2 mm shorter than its two points were "
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
  EXPECT_EQ(
      WordsOf(misfit),
      "rear lower arm left: it is 23 mm longer than its two holes are apart, more than 10 mm, "
      "and the axle stands off its measured place for it: turn or make it to fit (length: "
      "fit), or move a hole");
  misfit.value = -0.0234, misfit.more = {10400.0}, misfit.detail = "";
  EXPECT_EQ(WordsOf(misfit),
            "rear lower arm left: it is 23 mm shorter than its two holes are apart, more than 10 "
            "mm, and the axle stands off its measured place for it; the arms then pull up to 10400 "
            "N on one another, which hangs on their rates: turn or make it to fit, or move a hole");
}

TEST(FindingWords, AHousingThatItsArmsPitchIsNoseUpOrDownAndItsYokeToo) {
  Finding pitch{.kind = FindingKind::kArmsPitch,
                .axle = 0,
                .value = 0.06,  // 3.44 deg
                .aim = 0.0523598775598299,
                .detail = "down"};
  EXPECT_EQ(WordsOf(pitch),
            "front axle: arms that do not fit their holes pitch its housing 3.4 deg nose up, its "
            "yoke end down, off its measured stance, more than 3.0 deg: pinion angle and caster go "
            "with it");
  pitch.value = -0.06, pitch.detail = "";
  EXPECT_EQ(WordsOf(pitch),
            "front axle: arms that do not fit their holes pitch its housing 3.4 deg nose down off "
            "its measured stance, more than 3.0 deg: pinion angle and caster go with it");
}

TEST(FindingWords, WeighedCoilsThatDifferNameTheLongerOneAndWhatElseItMayBe) {
  EXPECT_EQ(
      WordsOf({.kind = FindingKind::kCoilsDiffer,
               .axle = 0,
               .member = "coil right",
               .value = -0.0082,
               .aim = 0.006,
               .detail = "coil left"}),
      "front coil right: by the scales it is 8 mm longer than coil left with nothing on it, "
      "more than 6 mm. Either coil left has sagged and the body hangs to that side, or scales "
      "or tape are off: a wheel's scale, a seat's height, a floor that is not level");
}

TEST(FindingWords, ATyresRadiusIsHeldAgainstItsScale) {
  Finding tire{.kind = FindingKind::kTireRadius,
               .axle = 0,
               .member = "tyre left",
               .value = 0.0042,
               .aim = 0.003,
               .more = {0.382, 0.3778}};
  EXPECT_EQ(WordsOf(tire),
            "front left tyre: it is given a radius of 382 mm, 4 mm more than the 378 mm with which "
            "it stands at its measured height under its scale, more than 3 mm. Leave radius out "
            "and the scales tell it, or look at its rate and the hub's height: was it on stands?");
  tire.value = -0.0128, tire.more = {0.365, 0.3778};
  EXPECT_EQ(
      WordsOf(tire),
      "front left tyre: it is given a radius of 365 mm, 13 mm less than the 378 mm with which "
      "it stands at its measured height under its scale, more than 3 mm. Leave radius out "
      "and the scales tell it, or look at its rate and the hub's height: was it on stands, is "
      "it the loaded radius?");
}

// Of two ways of putting it the one that holds, one within the other too.
TEST(FindingWords, AWheelOffTheOpeningItHadIsToldBySideAndByWhatWouldCentreIt) {
  const Sound sound = SoundVehicle();
  Finding finding{.kind = FindingKind::kOldWheelOff, .past = false, .axle = 1, .value = -0.0123};
  const auto words = [&] { return Words(finding, sound.vehicle, UnitSystem::kMetric); };
  EXPECT_EQ(words(),
            "the rear wheel when new stood 12 mm behind the centre of its opening as measured on "
            "the old body");
  finding.value = 1e-5;
  EXPECT_EQ(words(), "the rear wheel when new stood centred in its opening as measured");
  finding.past = true, finding.value = 0.02, finding.more = {0.1};
  EXPECT_EQ(words(),
            "the rear wheel when new stood 20 mm ahead of the centre of its opening as measured "
            "on the old body; no camber when new would have centred it, so take the opening and "
            "the eyes again");
  finding.more = {0.1, 0.08};
  EXPECT_EQ(words(),
            "the rear wheel when new stood 20 mm ahead of the centre of its opening as measured "
            "on the old body; a camber of 80 mm when new, not 100 mm, would have centred it");
}

// Whom, what, how much, what is wanted, where.
TEST(FindingLine, SaysACoilInOneLine) {
  const Sound sound = SoundVehicle();
  Finding coil = Judged(FindingKind::kCoilUnseats, kRear, 0.003, 0.25 * 0.0254);
  coil.member = "coil left";
  coil.place = FindingPlace{TireMotion::kBounce, -0.113, -0.113, {}};
  const auto line = [&](UnitSystem units) { return Line(coil, sound.vehicle, units); };
  EXPECT_EQ(line(UnitSystem::kMetric),
            "rear coil left: 3 mm squeeze left at full droop, wants 6 mm");
  EXPECT_EQ(line(UnitSystem::kInch),
            "rear coil left: 1/8 in squeeze left at full droop, wants 1/4 in");
  EXPECT_EQ(Words(coil, sound.vehicle, UnitSystem::kMetric),
            "rear coil left: it is squeezed 3 mm at full droop, 113 mm down, less than 6 mm, and "
            "may leave its seat: a strap that ends droop sooner, or a longer coil, keeps it "
            "seated");
  coil.value = -0.042;
  EXPECT_EQ(line(UnitSystem::kMetric), "rear coil left: 42 mm off its seat at full droop");
  coil.value = 1e-4;  // a tape shows none of it
  EXPECT_EQ(line(UnitSystem::kMetric), "rear coil left: no squeeze left at full droop, wants 6 mm");
  coil.value = -1e-4;
  EXPECT_EQ(line(UnitSystem::kMetric), "rear coil left: no squeeze left at full droop, wants 6 mm");
}

// Past its aim by less than 1/16 in: both are shown to 1/32.
TEST(FindingLine, ShowsValueAndAimFinerWhereTheyWouldReadTheSame) {
  const Sound sound = SoundVehicle();
  Finding moved = Judged(FindingKind::kMockUpHeight, kRear, 0.0076, 0.25 * 0.0254);
  EXPECT_TRUE(moved.past);
  EXPECT_EQ(Line(moved, sound.vehicle, UnitSystem::kInch),
            "rear axle: wheels rest 5/16 in from where measured, limit 1/4 in");
  moved = Judged(FindingKind::kMockUpHeight, kRear, 0.0071, 0.00608);
  EXPECT_TRUE(moved.past);
  EXPECT_EQ(Line(moved, sound.vehicle, UnitSystem::kInch),
            "rear axle: wheels rest 9/32 in from where measured, limit 1/4 in");
}

// Sides and ways in words, no sign.
TEST(FindingLine, SaysWaysInWords) {
  const Sound sound = SoundVehicle();
  const auto words = [&](const Finding& finding) {
    return Words(finding, sound.vehicle, UnitSystem::kMetric);
  };
  Finding tire = Judged(FindingKind::kTireNear, kFront, 0.012, 0.025);
  tire.member = "inner panel", tire.detail = "left";
  constexpr double kDegree = 3.14159265358979323846 / 180.0;
  tire.place = FindingPlace{TireMotion::kRoll, -5.0 * kDegree, 0.06, 20.0 * kDegree};
  EXPECT_EQ(words(tire),
            "front left tyre: it comes as near as 12 mm to its inner panel with the body leaning "
            "5.0 deg left, steered 20.0 deg left, less than 25 mm");
  EXPECT_EQ(Line(tire, sound.vehicle, UnitSystem::kMetric),
            "front left tyre: 12 mm from its inner panel, steered left, wants 25 mm");
  tire.place = FindingPlace{TireMotion::kOneWheel, 0.08, 0.08, {}};
  EXPECT_EQ(words(tire),
            "front left tyre: it comes as near as 12 mm to its inner panel with that wheel alone "
            "80 mm up, less than 25 mm");
  Finding steer = Judged(FindingKind::kRollSteers, kRear, -0.173, 0.1);
  EXPECT_EQ(Line(steer, sound.vehicle, UnitSystem::kMetric),
            "rear axle: 0.173 deg/deg of roll oversteer, limit 0.100 deg/deg");
  steer.axle = kFront;
  EXPECT_EQ(Line(steer, sound.vehicle, UnitSystem::kMetric),
            "front axle: 0.173 deg/deg of roll understeer, limit 0.100 deg/deg");
}

}  // namespace
}  // namespace linkwright::check
