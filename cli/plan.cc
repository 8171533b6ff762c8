// SPDX-License-Identifier: MIT
#include "cli/plan.h"

namespace linkwright {

Option WriteOption() {
  return {.name = "--write",
          .help = "also write the plan that is advised to this file, as a variant of FILE",
          .wanted = "the name of a file to write"};
}

PlanFor PlanForFile(const Question& asked, const Load* load) {
  const VehicleFile& file = asked.files.front();
  return {.vehicle = &file.vehicle,
          .units = file.units,
          .load = load,
          .has = [&file](const std::vector<std::string>& part) {
            return file.places.entries.contains(part);
          }};
}

void Leave(const Plan& plan, const Question& asked, Answer& answer) {
  if (!IsGiven(asked, "--write")) return;
  const std::string path = WordOf(asked, "--write");
  if (IsEmpty(plan)) {
    answer.complaint += "linkwright: --write: there is nothing to write: " + plan.says.front() +
                        "; " + path + " is left as it is\n";
    answer.exit = kAnswerIsNo;
    return;
  }
  answer.plan = {path, ToYaml(plan, BaseFrom(path, asked.files.front().path))};
  answer.cautions = "The plan is written to " + path + ", a variant to ask about like any file.\n" +
                    answer.cautions;
}

}  // namespace linkwright
