// SPDX-License-Identifier: MIT
// How it rides about a stance: the modes of the whole linear model beside the textbook's, damping,
// and frequency against load.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "solver/rest/damping.h"
#include "solver/rest/modes.h"
#include "solver/rest/ride.h"
#include "solver/rest/stance_report.h"

namespace linkwright {

// A number by a textbook's model with as few parts as it can have.
struct TextbookMode {
  double frequency;                    // undamped [Hz]
  std::optional<double> damping;       // ratio; absent without dampers
  std::optional<double> centre_ahead;  // as in ModeReport
};

struct ModeReport {
  Mode mode;
  // In side view: where the body is still, ahead of its centre of mass [m]; absent for others and
  // where the body does not turn.
  std::optional<double> centre_ahead;
  std::optional<TextbookMode> textbook;
};

struct AxleRide {
  double sprung_mass;                // carried at rest [kg]
  std::optional<double> coil_ratio;  // change of coil length per wheel travel [-]
  double wheel_rate, ride_rate;      // per wheel [N/m]
  std::optional<double> frequency;   // [Hz]
  bool stop_touches;                 // at rest: its rate is in the wheel rate
  std::optional<AxleDamping> dampers;
  // Of the sprung mass on the wheel rate: mean of bump and rebound, and each alone [-].
  std::optional<double> damping, damping_bump, damping_rebound;
};

struct RideReport {
  std::array<AxleRide, 2> axles;
  std::vector<ModeReport> modes;
  Inertias inertias;
  AxleArms arms;                          // of the sprung centre of mass
  double gyration;                        // radius of, of the sprung mass in pitch [m]
  std::optional<double> dynamic_index;    // pitch inertia / (mass b c) [-]; absent unless the
                                          // centre stands between the axles
  std::optional<double> rear_over_front;  // ride frequencies [-]
  bool damped;
};

//   stance   at rest (kRests)
//   source   docs/theory.md (91) to (98)
[[nodiscard]] RideReport ReportRide(const Rig& rig, const Stance& stance,
                                    const RideGuesses& guesses = {});

// One line of frequency against load.
struct LoadedRide {
  std::string name;
  double payload;                      // above the load's own items [kg]
  std::optional<StanceReport> stance;  // absent where it finds no rest
  std::string message;                 // why it does not
};

// `load` with a payload at p_CM added in equal steps, from none to `most`.
//   most     [kg], above 0;  steps   1 or more
[[nodiscard]] std::vector<LoadedRide> RideOverPayload(const Rig& rig, const Load& load, double most,
                                                      int steps, const Eigen::Vector3d& p_CM);

}  // namespace linkwright
