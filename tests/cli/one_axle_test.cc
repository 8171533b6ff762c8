// SPDX-License-Identifier: MIT
// A file with one axle answers as the whole vehicle does of that axle: each fixture vehicle without
// its masses, and each of its axles cut out of it.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "io/read/vehicle_file.h"
#include "io/write/driveline_tables.h"
#include "io/write/motion_columns.h"
#include "io/write/openings_tables.h"
#include "io/write/sweep_columns.h"
#include "solver/study/curves/over_travel.h"
#include "solver/study/driveline/driveline.h"
#include "solver/study/file/check.h"
#include "solver/study/openings/centring.h"
#include "solver/study/steering/steering_report.h"
#include "solver/study/travel/limits.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"
#include "tests/io/write/read_csv.h"

namespace linkwright::check {
namespace {

constexpr double kSame = 1e-9;   // [m, rad, -]
constexpr double kAtEnd = 1e-8;  // [m, rad] where a search has closed in
const std::string kFolder = std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/";

// Names of the fixture vehicles that have both axles, or one. Every test's process asks for them,
// so that they are told by their names: reading all files would take longer than most tests.
std::vector<std::string> Fixtures(bool both) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string name = entry.path().stem().string();
    if (name.ends_with("_axle_on_stands") != both) names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

// Of two axles, each unlike another's.
std::vector<std::string> UnlikeWhole() {
  std::vector<std::string> names = UnlikeVehicles();
  std::erase_if(names, [](const std::string& name) { return name.ends_with("_axle_on_stands"); });
  return names;
}

TEST(OneAxleFile, IsToldByItsName) {
  for (const bool both : {false, true}) {
    for (const std::string& name : Fixtures(both)) {
      const Vehicle vehicle = ReadVehicleFile(kFolder + name + ".yaml").vehicle;
      EXPECT_EQ(vehicle.only_axle.has_value(), !both) << name;
    }
  }
}

// A fixture without its masses, and one axle of it by itself.
struct Cut {
  Vehicle whole, alone;
  size_t axle;
  Rig whole_rig, alone_rig;
  Walks of_whole, of_alone;

  Cut(const std::string& name, size_t axle_in)
      : whole(WithoutMasses(name)),
        alone(CutOut(whole, axle_in)),
        axle(axle_in),
        whole_rig(PrepareRig(whole)),
        alone_rig(PrepareRig(alone)),
        of_whole(whole_rig, nullptr),
        of_alone(alone_rig, nullptr) {}
  Cut(const Cut&) = delete;
  Cut& operator=(const Cut&) = delete;

  static Vehicle WithoutMasses(const std::string& name) {
    Vehicle vehicle = ReadVehicleFile(kFolder + name + ".yaml").vehicle;
    vehicle.ledger.reset(), vehicle.sprung.reset();
    return vehicle;
  }
  static Vehicle CutOut(const Vehicle& whole, size_t axle) {
    Vehicle alone = whole;
    alone.only_axle = axle;
    alone.axles[1 - axle] = Axle{};
    alone.axles[1 - axle].name = whole.axles[1 - axle].name;
    std::erase_if(alone.driveshafts, [axle](const Driveshaft& shaft) {
      return static_cast<size_t>(shaft.axle) != axle;
    });
    return alone;
  }
  // Shafts of the one axle keep their order.
  [[nodiscard]] size_t ShaftInWhole(size_t shaft) const {
    const auto& all = whole.driveshafts;
    const auto found = std::find_if(all.begin(), all.end(), [&](const Driveshaft& each) {
      return each.name == alone.driveshafts[shaft].name;
    });
    return static_cast<size_t>(found - all.begin());
  }
};

class OneAxle : public testing::TestWithParam<std::tuple<std::string, int>> {
 protected:
  OneAxle() : cut(std::get<0>(GetParam()), static_cast<size_t>(std::get<1>(GetParam()))) {}
  Cut cut;
};

// Every cell of two tables, shafts and steering whatever their columns are called beside others'.
void ExpectSame(const DataTable& whole, const DataTable& alone) {
  ASSERT_EQ(whole.columns.size(), alone.columns.size());
  ASSERT_EQ(whole.rows.size(), alone.rows.size());
  for (size_t c = 0; c < whole.columns.size(); ++c) {
    EXPECT_TRUE(whole.columns[c].name.ends_with(alone.columns[c].name)) << alone.columns[c].name;
    for (size_t r = 0; r < whole.rows.size(); ++r) {
      const Cell &a = whole.rows[r][c], &b = alone.rows[r][c];
      ASSERT_EQ(a.index(), b.index()) << alone.columns[c].name << ", row " << r;
      const double* x = std::get_if<double>(&a);
      if (x == nullptr) {
        EXPECT_EQ(a, b);
        continue;
      }
      const double scale = std::max(1.0, std::abs(*x));  // an instant centre is far away
      EXPECT_NEAR(*x, std::get<double>(b), kSame * scale) << alone.columns[c].name << ", row " << r;
    }
  }
}

// (20a): without masses both wheels' rise leaves the floor level, whatever the other axle does fore
// and aft, so that its own columns to the floor are the same too.
TEST_P(OneAxle, SweepsAsTheWholeDoes) {
  const GridOptions of_axle{.from = {}, .to = {}, .step = 0.01, .axle = cut.axle};
  GridOptions any = of_axle;
  any.axle.reset();
  ExpectSame(SweepTable(cut.whole, SweepBounce(cut.of_whole, of_axle), UnitSystem::kMetric),
             SweepTable(cut.alone, SweepBounce(cut.of_alone, any), UnitSystem::kMetric));
  // Beyond where the other axle ends, too.
  GridOptions far = of_axle, far_any = any;
  far.from = far_any.from = -0.25, far.to = far_any.to = 0.25;
  ExpectSame(SweepTable(cut.whole, SweepBounce(cut.of_whole, far), UnitSystem::kMetric),
             SweepTable(cut.alone, SweepBounce(cut.of_alone, far_any), UnitSystem::kMetric));
}

TEST_P(OneAxle, SweepsOtherMotionsAsTheWholeDoes) {
  for (const MotionKind kind :
       {MotionKind::kRoll, MotionKind::kOneWheel, MotionKind::kCrossed, MotionKind::kSteer}) {
    if (kind == MotionKind::kSteer && !cut.whole.axles[cut.axle].steering) continue;
    for (size_t side = 0; side < (kind == MotionKind::kOneWheel ? 2U : 1U); ++side) {
      SCOPED_TRACE(static_cast<int>(kind));
      MotionRequest request{.kind = kind, .wheel = 2 * cut.axle + side, .grid = {}};
      request.grid.step = kind == MotionKind::kOneWheel ? 0.02 : 2.0 * kOneDegree;
      const MotionSweep alone = SweepMotion(cut.of_alone, request);
      request.grid.axle = cut.axle;
      const MotionSweep whole = SweepMotion(cut.of_whole, request);
      ExpectSame(MotionTable(cut.whole, whole, UnitSystem::kMetric),
                 MotionTable(cut.alone, alone, UnitSystem::kMetric));
    }
  }
}

void ExpectSameHits(const std::vector<LimitHit>& whole, const std::vector<LimitHit>& alone,
                    bool left) {
  ASSERT_EQ(whole.size(), alone.size());
  for (size_t i = 0; i < whole.size(); ++i) {
    EXPECT_EQ(whole[i].limit.name, alone[i].limit.name);
    ASSERT_EQ(whole[i].at.has_value(), alone[i].at.has_value()) << alone[i].limit.name;
    if (whole[i].at) {
      EXPECT_NEAR(*whole[i].at, *alone[i].at, kAtEnd) << alone[i].limit.name;
      EXPECT_NEAR(*whole[i].wheel_travel, *alone[i].wheel_travel, kAtEnd);
    }
    if (!left || !whole[i].left) continue;
    ASSERT_TRUE(alone[i].left) << alone[i].limit.name;
    EXPECT_NEAR(*whole[i].left, *alone[i].left, kAtEnd) << alone[i].limit.name;
  }
}

void ExpectSameEnd(const AxleLimit& whole, const AxleLimit& alone, bool left) {
  EXPECT_EQ(whole.motion, alone.motion);
  EXPECT_EQ(whole.ended_by, alone.ended_by);
  EXPECT_NEAR(whole.parameter, alone.parameter, kAtEnd);
  EXPECT_NEAR(whole.wheel_travel, alone.wheel_travel, kAtEnd);
  ExpectSameHits(whole.hits, alone.hits, left);
}

// What is left of the rest, crossed, is so where the axle itself ends: where it is the first of
// both to end, the whole tells the same.
TEST_P(OneAxle, EndsWhereTheWholeDoes) {
  const LimitsReport whole = FindLimits(cut.of_whole), alone = FindLimits(cut.of_alone);
  for (size_t way = 0; way < 2; ++way) {
    ExpectSameEnd(whole.bounce[cut.axle][way], alone.bounce[cut.axle][way], true);
    const CrossedLimit &both = whole.crossed[way], &own = alone.crossed[way];
    const bool first = both.first == cut.axle;
    ExpectSameEnd(both.axles[cut.axle], own.axles[cut.axle], first);
    EXPECT_EQ(own.first.has_value(), own.axles[cut.axle].ended_by.has_value());
    EXPECT_NEAR(own.angle, both.axles[cut.axle].parameter, kAtEnd);
    if (first) {
      EXPECT_NEAR(own.wheel_travel[cut.axle], both.wheel_travel[cut.axle], kAtEnd);
    }
  }
}

TEST_P(OneAxle, HasTheShaftsOfTheWhole) {
  const auto standing = [](const Rig& rig) { return *Stand(rig, nullptr); };
  const DrivelineRequest request;
  const auto whole = ReportDriveline(cut.of_whole, standing(cut.whole_rig), request);
  const auto alone = ReportDriveline(cut.of_alone, standing(cut.alone_rig), request);
  ASSERT_EQ(alone.size(), cut.alone.driveshafts.size());
  for (size_t i = 0; i < alone.size(); ++i) {
    const ShaftReport &a = whole[cut.ShaftInWhole(i)], &b = alone[i];
    ASSERT_EQ(a.travel.size(), b.travel.size());
    for (size_t t = 0; t < a.travel.size(); ++t) {
      EXPECT_NEAR(a.travel[t].length, b.travel[t].length, kSame);
      EXPECT_NEAR(a.travel[t].net_angle, b.travel[t].net_angle, 1e-7);  // steep near 0
    }
    ASSERT_EQ(a.extremes.size(), b.extremes.size());
    for (size_t t = 0; t < a.extremes.size(); ++t) {
      EXPECT_NEAR(a.extremes[t].length, b.extremes[t].length, kAtEnd);
    }
    ASSERT_EQ(a.slopes.size(), b.slopes.size());
    for (size_t s = 0; s < a.slopes.size(); ++s) {
      EXPECT_NEAR(a.slopes[s].floor, b.slopes[s].floor, kSame);
      EXPECT_NEAR(b.slopes[s].floor, b.slopes[s].chassis, kSame);  // the floor is level
    }
    ASSERT_EQ(a.cures.size(), b.cures.size());
    for (size_t c = 0; c < a.cures.size(); ++c) EXPECT_NEAR(a.cures[c].by, b.cures[c].by, kAtEnd);
  }
}

TEST_P(OneAxle, SteersAndCentresAsTheWhole) {
  const auto report = [](const Walks& walks) {
    return ReportSteering(walks, *Stand(*walks.rig, nullptr), nullptr, 0.02);
  };
  const SteeringReport whole = report(cut.of_whole), alone = report(cut.of_alone);
  ASSERT_EQ(alone.sideways.size(), 1U);
  const SidewaysCure& sideways = whole.sideways.at(cut.axle);
  EXPECT_EQ(alone.sideways[0].axle, cut.axle);
  EXPECT_NEAR(alone.sideways[0].offset, sideways.offset, kSame);
  ASSERT_EQ(alone.sideways[0].by.has_value(), sideways.by.has_value());
  if (sideways.by) {
    EXPECT_NEAR(*alone.sideways[0].by, *sideways.by, kAtEnd);
  }
  ASSERT_EQ(alone.axles.size(), cut.whole.axles[cut.axle].steering ? 1U : 0U);
  for (const SteeredAxle& steered : whole.axles) {
    if (steered.axle != cut.axle) continue;
    const SteeredAxle& own = alone.axles[0];
    ASSERT_EQ(own.lock.size(), steered.lock.size());
    for (size_t i = 0; i < own.lock.size(); ++i) {
      EXPECT_NEAR(own.lock[i].right, steered.lock[i].right, kSame);
      EXPECT_FALSE(own.lock[i].wanted);  // Ackermann wants a wheelbase
    }
    ASSERT_EQ(own.moves.size(), steered.moves.size());
    for (size_t i = 0; i < own.moves.size(); ++i) {
      EXPECT_NEAR(own.moves[i].steer_most, steered.moves[i].steer_most, kAtEnd);
    }
  }
}

// Rest, bounce and one wheel end with the axle itself; a roll or a crossing that this axle ends
// goes no farther with the other one there.
TEST_P(OneAxle, ClearsItsOpeningsAsTheWhole) {
  const OpeningsReport whole = SweepOpenings(cut.of_whole, std::nullopt);
  const OpeningsReport alone = SweepOpenings(cut.of_alone, std::nullopt);
  size_t at = 0;
  for (const TireClearance& each : whole.clearances) {
    if (each.axle != cut.axle) continue;
    ASSERT_LT(at, alone.clearances.size());
    const TireClearance& own = alone.clearances[at++];
    EXPECT_EQ(own.axle, each.axle);
    for (size_t m = 0; m < kTireMotions.size(); ++m) {
      const bool shared = IsAngular(kTireMotions[m]);
      ASSERT_EQ(own.held[m].has_value(), each.held[m].has_value());
      if (!own.held[m]) continue;
      const SweptRange& range = alone.ranges[cut.axle][m];
      const bool ended = range.ended_by[0] && range.ended_by[1];
      if (shared && ended) {
        EXPECT_GE(range.high, whole.ranges[cut.axle][m].high - kAtEnd);
        EXPECT_LE(range.low, whole.ranges[cut.axle][m].low + kAtEnd);
        EXPECT_LE(own.held[m]->gap.distance, each.held[m]->gap.distance + 1e-5);
      } else if (!shared) {
        EXPECT_NEAR(own.held[m]->gap.distance, each.held[m]->gap.distance, kAtEnd);
      }
    }
  }
  EXPECT_EQ(at, alone.clearances.size());
  const std::vector<Hanging> hung = HangAxles(cut.of_alone);
  const std::vector<Hanging> both = HangAxles(cut.of_whole);
  ASSERT_EQ(hung.size(), 1U);
  EXPECT_NEAR(hung[0].ahead, both.at(cut.axle).ahead, kAtEnd);
  EXPECT_NEAR(hung[0].pitch, both.at(cut.axle).pitch, kAtEnd);
}

TEST_P(OneAxle, IsHeldByTheSameLinks) {
  const CheckReport whole = CheckVehicle(cut.whole), alone = CheckVehicle(cut.alone);
  const Freedom &a = whole.axles[cut.axle].freedom, &b = alone.axles[cut.axle].freedom;
  EXPECT_EQ(a.rank, b.rank);
  EXPECT_EQ(a.fight.has_value(), b.fight.has_value());
  const auto of_axle = [&](const auto& all) {
    return std::count_if(all.begin(), all.end(),
                         [&](const auto& each) { return each.axle == cut.axle; });
  };
  EXPECT_EQ(of_axle(whole.coils), static_cast<long>(alone.coils.size()));
  EXPECT_EQ(of_axle(whole.mismatches), static_cast<long>(alone.mismatches.size()));
  const auto gaps = FindGaps(cut.of_alone);
  EXPECT_EQ(of_axle(FindGaps(cut.of_whole)), static_cast<long>(gaps.size()));
}

INSTANTIATE_TEST_SUITE_P(Fixtures, OneAxle,
                         testing::Combine(testing::ValuesIn(UnlikeWhole()), testing::Range(0, 2)),
                         [](const auto& of) {
                           return std::get<0>(of.param) +
                                  (std::get<1>(of.param) == kFront ? "_front" : "_rear");
                         });

// The same by the files and the program: a variant of the bare frame takes an axle out.
TEST(OneAxleFile, SweepsAsTheWholeFileDoes) {
  for (const auto& [axle, other] : {std::pair("front", "rear"), std::pair("rear", "front")}) {
    const Folder folder;
    const std::string cut = folder.Write(
        "cut.yaml",
        fmt::format("base: {}bare_frame.yaml\nremove: [axles.{}, openings.{}{}]\n", kFolder, other,
                    other, std::string(other) == "rear" ? ", driveshafts" : ""));
    const std::string a = folder.Path("a.csv"), b = folder.Path("b.csv");
    ASSERT_EQ(RunProgram({"sweep", VehiclePath("bare_frame"), "--axle", axle, "--csv", a}).exit, 0);
    ::setenv("COLUMNS", "1000", 1);  // nothing is wrapped
    const Outcome alone = RunProgram({"sweep", cut, "--full", "--csv", b});
    ::unsetenv("COLUMNS");
    ASSERT_EQ(alone.exit, 0) << alone.err;
    EXPECT_EQ(ReadBytes(a), ReadBytes(b));
    EXPECT_THAT(alone.out, testing::HasSubstr(fmt::format("the file has the {} axle only", axle)));
    EXPECT_THAT(alone.out,
                testing::HasSubstr(fmt::format("left out for want of the {} axle", other)));
  }
}

// Where the old axles sat takes no axle of the new vehicle; how its openings are spaced takes both.
TEST(OneAxleFile, TellsOfTheLeafSprungOriginal) {
  const Folder folder;
  const std::string cut =
      folder.Write("cut.yaml", fmt::format("base: {}harbour_van_old_springs.yaml\n"
                                           "remove: [axles.front, openings.front, ledger]\n",
                                           kFolder));
  const Outcome said = RunProgram({"original", cut, "--full"});
  ASSERT_EQ(said.exit, 0) << said.err;
  EXPECT_THAT(said.out, testing::HasSubstr("The design wheelbase is "));
  EXPECT_THAT(Flat(said.out),
              testing::HasSubstr("the file has the rear axle only, so nothing is said of "
                                 "how far apart its two openings are"));
}

class OneAxleFixture : public testing::TestWithParam<std::string> {};

// What takes both axles is refused in one sentence; what does not answers.
TEST_P(OneAxleFixture, IsAnsweredWhereTheQuestionNeedsNoMore) {
  const std::string path = VehiclePath(GetParam());
  const bool front = ReadVehicleFile(path).vehicle.only_axle == kFront;
  const std::string has =
      front ? "the file has the front axle only" : "the file has the rear axle only";
  for (const std::string command : {"settle", "roll", "ride"}) {
    const Outcome refused = RunProgram({command, path});
    EXPECT_EQ(refused.exit, 2) << command;
    EXPECT_THAT(refused.err, testing::HasSubstr("axles: " + has)) << command;
    EXPECT_TRUE(refused.out.empty()) << command;
  }
  const std::string wheel = front ? "front-left" : "rear-left";
  std::vector<std::vector<std::string>> answered{
      {"check", path},
      {"sweep", path},
      {"sweep", path, "--motion", "roll"},
      {"limits", path},
      {"openings", path},
      {"sweep", path, "--motion", "one-wheel", "--wheel", wheel},
      {"steering", path},
      {"compare", path, path},
      {"compare", VehiclePath("bare_frame"), path},
      {"compare", VehiclePath("harbour_van"), path},
      {"limits", path, "--bump", "60 mm", "--droop", "70 mm"}};
  answered.push_back(front ? std::vector<std::string>{"sweep", path, "--motion", "steer"}
                           : std::vector<std::string>{"driveline", path});
  answered.push_back({"page", path});
  for (std::vector<std::string>& words : answered) {
    words.emplace_back("--full");
    ::setenv("COLUMNS", "1000", 1);  // nothing is wrapped
    const Outcome said = RunProgram(words);
    ::unsetenv("COLUMNS");
    EXPECT_EQ(said.exit, 0) << words[0] << said.err;
    EXPECT_THAT(Flat(said.out), testing::HasSubstr(has)) << words[0];
    EXPECT_THAT(said.out, testing::Not(testing::HasSubstr(" nan"))) << words[0];
  }
  for (const std::vector<std::string>& more :
       {std::vector<std::string>{"--axle", front ? "rear" : "front"},
        std::vector<std::string>{"--motion", "one-wheel", "--wheel",
                                 front ? "rear-left" : "front-left"}}) {
    std::vector<std::string> words{"sweep", path};
    words.insert(words.end(), more.begin(), more.end());
    const Outcome refused = RunProgram(words);
    EXPECT_EQ(refused.exit, 2);
    EXPECT_THAT(refused.err, testing::HasSubstr("axle only"));
  }
}

INSTANTIATE_TEST_SUITE_P(Fixtures, OneAxleFixture, testing::ValuesIn(Fixtures(false)),
                         [](const auto& file) { return file.param; });

}  // namespace
}  // namespace linkwright::check
