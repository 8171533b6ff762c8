// SPDX-License-Identifier: MIT
// Checks of the ledger and of the masses that go with it.
#include <fmt/format.h>

#include "io/read/check.h"

namespace linkwright {
namespace {

// Sum of the masses of a list's items [kg]; nothing where one of them was refused.
std::optional<double> ItemsMass(const Node& ledger, std::string_view key) {
  double sum = 0.0;
  const Node* items = Find(ledger, key);
  if (items == nullptr) return sum;
  for (const Node& item : items->items) {
    const auto mass = NumberAt(item, "mass");
    if (!mass) return std::nullopt;
    sum += *mass;
  }
  return sum;
}

std::optional<double> WeighedMass(const Part& ledger) {
  const auto weighed = PartAt(ledger, "weighed");
  if (!weighed) return std::nullopt;
  double sum = 0.0;
  for (const std::string_view corner : {"front_left", "front_right", "rear_left", "rear_right"}) {
    const auto mass = NumberAt(weighed->node(), corner);
    if (!mass) return std::nullopt;
    sum += *mass;
  }
  return sum;
}

std::optional<double> UnsprungMass(const Part& vehicle) {
  const auto axles = PartAt(vehicle, "axles");
  if (!axles) return std::nullopt;
  double sum = 0.0;
  for (const std::string_view name : {"front", "rear"}) {
    const auto axle = PartAt(*axles, name);
    const auto unsprung = axle ? PartAt(*axle, "unsprung") : std::nullopt;
    const auto mass = unsprung ? NumberAt(unsprung->node(), "mass") : std::nullopt;
    if (!mass) return std::nullopt;
    sum += *mass;
  }
  return sum;
}

void CheckUnsprung(const Part& vehicle, std::string_view because, Report& report) {
  const auto axles = PartAt(vehicle, "axles");
  if (!axles) return;
  for (const Part& axle : PartsAt(vehicle, "axles")) {
    const bool known = axle.entry->key == "front" || axle.entry->key == "rear";
    if (!known || axle.node().kind != NodeKind::kMap) continue;
    if (Find(axle.node(), "unsprung") != nullptr) continue;
    AddError(report, BlameFor(axle.node(), "unsprung", axle.entry->key_place),
             JoinPath(axle.path, "unsprung"),
             fmt::format("it is missing; a file with '{}' needs unsprung: {{mass: ..., at: [x, y, "
                         "z]}} at both axles",
                         because));
  }
}

}  // namespace

void CheckMasses(const Part& vehicle, Report& report) {
  const auto ledger = PartAt(vehicle, "ledger");
  if (!ledger && !PartAt(vehicle, "sprung")) return;
  CheckUnsprung(vehicle, ledger ? "ledger" : "sprung", report);
  if (!ledger) return;
  const auto weighed = WeighedMass(*ledger);
  const auto removed = ItemsMass(ledger->node(), "removed");
  const auto added = ItemsMass(ledger->node(), "added");
  const auto unsprung = UnsprungMass(vehicle);
  if (!weighed || !removed || !added || !unsprung) return;
  const double sprung = *weighed - *removed + *added - *unsprung;
  if (sprung > 0.0) return;
  const auto show = [&](double mass) {
    return FormatValue(mass, Dimension::kMass, ledger->node().units);
  };
  AddError(
      report, ledger->entry->key_place, ledger->path,
      fmt::format("the sprung mass comes to {}: {} weighed, {} removed, {} added, {} "
                  "unsprung; it must be more than 0",
                  show(sprung), show(*weighed), show(*removed), show(*added), show(*unsprung)));
}

}  // namespace linkwright
