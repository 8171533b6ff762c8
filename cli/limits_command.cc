// SPDX-License-Identifier: MIT
#include <memory>

#include "cli/command.h"
#include "cli/standing.h"
#include "io/write/limits_tables.h"
#include "solver/study/findings/limits_findings.h"

namespace linkwright {
namespace {

struct LimitsOptions {
  CommonOptions common;
  std::string file, load;
  std::string split, bump, droop;
};

// Plain numbers are in the file's own units, whatever --units shows.
TravelWish ParseWish(const LimitsOptions& options, UnitSystem units) {
  TravelWish wish{.split = ParseOption("--split", options.split, Dimension::kPercent, units),
                  .bump = ParseOption("--bump", options.bump, Dimension::kLength, units),
                  .droop = ParseOption("--droop", options.droop, Dimension::kLength, units)};
  if (wish.split && (wish.bump || wish.droop)) {
    throw UsageError("--split shares the travel as found; it does not go with --bump and --droop");
  }
  if (wish.split && !(*wish.split > 0.0 && *wish.split < 1.0)) {
    throw UsageError("--split: the share of bump in percent is wanted, between 0 and 100");
  }
  return wish;
}

struct LimitsAnswer {
  std::vector<NamedTable> tables;
  std::vector<Finding> findings;
  std::vector<std::string> notes;
};

LimitsAnswer AnswerLimits(const VehicleFile& file, const FileStanding& standing,
                          const TravelWish& wish, UnitSystem units) {
  const Stance* stance = StanceOf(standing);
  try {
    const LimitsReport limits = FindLimits({standing.rig, stance});
    const PartsAdvice advice = AdviseParts(standing.rig, standing.load, stance, limits, wish,
                                           file.vehicle.aims.damper_reserve);
    const bool planned = wish.split || wish.bump || wish.droop;
    std::vector<Finding> findings = AdviceFindings(file.vehicle, advice);
    for (Finding& finding : LimitsFindings(file.vehicle, limits, &advice)) {
      finding.as_found = planned;
      findings.push_back(std::move(finding));
    }
    KeepWorst(findings);
    return {LimitsTables(file.vehicle, limits, advice, units), findings,
            LimitsNotes(file.vehicle, limits, advice, units, planned)};
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
}

int RunLimits(const LimitsOptions& options, Streams& streams) {
  const VehicleFile file = ReadFor(options.common, options.file, streams);
  const TravelWish wish = ParseWish(options, file.units);
  const auto standing = StandFile(file, options.load, streams);
  if (!standing) return kAnswerIsNo;
  const UnitSystem units = OutputUnits(options.common, file);
  const LimitsAnswer answer = AnswerLimits(file, *standing, wish, units);
  std::vector<NamedTable> in_files{StandingTable(*standing, units)};
  in_files.insert(in_files.end(), answer.tables.begin(), answer.tables.end());
  std::vector<std::string> notes{StandingNote(*standing)};
  notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
  return HandOut(
      {.command = "limits",
       .head = Heading(file),
       .tables = in_files,
       .notes = notes,
       .cautions = "Straps stretch: order one that is this long under load. Tabs, stops "
                   "and straps carry hard blows;\nhow strong they and their welds must be "
                   "is not said here.\n" +
                   Cautions(),
       .findings = answer.findings},
      ToPageText(answer.tables), file, options.common, streams);
}

}  // namespace

Command LimitsCommand() {
  auto options = std::make_shared<LimitsOptions>();
  Command command{
      .name = "limits",
      .help = "what ends each axle's travel, what the rest has left, which parts would suit"};
  AddFile(command, "FILE", options->file, "vehicle file or variant");
  AddOption(command, "--load", options->load,
            "stand it under this load first; by default the first");
  AddOption(command, "--split", options->split,
            "advise parts that make this share of the travel bump, in percent");
  AddOption(command, "--bump", options->bump, "advise parts for this bump of both wheels");
  AddOption(command, "--droop", options->droop, "advise parts for this droop of both wheels");
  AddCommonOptions(command, options->common);
  command.run = [options](Streams& streams) { return RunLimits(*options, streams); };
  return command;
}

}  // namespace linkwright
