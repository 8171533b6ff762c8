// SPDX-License-Identifier: MIT
#include "cli/question.h"

#include <fmt/format.h>

#include <algorithm>

#include "io/read/format.h"
#include "io/read/suggest.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

const Given* Find(const Question& asked, std::string_view option) {
  const auto found = std::find_if(asked.given.begin(), asked.given.end(),
                                  [&](const Given& given) { return given.option.name == option; });
  return found == asked.given.end() ? nullptr : &*found;
}

}  // namespace

bool IsGiven(const Question& asked, std::string_view option) {
  return Find(asked, option) != nullptr;
}

std::vector<std::string> WordsOf(const Question& asked, std::string_view option) {
  const Given* given = Find(asked, option);
  return given == nullptr ? std::vector<std::string>() : given->words;
}

std::string WordOf(const Question& asked, std::string_view option, const std::string& otherwise) {
  const Given* given = Find(asked, option);
  return given == nullptr ? otherwise : given->words.front();
}

std::vector<double> AmountsOf(const Question& asked, std::string_view option,
                              std::optional<Dimension> dimension) {
  const Given* given = Find(asked, option);
  if (given == nullptr) return {};
  const std::vector<Key>& keys = given->option.amounts;
  const auto key = std::find_if(keys.begin(), keys.end(), [&](const Key& each) {
    return !dimension || each.dimension == *dimension;
  });
  std::vector<double> amounts;
  for (const std::string& word : given->words) {
    const ParsedValue value = ReadNumber(word, *key, asked.files.front().units);
    if (!value.si) throw UsageError(fmt::format("{}: {}", option, value.error));
    amounts.push_back(*value.si);
  }
  return amounts;
}

std::optional<double> AmountOf(const Question& asked, std::string_view option,
                               std::optional<Dimension> dimension) {
  const std::vector<double> amounts = AmountsOf(asked, option, dimension);
  return amounts.empty() ? std::nullopt : std::optional(amounts.front());
}

const Load& FindLoad(const Vehicle& vehicle, const std::string& name) {
  if (name.empty()) return DefaultLoad(vehicle);
  std::string known;
  std::vector<std::string_view> names;
  for (const Load& load : vehicle.loads) {
    if (load.name == name) return load;
    known += (known.empty() ? "" : ", ") + load.name;
    names.emplace_back(load.name);
  }
  const std::string nearest = NearestWord(name, names);
  throw UsageError(fmt::format("--load: no load is called '{}'; {}the file has {}", name,
                               nearest.empty() ? "" : "did you mean '" + nearest + "'? ", known));
}

const Load* AskedLoad(const Question& asked, const VehicleFile& file, const char* so) {
  const std::string name = WordOf(asked, "--load");
  if (!IsGeometryOnly(file.vehicle)) return &FindLoad(file.vehicle, name);
  if (name.empty()) return nullptr;
  throw UsageError(fmt::format("--load: the file has no masses, so {}", so));
}

}  // namespace linkwright
