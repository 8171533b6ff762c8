// SPDX-License-Identifier: MIT
// Collects every error of a run, with the text of the files to show excerpts from.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "io/read/input_error.h"

namespace linkwright {

struct SourceText {
  std::string file;                // as given by the user
  std::vector<std::string> lines;  // UTF-8, without line ends and byte order mark
};

struct Report {
  std::vector<SourceText> sources;  // in the order read
  std::vector<InputError> errors;
};

// The line of a file read earlier; its text is empty if there is no such line.
[[nodiscard]] Excerpt ExcerptAt(const Report& report, const Place& place);

void AddError(Report& report, const Place& place, std::string_view path, std::string message);

// An error about two places: `place` is where it is reported, `other` is shown too.
void AddError(Report& report, const Place& place, const Place& other, std::string_view path,
              std::string message);

// Throws InputErrors, sorted by file in the order read, then by place, if there is any error.
void ThrowIfAny(const Report& report);

}  // namespace linkwright
