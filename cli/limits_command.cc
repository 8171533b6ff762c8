// SPDX-License-Identifier: MIT
#include <algorithm>

#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/plan.h"
#include "cli/standing.h"
#include "io/write/limits_tables.h"
#include "io/write/limits_words.h"
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

bool LacksStops(const PartsAdvice& advice) {
  return std::any_of(advice.stops.begin(), advice.stops.end(), [](const StopAdvice& stop) {
    return !stop.height && (stop.rest_squeeze || stop.solid <= 0.0);
  });
}

// Where no stops do under all loads: those under which none do by themselves.
std::vector<std::string> LoadsWithoutStops(const Rig& rig, const std::vector<TravelCase>& cases,
                                           const TravelWish& wish, const PartsAdvice& advice) {
  std::vector<std::string> loads;
  if (cases.size() < 2 || !LacksStops(advice)) return loads;
  const double reserve = rig.vehicle->aims.damper_reserve;
  for (const TravelCase& one : cases) {
    if (LacksStops(AdviseParts(rig, one.load, one.stance, *one.found, wish, reserve))) {
      loads.push_back(one.load->name);
    }
  }
  return loads;
}

Answer AnswerLimits(const Question& asked) {
  const Vehicle& vehicle = asked.files.front().vehicle;
  const TravelWish wish = ParseWish(asked);
  const bool planned = wish.split || wish.bump || wish.droop;
  const FileStanding at = StandFile(asked);
  const EachStanding each = StandUnderEach(asked, at);
  std::vector<LimitsReport> found;
  for (const FileStanding& one : each.standings)
    found.push_back(FindLimits({one.rig, StanceOf(one)}));
  std::vector<TravelCase> cases;
  for (size_t i = 0; i < found.size(); ++i) {
    const FileStanding& one = each.standings[i];
    cases.push_back({.load = one.load, .stance = StanceOf(one), .found = &found[i]});
  }
  const LimitsReport& limits = found.front();
  const PartsAdvice advice = AdviseParts(at.rig, cases, wish, vehicle.aims.damper_reserve);
  Answer answer = AnswerAt(at, asked);
  answer.said = LimitsSentences(vehicle,
                                {.cases = cases,
                                 .one_load = each.one_load,
                                 .planned = planned,
                                 .no_rest = each.no_rest,
                                 .no_stops = LoadsWithoutStops(at.rig, cases, wish, advice)},
                                advice, asked.units);
  answer.tables = LimitsTables(vehicle, limits, advice, asked.units, planned);
  answer.shown = {"travel", "dampers", "stops"};
  answer.findings = FindingsOf(vehicle, limits, advice, planned);
  answer.most_findings = 3;
  AddOneAxle(vehicle, "both axles crossed together; this one is crossed alone", answer.notes);
  AddNotes(LimitsNotes(vehicle, limits, advice, asked.units, planned), answer);
  answer.cautions =
      "Straps stretch: order one that is this long under load. Tabs, stops and straps carry hard "
      "blows; how strong they and their welds must be is not said here.\n" +
      Cautions();
  PlanFor plan_for = PlanForFile(asked, at.load);
  plan_for.every_load = cases.size() > 1;
  Leave(PlanOfLimits(plan_for, advice), asked, answer);
  return answer;
}

}  // namespace

Command LimitsCommand() {
  return {.name = "limits",
          .help =
              "how much bump and droop are left, what ends them, which dampers, stops and straps "
              "to order",
          .asks = "What ends the travel, and which dampers, stops and straps suit?",
          .example = "harbour_van.yaml",
          .options = {FileOption(),
                      LoadOption("only this load; by default what is left is told under the "
                                 "file's default load and parts are ordered for every load"),
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
