// SPDX-License-Identifier: MIT
// Where each part of the vehicle stands in the user's file, so that a complaint of the solver,
// which knows no file, still points at a line.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "io/read/document.h"
#include "io/read/input_error.h"
#include "io/read/report.h"

namespace linkwright {

struct SourceEntry {
  Place place;
  std::string path;  // "axles.rear.links.track bar"
  Excerpt excerpt;
};

// From a part path as in ModelError::part to its place. List items stand under their number from
// 1 ({"ledger", "added", "2"}) and, where it is not taken, under their item name. The empty path
// is the file itself.
struct SourceMap {
  std::map<std::vector<std::string>, SourceEntry> entries;
};

// The places of everything in the document.
[[nodiscard]] SourceMap BuildSourceMap(const Node& root, const Report& report);

// The entry of the longest existing beginning of `part`; never null on a map the reader made.
[[nodiscard]] const SourceEntry* FindSource(const SourceMap& map,
                                            const std::vector<std::string>& part);

}  // namespace linkwright
