// SPDX-License-Identifier: MIT
// Findings that a file accepts: left out, counted in one line, and of no matter to --strict.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/cli/pleased_vehicle.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

// A sound vehicle but for a coil that is nearly off its seat.
class Accept : public ::testing::Test {
 protected:
  std::string Accepting(const std::string& accept) const {
    return folder_.Write("accepting.yaml", "base: loose.yaml\n" + accept);
  }

  Folder folder_;
  std::string sound_ = PleasedVehicle(folder_);
  std::string loose_ = folder_.Write(
      "loose.yaml", "base: pleased.yaml\nchange: {aims.coil_preload: 200, aims.pitch: 0.1 deg}\n");
};

TEST_F(Accept, LeavesOutAndCounts) {
  EXPECT_THAT(RunProgram({"check", loose_}).out, HasSubstr("squeeze left at full droop"));
  const std::string file =
      Accepting("accept: {coil-preload: a strap is on order, housing-pitches rear: as it was}\n");
  const std::string out = RunProgram({"check", file}).out;
  EXPECT_THAT(out, Not(HasSubstr("squeeze left at full droop")));
  EXPECT_THAT(out, Not(HasSubstr("rear axle: turns")));
  EXPECT_THAT(out, HasSubstr("front axle: turns"));
  EXPECT_THAT(out, HasSubstr("\n3 findings are accepted: coil-preload, housing-pitches rear.\n"));
}

TEST_F(Accept, IsNoMatterToStrict) {
  EXPECT_EQ(RunProgram({"check", loose_, "--strict"}).exit, 1);
  EXPECT_EQ(RunProgram({"settle", loose_, "--strict"}).exit, 1);
  const std::string file = Accepting(
      "accept: {coil-preload: known, housing-pitches: known, order-unseats-coil: known}\n");
  for (const char* command : {"check", "settle", "limits"}) {
    const Outcome outcome = RunProgram({command, file, "--strict"});
    EXPECT_EQ(outcome.exit, 0) << command << outcome.err << outcome.out;
  }
}

TEST_F(Accept, IsInJsonWithItsReason) {
  const std::string file = Accepting("accept: {housing-pitches: as it was}\n");
  const auto tables = nlohmann::json::parse(RunToJson({"check", file}));
  const auto& rows = tables.at("accepted").at("rows");
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].at("accepted"), "housing-pitches");
  EXPECT_EQ(rows[0].at("why"), "as it was");
  for (const auto& row : tables.at("findings").at("rows")) {
    EXPECT_NE(row.at("finding"), "housing-pitches");
  }
}

// A variant inherits what its base accepts, adds to it and may give another reason.
TEST_F(Accept, IsInheritedAndAddedTo) {
  const std::string base = Accepting("accept: {coil-preload: known, housing-pitches front: old}\n");
  const std::string next = folder_.Write(
      "next.yaml",
      "base: accepting.yaml\naccept: {housing-pitches rear: new, coil-preload: a strap now}\n");
  EXPECT_EQ(RunProgram({"check", base, "--strict"}).exit, 1);
  EXPECT_EQ(RunProgram({"check", next, "--strict"}).exit, 0);
  const auto tables = nlohmann::json::parse(RunToJson({"check", next}));
  for (const auto& row : tables.at("accepted").at("rows")) {
    EXPECT_EQ(row.at("why"), row.at("accepted") == "coil-preload"            ? "a strap now"
                             : row.at("accepted") == "housing-pitches front" ? "old"
                                                                             : "new");
  }
}

TEST_F(Accept, SaysWhatSilencesNothingAtItsPlace) {
  const std::string file = folder_.Write(
      "idle.yaml", "base: pleased.yaml\naccept:\n  coil-preload rear coil left: was loose once\n");
  const Outcome outcome = RunProgram({"check", file});
  EXPECT_THAT(outcome.out, HasSubstr("idle.yaml:3:"));
  EXPECT_THAT(OnOneLine(outcome.out),
              HasSubstr("accept: 'coil-preload rear coil left' silences nothing"));
  EXPECT_EQ(RunProgram({"check", file, "--strict"}).exit, 1);
}

TEST_F(Accept, RefusesAnUnknownSlugAtItsPlace) {
  const std::string file = Accepting("accept:\n  coil-prelod: a strap is on order\n");
  const Outcome outcome = RunProgram({"check", file});
  EXPECT_EQ(outcome.exit, 2);
  EXPECT_THAT(outcome.err, HasSubstr("accepting.yaml:3:3: accept.coil-prelod: no finding is called "
                                     "'coil-prelod'; did you mean 'coil-preload'?"));
}

}  // namespace
}  // namespace linkwright::check
