// SPDX-License-Identifier: MIT
#include "cli/command.h"
#include "cli/standing.h"
#include "cli/sweep_request.h"
#include "io/write/text_table.h"

namespace linkwright {
namespace {

Answer AnswerSweep(const Question& asked) {
  const FileStanding at = StandFile(asked, kSweepsAsMeasured);
  const Swept swept =
      SweepAsked(asked, asked.files.front(), at.rig, StanceOf(at), UsualSteps::kFine);
  return {.head = LoadLine(at.load),
          .standing = StandingTable(at.load, asked.units),
          .tables = {{"rows", swept.table}},
          .text = ToGroupedText(swept.table) + "\n",
          .csv_is_long = false,
          .notes = swept.notes,
          .amiss = swept.cut_short};
}

}  // namespace

Command SweepCommand() {
  Command command{.name = "sweep",
                  .help = "the curves over travel",
                  .options = {FileOption()},
                  .answer = AnswerSweep};
  for (const Option& option : SweepRequestOptions()) command.options.push_back(option);
  return command;
}

}  // namespace linkwright
