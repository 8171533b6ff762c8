// SPDX-License-Identifier: MIT
#include "cli/help.h"

#include <fmt/format.h>

#include <cctype>
#include <sstream>
#include <string_view>

#include "cli/completion.h"
#include "cli/examples.h"
#include "io/read/suggest.h"
#include "io/write/wrap.h"

namespace linkwright {
namespace {

constexpr const char* kWhatItIs =
    "Where a link-located, coil-sprung vehicle stands and how its axles move, from a tape, a plumb "
    "bob and a set of scales. Describe the vehicle in a file (docs/vehicle-file.md), then ask.";
constexpr const char* kStartsWith =
    "Start with the file alone: where it stands, what travel it has, what to mend.";

// What each exit status means.
constexpr const char* kStatuses[]{
    "0  done", "1  done, and the answer is no: no resting position, or --strict finds something",
    "2  the file or the command line cannot be used; standard error says where and why"};

bool IsPage(const Command& command) { return command.name == kPageName; }

// "linkwright settle FILE [options]"
std::string Usage(const Command& command) {
  std::string usage = IsPage(command) ? "linkwright" : "linkwright " + command.name;
  for (const Option& option : command.options) {
    if (IsFile(option)) usage += " " + option.name;
  }
  return usage + " [options]";
}

// "--units metric|inch", "--at X Y Z"
std::string OptionWords(const Option& option) {
  if (IsFile(option) || option.count == kFlag) return option.name;
  std::string words = option.amounts.empty() ? "NAME" : "AMOUNT";
  if (!option.choices.empty()) {
    words.clear();
    for (const std::string& choice : option.choices) words += (words.empty() ? "" : "|") + choice;
  }
  const std::string one = words;
  for (int i = 1; i < option.count; ++i) words += " " + one;
  if (option.count == kAnyCount) words += "...";
  return option.name + " " + words;
}

// A definition: its word on a line of its own where it is long.
std::string Definition(const std::string& word, const std::string& meaning, size_t width) {
  constexpr size_t kIndent = 20;
  const std::string indent(kIndent, ' ');
  if (word.size() + 4 > kIndent) return "  " + word + "\n" + Wrap(meaning, width, indent, indent);
  return Wrap(meaning, width, "  " + word + std::string(kIndent - 2 - word.size(), ' '), indent);
}

std::string OptionLines(const Command& command, size_t width) {
  std::string text;
  for (const Option& option : OptionsOf(command)) {
    text += Definition(OptionWords(option), option.help, width);
  }
  return text;
}

std::vector<std::string> LinesOf(std::string_view text) {
  std::vector<std::string> lines;
  std::istringstream stream{std::string(text)};
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

// What roff would take for its own.
std::string Roff(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    if (c == '\\') {
      safe += "\\e";
    } else if (c == '-') {
      safe += "\\-";
    } else if (c == '\'') {
      safe += "\\(aq";
    } else {
      safe += c;
    }
  }
  return safe.starts_with('.') ? "\\&" + safe : safe;
}

std::string RoffLines(std::string_view text) {
  std::string lines;
  for (const std::string& line : LinesOf(text)) lines += Roff(line) + "\n";
  return lines;
}

// The parts that a command has on every page that tells of it.
std::string ManualPart(const Command& command) {
  std::string text = ".B " + Roff(Usage(command)) + "\n.PP\n" + Roff(command.asks) + "\n";
  text += ".PP\nExample:\n.PP\n.nf\n" + Roff(ExampleLine(command)) + "\n" +
          RoffLines(ExampleOutput(command.name)) + ".fi\n";
  for (const Option& option : OptionsOf(command)) {
    text += ".TP\n.B " + Roff(OptionWords(option)) + "\n" + Roff(option.help) + "\n";
  }
  return text;
}

std::string ManualHead(const std::string& name, const std::string& what) {
  std::string title = name;
  for (char& c : title) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return ".TH " + title + " 1 \"\" \"linkwright " LINKWRIGHT_VERSION "\"\n.SH NAME\n" + Roff(name) +
         " \\- " + Roff(what) + "\n";
}

std::string ManualFoot() {
  std::string text = ".SH EXIT STATUS\n";
  for (const std::string_view status : kStatuses) {
    text += ".TP\n.B " + std::string(status.substr(0, 1)) + "\n" + Roff(status.substr(3)) + "\n";
  }
  text += ".SH ENVIRONMENT\n.TP\n.B COLUMNS\nwidth of what is printed\n";
  return text + ".TP\n.B NO_COLOR\nwhere it is set to anything, nothing is printed in colour\n";
}

}  // namespace

std::string ExampleLine(const Command& command) {
  const std::string name = IsPage(command) ? std::string() : " " + command.name;
  return "linkwright" + name + " " + command.example;
}

std::string HelpOf(const Command& command, size_t width) {
  std::string text = Usage(command) + "\n\n" + Wrap(command.asks, width);
  if (!command.example.empty()) {
    text += "\n" + Wrap(ExampleLine(command), width, "$ ");
    for (const std::string& line : LinesOf(ExampleOutput(command.name))) text += line + "\n";
    text += "...\n";
  }
  text += "\nOptions:\n" + OptionLines(command, width) + "\nExit status:\n";
  for (const char* status : kStatuses) text += Wrap(status, width, "  ", "     ");
  return text;
}

std::string HelpOf(const std::vector<Command>& commands, size_t width) {
  std::string text = Wrap(kWhatItIs, width) + "\n";
  const Command* page = FindCommand(kPageName, commands);
  text += Wrap(kStartsWith, width) + "\n  " + Usage(*page) + "\n\n";
  text += Wrap(
      "Then a command: linkwright COMMAND FILE [options]. linkwright COMMAND --help tells "
      "more.",
      width);
  text += "\n";
  for (const Command& command : commands) {
    if (!IsPage(command)) text += Definition(command.name, command.help, width);
  }
  text += "\n";
  text += Definition(kCompletionName,
                     "bash, zsh or fish: what makes the shell complete commands, "
                     "options, loads and columns; its head says how",
                     width);
  text += Definition(kManualName, "the manual page, of COMMAND where one is named", width);
  text += Definition("--version", "name and number", width);
  text += Definition("--help", "this", width) + "\nExit status:\n";
  for (const char* status : kStatuses) text += Wrap(status, width, "  ", "     ");
  return text;
}

std::string ManualOf(const std::vector<std::string>& words, const std::vector<Command>& commands) {
  if (words.size() > 1) throw UsageError("--man: one command is wanted, or none");
  if (!words.empty()) {
    const Command* command = FindCommand(words.front(), commands);
    if (command == nullptr) {
      std::vector<std::string_view> names;
      for (const Command& each : commands) names.emplace_back(each.name);
      const std::string nearest = NearestWord(words.front(), names);
      throw UsageError("--man: there is no command '" + words.front() + "'" +
                       (nearest.empty() ? "" : "; did you mean '" + nearest + "'?"));
    }
    return ManualHead("linkwright-" + command->name, command->help) + ".SH SYNOPSIS\n" +
           ManualPart(*command) + ManualFoot();
  }
  std::string text = ManualHead("linkwright", "where a vehicle stands and how its axles move");
  text += ".SH SYNOPSIS\n.B linkwright FILE [options]\n.br\n.B linkwright COMMAND FILE [options]\n";
  text += ".SH DESCRIPTION\n" + Roff(kWhatItIs) + "\n.PP\n" + Roff(kStartsWith) + "\n";
  for (const Command& command : commands) {
    text += ".SH " +
            (IsPage(command) ? std::string("THE PAGE TO START FROM") : "COMMAND " + command.name) +
            "\n" + ManualPart(command);
  }
  return text + ManualFoot();
}

}  // namespace linkwright
