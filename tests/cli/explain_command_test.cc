// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>

#include "cli/explain.h"
#include "io/write/finding_pages.h"
#include "io/write/finding_words.h"
#include "io/write/wrap.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using ::testing::HasSubstr;

TEST(ExplainCommand, SaysWhatOneMeansItsAimAndWhatMendsIt) {
  const Outcome outcome = RunProgram({"explain", "coil-preload"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  EXPECT_EQ(outcome.out,
            "coil-preload: a coil nearly off its seat at full droop\n"
            "Parts hit or run out\n"
            "\n"
            "Why it matters: It rattles, cocks on its seat, and can fall out.\n"
            "\n"
            "Aim: Least squeeze of a coil at full droop, so that it stays seated (common\n"
            "  practice). It is 1/4 in.\n"
            "\n"
            "Mend it: A limit strap or damper that ends droop sooner, a longer coil, or a\n"
            "  retainer (keep_seated).\n"
            "\n"
            "Set the aim: In the vehicle file, aims: {coil_preload: 1/4 in}\n"
            "\n"
            "Accept it: In the vehicle file, accept: {coil-preload: why}, or of one member\n"
            "  alone, as the finding names it, accept: {coil-preload MEMBER: why}\n");
}

TEST(ExplainCommand, HasAPageForEverySlug) {
  for (size_t i = 0; i < kFindingKinds; ++i) {
    const char* slug = TraitOf(static_cast<FindingKind>(i)).slug;
    const Outcome outcome = RunProgram({"explain", slug});
    EXPECT_EQ(outcome.exit, 0) << slug;
    EXPECT_TRUE(outcome.out.starts_with(std::string(slug) + ": ")) << outcome.out;
    EXPECT_LE(WidestLine(outcome.out), kUsualWidth) << outcome.out;
    for (const char* head : {"\nWhy it matters: ", "\nAim: ", "\nMend it: ", "\nAccept it: "}) {
      EXPECT_THAT(outcome.out, HasSubstr(head));
    }
  }
}

TEST(ExplainCommand, ListsAllByHarmALineEach) {
  const Outcome outcome = RunProgram({"explain"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_LE(WidestLine(outcome.out), kUsualWidth);
  size_t last = 0;
  for (const Harm harm :
       {Harm::kHurts, Harm::kHits, Harm::kWears, Harm::kLooksWrong, Harm::kSlip}) {
    const size_t at = outcome.out.find(HarmWords(harm) + std::string("\n"));
    ASSERT_NE(at, std::string::npos) << HarmWords(harm);
    EXPECT_GE(at, last);
    last = at;
  }
  for (size_t i = 0; i < kFindingKinds; ++i) {
    const std::string slug = TraitOf(static_cast<FindingKind>(i)).slug;
    EXPECT_THAT(outcome.out, HasSubstr("\n  " + slug + " "));
  }
}

TEST(ExplainCommand, NamesTheNearestOfAnUnknownSlug) {
  const Outcome near = RunProgram({"explain", "coil-prelaod"});
  EXPECT_EQ(near.exit, 2);
  EXPECT_EQ(near.out, "");
  EXPECT_EQ(near.err,
            "linkwright: explain: no finding is called 'coil-prelaod'; did you mean "
            "'coil-preload'?\n");
  const Outcome far = RunProgram({"explain", "squeaks"});
  EXPECT_EQ(far.exit, 2);
  EXPECT_THAT(far.err, HasSubstr("linkwright explain lists them all"));
}

TEST(ExplainCommand, AsksForNoVehicleFile) {
  EXPECT_EQ(RunProgram({"explain", "coil-preload", VehiclePath("harbour_van")}).exit, 2);
  EXPECT_THAT(RunProgram({"explain", "--help"}).out, HasSubstr("SLUG"));
}

// docs/findings.md is made from the same table.
TEST(ExplainCommand, TheDocumentIsWhatThePagesSay) {
  const std::string path = std::string(LINKWRIGHT_SOURCE_DIR) + "/docs/findings.md";
  const std::string wanted = FindingsDocument();
  if (ReadBytes(path) == wanted) return;
  const std::string fresh = std::string(LINKWRIGHT_GOLDEN_OUTPUT) + "/findings.md";
  std::ofstream(fresh, std::ios::binary) << wanted;
  ADD_FAILURE() << "docs/findings.md is not what the pages say:\n  diff " << path << " " << fresh
                << "\n  cp " << fresh << " " << path;
}

}  // namespace
}  // namespace linkwright::check
