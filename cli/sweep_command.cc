// SPDX-License-Identifier: MIT
#include <algorithm>
#include <deque>

#include "cli/command.h"
#include "cli/settled.h"
#include "cli/standing.h"
#include "cli/sweep_request.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

constexpr const char* kEveryLoad = "all";

// "all" is every load, unless one is called so.
bool AsksEveryLoad(const Question& asked, const Vehicle& vehicle) {
  if (WordOf(asked, "--load") != kEveryLoad || IsGeometryOnly(vehicle)) return false;
  return std::none_of(vehicle.loads.begin(), vehicle.loads.end(),
                      [](const Load& load) { return load.name == kEveryLoad; });
}

// What is printed: the columns asked for in one table, else those that people steer by.
std::vector<NamedTable> Glance(const Question& asked, const SweptCurves& curves) {
  const RowsShown shown = RowsToPrint(asked);
  if (!IsGiven(asked, "--column")) return CurvesAtAGlance(curves, shown);
  const std::vector<size_t> columns = AskedColumns(asked, *curves.rows);
  return {{"curves", ColumnsOfRows(*curves.rows, columns, shown)}};
}

Answer SweepOneLoad(const Question& asked) {
  const FileStanding at = StandFile(asked, kSweepsAsMeasured);
  const Vehicle& vehicle = asked.files.front().vehicle;
  const Swept swept =
      SweepAsked(asked, asked.files.front(), at.rig, StanceOf(at), UsualSteps::kFine);
  const SweptCurves curves = CurvesOf(asked, vehicle, swept);
  return {.about = LoadLine(at.load),
          .said = CurveSentences(curves),
          .standing = StandingTable(at.load, asked.units),
          .tables = {{"rows", swept.table}},
          .glance = Glance(asked, curves),
          .first_is_main = true,
          .findings = IsGiven(asked, "--column") ? std::vector<Finding>() : swept.findings,
          .notes = swept.notes,
          .amiss = swept.cut_short};
}

Answer SweepEveryLoad(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Settled settled = SettleLoads(file, PickLoads(file.vehicle, {}));
  if (settled.stances.empty()) throw NoRest(settled.refusals);
  Answer answer{.tables = {},
                .first_is_main = true,
                .complaint = settled.refusals,
                .exit = settled.refusals.empty() ? kDone : kAnswerIsNo};
  std::deque<Swept> kept;  // that what is made of them refers to
  std::vector<LoadRows> rows;
  for (const Stance& stance : settled.stances) {
    const Swept& swept =
        kept.emplace_back(SweepAsked(asked, file, settled.rig, &stance, UsualSteps::kFine));
    rows.push_back({stance.load, &swept.table});
    answer.said.push_back(ReachSentence(stance.load, CurvesOf(asked, file.vehicle, swept)));
    for (const std::string& note : swept.notes) answer.notes.push_back(stance.load + ": " + note);
    answer.in_full.push_back({"rows under " + stance.load, swept.table});
    answer.amiss = answer.amiss || swept.cut_short;
    for (Finding finding : swept.findings) {
      finding.load = stance.load;
      answer.findings.push_back(std::move(finding));
    }
  }
  KeepWorst(answer.findings);
  const SweptCurves curves = CurvesOf(asked, file.vehicle, kept.front());
  if (IsGiven(asked, "--column")) {
    const std::vector<size_t> columns = AskedColumns(asked, kept.front().table);
    for (const LoadRows& each : rows) {
      answer.glance.push_back(
          {"under " + each.load, ColumnsOfRows(*each.rows, columns, RowsToPrint(asked))});
    }
  } else {
    answer.glance = CurvesByLoad(curves, rows);
  }
  answer.tables.push_back({"rows", RowsOfLoads(rows)});
  constexpr size_t kMostSaid = 8;
  if (answer.said.size() > kMostSaid) answer.said.resize(kMostSaid);
  return answer;
}

Answer AnswerSweep(const Question& asked) {
  return AsksEveryLoad(asked, asked.files.front().vehicle) ? SweepEveryLoad(asked)
                                                           : SweepOneLoad(asked);
}

}  // namespace

Command SweepCommand() {
  Command command{
      .name = "sweep",
      .help = "the curves over travel",
      .asks = "How do wheelbase, pinion, caster, roll centre and ride change over the travel?",
      .example = "harbour_van.yaml --step 20",
      .options = {FileOption()},
      .answer = AnswerSweep};
  for (Option& option : SweepRequestOptions()) {
    if (option.name == "--load") option.help += "; all: under every load";
    command.options.push_back(option);
  }
  command.options.push_back(ColumnOption());
  return command;
}

}  // namespace linkwright
