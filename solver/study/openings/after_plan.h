// SPDX-License-Identifier: MIT
// What the tyres do once a plan to centre them is carried out, where they first touch, and how much
// of the body has to go for them to be clear.
#pragma once

#include "solver/study/openings/centring.h"
#include "solver/study/openings/openings.h"

namespace linkwright {

// The vehicle with the plan carried out and its tyres swept there.
struct AfterPlan {
  Vehicle vehicle;
  OpeningsReport report;
};

// Settled again under the load, its items moved with the body; shafts as they are, though the plan
// tells how much longer they must be.
//   load      null: geometry only
//   lock      as for SweepOpenings
//   returns   absent where it finds no rest
//   errors    ModelError as SweepOpenings
[[nodiscard]] std::optional<AfterPlan> CarryOut(const Vehicle& vehicle, const Load* load,
                                                const BodyMove& move, std::optional<double> lock);

// The tyre that touches first as both wheels of an axle rise.
struct FirstTouch {
  size_t axle, side;  // side: 0 left, 1 right
  Surface surface;
  double travel;  // of both wheels, from rest [m]; 0: it touches at rest
};

// Of each axle with an opening where one touches before its bump ends, tyres left out.
[[nodiscard]] std::vector<FirstTouch> FirstTouches(const Walks& walks,
                                                   const OpeningsReport& report);

// How much of a lip has to go, or how far a panel has to go in, for the tyre to keep its clearance;
// of left and right the more.
struct BodyTrim {
  size_t axle, side;
  Surface surface;
  double by;            // aims.tire_clearance less the least gap, above 0 [m]
  NearestTire nearest;  // where that is
  Offset from_center;   // of the place on the body, from the opening's centre [m]
};

// By axle, the lip first; none of a tyre that is clear.
[[nodiscard]] std::vector<BodyTrim> TrimsWanted(const Vehicle& vehicle,
                                                const OpeningsReport& report);

// The least gap of an axle's tyres to anything in one motion, the steering held, or from lock to
// lock over every motion where `motion` is absent [m]; absent where none could be had.
[[nodiscard]] std::optional<double> LeastGap(const OpeningsReport& report, size_t axle,
                                             std::optional<TireMotion> motion);

}  // namespace linkwright
