// SPDX-License-Identifier: MIT
// Arms that keep their own lengths and shapes when their holes are moved.
#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

#include "solver/model/vehicle.h"

namespace linkwright {

// Whether any arm of the axle has a length or a shape of its own.
[[nodiscard]] bool HasKeptArms(const Axle& axle);

// The axle with every arm made to fit its points.
[[nodiscard]] Axle WithArmsAsPoints(Axle axle);

// One arm, one leg of an A-arm, or one link of a crank: its own length, and how far its two holes
// are apart with the housing where it was measured.
struct ArmFit {
  std::string name;               // "lower arm left", "wishbone first leg"
  std::vector<std::string> part;  // where it stands in the file
  Span holes;
  double length;                 // eye to eye [m]
  std::optional<double> thread;  // per turn of its adjuster [m]

  [[nodiscard]] double LongerBy() const { return length - MeasuredLength(holes); }
};

// Of each leg, eye to point [m]: its own, or as its points say.
[[nodiscard]] std::array<double, 2> LegLengths(const AArm& arm);

// A crank and its links as they are: as made, or as their points say.
[[nodiscard]] CrankShape ShapeOf(const WattsLink& watt);

// Makes one of its two links so long, eye to eye [m]; the crank and the other stay as they are.
void MakeLink(WattsLink& watt, size_t link, double length);

// Links, then A-arms, radius arms (from the chassis eye to the middle between their two others) and
// Watt's links.
[[nodiscard]] std::vector<ArmFit> ArmsOf(const Axle& axle);

// The arms of one axle as they are in another, by their names; those that `keeps` refuses stay made
// to fit their points.
//   from   the axle that has them
//   keeps  of an arm's key and kind ("links", "a_arms", "radius_arms", "watts_links")
void KeepArms(const Axle& from,
              const std::function<bool(const std::string& kind, const std::string& key)>& keeps,
              Axle& axle);

}  // namespace linkwright
