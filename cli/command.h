// SPDX-License-Identifier: MIT
// What every command shares: its common options, what it reads, where its results go.
#pragma once

#include <functional>
#include <ostream>
#include <stdexcept>

#include "cli/findings.h"
#include "cli/options.h"
#include "cli/run.h"
#include "io/read/vehicle_file.h"
#include "io/write/json.h"

namespace spdlog {
class logger;
}

namespace linkwright {

// A command line that asks for what is not there: exit 2, no place in a file.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Streams {
  std::ostream& out;
  std::ostream& err;
  spdlog::logger& log;
};

// Options that every command has.
struct CommonOptions {
  std::string csv;    // path; empty: none
  std::string json;   // path; empty: none
  std::string units;  // "metric", "inch"; empty: as in the file
  bool strict = false;
  bool verbose = false;
};

void AddCommonOptions(Command& command, CommonOptions& options);

// Reads the vehicle and, under --verbose, logs what was read.
[[nodiscard]] VehicleFile ReadFor(const CommonOptions& options, const std::string& path,
                                  Streams& streams);

// The unit system results are written in.
[[nodiscard]] UnitSystem OutputUnits(const CommonOptions& options, const VehicleFile& file);

// Writes what --csv and --json ask for, both or neither.
//   csv      one table;  inputs   files that must not be written over
//   errors   WriteError
void WriteFiles(const CommonOptions& options, const DataTable& csv, const Document& document,
                const std::vector<std::string>& inputs);

// The load of that name, the first one for an empty name. errors: UsageError naming those there
// are.
[[nodiscard]] const Load& FindLoad(const Vehicle& vehicle, const std::string& name);

// A value given to an option, within the range it is declared with (io/read/options.h); a plain
// number is in `units`.
//   errors   UsageError
[[nodiscard]] double ParseAmount(const char* option, const std::string& text, Dimension dimension,
                                 UnitSystem units);

// The same, absent for an empty text.
[[nodiscard]] std::optional<double> ParseOption(const char* option, const std::string& text,
                                                Dimension dimension, UnitSystem units);

// The two lines that stand over every table.
[[nodiscard]] std::string Heading(const VehicleFile& file);

// The same with the load that everything under it is about; null: the file has no masses.
[[nodiscard]] std::string Heading(const VehicleFile& file, const Load* load);

// The cautions that go under predictions.
[[nodiscard]] std::string Cautions();

// kAnswerIsNo under --strict where something is to be looked at, which is then said on standard
// error; else kDone.
[[nodiscard]] int Verdict(const CommonOptions& options, bool warned, Streams& streams);

// One line a note, with an empty line before the first.
void PrintNotes(std::ostream& out, const std::vector<std::string>& notes);

[[nodiscard]] Command CheckCommand();
[[nodiscard]] Command SettleCommand();
[[nodiscard]] Command SweepCommand();
[[nodiscard]] Command CompareCommand();
[[nodiscard]] Command DrivelineCommand();
[[nodiscard]] Command SteeringCommand();
[[nodiscard]] Command OriginalCommand();
[[nodiscard]] Command RollCommand();
[[nodiscard]] Command RideCommand();
[[nodiscard]] Command LimitsCommand();
[[nodiscard]] Command OpeningsCommand();

}  // namespace linkwright
