// SPDX-License-Identifier: MIT
#include "io/read/text_file.h"

#include <fmt/format.h>

#include <cerrno>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <string_view>
#include <system_error>
#include <utility>

#include "io/shown.h"

namespace linkwright {
namespace {

// A full vehicle takes some 5 kB. Above this it is another file, or one meant to do harm.
constexpr std::uintmax_t kLargestFile = 1'000'000;  // bytes
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

// Why a file cannot be read, or an empty text.
std::string Obstacle(const std::string& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (status.type() == std::filesystem::file_type::not_found) {
    return "no such file";
  }
  if (error) return fmt::format("the file cannot be read: {}", error.message());
  if (std::filesystem::is_directory(status)) return "this is a folder; a vehicle file is wanted";
  if (!std::filesystem::is_regular_file(status)) {
    return "this is not an ordinary file; a vehicle file is wanted";
  }
  const auto size = std::filesystem::file_size(file, error);
  if (!error && size > kLargestFile) {
    return fmt::format("the file has {} bytes; a vehicle file has {} at most", size, kLargestFile);
  }
  return "";
}

// The first thing in the text that no text file holds, at `line` and `column` from 1; or empty.
std::string FirstBadCharacter(std::string_view text, int& line, int& column) {
  line = column = 1;
  for (std::size_t at = 0; at < text.size(); ++column) {
    const std::size_t length = CharacterLength(text, at);
    const auto byte = static_cast<unsigned char>(text[at]);
    if (length == 0) {
      return fmt::format("byte 0x{:02x} is not UTF-8; save the file as UTF-8", byte);
    }
    if ((byte < ' ' && byte != '\n' && byte != '\r' && byte != '\t') || byte == 0x7F) {
      return fmt::format("character 0x{:02x} is not text; save the file as UTF-8 text", byte);
    }
    at += length;
    if (byte == '\n') {
      ++line;
      column = 0;
    }
  }
  return "";
}

std::vector<std::string> SplitLines(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string line = text.substr(begin, end - begin);
    if (line.ends_with('\r')) line.pop_back();
    lines.push_back(std::move(line));
    begin = end + 1;
  }
  return lines;
}

}  // namespace

std::optional<std::string> ReadTextFile(const std::string& file, Report& report,
                                        const std::optional<Place>& blame) {
  const auto refuse = [&](const std::string& message) {
    if (blame) {
      AddError(report, *blame, "base",
               message + "; a base is looked for from the variant's folder");
    } else {
      AddError(report, {file, 0, 0}, "", message);
    }
    return std::nullopt;
  };
  if (const std::string obstacle = Obstacle(file); !obstacle.empty()) return refuse(obstacle);
  errno = 0;
  std::ifstream in(file, std::ios::binary);
  if (!in) return refuse(fmt::format("the file cannot be read: {}", std::strerror(errno)));
  std::string text(kLargestFile + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (text.size() > kLargestFile) return refuse("the file grew too large while it was read");
  if (text.starts_with(kByteOrderMark)) text.erase(0, kByteOrderMark.size());
  for (std::size_t at = 0; at < text.size(); ++at) {  // lines that end as on old machines
    if (text[at] == '\r' && (at + 1 == text.size() || text[at + 1] != '\n')) text[at] = '\n';
  }

  Place place{file, 1, 1};
  const std::string bad = FirstBadCharacter(text, place.line, place.column);
  if (!bad.empty()) {
    AddError(report, place, "", bad);
    return std::nullopt;
  }
  report.sources.push_back({file, SplitLines(text)});
  return text;
}

}  // namespace linkwright
