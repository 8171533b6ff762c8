// SPDX-License-Identifier: MIT
#include "solver/model/masses.h"
#include "tests/support/usual_aims.h"
#include "tests/support/vehicles.h"

namespace linkwright::sample {
namespace {

constexpr double kWheelbase = 2.6;      // [m]
constexpr double kSprung = 1000.0;      // [kg]
constexpr double kFrontShare = 0.55;    // of the sprung mass [-]
constexpr double kUnsprung = 100.0;     // each axle [kg]
constexpr double kCentreHeight = 0.34;  // wheel centres above the floor [m]
constexpr double kTireRate = 220e3;     // [N/m]
constexpr double kCoilRate = 28e3;      // [N/m]
constexpr double kCoilLength = 0.30;    // seat to seat as measured [m]

// Coils stand upright over the housing's centre line, so that each presses with its whole force
// along the axle's height; their free length and the tyre's radius follow from what they carry.
void Suspend(Axle& axle, double x, double carried) {
  const double coil_force = 0.5 * carried * kStandardGravity;
  const double tire_force = 0.5 * (carried + kUnsprung) * kStandardGravity;
  Spring coil{};
  coil.name = {"coil", Side::kLeft};
  coil.span = {{x, 0.42, 0.40 + kCoilLength}, {x, 0.42, 0.40}};
  coil.law = {.free_length = kCoilLength + coil_force / kCoilRate, .rate = kCoilRate, .curve = {}};
  axle.springs.push_back(coil);
  coil.name.side = Side::kRight;
  coil.span = {Mirrored(coil.span.p_CP), Mirrored(coil.span.p_CQ)};
  axle.springs.push_back(coil);
  axle.tire = {.radius = kCentreHeight + tire_force / kTireRate, .width = 0.2, .rate = kTireRate};
  axle.unsprung = Mass{"housing", kUnsprung, {x, 0.0, 0.36}};
}

}  // namespace

Vehicle LevelTruck() {
  Vehicle truck{};
  truck.aims = UsualAims();
  truck.title = "level truck";
  Axle front = BareAxle("front", 0.0, 0.75, kCentreHeight);
  AddPair(front.links, "lower arm", {-0.70, 0.45, 0.36}, {0.0, 0.48, 0.26});
  AddPair(front.links, "upper arm", {-0.55, 0.40, 0.50}, {-0.02, 0.10, 0.52});
  front.drive_share = 0.4;
  front.brake_share = 0.7;
  Axle rear = BareAxle("rear", -kWheelbase, 0.74, kCentreHeight);
  AddPair(rear.links, "lower arm", {-kWheelbase + 0.72, 0.40, 0.37}, {-kWheelbase, 0.47, 0.25});
  AddPair(rear.links, "upper arm", {-kWheelbase + 0.50, 0.42, 0.49},
          {-kWheelbase + 0.01, 0.12, 0.51});
  rear.drive_share = 0.6;
  rear.brake_share = 0.3;
  Suspend(front, 0.0, kFrontShare * kSprung);
  Suspend(rear, -kWheelbase, (1.0 - kFrontShare) * kSprung);
  truck.axles = {front, rear};
  truck.sprung = SprungMass{kSprung, {-(1.0 - kFrontShare) * kWheelbase, 0.0, 0.75}, std::nullopt};
  truck.loads = {{"empty", {}}};
  return truck;
}

}  // namespace linkwright::sample
