// SPDX-License-Identifier: MIT
// README.md and docs/ show what the program prints, word for word; and the check that says so
// would notice if they did not.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/cli/document_blocks.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

namespace fs = std::filesystem;

const std::string kRoot = LINKWRIGHT_SOURCE_DIR;

std::vector<std::string> Documents() {
  std::vector<std::string> paths{kRoot + "/README.md"};
  for (const fs::directory_entry& entry : fs::directory_iterator(kRoot + "/docs")) {
    if (entry.path().extension() == ".md") paths.push_back(entry.path().string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

TEST(Documents, ShowWhatTheProgramPrints) {
  size_t outputs = 0;
  for (const std::string& path : Documents()) {
    const DocumentCheck check = CheckDocument(ReadBytes(path));
    for (const std::string& complaint : check.complaints)
      ADD_FAILURE() << path << ": " << complaint;
    outputs += check.outputs;
  }
  EXPECT_GE(outputs, 1U) << "at least one block of output is wanted";
}

TEST(Documents, TheReadmeShowsTheProgramAtWork) {
  EXPECT_GE(CheckDocument(ReadBytes(kRoot + "/README.md")).outputs, 1U);
}

// A document with one block of settle's output on the reference vehicle.
std::string WithOutput(const std::string& lines) {
  return "# Title\n\n<!-- output: linkwright settle fixtures/vehicles/harbour_van.yaml -->\n```\n" +
         lines + "```\n\nMore.\n";
}

TEST(CheckDocument, TakesConsecutiveLinesOfTheOutput) {
  const DocumentCheck check = CheckDocument(
      WithOutput("are outside it. Local codes decide and licensed people sign. Coils hold energy\n"
                 "when the truck is on stands.\n"));
  EXPECT_EQ(check.complaints, std::vector<std::string>{});
  EXPECT_EQ(check.outputs, 1U);
}

TEST(CheckDocument, RefusesALineThatIsNotPrinted) {
  const DocumentCheck check = CheckDocument(WithOutput("when the truck is on its wheels.\n"));
  ASSERT_EQ(check.complaints.size(), 1U);
  EXPECT_TRUE(check.complaints[0].starts_with(
      "line 3: linkwright settle fixtures/vehicles/harbour_van.yaml does not print these lines"));
}

TEST(CheckDocument, RefusesLinesInAnotherOrderOrWithOthersBetween) {
  EXPECT_EQ(CheckDocument(WithOutput("fixtures/vehicles/harbour_van.yaml\nHarbour delivery van\n"))
                .complaints.size(),
            1U);
  EXPECT_EQ(CheckDocument(WithOutput("Harbour delivery van\nhow it stands\n")).complaints.size(),
            1U);
}

TEST(CheckDocument, GivesLaterCommandsTheFilesOfTheDocument) {
  const std::string document =
      "<!-- file: plan.yaml -->\n"
      "```yaml\n"
      "title: Plan\n"
      "base: fixtures/vehicles/harbour_van.yaml\n"
      "```\n"
      "<!-- output: linkwright settle plan.yaml --load 'driver' -->\n"
      "```text\n"
      "Plan\n"
      "plan.yaml\n"
      "```\n";
  const DocumentCheck check = CheckDocument(document);
  EXPECT_EQ(check.complaints, std::vector<std::string>{});
  EXPECT_EQ(check.outputs, 1U);
}

TEST(CheckDocument, RefusesACommentWithoutABlockAndAFenceWithoutAnEnd) {
  EXPECT_EQ(CheckDocument("text\n<!-- output: linkwright --version -->\n\nlinkwright\n").complaints,
            std::vector<std::string>{"line 2: no fenced block follows this comment"});
  EXPECT_EQ(CheckDocument("<!-- output: linkwright --version -->\n```\nx\n").complaints,
            std::vector<std::string>{"line 2: the fence is never closed"});
}

TEST(CheckDocument, RefusesAnOutputOfNothingAndACommandOfAnotherProgram) {
  EXPECT_EQ(CheckDocument("<!-- output: linkwright --version -->\n```\n```\n").complaints.size(),
            1U);
  EXPECT_EQ(CheckDocument("<!-- output: ls -->\n```\ndocs\n```\n").complaints.size(), 1U);
}

TEST(CheckDocument, RefusesAFileThatWouldCoverOneOfTheRepository) {
  EXPECT_EQ(CheckDocument("<!-- file: fixtures -->\n```yaml\nx\n```\n").complaints.size(), 1U);
  EXPECT_EQ(CheckDocument("<!-- file: docs/x.yaml -->\n```yaml\nx\n```\n").complaints.size(), 1U);
}

TEST(CheckDocument, LeavesOtherCommentsAndBlocksAlone) {
  const DocumentCheck check =
      CheckDocument("<!-- keys: generated -->\n\n```sh\nninja -C build\n```\n");
  EXPECT_EQ(check.complaints, std::vector<std::string>{});
  EXPECT_EQ(check.outputs, 0U);
}

}  // namespace
}  // namespace linkwright::check
