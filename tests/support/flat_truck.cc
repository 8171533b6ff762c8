// SPDX-License-Identifier: MIT
#include "solver/model/masses.h"
#include "tests/support/usual_aims.h"
#include "tests/support/vehicles.h"

namespace linkwright::sample {
namespace {

constexpr double kHalfTrack = 0.75;   // [m]
constexpr double kCoilLength = 0.30;  // seat to seat as measured [m]

void AddBothSides(Axle& axle, double x, double carried, double rate, double damping) {
  for (const auto& [side, y] : {std::pair{Side::kLeft, 0.45}, std::pair{Side::kRight, -0.45}}) {
    Spring coil{};
    coil.name = {"coil", side};
    coil.span = {{x, y, 0.40 + kCoilLength}, {x, y, 0.40}};
    coil.law = {.free_length = kCoilLength + 0.5 * carried * kStandardGravity / rate,
                .rate = rate,
                .curve = {}};
    axle.springs.push_back(coil);
    if (damping == 0.0) continue;
    Damper damper{};
    damper.name = {"damper", side};
    damper.span = coil.span;
    damper.bump = damper.rebound = damping;
    axle.dampers.push_back(damper);
  }
}

Axle MakeAxle(const FlatTruck& is, const std::string& name, double x, double carried, double rate) {
  Axle axle = BareAxle(name, x, kHalfTrack, kFlatHub);
  AddPair(axle.links, "lower arm", {x - 0.8, 0.45, 0.25}, {x, 0.45, 0.25});
  AddSingle(axle.links, "upper arm", {x - 0.8, 0.0, 0.50}, {x, 0.0, 0.50});
  AddSingle(axle.links, "cross link", {x, 0.5, is.bar_height}, {x, -0.5, is.bar_height});
  AddBothSides(axle, x, carried, rate, is.damper);
  axle.unsprung = Mass{"axle", is.unsprung, {x, 0.0, kFlatHub}};
  if (is.tire) {
    const double load = 0.5 * (carried + is.unsprung) * kStandardGravity;
    axle.tire.rate = is.tire;
    axle.tire.radius = kFlatHub + load / *is.tire;
  }
  return axle;
}

}  // namespace

Vehicle MakeFlatTruck(const FlatTruck& is) {
  const double base = is.b + is.c;
  Vehicle truck{};
  truck.aims = UsualAims();
  truck.title = "flat truck";
  truck.axles = {MakeAxle(is, "front", 0.0, is.mass * is.c / base, is.coil[0]),
                 MakeAxle(is, "rear", -base, is.mass * is.b / base, is.coil[1])};
  truck.sprung = SprungMass{is.mass, {-is.b, 0.0, is.height}, is.pitch_inertia, is.roll_inertia};
  truck.loads = {{"empty", {}}};
  return truck;
}

}  // namespace linkwright::sample
