// SPDX-License-Identifier: MIT
#include "tests/cli/document_blocks.h"

#include <algorithm>
#include <map>
#include <optional>
#include <stdexcept>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

namespace fs = std::filesystem;
using Kind = DocumentBlock::Kind;

[[noreturn]] void Refuse(size_t line, const std::string& why) {
  throw std::runtime_error("line " + std::to_string(line) + ": " + why);
}

// What stands between a beginning and an end, where a line has both.
std::optional<std::string> Between(const std::string& line, const std::string& beginning,
                                   const std::string& end) {
  if (!line.starts_with(beginning) || !line.ends_with(end)) return std::nullopt;
  return line.substr(beginning.size(), line.size() - beginning.size() - end.size());
}

// The lines of the fenced block that begins at `at`; moves `at` to the closing fence.
std::vector<std::string> FencedLines(const std::vector<std::string>& lines, size_t& at) {
  const std::string fence = "```";
  const size_t opening = at;
  if (at >= lines.size() || !lines[at].starts_with(fence)) {
    Refuse(opening, "no fenced block follows this comment");
  }
  std::vector<std::string> inside;
  for (++at; at < lines.size(); ++at) {
    if (lines[at] == fence) return inside;
    inside.push_back(lines[at]);
  }
  Refuse(opening + 1, "the fence is never closed");
}

bool Contains(const std::vector<std::string>& text, const std::vector<std::string>& part) {
  return std::search(text.begin(), text.end(), part.begin(), part.end()) != text.end();
}

// What the commands of a document printed, each run once.
using Ran = std::map<std::vector<std::string>, Outcome>;

void CheckOutput(const DocumentBlock& block, Ran& ran, DocumentCheck& check) {
  const std::string where = "line " + std::to_string(block.at) + ": ";
  std::vector<std::string> words = SplitWords(block.argument);
  if (words.empty() || words.front() != "linkwright" || block.lines.empty()) {
    check.complaints.push_back(where + "a linkwright command and some of its output are wanted");
    return;
  }
  words.erase(words.begin());
  auto known = ran.find(words);
  if (known == ran.end()) known = ran.emplace(words, RunProgram(words)).first;
  const Outcome& outcome = known->second;
  ++check.outputs;
  if (Contains(Lines(outcome.out), block.lines)) return;
  check.complaints.push_back(where + block.argument + " does not print these lines; it prints\n" +
                             outcome.out + outcome.err);
}

void MakeFile(const DocumentBlock& block, const Folder& folder, DocumentCheck& check) {
  if (block.argument.find('/') != std::string::npos || fs::exists(folder.Path(block.argument))) {
    check.complaints.push_back("line " + std::to_string(block.at) +
                               ": a new name without folders is wanted, not " + block.argument);
    return;
  }
  std::string content;
  for (const std::string& line : block.lines) content += line + "\n";
  folder.Write(block.argument, content);
}

// What the repository has at its top, in reach without being written into.
void MirrorRepository(const Folder& folder) {
  for (const fs::directory_entry& entry : fs::directory_iterator(LINKWRIGHT_SOURCE_DIR)) {
    const std::string name = entry.path().filename().string();
    if (entry.is_directory() && !name.starts_with('.')) {
      fs::create_directory_symlink(entry.path(), folder.path() / name);
    }
  }
}

}  // namespace

std::vector<DocumentBlock> ReadBlocks(const std::string& markdown) {
  const std::vector<std::string> lines = Lines(markdown);
  std::vector<DocumentBlock> blocks;
  for (size_t at = 0; at < lines.size(); ++at) {
    const auto output = Between(lines[at], "<!-- output: ", " -->");
    const auto file = Between(lines[at], "<!-- file: ", " -->");
    if (!output && !file) continue;
    DocumentBlock block{.kind = output ? Kind::kOutput : Kind::kFile,
                        .argument = output ? *output : *file,
                        .lines = {},
                        .at = at + 1};
    block.lines = FencedLines(lines, ++at);
    blocks.push_back(std::move(block));
  }
  return blocks;
}

DocumentCheck CheckDocument(const std::string& markdown) {
  DocumentCheck check;
  const Folder folder;
  MirrorRepository(folder);
  const WorkingFolder here(folder.path());
  Ran ran;
  try {
    for (const DocumentBlock& block : ReadBlocks(markdown)) {
      if (block.kind == Kind::kFile) MakeFile(block, folder, check);
      if (block.kind == Kind::kOutput) CheckOutput(block, ran, check);
    }
  } catch (const std::runtime_error& error) {
    check.complaints.emplace_back(error.what());
  }
  return check;
}

}  // namespace linkwright::check
