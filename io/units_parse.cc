// SPDX-License-Identifier: MIT
// Value strings: a number, a fraction or feet and inches, with or without a unit.
#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <utility>

#include "io/shown.h"
#include "io/units.h"
#include "io/units_table.h"

namespace linkwright {
namespace {

constexpr double kInchesPerFoot = 12.0;

bool IsDigit(char c) { return c >= '0' && c <= '9'; }

std::string Lower(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return lower;
}

std::string_view Trim(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

void ReplaceAll(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

// Signs that phones and word processors put in place of the typewriter's.
std::string PlainSigns(std::string_view text) {
  std::string plain(Trim(text));
  constexpr std::pair<std::string_view, std::string_view> kSigns[] = {
      {"\u2212", "-"},    {"\u2033", "\""},   {"\u201d", "\""},   {"''", "\""},
      {"\u2032", "'"},    {"\u2019", "'"},    {"\u00b7", "*"},    {"\u22c5", "*"},
      {"\u00b2", "2"},    {"^2", "2"},        {"\u00b0", "deg"},  {"\u00a0", " "},
      {"\t", " "},        {"\u00bc", " 1/4"}, {"\u00bd", " 1/2"}, {"\u00be", " 3/4"},
      {"\u215b", " 1/8"}, {"\u215c", " 3/8"}, {"\u215d", " 5/8"}, {"\u215e", " 7/8"},
  };
  for (const auto& [from, to] : kSigns) ReplaceAll(plain, from, to);
  return std::string(Trim(plain));
}

// One spelling for "N s/mm", "N-s/mm", "N.s / mm", "N s per mm": "n*s/mm".
std::string PlainUnit(std::string_view text) {
  std::string unit = Lower(Trim(text));
  ReplaceAll(unit, " per ", "/");
  std::string plain;
  for (char c : unit) {
    if (c == ' ' || c == '-' || c == '.') c = '*';
    if (c == '*' && (plain.empty() || plain.back() == '*' || plain.back() == '/')) continue;
    if (c == '/' && !plain.empty() && plain.back() == '*') plain.pop_back();
    plain += c;
  }
  while (!plain.empty() && plain.back() == '*') plain.pop_back();
  return plain;
}

std::string WithoutStars(std::string text) {
  std::erase(text, '*');
  return text;
}

// The unit's entry, that of the wanted dimension first; with its stars as written if one fits so
// ("lbs/in" is a rate, "lb*s/in" a damping rate), else without. Null for an unknown unit.
const UnitSpelling* FindUnit(std::string_view text, Dimension wanted) {
  const std::string unit = PlainUnit(text);
  const UnitSpelling* found = nullptr;
  for (const bool stars : {true, false}) {
    for (const UnitSpelling& spelling : UnitSpellings()) {
      const std::string known = Lower(spelling.text);
      const bool same = stars ? known == unit : WithoutStars(known) == WithoutStars(unit);
      if (same && spelling.dimension == wanted) return &spelling;
      if (same && found == nullptr) found = &spelling;
    }
    if (found != nullptr) return found;
  }
  return nullptr;
}

// The front of a text still to be read.
struct Cursor {
  std::string_view rest;
  bool too_large = false;
};

std::optional<double> TakeWhole(Cursor& cursor) {
  std::size_t digits = 0;
  while (digits < cursor.rest.size() && IsDigit(cursor.rest[digits])) ++digits;
  if (digits == 0) return std::nullopt;
  double value = 0.0;
  std::from_chars(cursor.rest.data(), cursor.rest.data() + digits, value);
  cursor.rest.remove_prefix(digits);
  return value;
}

// "1/2", with nothing taken where there is none or it divides by zero.
std::optional<double> TakeFraction(Cursor& cursor) {
  Cursor ahead = cursor;
  const auto over = TakeWhole(ahead);
  if (!over || !ahead.rest.starts_with('/')) return std::nullopt;
  ahead.rest.remove_prefix(1);
  const auto under = TakeWhole(ahead);
  if (!under || *under == 0.0 || !std::isfinite(*over / *under)) return std::nullopt;
  cursor = ahead;
  return *over / *under;
}

std::optional<double> TakeDecimal(Cursor& cursor) {
  const std::string_view text = cursor.rest;
  const bool starts = !text.empty() &&
                      (IsDigit(text[0]) || (text[0] == '.' && text.size() > 1 && IsDigit(text[1])));
  if (!starts) return std::nullopt;
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  cursor.too_large = error == std::errc::result_out_of_range;
  if (error != std::errc{}) return std::nullopt;
  cursor.rest.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return value;
}

// "13 1/2", "13-1/2", "1/2", "104.5".
std::optional<double> TakeQuantity(Cursor& cursor) {
  if (const auto fraction = TakeFraction(cursor)) return fraction;
  Cursor ahead = cursor;
  if (const auto whole = TakeWhole(ahead)) {
    const auto gap = ahead.rest.find_first_not_of(" -");
    if (gap != 0 && gap != std::string_view::npos) {
      ahead.rest.remove_prefix(gap);
      const auto fraction = TakeFraction(ahead);
      if (fraction && *fraction < 1.0) {
        cursor = ahead;
        return *whole + *fraction;
      }
    }
  }
  return TakeDecimal(cursor);
}

bool TakeFootMark(Cursor& cursor) {
  Cursor ahead = cursor;
  ahead.rest = Trim(ahead.rest);
  for (const std::string_view mark : {"'", "feet", "foot", "ft"}) {
    if (!Lower(ahead.rest).starts_with(mark)) continue;
    ahead.rest.remove_prefix(mark.size());
    const auto next = ahead.rest.find_first_not_of(" -");
    if (next == std::string_view::npos || !IsDigit(ahead.rest[next])) return false;
    if (next == 0 && mark != "'") return false;  // "3 ft2" is no length
    cursor.rest = ahead.rest.substr(next);
    return true;
  }
  return false;
}

bool IsInchMark(std::string_view unit) {
  const std::string plain = PlainUnit(unit);
  return plain.empty() || plain == "\"" || plain == "in" || plain == "inch" || plain == "inches";
}

ParsedValue Refuse(std::string_view text, std::string_view what, Dimension wanted) {
  return {std::nullopt, fmt::format("{} {}; wanted: {}", Quoted(text), what, WantedText(wanted))};
}

ParsedValue RefuseUnreadable(std::string_view text, const Cursor& cursor, Dimension wanted) {
  const std::string bare = Lower(WithoutStars(std::string(Trim(text))));
  const auto letters = bare.find_first_not_of("+-.");
  const std::string word = letters == std::string::npos ? "" : bare.substr(letters);
  if (cursor.too_large || word == "nan" || word == "inf" || word == "infinity") {
    return Refuse(text, "is not a finite number", wanted);
  }
  if (text.empty()) return Refuse(text, "is empty", wanted);
  for (const std::string_view curly : {"\u201c", "\u2018", "\u201e"}) {
    if (!Trim(text).starts_with(curly)) continue;
    return Refuse(text, "stands in curly quotes: straight ones are wanted, or none", wanted);
  }
  const auto comma = text.find(',');
  if (comma != std::string_view::npos && comma > 0 && IsDigit(text[comma - 1])) {
    return Refuse(text, "has a comma: decimals take a point, thousands no mark", wanted);
  }
  return Refuse(text, "cannot be read as a number", wanted);
}

ParsedValue RefuseUnit(std::string_view text, std::string_view unit, const UnitSpelling* known,
                       Dimension wanted) {
  if (known == nullptr) {
    const auto names = UnitNames(wanted);
    return Refuse(text,
                  names.empty() ? fmt::format("carries a unit ({})", Quoted(unit))
                                : fmt::format("carries an unknown unit {} (known here: {})",
                                              Quoted(unit), fmt::join(names, ", ")),
                  wanted);
  }
  if (wanted == Dimension::kMass && known->dimension == Dimension::kForce) {
    return Refuse(text, "is a force; a weight is given as the scale shows it, in kg or lb", wanted);
  }
  const std::string_view name = DimensionName(known->dimension);
  const bool vowel = std::string_view("aeiou").find(name[0]) != std::string_view::npos;
  return Refuse(text, fmt::format("is {} {}", vowel ? "an" : "a", name), wanted);
}

// What follows the feet: "3 1/4\"", under twelve.
ParsedValue FeetAndInches(std::string_view text, double sign, double feet, Cursor& cursor,
                          Dimension wanted) {
  const auto inches = TakeQuantity(cursor);
  if (!inches || !IsInchMark(cursor.rest)) return RefuseUnreadable(text, cursor, wanted);
  if (wanted != Dimension::kLength) {
    return Refuse(text, "is a length", wanted);
  }
  if (feet != std::floor(feet) || *inches >= kInchesPerFoot) {
    return Refuse(text, "wants whole feet and less than 12 inches after them", wanted);
  }
  return {ToSi(sign * (feet * kInchesPerFoot + *inches), Dimension::kLength, UnitSystem::kInch),
          ""};
}

}  // namespace

ParsedValue ParseValue(std::string_view text, Dimension dimension, UnitSystem system) {
  const std::string plain = PlainSigns(text);
  Cursor cursor{plain};
  double sign = 1.0;
  if (cursor.rest.starts_with('-') || cursor.rest.starts_with('+')) {
    if (cursor.rest[0] == '-') sign = -1.0;
    cursor.rest.remove_prefix(1);
  }
  const auto quantity = TakeQuantity(cursor);
  if (!quantity) return RefuseUnreadable(text, cursor, dimension);
  if (TakeFootMark(cursor)) return FeetAndInches(text, sign, *quantity, cursor, dimension);

  const std::string_view unit = Trim(cursor.rest);
  if (unit.empty()) return {ToSi(sign * *quantity, dimension, system), ""};
  const bool starts_a_unit = std::isalpha(static_cast<unsigned char>(unit[0])) != 0 ||
                             std::string_view("'\"%#").find(unit[0]) != std::string_view::npos ||
                             unit.starts_with("1/") || static_cast<unsigned char>(unit[0]) >= 0x80;
  if (!starts_a_unit) return RefuseUnreadable(text, cursor, dimension);
  const UnitSpelling* known = FindUnit(unit, dimension);
  if (known == nullptr || known->dimension != dimension) {
    return RefuseUnit(text, unit, known, dimension);
  }
  const double si = sign * *quantity * known->si;
  if (!std::isfinite(si)) return Refuse(text, "is not a finite number", dimension);
  return {si, ""};
}

}  // namespace linkwright
