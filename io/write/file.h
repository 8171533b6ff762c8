// SPDX-License-Identifier: MIT
// Files written whole or not at all.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace linkwright {

// What went wrong, with the path, for a person.
struct WriteError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Writes `content` to a temporary file beside `path` and renames it over `path`. A path that is a
// device or a pipe is written straight.
//   inputs   files that were read for this result; none of them is ever written over
//   errors   WriteError; the old file, if any, then stands as it was
void WriteWhole(const std::string& path, const std::string& content,
                const std::vector<std::string>& inputs);

}  // namespace linkwright
