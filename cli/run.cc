// SPDX-License-Identifier: MIT
#include "cli/run.h"

#include <new>
#include <optional>

#include "cli/command.h"
#include "io/read/suggest.h"
#include "io/write/file.h"

namespace linkwright {
namespace {

constexpr const char* kDescription =
    "Where a link-located, coil-sprung vehicle stands and how its axles move.\n"
    "Describe the vehicle in a file (docs/vehicle-file.md), then ask:";

int RunCommand(const std::vector<Command>& commands, Streams& streams) {
  for (const Command& command : commands) {
    if (command.app->parsed()) return command.run(streams);
  }
  return kUnusable;
}

// A first word that is no command and no option, for a message that names it.
std::optional<std::string> UnknownCommand(const std::vector<std::string>& arguments,
                                          const std::vector<Command>& commands) {
  if (arguments.empty() || arguments.front().starts_with('-')) return std::nullopt;
  std::vector<std::string_view> names;
  std::vector<std::string> owned;
  for (const Command& command : commands) owned.push_back(command.app->get_name());
  for (const std::string& name : owned) {
    if (name == arguments.front()) return std::nullopt;
    names.push_back(name);
  }
  const std::string nearest = NearestWord(arguments.front(), names);
  return "there is no command '" + arguments.front() + "'" +
         (nearest.empty() ? "; see linkwright --help" : "; did you mean '" + nearest + "'?");
}

}  // namespace

int Run(const std::vector<std::string>& arguments, std::ostream& out, std::ostream& err) {
  CLI::App app{kDescription, "linkwright"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "linkwright " LINKWRIGHT_VERSION);
  const std::vector<Command> commands{AddCheck(app),   AddSettle(app),    AddSweep(app),
                                      AddCompare(app), AddDriveline(app), AddSteering(app),
                                      AddLimits(app),  AddOpenings(app),  AddOriginal(app),
                                      AddRoll(app),    AddRide(app)};
  if (const auto unknown = UnknownCommand(arguments, commands)) {
    err << "linkwright: " << *unknown << "\n";
    return kUnusable;
  }
  try {
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::ParseError& error) {
    return app.exit(error, out, err) == 0 ? kDone : kUnusable;
  }
  spdlog::logger log = MakeLog(err);
  Streams streams{out, err, log};
  try {
    const int code = RunCommand(commands, streams);
    if (out.flush()) return code;
    err << "linkwright: cannot write to standard output: is the disk full?\n";
  } catch (const InputErrors& error) {
    err << FormatErrors(error);
  } catch (const UsageError& error) {
    err << "linkwright: " << error.what() << "\n";
  } catch (const WriteError& error) {
    err << "linkwright: " << error.what() << "\n";
  } catch (const std::bad_alloc&) {
    err << "linkwright: out of memory\n";
  }
  return kUnusable;
}

}  // namespace linkwright
