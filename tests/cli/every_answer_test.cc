// SPDX-License-Identifier: MIT
// What a person meets: every command on every vehicle of the fixtures. Each is run once in each
// system of units and looked at for all of it: no line is wider than the window, a first look is
// no longer than it may be, an answer is a few sentences, each short and in the fractions that a
// tape shows, a finding fits a line and is told once.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "cli/run.h"
#include "io/write/wrap.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Json = nlohmann::ordered_json;

constexpr size_t kLongestSentence = 240;  // characters that a reader takes in at once
constexpr size_t kFindingWidth = 76;

// A command as a person gives it, and what its first look at 80 columns may be.
//   more                beside the file
//   fewest, most        sentences
struct Look {
  std::string command;
  std::vector<std::string> more;
  size_t most_lines, fewest, most;
};

// An answer of `page` and `check` is eight sentences, and two at the foot.
std::vector<Look> Looks() {
  return {{"page", {}, 50, 2, 10},
          {"check", {}, 39, 2, 10},
          {"original", {}, 89, 1, 8},
          {"limits", {}, 59, 1, 8},
          {"openings", {}, 59, 1, 8},
          {"driveline", {}, 59, 1, 8},
          {"steering", {}, 59, 1, 8},
          {"roll", {}, 59, 3, 8},
          {"ride", {}, 59, 3, 8},
          {"settle", {}, 59, 1, 8},
          {"sweep", {}, 89, 1, 8},
          {"sweep", {"--motion", "roll"}, 89, 1, 8},
          {"sweep", {"--motion", "crossed"}, 89, 1, 8},
          {"sweep", {"--motion", "steer"}, 89, 1, 8},
          {"sweep", {"--load", "all"}, 89, 1, 8},
          {"sweep", {"--column", "wheelbase_change", "caster", "roll_center_height"}, 89, 1, 8},
          {"compare", {VehiclePath("harbour_van")}, 119, 1, 8}};
}

void ExpectLines(const std::string& out, size_t width) {
  const std::vector<std::string> lines = Lines(out);
  for (size_t i = 1; i < lines.size(); ++i) {  // its title is the user's
    // The name of a folder is as long as it is.
    if (lines[i].find(LINKWRIGHT_SOURCE_DIR) != std::string::npos) continue;
    EXPECT_LE(TextWidth(lines[i]), width) << lines[i];
    EXPECT_EQ(lines[i].find("nan"), std::string::npos) << lines[i];
  }
}

void ExpectSentences(const Json& answer, const Look& look) {
  static const std::regex decimal_inch(R"(\d\.\d+ in\b)");
  EXPECT_GE(answer.size(), look.fewest);
  EXPECT_LE(answer.size(), look.most) << answer.dump(1);
  for (const std::string sentence : answer) {
    EXPECT_LE(TextWidth(sentence), kLongestSentence) << sentence;
    EXPECT_TRUE(sentence.ends_with('.') || sentence.ends_with('?')) << sentence;
    EXPECT_EQ(sentence.find("no number"), std::string::npos) << sentence;
    EXPECT_EQ(sentence.find("nan"), std::string::npos) << sentence;
    EXPECT_FALSE(std::regex_search(sentence, decimal_inch)) << sentence;
  }
}

void ExpectFinding(const std::string& line, const std::string& words) {
  EXPECT_LE(TextWidth(line), kFindingWidth) << line;
  EXPECT_EQ(line.find('\n'), std::string::npos) << line;
  for (const std::string& text : {line, words}) {
    EXPECT_EQ(text.find('{'), std::string::npos) << text;
    EXPECT_EQ(text.find("  "), std::string::npos) << text;
    EXPECT_EQ(text.find(" 0 in"), std::string::npos) << text;
    EXPECT_EQ(text.find(" 0 mm"), std::string::npos) << text;
    EXPECT_EQ(text.find(" -"), std::string::npos) << "a way in words is wanted: " << text;
  }
  for (size_t at = 0; at < words.size();) {
    const size_t end = std::min(words.find(". ", at), words.size());
    EXPECT_LE(end - at, kLongestSentence) << words;
    at = end + 2;
  }
}

// Two members of one pair under the same slug are one finding: what tells them apart is their side.
std::string WithoutSide(std::string line) {
  line = line.substr(0, line.find(": "));
  for (const std::string side : {" left", " right"}) {
    const size_t at = line.find(side);
    if (at != std::string::npos) line.erase(at, side.size());
  }
  return line;
}

void ExpectFindings(const Json& rows) {
  std::set<std::string> told;
  for (const Json& finding : rows) {
    const std::string slug = finding.at("finding"), line = finding.at("line");
    ExpectFinding(line, finding.at("words"));
    if (slug.starts_with("order-") || slug.starts_with("stop-") || slug == "loose-coil") {
      EXPECT_TRUE(told.insert(slug + WithoutSide(line)).second) << line;
    }
  }
}

Json FindingsOf(const Json& document) {
  return document.contains("findings") ? document["findings"]["rows"] : Json::array();
}

// What is to be mended: at most seven, the worst of what `check` has, the others counted.
void ExpectWorst(const std::string& page, size_t all) {
  const std::vector<std::string> lines = Lines(page);
  const auto listed = static_cast<size_t>(std::count_if(
      lines.begin(), lines.end(), [](const std::string& line) { return line.starts_with("- "); }));
  EXPECT_LE(listed, 7U);
  EXPECT_GE(listed, std::min<size_t>(all, 3));
  if (all == listed) return;
  EXPECT_NE(Flat(page).find(std::to_string(all - listed) + " more ("), std::string::npos) << page;
  EXPECT_NE(Flat(page).find("linkwright check FILE tells "), std::string::npos) << page;
}

class EveryAnswer : public testing::TestWithParam<std::string> {
 protected:
  // A variant is looked at in its own system.
  static std::vector<std::string> Systems() {
    if (ReadBytes(VehiclePath(GetParam())).find("\nbase: ") != std::string::npos) return {""};
    return {"metric", "inch"};
  }
  // Where its axles are those of another fixture: what is told of the file's own.
  static bool IsLookedAt(const Look& look) {
    const std::vector<std::string> unlike = UnlikeVehicles();
    return std::find(unlike.begin(), unlike.end(), GetParam()) != unlike.end() ||
           look.command == "page" || look.command == "check" || look.command == "original";
  }
  static std::vector<std::string> Words(const Look& look, const std::string& units) {
    std::vector<std::string> words{look.command, VehiclePath(GetParam())};
    words.insert(words.end(), look.more.begin(), look.more.end());
    if (!units.empty()) words.insert(words.end(), {"--units", units});
    return words;
  }
  static std::string Shown(const std::vector<std::string>& words) {
    std::string shown;
    for (const std::string& word : words) shown += word + " ";
    return shown;
  }
};

Outcome RunIn(size_t width, const std::vector<std::string>& words) {
  std::ostringstream out, err;
  const int exit = Run(words, out, err, {.width = width});
  return {.exit = exit, .out = out.str(), .err = err.str()};
}

TEST_P(EveryAnswer, FitsTheWindowAndIsTakenInAtOnce) {
  for (const std::string& units : Systems()) {
    std::map<std::string, std::string> said;  // of each command
    std::map<std::string, size_t> found;
    for (const Look& look : Looks()) {
      if (!IsLookedAt(look)) continue;
      std::vector<std::string> words = Words(look, units);
      SCOPED_TRACE(Shown(words));
      const Folder folder;
      words.insert(words.end(), {"--json", folder.Path("said.json")});
      const Outcome outcome = RunIn(80, words);
      if (outcome.exit == 2) {  // it asks for what the file does not have
        EXPECT_TRUE(look.command != "page" && look.command != "check") << outcome.err;
        continue;
      }
      EXPECT_LE(Lines(outcome.out).size(), look.most_lines) << outcome.out;
      ExpectLines(outcome.out, 80);
      const Json document = Json::parse(ReadBytes(folder.Path("said.json")));
      ExpectSentences(document.at("answer"), look);
      ExpectFindings(FindingsOf(document));
      said[look.command] = outcome.out;
      found[look.command] = FindingsOf(document).size();
    }
    ExpectWorst(said["page"], found["check"]);
  }
}

// A wider window is filled no farther than it goes.
TEST(EveryAnswerWide, FitsTheWindow) {
  for (const char* name : {"harbour_van", "orchard_tractor_truck", "moorland_wagon"}) {
    for (const Look& look : Looks()) {
      std::vector<std::string> words{look.command, VehiclePath(name)};
      words.insert(words.end(), look.more.begin(), look.more.end());
      SCOPED_TRACE(std::string(name) + " " + look.command);
      const Outcome outcome = RunIn(120, words);
      if (outcome.exit != 2) ExpectLines(outcome.out, 120);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Fixtures, EveryAnswer, testing::ValuesIn(VehicleNames()),
                         [](const auto& vehicle) { return vehicle.param; });

}  // namespace
}  // namespace linkwright::check
