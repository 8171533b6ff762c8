// SPDX-License-Identifier: MIT
#include "cli/command.h"
#include "io/write/original_tables.h"
#include "io/write/weighed_tables.h"
#include "solver/study/findings/original_findings.h"

namespace linkwright {
namespace {

Answer AnswerOriginal(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Vehicle& vehicle = file.vehicle;
  if (!vehicle.leaf_original) {
    throw UsageError(file.path +
                     " has no leaf springs of the old vehicle: give them as leaf_original: {rear: "
                     "{...}}, docs/questions-leaf.md shows how");
  }
  // Between rows of camber when new.
  const double step = RoundAmount(10.0, 0.5, Dimension::kLength, asked.units);
  const OriginalReport report = ReportOriginal(vehicle, step);
  std::vector<std::string> notes = OriginalNotes(vehicle, report, asked.units);
  if (vehicle.only_axle) {
    notes.push_back("the file has the " + vehicle.axles[*vehicle.only_axle].name +
                    " axle only, so nothing is said of how far apart its two openings are");
  }
  const WeighedOriginal weighed = WeighOriginal(vehicle);
  std::vector<NamedTable> tables = WeighedTables(vehicle, weighed, asked.units);
  for (NamedTable& named : OriginalTables(vehicle, report, asked.units)) {
    tables.push_back(std::move(named));
  }
  std::vector<Finding> findings = WeighedFindings(vehicle, weighed);
  for (Finding& finding : OriginalFindings(vehicle, report)) {
    findings.push_back(std::move(finding));
  }
  return {.said = WeighedAnswer(vehicle, weighed, asked.units),
          .tables = std::move(tables),
          .shown = {"design"},
          .findings = std::move(findings),
          .notes = notes,
          .cautions = Cautions() +
                      "A leaf spring holds energy too: hold axle and leaf before a shackle, an eye "
                      "or a U-bolt is undone.\nMeasure with the vehicle on its wheels; nobody "
                      "works under one that a single jack holds up.\n"};
}

}  // namespace

Command OriginalCommand() {
  return {.name = "original",
          .help = "where the old leaf-sprung axles sat when new: design wheelbase and openings",
          .asks = "Where did the leaf-sprung original have its wheels when it was new?",
          .example = "harbour_van_old_springs.yaml",
          .options = {FileOption()},
          .answer = AnswerOriginal};
}

}  // namespace linkwright
