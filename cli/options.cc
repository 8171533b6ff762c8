// SPDX-License-Identifier: MIT
#include "cli/options.h"

namespace linkwright {

bool IsFile(const Option& option) { return !option.name.starts_with('-') && !option.is_word; }

std::string WantedFor(const Option& option) {
  std::string wanted = option.wanted;
  for (const Key& key : option.amounts) wanted += (wanted.empty() ? "" : ", or ") + WantedFor(key);
  return wanted;
}

Option FileOption(const char* name) {
  return {.name = name, .help = "vehicle file or variant", .wanted = "a vehicle file"};
}

Option LoadOption(const char* help) {
  return {.name = "--load", .help = help, .wanted = "the name of a load"};
}

Key AmountKey(Dimension dimension, Range range) {
  return {.name = {}, .kind = Kind::kNumber, .meaning = {}, .dimension = dimension, .range = range};
}

std::vector<Option> CommonOptions() {
  return {
      {.name = "--csv",
       .help = "also write the table as CSV to this file; FOLDER/: every table to a file each",
       .wanted = "the name of a file to write, or of a folder"},
      {.name = "--json",
       .help = "also write everything as JSON to this file",
       .wanted = "the name of a file to write"},
      {.name = "--xlsx",
       .help = "also write everything as a workbook, curves with charts, to this file",
       .wanted = "the name of a file to write"},
      {.name = "--full",
       .help = "print every table, and what is assumed and how it was reckoned",
       .count = kFlag},
      {.name = "--table",
       .help = "print this table alone, and write it alone",
       .wanted = "the name of a table"},
      {.name = "--units",
       .help = "show results in metric or inch units",
       .choices = {"metric", "inch"}},
      {.name = "--strict",
       .help = "exit with status 1 where something is to be looked at: a finding of check, a "
               "coil or wheel that has let go, rows that end before the range asked for",
       .count = kFlag},
      {.name = "--verbose", .help = "say on standard error what is read and done", .count = kFlag}};
}

}  // namespace linkwright
