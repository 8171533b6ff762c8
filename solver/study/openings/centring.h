// SPDX-License-Identifier: MIT
// Both wheels in the middle of their openings at rest: the body moved on the chassis, the chassis
// cut or stretched; and where an axle hangs on stands so that it lands there.
#pragma once

#include "solver/model/moves.h"
#include "solver/study/walk/walks.h"

namespace linkwright {

// What is done to the vehicle, as built against as measured.
struct BodyMove {
  double ahead = 0.0;                    // the body on the chassis, forward [m]
  double up_front = 0.0, up_rear = 0.0;  // the body at its front and rear opening [m]
  double longer = 0.0;  // let into the chassis between the axles; below 0: cut out [m]
};

// Whether any of it is more than is set by a shim.
[[nodiscard]] bool IsWorthDoing(const BodyMove& move);

// The same as a plan's file says it.
struct PlanMoves {
  Stretch stretch;
  BodyPlacing body;
};

// The chassis is cut ahead of every place that the rear axle has on it, the body turned about its
// front opening.
//   source   docs/theory.md (78)
[[nodiscard]] PlanMoves MovesOf(const Vehicle& vehicle, const BodyMove& move);

// The vehicle after a move.
[[nodiscard]] Vehicle WithBodyMoved(const Vehicle& vehicle, const BodyMove& move);

// The same load with its items moved.
[[nodiscard]] Load WithBodyMoved(const Load& load, const BodyMove& move, const Vehicle& vehicle);

struct Offset {
  double ahead, up;  // hub centre against its opening's centre [m]
};

// A driveshaft at rest with a plan carried out against as it is.
struct ShaftChange {
  std::string name;
  double longer;  // of the piece that slides; below 0: shorter [m]
};

struct CentringPlan {
  double share;  // of the mismatch that the chassis takes [-]
  BodyMove move;
  std::array<Offset, 2> before, after;  // front, rear, at rest
  std::vector<ShaftChange> shafts;      // what the shafts must follow
  bool found = false;                   // else `message` says why, and move is the last one tried
  std::string message;
};

// Settles again after each step until nothing moves by more than 1e-9 m.
//   load     null: geometry only, about the measured stance
//   errors   ModelError as Settle; both axles must have an opening
//   source   docs/theory.md (78)
[[nodiscard]] CentringPlan Centre(const Vehicle& vehicle, const Load* load, double share);

// An axle at full droop, which ends where FindLimits says, against the same at rest.
struct Hanging {
  size_t axle;
  double travel;                        // below 0; 100 mm where nothing ends it [m]
  std::optional<std::string> ended_by;  // absent: nothing in the file ends droop
  double ahead, left, up;               // of the hub centre against its place at rest [m]
  double pitch;                         // of the housing, nose up + [rad]
  std::optional<Offset> in_opening;     // of the hub against the opening's centre
};

//   stance   as a sweep starts from; null: measured. source: docs/theory.md (79)
[[nodiscard]] std::vector<Hanging> HangAxles(const Walks& walks);

// The same once a plan is carried out, settled again; empty where it finds no rest.
[[nodiscard]] std::vector<Hanging> HangAxles(const Vehicle& vehicle, const Load* load,
                                             const BodyMove& move);

}  // namespace linkwright
