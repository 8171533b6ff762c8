// SPDX-License-Identifier: MIT
// A link made longer or shorter, and by how much so that something at rest comes out as wanted.
#pragma once

#include <functional>
#include <optional>

#include "solver/rest/stance.h"

namespace linkwright {

// What is turned together: one link, or both of a pair.
struct LinkSet {
  std::string name;              // the file's key: "upper arm"
  std::vector<size_t> members;   // indices into Axle::links
  std::optional<double> thread;  // length per turn of its adjuster [m]
};

// Turns of its adjuster that make it longer by `by` [m]; absent without a thread.
[[nodiscard]] inline std::optional<double> TurnsOf(const LinkSet& links, double by) {
  return links.thread ? std::optional(by / *links.thread) : std::nullopt;
}

[[nodiscard]] std::vector<LinkSet> LinkSetsOf(const Axle& axle);

// The rig with these links longer by `by` [m], everything else as it was. Its `measured` motion is
// then the pose at the measured height and roll.
//   returns  absent where the links do not reach
[[nodiscard]] std::optional<Rig> Lengthened(const Rig& rig, size_t axle,
                                            const std::vector<size_t>& members, double by);

// Where a rig stands: at rest under a load, or with its wheels as measured where no load is given.
struct Standing {
  std::optional<Stance> stance;        // absent: geometry only
  std::array<HousingMotion, 2> level;  // each axle at the mean of its two travels
};

// Null: geometry only.
[[nodiscard]] inline const Stance* StanceOf(const Standing& standing) {
  return standing.stance ? &*standing.stance : nullptr;
}

//   load     null: geometry only
//   returns  absent where it finds no rest
[[nodiscard]] std::optional<Standing> Stand(const Rig& rig, const Load* load);

// Something of a standing vehicle that is to become 0; absent where it has no value.
using Miss = std::function<std::optional<double>(const Rig&, const Standing&)>;

constexpr double kMostMove = 0.15;  // [m] of a bracket; further is another axle's design

struct LengthAnswer {
  double by;  // + longer [m]
  Rig rig;
  Standing standing;
};

// How much longer or shorter a shop can make a link: so much by its adjuster's thread, which must
// keep its hold, or such a share of its length where the file gives none; more is another link
// (common practice) [m].
constexpr double kMostByThread = 0.025;  // [m]
constexpr double kMostByShare = 0.05;    // [-]
[[nodiscard]] double MostByHand(const Axle& axle, const LinkSet& set);

// A rig changed by an amount [m]; absent where it cannot be.
using Change = std::function<std::optional<Rig>(double by)>;

// The amount of a change that makes `miss` 0 where the vehicle then stands: each trial poses the
// links and settles the vehicle anew.
//   tolerance   of the miss, in its unit
//   most        the greatest amount either way [m]
//   returns     absent where none within it does
//   source      docs/theory.md (65)
[[nodiscard]] std::optional<LengthAnswer> SolveChange(const Change& change, const Load* load,
                                                      const Miss& miss, double tolerance,
                                                      double most);

// The same for links made longer.
[[nodiscard]] std::optional<LengthAnswer> SolveLength(const Rig& rig, const Load* load, size_t axle,
                                                      const std::vector<size_t>& members,
                                                      const Miss& miss, double tolerance,
                                                      double most);

}  // namespace linkwright
