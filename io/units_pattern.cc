// SPDX-License-Identifier: MIT
// Value strings as regular expressions, for the JSON Schema.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "io/units.h"
#include "io/units_table.h"

namespace linkwright {
namespace {

constexpr std::string_view kNumber =
    "(?:(?:[0-9]+[ -]+)?[0-9]+/[0-9]+|[0-9]* "
    "*[\u00bc-\u00be\u215b-\u215e]|(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][-+]?[0-9]+)?)";

// One character of a unit's spelling, in every way the reader takes it.
std::string CharacterPattern(char c) {
  const auto letter = static_cast<unsigned char>(c);
  if (std::isalpha(letter) != 0) {
    return fmt::format("[{}{}]", static_cast<char>(std::tolower(letter)),
                       static_cast<char>(std::toupper(letter)));
  }
  switch (c) {
    case '/':
      return "(?: */ *| +[pP][eE][rR] +)";
    case '2':
      return "(?:2|\\^2|\u00b2)";
    case '"':
      return "(?:\"|''|\u2033|\u201d)";
    case '\'':
      return "['\u2032\u2019]";
    default:
      return std::string(1, c);
  }
}

// True where the unit without its stars would read as another one: "lb*s/in" as "lbs/in".
bool NeedsItsStars(const UnitSpelling& unit) {
  std::string bare(unit.text);
  std::erase(bare, '*');
  const auto all = UnitSpellings();
  return bare != unit.text && std::any_of(all.begin(), all.end(), [&](const UnitSpelling& other) {
           return other.text == bare;
         });
}

std::string UnitPattern(Dimension dimension) {
  std::string units;
  for (const UnitSpelling& spelling : UnitSpellings()) {
    if (spelling.dimension != dimension) continue;
    if (!units.empty()) units += '|';
    const std::string_view star = NeedsItsStars(spelling) ? "+" : "*";
    for (const char c : spelling.text) {
      units += c == '*' ? fmt::format("[-*. \u00b7\u22c5]{}", star) : CharacterPattern(c);
    }
  }
  if (dimension == Dimension::kAngle) units += "|\u00b0";
  return units;
}

std::string FeetAndInchesPattern() {
  return fmt::format(
      "[0-9]+ *(?:['\u2032\u2019][ -]*|[fF][eEoO]*[tT][ -]+){} *(?:\"|''|\u2033|\u201d|"
      "[iI][nN](?:[cC][hH](?:[eE][sS])?)?)?",
      kNumber);
}

}  // namespace

std::string ValuePattern(Dimension dimension) {
  const std::string units = UnitPattern(dimension);
  std::string value =
      units.empty() ? std::string(kNumber) : fmt::format("{} *(?:{})?", kNumber, units);
  if (dimension == Dimension::kLength) {
    value = fmt::format("(?:{}|{})", value, FeetAndInchesPattern());
  }
  return fmt::format("^ *[-+\u2212]?{} *$", value);
}

}  // namespace linkwright
