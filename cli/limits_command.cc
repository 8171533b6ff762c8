// SPDX-License-Identifier: MIT
#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/limits_tables.h"
#include "solver/study/findings/limits_findings.h"

namespace linkwright {
namespace {

TravelWish ParseWish(const Question& asked) {
  const TravelWish wish{.split = AmountOf(asked, "--split"),
                        .bump = AmountOf(asked, "--bump"),
                        .droop = AmountOf(asked, "--droop")};
  if (wish.split && (wish.bump || wish.droop)) {
    throw UsageError("--split shares the travel as found; it does not go with --bump and --droop");
  }
  if (wish.split && !(*wish.split > 0.0 && *wish.split < 1.0)) {
    throw UsageError("--split: the share of bump in percent is wanted, between 0 and 100");
  }
  return wish;
}

std::vector<Finding> FindingsOf(const Vehicle& vehicle, const LimitsReport& limits,
                                const PartsAdvice& advice, bool planned) {
  std::vector<Finding> findings = AdviceFindings(vehicle, advice);
  for (Finding& finding : LimitsFindings(vehicle, limits, &advice)) {
    finding.as_found = planned;
    findings.push_back(std::move(finding));
  }
  KeepWorst(findings);
  return findings;
}

Answer AnswerLimits(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const TravelWish wish = ParseWish(asked);
  const bool planned = wish.split || wish.bump || wish.droop;
  const FileStanding at = StandFile(asked);
  const LimitsReport limits = FindLimits({at.rig, StanceOf(at)});
  const PartsAdvice advice =
      AdviseParts(at.rig, at.load, StanceOf(at), limits, wish, vehicle.aims.damper_reserve);
  Answer answer = AnswerAt(at, asked);
  answer.tables = LimitsTables(vehicle, limits, advice, asked.units);
  answer.findings = FindingsOf(vehicle, limits, advice, planned);
  AddOneAxle(vehicle, "both axles crossed together; this one is crossed alone", answer.notes);
  AddNotes(LimitsNotes(vehicle, limits, advice, asked.units, planned), answer);
  answer.cautions =
      "Straps stretch: order one that is this long under load. Tabs, stops and straps carry hard "
      "blows;\nhow strong they and their welds must be is not said here.\n" +
      Cautions();
  Leave(PlanOfLimits(PlanForFile(asked, at.load), advice), asked, answer);
  return answer;
}

}  // namespace

Command LimitsCommand() {
  return {.name = "limits",
          .help = "what ends each axle's travel, what the rest has left, which parts would suit",
          .options = {FileOption(),
                      LoadOption(),
                      WriteOption(),
                      {.name = "--split",
                       .help = "advise parts that make this share of the travel bump, in percent",
                       .amounts = {AmountKey(Dimension::kPercent, kShareRange)}},
                      {.name = "--bump",
                       .help = "advise parts for this bump of both wheels",
                       .amounts = {AmountKey(Dimension::kLength, kTravelRange)}},
                      {.name = "--droop",
                       .help = "advise parts for this droop of both wheels",
                       .amounts = {AmountKey(Dimension::kLength, kTravelRange)}}},
          .answer = AnswerLimits};
}

}  // namespace linkwright
