// SPDX-License-Identifier: MIT
// What a document shows of the program, held against what the program prints.
//
//   <!-- output: linkwright settle van.yaml -->   before a fenced block: lines of that command's
//                                                 standard output, consecutive and verbatim
//   <!-- file: van.yaml -->                       before a fenced block: a file that later commands
//                                                 of the same document may use
// Commands run in a folder from where everything at the top of the repository is in reach.
#pragma once

#include <string>
#include <vector>

namespace linkwright::check {

struct DocumentBlock {
  enum class Kind { kOutput, kFile };
  Kind kind;
  std::string argument;            // the command, or the file's name
  std::vector<std::string> lines;  // in the fence
  size_t at;                       // line of the comment, from 1
};

// The blocks of a Markdown text, in order.
//   errors   std::runtime_error with the line: a comment without a fenced block right after it, a
//            fence that never closes
[[nodiscard]] std::vector<DocumentBlock> ReadBlocks(const std::string& markdown);

struct DocumentCheck {
  size_t outputs = 0;                   // how many blocks of output were held against a command
  std::vector<std::string> complaints;  // "line 12: ..."; empty where all is as printed
};

[[nodiscard]] DocumentCheck CheckDocument(const std::string& markdown);

}  // namespace linkwright::check
