// SPDX-License-Identifier: MIT
#include "io/write/plan_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "io/shown.h"

namespace linkwright {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kWidest = 116;  // of a line of sentences

// Decimals that leave off less than a nanometre; of an angle less than that 5 m away.
int DecimalsOf(Dimension dimension, UnitSystem units) {
  if (dimension == Dimension::kLength) return units == UnitSystem::kMetric ? 7 : 8;
  return 9;
}

std::string Decimal(double si, Dimension dimension, UnitSystem units) {
  std::string text =
      fmt::format("{:.{}f}", FromSi(si, dimension, units), DecimalsOf(dimension, units));
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

// Letters, digits, blanks within and a few signs: a word to YAML, beginning with a letter.
bool IsBare(const std::string& text) {
  const auto good = [](unsigned char c) {
    return std::isalnum(c) != 0 || c == ' ' || c == '_' || c == '.' || c == '/' || c == '-' ||
           c == '(' || c == ')';
  };
  if (text.empty() || !std::all_of(text.begin(), text.end(), good)) return false;
  const auto first = static_cast<unsigned char>(text.front());
  const bool begins = std::isalpha(first) != 0 || text.starts_with("../") || text.starts_with("/");
  constexpr std::string_view kWords[] = {"true", "false", "null", "yes", "no", "on", "off"};
  const bool word = std::find(std::begin(kWords), std::end(kWords), text) != std::end(kWords);
  return begins && !word && text.back() != ' ';
}

void AddSentence(const std::string& sentence, std::string& to) {
  std::string line = "#";
  std::string_view rest = sentence;
  while (!rest.empty()) {
    const std::string_view word = rest.substr(0, rest.find(' '));
    rest.remove_prefix(std::min(word.size() + 1, rest.size()));
    if (line.size() + 1 + word.size() > kWidest && line != "#") {
      to += line + "\n";
      line = "#";
    }
    line += " " + std::string(word);
  }
  to += line + "\n";
}

void AddLines(std::string_view under, const std::vector<PlanLine>& lines, std::string& to) {
  if (lines.empty()) return;
  to += fmt::format("{}:\n", under);
  for (const PlanLine& line : lines) {
    to += fmt::format("  {}: {}\n", PlanText(line.key), line.value);
  }
}

}  // namespace

std::string ToYaml(const Plan& plan, const std::string& base) {
  std::string text;
  for (const std::string& sentence : plan.says) AddSentence(Shown(sentence), text);
  text += fmt::format("base: {}\ntitle: {}\n", PlanText(base), PlanText(plan.title));
  for (const PlanLine& line : plan.keys) text += fmt::format("{}: {}\n", line.key, line.value);
  AddLines("change", plan.change, text);
  AddLines("add", plan.add, text);
  return text;
}

std::string PlanLength(double length, UnitSystem units) {
  return Decimal(length, Dimension::kLength, units);
}

std::string PlanAngle(double angle, UnitSystem units) {
  return Decimal(angle, Dimension::kAngle, units);
}

std::string PlanPoint(const Eigen::Vector3d& p_C, UnitSystem units) {
  return fmt::format("[{}, {}, {}]", PlanLength(p_C.x(), units), PlanLength(p_C.y(), units),
                     PlanLength(p_C.z(), units));
}

std::string PlanText(const std::string& text) {
  if (IsBare(text)) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      quoted += fmt::format("\\x{:02x}", byte);
    } else {
      quoted += c;
    }
  }
  return quoted + "\"";
}

std::string BaseFrom(const std::string& output, const std::string& input) {
  std::error_code error;
  const fs::path folder = fs::weakly_canonical(fs::absolute(output).parent_path(), error);
  const fs::path whole = fs::weakly_canonical(fs::absolute(input), error);
  const fs::path from_there = whole.lexically_relative(folder);
  // A reader joins both as they are named.
  const fs::path joined = (fs::path(output).parent_path() / from_there).lexically_normal();
  if (!from_there.empty() && fs::equivalent(joined, input, error) && !error) {
    return from_there.string();
  }
  return whole.string();
}

}  // namespace linkwright
