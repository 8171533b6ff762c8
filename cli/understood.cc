// SPDX-License-Identifier: MIT
#include "cli/understood.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "io/read/suggest.h"
#include "io/shown.h"

namespace linkwright {
namespace {

// Other words for a choice, small letters, "-" for every blank and underscore.
struct OtherWord {
  std::string_view option, word, choice;
};

constexpr OtherWord kOtherWords[]{{"--units", "inches", "inch"},
                                  {"--units", "in", "inch"},
                                  {"--units", "imperial", "inch"},
                                  {"--units", "us", "inch"},
                                  {"--units", "usa", "inch"},
                                  {"--units", "mm", "metric"},
                                  {"--units", "millimetres", "metric"},
                                  {"--units", "millimeters", "metric"},
                                  {"--units", "si", "metric"},
                                  {"--motion", "bump", "bounce"},
                                  {"--motion", "droop", "bounce"},
                                  {"--motion", "rebound", "bounce"},
                                  {"--motion", "travel", "bounce"},
                                  {"--motion", "jounce", "bounce"},
                                  {"--motion", "heave", "bounce"},
                                  {"--motion", "lean", "roll"},
                                  {"--motion", "wheel", "one-wheel"},
                                  {"--motion", "single", "one-wheel"},
                                  {"--motion", "single-wheel", "one-wheel"},
                                  {"--motion", "cross", "crossed"},
                                  {"--motion", "twist", "crossed"},
                                  {"--motion", "flex", "crossed"},
                                  {"--motion", "articulation", "crossed"},
                                  {"--motion", "steering", "steer"},
                                  {"--motion", "lock", "steer"},
                                  {"--axle", "back", "rear"}};

// The two spellings of a word that option names have, theirs last.
constexpr std::array<std::array<std::string_view, 2>, 2> kSpellings{
    {{"center", "centre"}, {"color", "colour"}}};

std::string Plain(std::string_view word) {
  std::string plain;
  for (const char c : word) {
    plain +=
        c == ' ' || c == '_' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return plain;
}

// "left-front", "rear right", "lf" as "front-left"; empty where it names no one wheel.
std::string Wheel(const std::string& plain) {
  std::string axle, side;
  for (size_t at = 0; at < plain.size();) {
    const size_t end = std::min(plain.find('-', at), plain.size());
    const std::string part = plain.substr(at, end - at);
    at = end + 1;
    if (part == "front" || part == "f") {
      axle += "front";
    } else if (part == "rear" || part == "back") {
      axle += "rear";
    } else if (part == "left" || part == "l") {
      side += "left";
    } else if (part == "right") {
      side += "right";
    } else if (part == "lf" || part == "fl") {
      axle += "front", side += "left";
    } else if (part == "rf" || part == "fr") {
      axle += "front", side += "right";
    } else if (part == "lr" || part == "rl") {
      axle += "rear", side += "left";
    } else if (part == "rr") {
      axle += "rear", side += "right";
    } else {
      return {};
    }
  }
  return axle.empty() || side.empty() ? std::string() : axle + "-" + side;
}

std::string Respelled(std::string name) {
  for (const auto& [theirs, ours] : kSpellings) {
    const size_t at = name.find(theirs);
    if (at != std::string::npos) name.replace(at, theirs.size(), ours);
  }
  return name;
}

bool IsOneOf(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

}  // namespace

void UnderstandOptions(const Command& command, std::vector<std::string>& arguments) {
  std::vector<std::string> names{"--help"};
  for (const Option& option : OptionsOf(command)) {
    if (!IsFile(option)) names.push_back(option.name);
  }
  for (std::string& word : arguments) {
    if (word == "--") return;  // no options after it
    if (!word.starts_with("--")) continue;
    const size_t end = std::min(word.find('='), word.size());
    const std::string name = word.substr(0, end), value = word.substr(end);
    if (IsOneOf(names, name)) continue;
    const std::string ours = Respelled(Plain(name));
    if (IsOneOf(names, ours)) {
      word = ours + value;
      continue;
    }
    const std::string nearest = NearestWord(name, {names.begin(), names.end()});
    const std::string whose = command.name == kPageName ? "the page" : "linkwright " + command.name;
    throw UsageError(whose + " has no option " + Shown(name) +
                     (nearest.empty() ? "; see linkwright " + command.name + " --help"
                                      : "; did you mean " + nearest + "?"));
  }
}

std::string TakeChoice(const Option& option, std::string& word) {
  if (IsOneOf(option.choices, word)) return {};
  const std::string plain = Plain(word);
  std::string meant = IsOneOf(option.choices, plain) ? plain : Wheel(plain);
  for (const OtherWord& other : kOtherWords) {
    if (other.option == option.name && other.word == plain) meant = other.choice;
  }
  if (IsOneOf(option.choices, meant)) {
    word = meant;
    return {};
  }
  std::string all;
  for (const std::string& choice : option.choices) all += (all.empty() ? "" : ", ") + choice;
  const std::string nearest = NearestWord(word, {option.choices.begin(), option.choices.end()});
  return Quoted(word) + " is none of " + all +
         (nearest.empty() ? "" : "; did you mean " + nearest + "?");
}

}  // namespace linkwright
