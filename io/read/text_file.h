// SPDX-License-Identifier: MIT
// Brings a file's text in, and refuses what cannot be a text file of ours before reading it.
#pragma once

#include <optional>
#include <string>

#include "io/read/report.h"

namespace linkwright {

// The text of a file: UTF-8, byte order mark taken off, at most 1 MB.
//   file      path as the user gave it; it is what errors name
//   report    takes the file's lines, or the error (missing, a directory, no permission, too
//             large, not UTF-8, control characters), in which case nothing is returned
//   blame     where the error is put; the file itself where absent
[[nodiscard]] std::optional<std::string> ReadTextFile(
    const std::string& file, Report& report, const std::optional<Place>& blame = std::nullopt);

}  // namespace linkwright
