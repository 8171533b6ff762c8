// SPDX-License-Identifier: MIT
// The vehicle file's format as one table. The validator, docs/vehicle.schema.json and the key
// tables of docs/vehicle-file.md all follow from it, so a new key is one line here.
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "io/units.h"

namespace linkwright {

enum class Kind {
  kText,    // any words on one line
  kWord,    // one of Key::words
  kWords,   // a list of two, each one of Key::words
  kFlag,    // true or false
  kNumber,  // a number of Key::dimension, or one of Key::words
  kPoint,   // [x, y, z], lengths
  kSide,    // [x, z], lengths
  kCurve,   // two or more of [length, force]
  kGroup,   // a map with the keys of Key::group
  kPaths,   // a variant's map of path: value
};

// How often it stands under its key.
enum class Many {
  kOne,
  kNamed,      // a map: a name of the user's own for each
  kList,       // a list
  kNamedList,  // a map of lists
};

// What a number may be, in SI. Bounds without a physical reason only catch slips of the unit.
struct Range {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool above_low = false;  // low itself is not allowed
};

struct Key {
  std::string_view name;
  Kind kind;
  std::string_view meaning;  // one sentence, for documents and editors
  bool required = false;
  Dimension dimension = Dimension::kNumber;
  Range range = {};
  std::string_view default_text = {};  // as it would stand in the file; empty: none
  std::string_view group = {};
  Many many = Many::kOne;
  std::vector<std::string_view> words = {};
  std::string_view formerly = {};  // its name in older files, refused with the new one
};

enum class RuleKind {
  kExactlyOne,  // one of the keys and no more
  kAtLeastOne,
  kAtMostOne,
  kNeeds,  // where the first key is given, so are the others
};

struct Rule {
  RuleKind kind;
  std::vector<std::string_view> keys;
};

struct Group {
  std::string_view name;
  std::string_view heading;  // of its table in the documents
  std::vector<Key> keys;
  std::vector<Rule> rules = {};
  bool takes_commas = false;  // its texts may hold commas in braces: see parse_document.cc
};

// Every group; "vehicle" and "variant" are the two kinds of file.
[[nodiscard]] const std::vector<Group>& Format();

// The group or key with this name; asking for one that is not there is a mistake of ours.
[[nodiscard]] const Group& FindGroup(std::string_view name);
[[nodiscard]] const Key& FindKey(std::string_view group, std::string_view key);

// The key that had this name in older files, or null.
[[nodiscard]] const Key* FindFormerly(const Group& group, std::string_view name);

// The group's key with this name, or null.
[[nodiscard]] const Key* KeyIn(const Group& group, std::string_view name);

// What stands in each place of a list of one of the kinds above: the coordinates of a point, the
// words of two, and for a curve what stands in each of its points.
[[nodiscard]] std::vector<Key> ItemKeys(const Key& key);

// The default of a number [SI], from its text in the table.
[[nodiscard]] double DefaultOf(const Key& key);
[[nodiscard]] double DefaultOf(std::string_view group, std::string_view key);

// The key's own bounds and, where it has none, those of its dimension.
[[nodiscard]] Range RangeOf(const Key& key);

// "greater than 0 mm", "0 to 1"; empty where only the bounds of the dimension hold.
[[nodiscard]] std::string RangeText(const Key& key, UnitSystem system);

// A number read from its text, the same for a key of a file and for an option of a command: the
// value in SI, within the key's range; or what is wrong with the text and what is wanted.
[[nodiscard]] ParsedValue ReadNumber(std::string_view text, const Key& key, UnitSystem units);

// What should stand there, as errors say it: "a point [x, y, z] of three lengths".
//   many   Key::many for what stands under the key, or kOne for one name or item of it
[[nodiscard]] std::string WantedFor(const Key& key, Many many = Many::kOne);

}  // namespace linkwright
