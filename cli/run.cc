// SPDX-License-Identifier: MIT
#include "cli/run.h"

#include <spdlog/logger.h>
#include <spdlog/sinks/ostream_sink.h>

#include <CLI/CLI.hpp>
#include <exception>
#include <memory>
#include <new>
#include <optional>
#include <streambuf>

#include "cli/command.h"
#include "io/read/suggest.h"
#include "io/shown.h"
#include "io/write/file.h"

namespace linkwright {
namespace {

constexpr const char* kDescription =
    "Where a link-located, coil-sprung vehicle stands and how its axles move.\n"
    "Describe the vehicle in a file (docs/vehicle-file.md), then ask:";

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
  if (!option.choices.empty()) added->check(CLI::IsMember(option.choices));
  return added;
}

Listed List(CLI::App& root, Command command) {
  CLI::App* app = root.add_subcommand(command.name, command.help);
  Listed listed{std::move(command), app, {}};
  for (const auto& options : {listed.command.options, CommonOptions()}) {
    for (const Option& option : options) listed.options.emplace_back(option, List(*app, option));
  }
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

// A first word that is no command and no option, for a message that names it.
std::optional<std::string> UnknownCommand(const std::vector<std::string>& arguments,
                                          const std::vector<Listed>& commands) {
  if (arguments.empty() || arguments.front().starts_with('-')) return std::nullopt;
  std::vector<std::string_view> names;
  for (const Listed& listed : commands) {
    if (listed.command.name == arguments.front()) return std::nullopt;
    names.emplace_back(listed.command.name);
  }
  const std::string nearest = NearestWord(arguments.front(), names);
  return "there is no command '" + arguments.front() + "'" +
         (nearest.empty() ? "; see linkwright --help" : "; did you mean '" + nearest + "'?");
}

// Passes on what is written with all that would not be seen shown as escapes: the last guard
// between a name in a file and the terminal. Keeps back the start of a character that is cut.
class ShownBuffer : public std::streambuf {
 public:
  explicit ShownBuffer(std::ostream& to) : to_(to) {}

 protected:
  int_type overflow(int_type c) override {
    if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
    const char byte = traits_type::to_char_type(c);
    return xsputn(&byte, 1) == 1 ? c : traits_type::eof();
  }
  std::streamsize xsputn(const char* bytes, std::streamsize count) override {
    kept_.append(bytes, static_cast<size_t>(count));
    const size_t whole = WholePart(kept_);
    to_ << Shown(std::string_view(kept_).substr(0, whole), "\n\t");
    kept_.erase(0, whole);
    return to_ ? count : 0;
  }
  int sync() override {
    to_ << Shown(kept_, "\n\t");
    kept_.clear();
    return to_.flush() ? 0 : -1;
  }

 private:
  // All but the bytes at the end that may begin a character whose rest is still to come.
  static size_t WholePart(const std::string& text) {
    constexpr size_t kLongest = 4;
    for (size_t back = 1; back < kLongest && back <= text.size(); ++back) {
      const auto byte = static_cast<unsigned char>(text[text.size() - back]);
      if ((byte & 0xC0U) == 0x80U) continue;
      const size_t wants = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
      return wants > back ? text.size() - back : text.size();
    }
    return text.size();
  }

  std::ostream& to_;
  std::string kept_;
};

int RunShown(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  CLI::App app{kDescription, "linkwright"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "linkwright " LINKWRIGHT_VERSION);
  std::vector<Listed> commands;
  for (const auto& make : {CheckCommand, SettleCommand, SweepCommand, CompareCommand,
                           DrivelineCommand, SteeringCommand, LimitsCommand, OpeningsCommand,
                           OriginalCommand, RollCommand, RideCommand}) {
    commands.push_back(List(app, make()));
  }
  if (const auto unknown = UnknownCommand(arguments, commands)) {
    err << "linkwright: " << *unknown << "\n";
    return kUnusable;
  }
  try {
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
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
    const int code = RunParsed(commands, {out, err, log});
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

int Run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  ShownBuffer out_buffer(out), err_buffer(err);
  std::ostream shown_out(&out_buffer), shown_err(&err_buffer);
  int code = kUnusable;
  // What is caught here is a mistake of ours; it is told and not left to end the program.
  try {
    code = RunShown(arguments, shown_out, shown_err);
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
