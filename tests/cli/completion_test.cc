// SPDX-License-Identifier: MIT
// What shells complete, asked of the program and through a real bash.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

std::vector<std::string> Completed(std::vector<std::string> words) {
  words.insert(words.begin(), "__complete");
  const Outcome outcome = RunProgram(words);
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_EQ(outcome.err, "");
  return Lines(outcome.out);
}

bool Has(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

using Words = std::vector<std::string>;

TEST(Completion, OffersCommandsOptionsAndChoices) {
  EXPECT_TRUE(Has(Completed({""}), "settle"));
  EXPECT_TRUE(Has(Completed({""}), "completion"));
  EXPECT_EQ(Completed({"dri"}), (Words{"driveline"}));
  EXPECT_TRUE(Has(Completed({"openings", "van.yaml", "--"}), "--centre-split"));
  EXPECT_TRUE(Has(Completed({"van.yaml", "--"}), "--load")) << "the page";
  EXPECT_EQ(Completed({"sweep", "van.yaml", "--wheel", "rear"}),
            (Words{"rear-left", "rear-right"}));
  EXPECT_EQ(Completed({"sweep", "van.yaml", "--axle", ""}), (Words{"front", "rear"}));
  EXPECT_EQ(Completed({"completion", ""}), (Words{"bash", "zsh", "fish"}));
}

TEST(Completion, OffersTheNamesInTheFile) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(Completed({"settle", van, "--load", ""}), (Words{"empty", "driver", "deliveries"}));
  EXPECT_EQ(Completed({"settle", "--full", van, "--load", "dr"}), (Words{"driver"}));
  EXPECT_EQ(Completed({"compare", van, van, "--column", "travel", "front_cas"}),
            (Words{"front_caster"}))
      << "a second column, as the command takes them";
  EXPECT_EQ(Completed({"settle", VehiclePath("bare_frame"), "--load", ""}), Words{});
}

// Then the shell offers files.
TEST(Completion, OffersNothingWhereAFileIsWanted) {
  EXPECT_EQ(Completed({"settle", ""}), Words{});
  EXPECT_EQ(Completed({"settle", "van.yaml", "--csv", ""}), Words{});
  EXPECT_EQ(Completed({"settle", "nowhere.yaml", "--load", ""}), Words{});
}

TEST(Completion, HasAScriptForEachShell) {
  for (const char* shell : {"bash", "zsh", "fish"}) {
    const Outcome outcome = RunProgram({"completion", shell});
    EXPECT_EQ(outcome.exit, 0);
    EXPECT_NE(outcome.out.find("__complete"), std::string::npos) << shell;
  }
  EXPECT_EQ(RunProgram({"completion", "tcsh"}).exit, 2);
}

// What bash would show for a line whose last word is being completed.
std::vector<std::string> InBash(const std::string& line) {
  const Folder folder;
  const std::string script =
      folder.Write("completion.bash", RunProgram({"completion", "bash"}).out);
  const std::string asked =
      folder.Write("ask.bash", "source " + script + "\nCOMP_WORDS=(" LINKWRIGHT_PROGRAM " " + line +
                                   ")\nCOMP_CWORD=$((${#COMP_WORDS[@]} - 1))\n_linkwright\n"
                                   "printf '%s\\n' \"${COMPREPLY[@]}\"\n");
  std::string out;
  FILE* bash = popen(("bash --norc " + asked).c_str(), "r");
  std::array<char, 4096> bytes{};
  while (const size_t count = fread(bytes.data(), 1, bytes.size(), bash)) {
    out.append(bytes.data(), count);
  }
  EXPECT_EQ(pclose(bash), 0);
  return Lines(out);
}

TEST(Completion, WorksInBash) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(InBash("dri"), (Words{"driveline"}));
  EXPECT_EQ(InBash("settle " + van + " --load ''"), (Words{"empty", "driver", "deliveries"}));
  EXPECT_EQ(InBash("sweep " + van + " --motion one"), (Words{"one-wheel"}));
  EXPECT_EQ(InBash("compare " + van + " " + van + " --column rear_anti_sq"),
            (Words{"rear_anti_squat"}));
}

// A name of two words comes so that bash reads it as one.
TEST(Completion, QuotesNamesWithBlanksInBash) {
  const Folder folder;
  const std::string file = folder.Write(
      "two.yaml", "base: " + VehiclePath("harbour_van") +
                      "\nadd:\n  loads.two people: [{item: people, mass: 150, at: [-900, 0, 900]}]"
                      "\n");
  EXPECT_EQ(InBash("settle " + file + " --load two"), (Words{"two\\ people"}));
}

}  // namespace
}  // namespace linkwright::check
