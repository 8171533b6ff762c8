// SPDX-License-Identifier: MIT
// The readings of a leaf-sprung original as equations: what each would read were the places of
// axles, bolts and openings known.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "solver/geometry/leaf.h"
#include "solver/model/vehicle.h"

namespace linkwright {

enum class LeafReadingKind {
  kFixedEyeX,
  kFixedEyeZ,
  kPivotX,
  kPivotZ,
  kShackle,
  kArcFixed,
  kArcShackled,
  kClamped,
  kEyeUp,
  kToWheel,
  kCamberNew,
  kCamberNow,
  kEyesNow,
  kEyesNew,
  kLeanNow,  // the only angle [rad]; all others [m]
  kBoltsApart,
  kWheelNowX,
  kWheelNowZ,
  kOpeningX,
  kOpeningZ,
  kInOpeningX,
  kInOpeningZ,
  kWheelbaseNow,
  kWheelbaseDesign,
  kOpeningsApart,  // of this file's `openings`, along x
  kWasCentred,     // assumed: the wheel when new less its opening's centre, along x
  kUnmoved,        // assumed: of an axle without a spring, now less when new, along x
};

// One equation.
//   axle    kFront or kRear; absent: both have a part in it
//   value   as read; 0 where assumed [m] or [rad]
//   sigma   its standard deviation
struct LeafReading {
  LeafReadingKind kind;
  std::optional<int> axle;
  double value;
  double sigma;
};

[[nodiscard]] bool IsAssumed(LeafReadingKind kind);

// "rear eye to eye now", "wheelbase now", "rear wheel centred in its opening".
[[nodiscard]] std::string NameOf(const LeafReading& reading, const Vehicle& vehicle);

// Where it stands in the vehicle file: {"leaf_original", "rear", "eyes_now"}.
[[nodiscard]] std::vector<std::string> PathOf(const LeafReading& reading, const Vehicle& vehicle);

// The true places that all readings are about, side view, in D.
struct LeafPlaces {
  struct Axle {
    std::optional<LeafSpring> spring;  // its dimensions and bolts; its readings are not looked at
    double curvature_new = 0.0, curvature_now = 0.0;  // [1/m]
    double x_new = 0.0, x_now = 0.0;  // of the wheel centre, where there is no spring [m]
    Eigen::Vector2d p_DO{0.0, 0.0};   // centre of the body's opening [m]
  };
  std::array<Axle, 2> axles;  // front, rear
};

// What follows from them.
struct LeafStand {
  std::array<std::optional<LeafPose>, 2> fresh, now;
};

// Nothing where a shackle does not reach its eye.
[[nodiscard]] std::optional<LeafStand> StandOf(const LeafPlaces& places);

// Wheel centre's x when new or now [m].
[[nodiscard]] double WheelX(const LeafPlaces& places, const LeafStand& stand, int axle, bool fresh);

// Wheel centre to wheel centre, straight; along the frame where one of them has no spring [m].
[[nodiscard]] double HubToHub(const LeafPlaces& places, const LeafStand& stand, bool fresh);

// What a reading of that kind would be [m] or [rad]; docs/theory.md (119a).
[[nodiscard]] double ModelledReading(LeafReadingKind kind, std::optional<int> axle,
                                     const LeafPlaces& places, const LeafStand& stand);

// What is to be found, and from what.
//   start      the places as read
//   unknowns   each a member of LeafPlaces
//   wheelbase  whether the readings tell one, and of which height the wheel centre is known
struct LeafSurvey {
  LeafPlaces start;
  std::vector<std::function<double&(LeafPlaces&)>> unknowns;
  std::vector<LeafReading> readings;
  bool both = false;                   // the places of both axles are unknowns
  std::array<bool, 2> opening_x = {};  // that of its opening's centre is one
  std::array<bool, 2> opening_z = {};  // the same of its height
};

// The survey of a vehicle's leaf_original, whose tolerances are positive.
//   errors   ModelError as ReportOriginal
[[nodiscard]] LeafSurvey SurveyOf(const Vehicle& vehicle);

[[nodiscard]] LeafPlaces PlacesAt(const LeafSurvey& survey, const Eigen::VectorXd& unknowns);

// The sigma that a further reading of that kind would have [m] or [rad].
[[nodiscard]] double SigmaOf(LeafReadingKind kind, const LeafTolerances& tolerances);

}  // namespace linkwright
