// SPDX-License-Identifier: MIT
#include "io/read/weighed.h"

#include <fmt/format.h>

#include "io/read/check.h"

namespace linkwright {
namespace {

// What the axle's coils carried on the scales [kg]; nothing where a number for it is missing.
std::optional<double> CarriedMass(const Node& root, std::string_view axle) {
  const Node* ledger = Find(root, "ledger");
  const Node* weighed = ledger == nullptr ? nullptr : Find(*ledger, "weighed");
  const Node* axles = Find(root, "axles");
  const Node* of_axle = axles == nullptr ? nullptr : Find(*axles, axle);
  const Node* unsprung = of_axle == nullptr ? nullptr : Find(*of_axle, "unsprung");
  if (weighed == nullptr || unsprung == nullptr) return std::nullopt;
  const auto left = NumberAt(*weighed, fmt::format("{}_left", axle));
  const auto right = NumberAt(*weighed, fmt::format("{}_right", axle));
  const auto mass = NumberAt(*unsprung, "mass");
  if (!left || !right || !mass) return std::nullopt;
  return *left + *right - *mass;
}

}  // namespace

void CheckWeighed(const Part& vehicle, const Part& axle, const Part& spring, Report& report) {
  if (TextAt(spring.node(), "free_length") != "weighed") return;
  const auto refuse = [&](std::string message) {
    AddErrorAt(report, spring, "free_length", std::move(message));
  };
  if (Find(vehicle.node(), "ledger") == nullptr) {
    refuse("'weighed' needs a ledger with the donor's weights; give the free length itself");
  }
  if (Find(spring.node(), "curve") != nullptr) {
    refuse("'weighed' needs a rate; with a curve, give the free length itself");
  }
  if (!FlagAt(spring.node(), "pair")) {
    refuse(
        "'weighed' shares the axle's load between a pair; add 'pair: true', or give the free "
        "length itself");
  }
  if (PartsAt(axle, "springs").size() > 1) {
    refuse("'weighed' needs its pair to be the axle's only springs; give the free length itself");
  }
  const auto mass = CarriedMass(vehicle.node(), axle.entry->key);
  if (mass && *mass <= 0.0) {
    refuse(
        fmt::format("'weighed' finds nothing to carry: the axle weighed no more than its "
                    "unsprung mass ({} on the coils)",
                    FormatValue(*mass, Dimension::kMass, spring.node().units)));
  }
}

}  // namespace linkwright
