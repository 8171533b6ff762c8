// SPDX-License-Identifier: MIT
// Variants: a small file that says how it differs from its base.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/read/document.h"
#include "io/read/report.h"

namespace linkwright {

// The paths, key by key, that a variant names: what it puts in another's place, and what it adds.
struct Touched {
  std::vector<std::vector<std::string>> changed, added;
};

// One file on the way to the vehicle: the document with its changes made in it. Each value keeps
// the place and the units of the file it came from.
struct Stage {
  Node root;
  Touched touched;  // by this file; empty of a measurement
};

struct LoadedDocument {
  std::vector<Stage> stages;               // the measurement first, the file named last
  UnitSystem units = UnitSystem::kMetric;  // of the file named, or of the nearest base with any
};

// Reads a file and, where it is a variant, its base and the base's base.
//   report    takes the files read, in order, and every error: unreadable files, syntax, bases
//             that go round in a circle, paths that are not there or already there
//   returns   the document, or nothing where an error leaves none to go on with
[[nodiscard]] std::optional<LoadedDocument> LoadDocument(const std::string& file, Report& report);

// Applies `title`, `default_load` and `accept`, `change`, `add`, `remove`, then `stretch` and
// `body` of one variant to its base, in that order (change.cc, moves.cc).
//   variant   its document; parts of the wrong kind are passed over (Validate reports them)
//   root      the base's document, changed in place
//   report    takes paths that are not there, already there, or name two things, and moves of
//             nothing
// Numbers in brackets always count the items as they stand in the base. A path that names one
// member of a pair ("lower arm left") splits the pair: both then stand by themselves.
//   returns   what it names
Touched ApplyVariant(const Node& variant, Node& root, Report& report);

}  // namespace linkwright
