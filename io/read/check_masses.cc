// SPDX-License-Identifier: MIT
// Checks of the ledger and of the masses that go with it: something is left to be sprung, and no
// mass lies below the floor, nor does what they come to: such a body would lean into a turn.
#include <fmt/format.h>

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/read/check.h"

namespace linkwright {
namespace {

constexpr std::size_t kKinds = 4;  // of what the ledger's sum is made of
constexpr std::size_t kWeighed = 0, kRemoved = 1, kAdded = 2, kUnsprung = 3;
constexpr std::array<double, kKinds> kSigns{1.0, -1.0, 1.0, -1.0};

// One mass of the sum; what was refused is missing.
struct Term {
  std::size_t kind;
  std::optional<double> mass;    // [kg]
  std::optional<double> height;  // above the floor [m]
  std::string what;              // "donor body"
};

std::optional<double> HeightOf(const Part& mass, double floor) {
  const auto at = PointAt(mass.node, "at");
  return at ? std::optional(at->z() - floor) : std::nullopt;
}

// What FinishedSprungMass adds up.
std::vector<Term> TermsOf(const Part& vehicle, const Part& ledger, double floor) {
  std::vector<Term> terms;
  const Node& weighed = PartAt(ledger, "weighed").node;
  const bool by_axle = Find(weighed, "front") != nullptr || Find(weighed, "rear") != nullptr;
  const auto scales = by_axle ? std::vector<std::string_view>{"front", "rear"}
                              : std::vector<std::string_view>{"front_left", "front_right",
                                                              "rear_left", "rear_right"};
  for (const std::string_view scale : scales) {
    terms.push_back({kWeighed, NumberAt(weighed, scale), NumberAt(weighed, "cg_height"),
                     "the vehicle as weighed"});
  }
  for (const auto& [kind, key] : {std::pair(kRemoved, "removed"), std::pair(kAdded, "added")}) {
    for (const Part& item : ItemsAt(ledger, key)) {
      terms.push_back(
          {kind, NumberAt(item.node, "mass"), HeightOf(item, floor), TextAt(item.node, "item")});
    }
  }
  for (const std::string_view name : {"front", "rear"}) {
    const Part unsprung = PartAt(PartAt(PartAt(vehicle, "axles"), name), "unsprung");
    terms.push_back({kUnsprung, NumberAt(unsprung.node, "mass"), HeightOf(unsprung, floor),
                     fmt::format("the {} axle's unsprung mass", name)});
  }
  return terms;
}

// What the terms come to; nothing of what a refused number belongs to.
struct LedgerSum {
  std::array<double, kKinds> mass{};   // of each kind [kg]
  double sprung = 0.0;                 // [kg]
  std::optional<double> moment = 0.0;  // about the floor [kg m]
  double deepest = 0.0;                // of what pulls the centre down the most [kg m]
  std::string pulls;
};

std::optional<LedgerSum> SumOf(const std::vector<Term>& terms) {
  LedgerSum sum;
  for (const Term& term : terms) {
    if (!term.mass) return std::nullopt;
    sum.mass[term.kind] += *term.mass;
    if (!term.height) sum.moment.reset();
    if (!sum.moment) continue;
    const double moment = kSigns[term.kind] * *term.mass * *term.height;
    *sum.moment += moment;
    if (moment < sum.deepest) sum.deepest = moment, sum.pulls = term.what;
  }
  for (std::size_t kind = 0; kind < kKinds; ++kind) sum.sprung += kSigns[kind] * sum.mass[kind];
  return sum;
}

// Refuses what leaves no sprung mass, or one whose centre lies below the floor.
//   above   no single mass lies below it
void CheckSum(const LedgerSum& sum, const Part& vehicle, const Part& ledger, bool above,
              Report& report) {
  const auto show = [&](double mass) {
    return FormatValue(mass, Dimension::kMass, ledger.node.units);
  };
  if (!(sum.sprung > 0.0)) {
    return AddError(
        report, ledger.place, ledger.path,
        fmt::format("the sprung mass comes to {}: {} weighed, {} removed, {} added, {} "
                    "unsprung; it must be more than 0",
                    show(sum.sprung), show(sum.mass[kWeighed]), show(sum.mass[kRemoved]),
                    show(sum.mass[kAdded]), show(sum.mass[kUnsprung])));
  }
  if (!above || !sum.moment || *sum.moment > 0.0) return;
  AddError(report, ledger.place, ledger.path,
           fmt::format("the sprung mass's centre comes to {} below the floor: weighed.cg_height, "
                       "less what was removed and both unsprung, plus what was added, must leave "
                       "it above; what pulls it down most is {}, taken off too high or too heavy",
                       Show(-*sum.moment / sum.sprung, vehicle.node), sum.pulls));
}

// Refuses masses below the floor.
//   what      "an axle's mass"
//   returns   false where one was, or where its place was refused already
bool StandAbove(const std::vector<Part>& masses, std::string_view what, const Part& vehicle,
                double floor, Report& report) {
  bool good = true;
  for (const Part& mass : masses) {
    const auto at = PointAt(mass.node, "at");
    if (at && at->z() >= floor) continue;
    good = false;
    if (!at) continue;
    AddErrorAt(report, mass, "at",
               "z is {}; {} is above the floor, which is at {}: is there a minus too many?",
               Show(at->z(), vehicle.node), what, Show(floor, vehicle.node));
  }
  return good;
}

bool AllStandAbove(const Part& vehicle, double floor, Report& report) {
  std::vector<Part> unsprung, sprung, items;
  for (const Part& axle : AxleParts(PartAt(vehicle, "axles"))) {
    if (const Part mass = PartAt(axle, "unsprung")) unsprung.push_back(mass);
  }
  if (const Part mass = PartAt(vehicle, "sprung")) sprung.push_back(mass);
  const auto add = [&](const Part& owner, std::string_view key) {
    for (const Part& item : ItemsAt(owner, key)) items.push_back(item);
  };
  add(PartAt(vehicle, "ledger"), "removed");
  add(PartAt(vehicle, "ledger"), "added");
  // A load is added: with its items and the body above the floor, so is what they come to.
  const Part loads = PartAt(vehicle, "loads");
  for (const Entry& load : loads.node.entries) add(loads, load.key);
  const bool axles_good = StandAbove(unsprung, "an axle's mass", vehicle, floor, report);
  const bool body_good = StandAbove(sprung, "a body's centre of mass", vehicle, floor, report);
  return StandAbove(items, "what has weight", vehicle, floor, report) && axles_good && body_good;
}

// The masses of the whole vehicle, given where only one of its axles is.
void RefuseMasses(const Part& vehicle, const Part& masses, std::string_view axle, Report& report) {
  const std::string_view missing = axle == "front" ? "rear" : "front";
  AddError(report, BlameFor(PartAt(vehicle, "axles").node, missing, masses.place), masses.path,
           fmt::format("with axles.{} alone the file is geometry only, since one axle does not say "
                       "how the whole stands: give axles.{} too, or take '{}' out",
                       axle, missing, masses.path));
}

void CheckUnsprung(const Part& vehicle, std::string_view because, Report& report) {
  for (const Part& axle : AxleParts(PartAt(vehicle, "axles"))) {
    if (Find(axle.node, "unsprung") != nullptr) continue;
    AddError(report, BlameFor(axle.node, "unsprung", axle.place), JoinPath(axle.path, "unsprung"),
             fmt::format("it is missing; a file with '{}' needs unsprung: {{mass: ..., at: [x, y, "
                         "z]}} at both axles",
                         because));
  }
}

}  // namespace

void CheckMasses(const Part& vehicle, double floor, Report& report) {
  const Part ledger = PartAt(vehicle, "ledger");
  const Part sprung = PartAt(vehicle, "sprung");
  if (const auto only = OnlyAxle(vehicle)) {
    for (const Part& masses : {ledger, sprung}) {
      if (masses) RefuseMasses(vehicle, masses, *only, report);
    }
  } else if (ledger || sprung) {
    CheckUnsprung(vehicle, ledger ? "ledger" : "sprung", report);
  }
  const bool above = AllStandAbove(vehicle, floor, report);
  if (!ledger) return;
  const auto sum = SumOf(TermsOf(vehicle, ledger, floor));
  if (sum) CheckSum(*sum, vehicle, ledger, above, report);
}

void CheckWeighed(const Part& vehicle, const Part& axle, const Part& spring, Report& report) {
  if (TextAt(spring.node, "free_length") != "weighed") return;
  const auto refuse = [&](std::string message) {
    AddMessageAt(report, spring, "free_length", std::move(message));
  };
  if (Find(vehicle.node, "ledger") == nullptr) {
    refuse("'weighed' needs a ledger with the donor's weights; give the free length itself");
  }
  if (Find(spring.node, "curve") != nullptr) {
    refuse("'weighed' needs a rate; with a curve, give the free length itself");
  }
  const std::vector<Part> springs = PartsAt(axle, "springs");
  // A pair that a variant has split stands as two, left and right.
  const bool split =
      springs.size() == 2 && (spring.path.ends_with(" left") || spring.path.ends_with(" right"));
  if (!FlagAt(spring.node, "pair") && !split) {
    refuse(
        "'weighed' shares the axle's load between a pair; add 'pair: true', or give the free "
        "length itself");
  }
  if (springs.size() > (split ? 2U : 1U)) {
    refuse("'weighed' needs its pair to be the axle's only springs; give the free length itself");
  }
  // What the axle's coils carried on the scales.
  const Node& weighed = PartAt(PartAt(vehicle, "ledger"), "weighed").node;
  const std::string_view name = axle.path == "axles.front" ? "front" : "rear";
  const auto left = NumberAt(weighed, fmt::format("{}_left", name));
  const auto right = NumberAt(weighed, fmt::format("{}_right", name));
  const auto both = left && right ? std::optional(*left + *right) : NumberAt(weighed, name);
  const auto unsprung = NumberAt(PartAt(axle, "unsprung").node, "mass");
  if (!both || !unsprung || *both > *unsprung) return;
  refuse(
      fmt::format("'weighed' finds nothing to carry: the axle weighed no more than its "
                  "unsprung mass ({} on the coils)",
                  FormatValue(*both - *unsprung, Dimension::kMass, spring.node.units)));
}

}  // namespace linkwright
