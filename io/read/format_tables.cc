// SPDX-License-Identifier: MIT
#include "io/read/format_tables.h"

#include <fmt/format.h>

#include <vector>

#include "io/read/format.h"

namespace linkwright {
namespace {

std::string NumberText(const Key& key) {
  std::string text(DimensionName(key.dimension));
  const std::string range = RangeText(key, UnitSystem::kMetric);
  if (!range.empty()) text += ", " + range;
  if (!key.words.empty()) text += fmt::format("; or `{}`", fmt::join(key.words, "`, `"));
  return text;
}

// What one value under a key is, in a few words.
std::string OneText(const Key& key) {
  switch (key.kind) {
    case Kind::kText:
      return "text";
    case Kind::kWord:
      return fmt::format("`{}`", fmt::join(key.words, "` or `"));
    case Kind::kWords:
      return fmt::format("two of `{}`", fmt::join(key.words, "`, `"));
    case Kind::kFlag:
      return "`true` or `false`";
    case Kind::kNumber:
      return NumberText(key);
    case Kind::kPoint:
      return "point `[x, y, z]`";
    case Kind::kSide:
      return "point `[x, z]`";
    case Kind::kCurve:
      return "list of `[deflection, force]`";
    case Kind::kPaths:
      return "map of `path: value`";
    case Kind::kGroup:
      return "map, see " + std::string(FindGroup(key.group).heading);
  }
  return "";
}

std::string ValueText(const Key& key) {
  const std::string one = OneText(key);
  switch (key.many) {
    case Many::kOne:
      return one;
    case Many::kList:
      return fmt::format("list of: {}", one);
    case Many::kNamed:
      return fmt::format("names, each with: {}", one);
    case Many::kNamedList:
      return fmt::format("names, each with a list of: {}", one);
  }
  return one;
}

std::string UnlessGiven(const Key& key) {
  if (key.required) return "required";
  return key.default_text.empty() ? "left out" : fmt::format("`{}`", key.default_text);
}

std::string RuleText(const Rule& rule) {
  const auto rest = std::vector<std::string_view>(rule.keys.begin() + 1, rule.keys.end());
  switch (rule.kind) {
    case RuleKind::kExactlyOne:
      return fmt::format("One of `{}`, and only one.", fmt::join(rule.keys, "`, `"));
    case RuleKind::kAtLeastOne:
      return fmt::format("At least one of `{}`.", fmt::join(rule.keys, "`, `"));
    case RuleKind::kAtMostOne:
      return fmt::format("Not both of `{}`.", fmt::join(rule.keys, "`, `"));
    case RuleKind::kNeeds:
      return fmt::format("`{}` needs `{}`.", rule.keys[0], fmt::join(rest, "` and `"));
  }
  return "";
}

}  // namespace

std::string KeyTables() {
  std::string text;
  for (const Group& group : Format()) {
    text += fmt::format("### {}\n\n", group.heading);
    text += "| key | value | unless given | meaning |\n| --- | --- | --- | --- |\n";
    for (const Key& key : group.keys) {
      text += fmt::format("| `{}` | {} | {} | {} |\n", key.name, ValueText(key), UnlessGiven(key),
                          key.meaning);
    }
    std::vector<std::string> rules;
    for (const Rule& rule : group.rules) rules.push_back(RuleText(rule));
    if (!rules.empty()) text += fmt::format("\n{}\n", fmt::join(rules, " "));
    text += '\n';
  }
  return text;
}

std::string UnitTable() {
  std::string text =
      "| what | plain number, `metric` | plain number, `inch` | a value may carry |\n"
      "| --- | --- | --- | --- |\n";
  for (const Dimension dimension :
       {Dimension::kLength, Dimension::kMass, Dimension::kForce, Dimension::kRate,
        Dimension::kAngle, Dimension::kRollRate, Dimension::kDamping, Dimension::kModulus,
        Dimension::kInertia, Dimension::kShaftSpeed, Dimension::kPercent, Dimension::kAcceleration,
        Dimension::kAngleRate, Dimension::kLateral}) {
    text += fmt::format("| {} | {} | {} | {} |\n", DimensionName(dimension),
                        UnitOf(dimension, UnitSystem::kMetric).name,
                        UnitOf(dimension, UnitSystem::kInch).name,
                        fmt::join(UnitNames(dimension), ", "));
  }
  return text;
}

std::string ReplaceSection(std::string_view document, std::string_view name,
                           std::string_view text) {
  const auto start = document.find(fmt::format("<!-- {}: ", name));
  const auto begin = start == std::string_view::npos ? start : document.find("-->\n", start);
  const auto end = document.find(fmt::format("<!-- end of {} -->", name));
  if (begin == std::string_view::npos || end == std::string_view::npos || end < begin) {
    return std::string(document);
  }
  return fmt::format("{}\n{}{}", document.substr(0, begin + 4), text, document.substr(end));
}

}  // namespace linkwright
