// SPDX-License-Identifier: MIT
// What is wrong in a user's file, and where. Every error of a file is reported in one run.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace linkwright {

// A place in a file. line and column, in characters, count from 1; line 0 is the file as a whole.
struct Place {
  std::string file;
  int line = 0;
  int column = 0;
};

// A line of the file. A very long line is cut to the part around the place.
struct Excerpt {
  int line = 0;
  int column = 0;  // of the caret under `text`, in characters, from 1
  std::string text;
};

struct InputError {
  Place place;
  std::string path;               // "axles.rear.links.upper arm.frame"; empty for the whole file
  std::string message;            // what is wrong, what is wanted, what to try
  std::vector<Excerpt> excerpts;  // empty, or one a place: two for a key given twice
};

// Thrown by the reader: every error found, sorted by place. what() is all of them formatted, one
// after the other; it ends with a line feed.
struct InputErrors : std::runtime_error {
  explicit InputErrors(std::vector<InputError> list);
  std::vector<InputError> errors;  // at least one
};

// "axles.rear.floor: unknown key ...": the part after the place.
[[nodiscard]] std::string ErrorText(const InputError& error);

// One error as "file:line:column: path: message", then each excerpt with a caret under it.
[[nodiscard]] std::string FormatError(const InputError& error);

}  // namespace linkwright
