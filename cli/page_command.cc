// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "cli/assumed.h"
#include "cli/command.h"
#include "cli/settled.h"
#include "cli/standing.h"
#include "io/write/page_tables.h"
#include "solver/study/findings/vehicle_findings.h"

namespace linkwright {
namespace {

constexpr const char* kPageCaution =
    "\nA prediction, not an approval: local codes decide and licensed people sign.\n";
constexpr size_t kLeastFindings = 3, kMostFindings = 7, kMostLines = 45;

// Where an axle's curves are read: where its travel ends, or, where nothing in the file ends it,
// far enough to tell them by.
double FarOf(const AxleLimit& limit, UnitSystem units) {
  const double far = std::abs(limit.parameter);
  if (limit.ended_by) return far;
  return std::min(far, RoundAmount(75.0, 3.0, Dimension::kLength, units));
}

StartPage LookOver(const Walks& walks, const Settled& settled, UnitSystem units) {
  const Vehicle& vehicle = *walks.rig->vehicle;
  StartPage page{.loads = ReportsOf(settled),
                 .load = walks.stance == nullptr ? std::string() : walks.stance->load,
                 .limits = FindLimits(walks),
                 .ends = {},
                 .wheelbase = {}};
  for (const size_t axle : AxlesOf(vehicle)) {
    const auto& [bump, droop] = page.limits.bounce[axle];
    page.ends[axle] = RowsAtEnds(walks, axle, -FarOf(droop, units), FarOf(bump, units));
  }
  if (walks.stance == nullptr && !vehicle.only_axle) {
    page.wheelbase = AtRest(SweepBounce(walks, {.from = 0.0, .to = 0.0})).wheelbase;
  }
  return page;
}

Answer AnswerPage(const Question& asked) {
  const VehicleFile& file = asked.files.front();
  const Vehicle& vehicle = file.vehicle;
  const Load* asked_load = AskedLoad(asked, file);
  const CheckReport report = CheckVehicle(vehicle);
  const Rig rig = PrepareRig(vehicle);
  const std::vector<Stance> stances = SettleEach(rig);
  const Settled settled = SettledOf(file, rig, stances);
  const Stance* stance = asked_load == nullptr      ? nullptr
                         : IsGiven(asked, "--load") ? RestUnder(*asked_load, settled)
                                                    : RestFirst(settled.stances, *asked_load);
  if (asked_load != nullptr && stance == nullptr) throw NoRest(settled.refusals);
  const Walks walks(rig, stance, Watch::kAll);
  const VehicleFindings found = FindAll(walks, stances, report);
  const StartPage page = LookOver(walks, settled, asked.units);
  Answer answer{.said = PageAnswer(vehicle, page, asked.units),
                .tables = PageTables(vehicle, page, asked.units),
                .shown = {"over the travel"},
                .findings = found.findings,
                .accepted = found.accepted,
                .least_findings = kLeastFindings,
                .most_findings = kMostFindings,
                .most_lines = kMostLines,
                .remedies = true,
                .rest_by = "linkwright check FILE",
                .foot = PageFoot(vehicle),
                .cautions = kPageCaution,
                .complaint = settled.refusals,
                .exit = settled.refusals.empty() ? kDone : kAnswerIsNo,
                .all_findings = true};
  if (page.loads.size() > kLoadsInWords) answer.shown.emplace_back("stances");
  answer.standing =
      StandingTable(stance == nullptr ? nullptr : &FindLoad(vehicle, stance->load), asked.units);
  AddOneAxle(vehicle, "wheelbase, roll axis and all that hangs on masses", answer.notes);
  AddAssumedBushings(file, asked.units, answer.notes);
  return answer;
}

}  // namespace

Command PageCommand() {
  return {.name = kPageName,
          .help = "the page to start from: where it stands, its travel, what to mend",
          .asks = "Where does it stand, what travel has it left, and what is to be mended first?",
          .example = "harbour_van.yaml",
          .options = {FileOption(), LoadOption("travel and curves under this load; by default the "
                                               "file's default_load, else the first")},
          .answer = AnswerPage};
}

}  // namespace linkwright
