// SPDX-License-Identifier: MIT
// Help and manual, made of what the commands say of themselves; their examples are what comes out.
// Where an example's output has changed the new cli/examples.cc is written to the build folder.
#include <gtest/gtest.h>

#include <fstream>

#include "cli/command.h"
#include "cli/examples.h"
#include "cli/help.h"
#include "io/write/wrap.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

const std::string kRoot = LINKWRIGHT_SOURCE_DIR;

// The first lines under title and path.
std::string Beginning(const Command& command) {
  constexpr size_t kMost = 7;
  const WorkingFolder here(kRoot + "/fixtures/vehicles");
  std::vector<std::string> arguments = SplitWords(command.example);
  if (command.name != kPageName) arguments.insert(arguments.begin(), command.name);
  const Outcome outcome = RunProgram(arguments);
  EXPECT_EQ(outcome.exit, 0) << command.name << outcome.err;
  std::string begin;
  size_t count = 0;
  bool under = false;
  for (const std::string& line : Lines(outcome.out)) {
    if (under && count++ < kMost) begin += line + "\n";
    under = under || line.empty();
  }
  while (begin.ends_with("\n\n")) begin.pop_back();
  return begin;
}

std::string MadeExamples() {
  std::string text =
      "// SPDX-License-Identifier: MIT\n"
      "// Made by tests/cli/help_test.cc: it says where the new text is when the output has "
      "changed.\n"
      "#include \"cli/examples.h\"\n\nnamespace linkwright {\nnamespace {\n\n"
      "struct Example {\n  std::string_view command, output;\n};\n\n"
      "constexpr Example kExamples[]{\n";
  for (const Command& command : AllCommands()) {
    text += "    {\"" + command.name + "\", R\"(" + Beginning(command) + ")\"},\n";
  }
  return text +
         "};\n\n}  // namespace\n\n"
         "std::string_view ExampleOutput(std::string_view command) {\n"
         "  for (const Example& example : kExamples) {\n"
         "    if (example.command == command) return example.output;\n"
         "  }\n  return {};\n}\n\n}  // namespace linkwright\n";
}

TEST(Help, ItsExamplesAreWhatComesOut) {
  const std::string made = MadeExamples();
  const std::string kept = kRoot + "/cli/examples.cc";
  if (ReadBytes(kept) == made) return;
  const std::string path = std::string(LINKWRIGHT_GOLDEN_OUTPUT) + "/examples.cc";
  std::ofstream(path, std::ios::binary) << made;
  ADD_FAILURE() << "the examples are others; look at them with\n  diff " << kept << " " << path;
}

TEST(Help, OfEveryCommandSaysWhatItAnswersHowAndWithWhichStatus) {
  for (const Command& command : AllCommands()) {
    const Outcome outcome = RunProgram({command.name, "--help"});
    EXPECT_EQ(outcome.exit, 0);
    EXPECT_LE(WidestLine(outcome.out), 80U) << outcome.out;
    EXPECT_TRUE(command.asks.ends_with('?')) << command.name;
    EXPECT_FALSE(command.example.empty()) << command.name;
    for (const std::string& words : {command.asks, ExampleLine(command),
                                     std::string("Exit status:"), std::string("--strict")}) {
      EXPECT_NE(Flat(outcome.out).find(Flat(words)), std::string::npos)
          << command.name << ": " << words << "\n"
          << outcome.out;
    }
    for (const Option& option : OptionsOf(command)) {
      EXPECT_NE(outcome.out.find(option.name), std::string::npos) << option.name;
    }
  }
}

TEST(Manual, HasEveryCommandAndEveryOption) {
  const Outcome all = RunProgram({"--man"});
  EXPECT_EQ(all.exit, 0);
  EXPECT_TRUE(all.out.starts_with(".TH LINKWRIGHT 1 "));
  for (const Command& command : AllCommands()) {
    const Outcome one = RunProgram({"--man", command.name});
    EXPECT_EQ(one.exit, 0);
    for (const Option& option : OptionsOf(command)) {
      std::string name = option.name;
      for (size_t at = 0; (at = name.find('-', at)) != std::string::npos; at += 2) {
        name.insert(at, "\\");
      }
      for (const Outcome* page : {&all, &one}) {
        EXPECT_NE(page->out.find("\n.B " + name), std::string::npos) << command.name << name;
      }
    }
  }
  EXPECT_NE(RunProgram({"--man", "settel"}).err.find("did you mean 'settle'?"), std::string::npos);
}

// A line that begins with a point or a quote would be taken for a request.
TEST(Manual, HasNoRequestButItsOwn) {
  const std::vector<std::string> known{".TH", ".SH", ".B", ".PP", ".TP", ".nf", ".fi", ".br"};
  for (const std::string& line : Lines(RunProgram({"--man"}).out)) {
    EXPECT_FALSE(line.starts_with('\'')) << line;
    if (!line.starts_with('.')) continue;
    const std::string request = line.substr(0, line.find(' '));
    EXPECT_NE(std::find(known.begin(), known.end(), request), known.end()) << line;
  }
}

}  // namespace
}  // namespace linkwright::check
