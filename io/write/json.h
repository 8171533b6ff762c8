// SPDX-License-Identifier: MIT
// A result as one JSON document (RFC 8259): what was asked, the columns with unit and definition,
// the answer in sentences, the rows as objects, and the notes.
#pragma once

#include <string>
#include <vector>

#include "io/write/data_table.h"

namespace linkwright {

struct NamedTable {
  std::string name;  // "stances", "rows", "axles"
  DataTable table;
};

struct Document {
  std::string command;                   // "settle"
  std::string file;                      // as the user named it
  std::string title;                     // of the vehicle
  std::vector<std::string> answer = {};  // in sentences
  std::vector<NamedTable> tables;
  std::vector<std::string> notes;
};

// An absent value is null; numbers in the units of each table.
[[nodiscard]] std::string ToJson(const Document& document);

}  // namespace linkwright
