// SPDX-License-Identifier: MIT
#include "io/read/read_number.h"

#include <fmt/format.h>

#include <cmath>

#include "io/quote.h"

namespace linkwright {
namespace {

// What a number outside its range should have been.
std::string Wanted(const Key& key, const Range& range, bool low, UnitSystem units) {
  if (low && range.above_low && std::isfinite(key.range.high)) {
    return fmt::format("more than {}, at most {}", FormatValue(range.low, key.dimension, units),
                       FormatValue(range.high, key.dimension, units));
  }
  Key bounded = key;
  if (!range.above_low || !low) bounded.range = range;
  return RangeText(bounded, units);
}

}  // namespace

ParsedValue ReadNumber(std::string_view text, const Key& key, UnitSystem units) {
  ParsedValue value = ParseValue(text, key.dimension, units);
  if (!value.si) return value;
  const Range range = RangeOf(key);
  const bool low = range.above_low ? *value.si <= range.low : *value.si < range.low;
  if (!low && *value.si <= range.high) return value;
  const bool physical =
      (low && key.range.low == range.low) || (!low && key.range.high == range.high);
  return {std::nullopt,
          fmt::format("{} is out of range; wanted: {}{}", Quoted(text),
                      Wanted(key, range, low, units), physical ? "" : "; check its unit")};
}

}  // namespace linkwright
