// SPDX-License-Identifier: MIT
// Files written whole or not at all, and several of them together.
//
// What is written goes first to files beside the outputs (NAME.part-XXXXXX), all of it and onto the
// disk. Only when every one is there do they take their places:
// - A new file, or one that has one name and is the user's own, is replaced by renaming: at any
//   moment it is the old file whole or the new one.
// - A file with several names (hard links), or of another owner, is written in place, since a
//   renamed one would be another file and the other names would keep the old rows. Its old bytes
//   are put back where that fails; only a run killed in that moment can leave it half written.
// - A symbolic link stays; what it names is written.
// Where one cannot take its place, those that did are put back. A run that is killed leaves its
// parts behind: they are locked as long as their writer lives, so the next run that writes the same
// output knows and removes those without one.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace linkwright {

// What went wrong, with the path, for a person.
struct WriteError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct OutputFile {
  std::string path;
  std::string content;
};

// Writes all outputs or none. A path that is a device or a pipe is written straight, when the
// others are ready to take their places.
//   inputs   files that were read for this result; none of them is ever written over
//   errors   WriteError, and old files stand as they were: a path that is a folder, an input, the
//            same file as another output or as standard output however either is spelt, a file that
//            may not be written, links that lead in a circle, a disk that is full
void WriteTogether(const std::vector<OutputFile>& outputs, const std::vector<std::string>& inputs);

// The same for one.
void WriteWhole(const std::string& path, const std::string& content,
                const std::vector<std::string>& inputs);

[[nodiscard]] bool IsFolder(const std::string& path);

// Makes a folder where there is none. errors: WriteError
void MakeFolder(const std::string& path);

}  // namespace linkwright
