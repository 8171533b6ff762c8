// SPDX-License-Identifier: MIT
#include "cli/run.h"

#include <spdlog/logger.h>
#include <spdlog/sinks/ostream_sink.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <filesystem>
#include <memory>
#include <new>
#include <optional>
#include <system_error>

#include "cli/command.h"
#include "cli/completion.h"
#include "cli/help.h"
#include "cli/shown_buffer.h"
#include "cli/understood.h"
#include "io/read/suggest.h"
#include "io/shown.h"
#include "io/write/file.h"

namespace linkwright {
namespace {

constexpr const char* kCannotWrite =
    "linkwright: cannot write to standard output: is the disk full?\n";
constexpr const char* kOurMistake =
    "linkwright: this should not happen, and the file is not to blame: please report it";

// A command in the command line, and its options there.
struct Listed {
  Command command;
  CLI::App* app;
  std::vector<std::pair<Option, CLI::Option*>> options;
};

CLI::Option* List(CLI::App& app, const Option& option) {
  if (option.count == kFlag) return app.add_flag(option.name, option.help);
  CLI::Option* added = app.add_option(option.name, option.help)->type_name("TEXT");
  if (IsFile(option)) added->required();
  if (option.count != 1) added->expected(CLI::detail::expected_max_vector_size);
  if (option.count > 1) added->expected(option.count);
  if (!option.choices.empty()) {
    added->transform(CLI::Validator(
        [option](std::string& word) { return TakeChoice(option, word); }, std::string()));
  }
  return added;
}

Listed List(CLI::App& root, Command command, size_t width) {
  CLI::App* app = root.add_subcommand(command.name, command.help);
  Listed listed{std::move(command), app, {}};
  for (const Option& option : OptionsOf(listed.command)) {
    listed.options.emplace_back(option, List(*app, option));
  }
  app->formatter_fn(
      [command = listed.command, width](const CLI::App*, const std::string&, CLI::AppFormatMode) {
        return HelpOf(command, width);
      });
  return listed;
}

// errors: UsageError for an option that is given nothing (--csv ""): it is no option left away
std::vector<Given> GivenFor(const Listed& listed) {
  std::vector<Given> given;
  for (const auto& [option, in_line] : listed.options) {
    if (in_line->count() == 0) continue;
    given.push_back({option, {}});
    if (option.count == kFlag) continue;
    for (const std::string& word : given.back().words = in_line->results()) {
      if (!word.empty()) continue;
      const std::string wanted = WantedFor(option);
      throw UsageError(option.name + ": the value is empty" +
                       (wanted.empty() ? std::string() : "; wanted: " + wanted));
    }
  }
  return given;
}

int RunParsed(const std::vector<Listed>& commands, const Streams& streams) {
  for (const Listed& listed : commands) {
    if (listed.app->parsed()) return RunCommand(listed.command, GivenFor(listed), streams);
  }
  return kUnusable;
}

// What a first word that is neither is answered with.
std::string UnknownCommand(const std::string& word, const std::vector<Command>& commands) {
  std::vector<std::string_view> names{kCompletionName};
  for (const Command& command : commands) names.emplace_back(command.name);
  const std::string nearest = NearestWord(word, names);
  return "there is no command and no vehicle file '" + word + "'" +
         (nearest.empty() ? "; see linkwright --help" : "; did you mean '" + nearest + "'?");
}

bool IsCommand(const std::string& word, const std::vector<Command>& commands) {
  return FindCommand(word, commands) != nullptr;
}

// Whether a word is meant as a vehicle file, whether it is there or not.
bool IsVehicleFile(const std::string& word) {
  std::error_code ignored;
  return word.ends_with(".yaml") || word.ends_with(".yml") ||
         std::filesystem::is_regular_file(word, ignored);
}

// A file without a command is asked for the page to start from, also behind options; and what is
// meant is put for what is spelled otherwise.
//   errors   UsageError for a first word that is neither, and for an option that is not there
std::vector<std::string> Understood(std::vector<std::string> arguments,
                                    const std::vector<Command>& commands) {
  if (arguments.empty()) {
    throw UsageError("a vehicle file is wanted, or a command and a vehicle file; see --help");
  }
  const std::string first = arguments.front();
  if (first == "-h" || first == "--help" || first == "--version") return arguments;
  if (!IsCommand(first, commands)) {
    const bool names_one = std::any_of(arguments.begin(), arguments.end(),
                                       [&](auto& word) { return IsCommand(word, commands); });
    if (!IsVehicleFile(first) && (names_one || !first.starts_with('-'))) {
      throw UsageError(UnknownCommand(first, commands));
    }
    arguments.insert(arguments.begin(), kPageName);
  }
  UnderstandOptions(*FindCommand(arguments.front(), commands), arguments);
  return arguments;
}

// What is asked of the program itself and of no vehicle; absent: something else is.
std::optional<int> RunAside(const std::vector<std::string>& arguments,
                            const std::vector<Command>& commands, std::ostream& out) {
  if (arguments.empty()) return std::nullopt;
  const std::vector<std::string> words(arguments.begin() + 1, arguments.end());
  if (arguments.front() == kCompletionName) {
    out << CompletionScript(words);
  } else if (arguments.front() == kCompleteName) {
    for (const std::string& each : Complete(words, commands)) out << each << "\n";
  } else if (arguments.front() == kManualName) {
    out << ManualOf(words, commands);
  } else {
    return std::nullopt;
  }
  return kDone;
}

int RunShown(const std::vector<std::string>& arguments, const Window& window, std::ostream& out,
             std::ostream& err) {
  const std::vector<Command> all = AllCommands();
  CLI::App app{"", "linkwright"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "linkwright " LINKWRIGHT_VERSION);
  app.formatter_fn([&](const CLI::App*, const std::string&, CLI::AppFormatMode) {
    return HelpOf(all, window.width);
  });
  std::vector<Listed> commands;
  for (const Command& command : all) commands.push_back(List(app, command, window.width));
  try {
    if (const std::optional<int> code = RunAside(arguments, all, out)) {
      if (out.flush()) return *code;
      err << kCannotWrite;
      return kUnusable;
    }
    const std::vector<std::string> asked = Understood(arguments, all);
    app.parse(std::vector<std::string>(asked.rbegin(), asked.rend()));
  } catch (const UsageError& error) {
    err << "linkwright: " << error.what() << "\n";
    return kUnusable;
  } catch (const CLI::ParseError& error) {
    if (app.exit(error, out, err) != 0) return kUnusable;
    if (out.flush()) return kDone;
    err << kCannotWrite;
    return kUnusable;
  }
  // What the program did, for those who ask with --verbose; until then nothing below a warning.
  spdlog::logger log("linkwright", std::make_shared<spdlog::sinks::ostream_sink_st>(err));
  log.set_pattern("linkwright: %v");
  log.set_level(spdlog::level::warn);
  try {
    const int code = RunParsed(commands, {out, err, log, window});
    if (out.flush()) return code;
    err << kCannotWrite;
  } catch (const InputErrors& error) {
    err << error.what();
  } catch (const UsageError& error) {
    err << "linkwright: " << error.what() << "\n";
  } catch (const WriteError& error) {
    err << "linkwright: " << error.what() << "\n";
  } catch (const std::bad_alloc&) {
    err << "linkwright: out of memory\n";
  }
  return kUnusable;
}

}  // namespace

std::vector<Command> AllCommands() {
  std::vector<Command> all;
  for (const auto& make : {PageCommand, CheckCommand, SettleCommand, SweepCommand, CompareCommand,
                           DrivelineCommand, SteeringCommand, LimitsCommand, OpeningsCommand,
                           OriginalCommand, RollCommand, RideCommand, ExplainCommand}) {
    all.push_back(make());
  }
  return all;
}

int Run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  return Run(arguments, out, err, {.width = WindowWidth()});
}

int Run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err,
        const Window& window) {
  ShownBuffer out_buffer(out), err_buffer(err);
  std::ostream shown_out(&out_buffer), shown_err(&err_buffer);
  int code = kUnusable;
  // What is caught here is a mistake of ours; it is told and not left to end the program.
  try {
    code = RunShown(arguments, window, shown_out, shown_err);
  } catch (const std::exception& error) {
    shown_err << kOurMistake << ": " << error.what() << "\n";
  } catch (...) {
    shown_err << kOurMistake << "\n";
  }
  shown_out.flush();
  shown_err.flush();
  return code;
}

}  // namespace linkwright
