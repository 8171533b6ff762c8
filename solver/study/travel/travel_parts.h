// SPDX-License-Identifier: MIT
// Dampers, stops and straps for a wanted travel, and whether the coils then stay in their seats.
#pragma once

#include <span>

#include "solver/study/travel/in_the_way.h"

namespace linkwright {

// What is wanted of every axle; all absent: the travel as found.
//   split         share of the travel found that is to be bump [-], 0 to 1
//   bump, droop   wheel travel up and down from the stance [m], above 0; with neither split
struct TravelWish {
  std::optional<double> split, bump, droop;
};

enum class DamperFit {
  kUnknown,      // the file gives no shortest or longest
  kFits,         // as it stands
  kMoveTab,      // with its upper end at another place
  kStrokeShort,  // wherever its ends go
  kTabTooFar,    // its stroke would do, but no tab within 300 mm
};

// What would make an order possible that no damper has; each alone.
struct ImpossibleOrder {
  double short_by;                  // closed, against its stroke and dead length [m]
  std::optional<double> tab_move;   // its chassis end along the damper, away from the axle [m]
  std::optional<double> less_bump;  // of both wheels [m]; absent: none at all is too much
};

// One load that parts are ordered for; what it refers to must outlive it.
struct TravelCase {
  const Load* load;           // null: geometry only
  const Stance* stance;       // its rest under that load, as for FindLimits
  const LimitsReport* found;  // from that stance
};

// Of twins that are mirror images the order, its fit and its places are of both: the worse.
struct DamperAdvice {
  size_t axle;
  std::string member;
  double at_rest, at_bump, at_droop;     // eye to eye, both wheels together [m]
  double least, greatest;                // wherever stops and straps let the axle go [m]
  double closed, open;                   // order it no longer closed, no shorter open [m]
  std::string closed_under, open_under;  // the load that decides; empty: all come to the same
  DamperFit fit;
  std::optional<double> stroke_short;  // kStrokeShort: by how much [m]
  std::optional<double>
      tab_move;  // kMoveTab: its chassis end along the damper, + away from the axle [m]
  std::optional<Eigen::Vector3d> p_CP;  // kMoveTab: to there, in C [m]
  std::optional<ImpossibleOrder> impossible;
};

struct StopAdvice {
  size_t axle;
  std::string member;
  double gap_at_rest;  // before it touches as the vehicle rests now [m]; below 0: squeezed
  double solid;        // its height when solid, at the wanted bump, of twins that are mirror images
                       // the lower; below 0: past its seat [m]
  bool misses;         // its cone is beside its pad there: no height makes it end the travel
  double height_now;   // free [m]
  // Free, wanted [m]; absent without a curve, past its seat, beside its pad, or where no rest is
  // found that it and the others would make.
  std::optional<double> height;
  // Where the height wanted makes the vehicle rest otherwise: squeezed by it at the rest that the
  // advice counts from; below 0: it no longer touches [m].
  std::optional<double> rest_squeeze;
  std::string under;           // the load that decides its height; empty: all come to the same
  std::string squeezed_under;  // the load that it is squeezed most under
};

struct StrapAdvice {
  size_t axle;
  std::string member;  // of the strap; without straps, of the damper it stands beside
  bool beside_damper;
  std::optional<double> length_now;
  double length;  // wanted, pulled taut; of twins that are mirror images the longer [m]
  Span span;
  std::string under;  // the load that decides; empty: all come to the same
};

struct CoilAdvice {
  size_t axle;
  std::string member;
  double length_at_droop, length_at_bump;  // both wheels together [m]
  double preload;             // squeezed where it is longest; below 0: off its seat by that [m]
  double preload_force;       // [N]
  std::optional<double> gap;  // left before solid where it is shortest [m]
};

// What is wanted under one load.
struct WantedUnder {
  std::string load;  // empty: geometry only
  std::array<WantedTravel, 2> wanted;
  std::optional<std::array<double, 2>> rest_moves;  // as in PartsAdvice
};

// Lengths, heights and places at rest, at bump and at droop are those under the first load.
struct PartsAdvice {
  std::array<WantedTravel, 2> wanted;       // under the first load
  std::vector<WantedUnder> under;           // each load, in the order asked for
  std::array<bool, 2> reached{true, true};  // false: the links do not follow everywhere
  // Where stops of other heights touch at rest: how far each axle's wheels then stand from where
  // they rest now [m], up against the body +; the advice counts from there. Under the first load;
  // absent where the vehicle rests as now under every load, or where no rest is found that the
  // stops would make.
  std::optional<std::array<double, 2>> rest_moves;
  std::vector<InTheWay> in_the_way;
  std::vector<DamperAdvice> dampers;
  std::vector<StopAdvice> stops;
  std::vector<StrapAdvice> straps;
  std::vector<CoilAdvice> coils;
};

// What is wanted of an axle whose limits were found.
[[nodiscard]] WantedTravel WantedOf(const TravelWish& wish, const LimitsReport& limits,
                                    size_t axle);

// Parts that give the wanted travel under every one of the loads: of what each load by itself asks
// for the lowest stop and the longest strap, which leave the other loads more travel, and dampers
// that follow wherever those let the axle go. Axles whose wanted bump or droop is absent get no
// advice on what would set it; a load under which it is absent has no say.
//   cases    one or more; the first is the one that is told about
//   damper_reserve   left in a damper at either end [m]; what it has beside its stroke and how far
//                    twins may be off their mirror images stand in the vehicle's aims
//   source   docs/theory.md (72), (72a), (73)
[[nodiscard]] PartsAdvice AdviseParts(const Rig& rig, std::span<const TravelCase> cases,
                                      const TravelWish& wish, double damper_reserve);

// The same for one load.
[[nodiscard]] PartsAdvice AdviseParts(const Rig& rig, const Load* load, const Stance* stance,
                                      const LimitsReport& limits, const TravelWish& wish,
                                      double damper_reserve);

// The vehicle with the stops and straps of the advice on it.
[[nodiscard]] Vehicle WithStopsAndStraps(const Vehicle& vehicle, const PartsAdvice& advice);

}  // namespace linkwright
