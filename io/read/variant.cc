// SPDX-License-Identifier: MIT
#include "io/read/variant.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>
#include <vector>

#include "io/read/text_file.h"
#include "io/read/validate.h"

namespace linkwright {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLongestChain = 16;  // a plan of a plan of a plan; more is a mistake

// A file on the way down to the vehicle, to see when the way goes round.
struct Visit {
  std::string file;
  fs::path canonical;
};

std::string BeneathSameFolder(const std::string& variant, const std::string& base) {
  return (fs::path(variant).parent_path() / base).lexically_normal().string();
}

fs::path Canonical(const std::string& file) {
  std::error_code error;
  fs::path canonical = fs::weakly_canonical(file, error);
  return error ? fs::path(file) : canonical;
}

void Stamp(Node& node, UnitSystem units) {
  node.units = units;
  for (Node& item : node.items) Stamp(item, units);
  for (Entry& entry : node.entries) Stamp(entry.value, units);
}

std::optional<UnitSystem> UnitsOf(const Node& root) {
  const Node* units = Find(root, "units");
  return units == nullptr ? std::nullopt : ParseUnitSystem(units->text);
}

bool GoesOn(const std::vector<Visit>& visits, const Node& base, const std::string& base_file,
            Report& report) {
  const fs::path canonical = Canonical(base_file);
  const auto seen = std::find_if(visits.begin(), visits.end(),
                                 [&](const Visit& visit) { return visit.canonical == canonical; });
  if (seen != visits.end()) {
    std::string way;
    for (auto visit = seen; visit != visits.end(); ++visit) {
      way += fs::path(visit->file).filename().string() + " -> ";
    }
    AddError(report, base.place, "base",
             fmt::format("the bases go round in a circle: {}{}; one of them must be a vehicle file",
                         way, fs::path(seen->file).filename().string()));
    return false;
  }
  if (visits.size() >= kLongestChain) {
    AddError(report, base.place, "base",
             fmt::format("more than {} files stand on each other here", kLongestChain));
    return false;
  }
  return true;
}

std::optional<LoadedDocument> LoadVisiting(const std::string& file,
                                           const std::optional<Place>& blame,
                                           std::vector<Visit>& visits, Report& report) {
  visits.push_back({file, Canonical(file)});
  const std::optional<std::string> text = ReadTextFile(file, report, blame);
  if (!text) return std::nullopt;
  std::optional<Node> root = ParseDocument(*text, file, report);
  if (!root) return std::nullopt;

  const Node* base = Find(*root, "base");
  if (base == nullptr) {
    const UnitSystem units = UnitsOf(*root).value_or(UnitSystem::kMetric);
    Stamp(*root, units);
    LoadedDocument measured{.stages = {}, .units = units};
    measured.stages.push_back({std::move(*root), {}});
    return measured;
  }
  Validate(*root, "variant", report);
  const bool named = base->kind == NodeKind::kScalar && !base->text.empty();
  if (!named) return std::nullopt;
  const std::string base_file = BeneathSameFolder(file, base->text);
  if (!GoesOn(visits, *base, base_file, report)) return std::nullopt;
  std::optional<LoadedDocument> loaded = LoadVisiting(base_file, base->place, visits, report);
  if (!loaded) return std::nullopt;
  loaded->units = UnitsOf(*root).value_or(loaded->units);
  Stamp(*root, loaded->units);
  Stage next{.root = loaded->stages.back().root, .touched = {}};
  next.touched = ApplyVariant(*root, next.root, report);
  loaded->stages.push_back(std::move(next));
  return loaded;
}

}  // namespace

std::optional<LoadedDocument> LoadDocument(const std::string& file, Report& report) {
  std::vector<Visit> visits;
  return LoadVisiting(file, std::nullopt, visits, report);
}

}  // namespace linkwright
