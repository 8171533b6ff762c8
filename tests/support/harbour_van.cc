// SPDX-License-Identifier: MIT
// The reference vehicle, number for number as in fixtures/vehicles/harbour_van.yaml; mm become m
// here.
#include <cmath>

#include "tests/support/usual_aims.h"
#include "tests/support/vehicles.h"

namespace linkwright::sample {
namespace {

constexpr double kDegree = M_PI / 180.0;  // [rad]

Eigen::Vector3d Mm(double x, double y, double z) { return 1e-3 * Eigen::Vector3d(x, y, z); }

template <typename Member>
void AddBoth(std::vector<Member>& members, Member left) {
  left.name.side = Side::kLeft;
  members.push_back(left);
  left.name.side = Side::kRight;
  left.span = {Mirrored(left.span.p_CP), Mirrored(left.span.p_CQ)};
  members.push_back(left);
}

Spring Coil(const Span& span, double rate, double free_length, double solid_length) {
  Spring coil{};
  coil.name.key = "coil";
  coil.span = span;
  coil.law = {.free_length = free_length, .rate = rate, .curve = {}};
  coil.solid_length = solid_length;
  return coil;
}

Stop Cone(const Span& span, double free_length, double last_deflection) {
  Stop stop{};
  stop.name.key = "cone";
  stop.span = span;
  stop.law.free_length = free_length;
  stop.law.curve = {{0.0, 0.0}, {0.015, 700.0}, {0.030, 2400.0}, {last_deflection, 8000.0}};
  return stop;
}

Damper Shock(const Span& span, double shortest, double longest, double bump, double rebound) {
  return {.name = {"damper", Side::kLeft},
          .span = span,
          .shortest = shortest,
          .longest = longest,
          .bump = bump,
          .rebound = rebound};
}

Axle Front() {
  Axle axle = BareAxle("front", 0.0, 0.745, 0.359);
  axle.tire = {.radius = 0.378, .width = 0.235, .rate = 230e3};
  axle.unsprung = Mass{"unsprung", 128.0, Mm(0, 0, 365)};
  axle.drive_share = 0.0;
  axle.brake_share = 0.64;
  axle.kingpin = Kingpin{6.0 * kDegree, 9.0 * kDegree, Mm(0, 665, 359)};
  AddPair(axle.links, "lower arm", Mm(-610, 410, 425), Mm(-40, 452, 300));
  AddPair(axle.links, "upper arm", Mm(-480, 372, 545), Mm(15, 385, 480));
  AddSingle(axle.links, "track bar", Mm(60, 440, 490), Mm(80, -470, 440));
  AddBoth(axle.springs, Coil({Mm(5, 372, 730), Mm(0, 372, 430)}, 26e3, 0.444, 0.165));
  AddBoth(axle.bump_stops, Cone({Mm(5, 372, 585), Mm(3, 372, 485)}, 0.075, 0.045));
  AddBoth(axle.dampers, Shock({Mm(-60, 470, 790), Mm(-75, 520, 360)}, 0.330, 0.520, 1100, 2300));
  axle.steering = Steering{.drag_link = {Mm(180, 430, 470), Mm(140, -560, 415)}, .tie_rod = {}};
  axle.bar_roll_rate = 210.0 / kDegree;
  axle.opening = Opening{0.008, 0.362, 0.430};
  return axle;
}

Axle Rear() {
  Axle axle = BareAxle("rear", -2.540, 0.745, 0.363);
  axle.tire = {.radius = 0.378, .width = 0.235, .rate = 230e3};
  axle.unsprung = Mass{"unsprung", 118.0, Mm(-2540, 0, 365)};
  axle.drive_share = 1.0;
  axle.brake_share = 0.36;
  axle.pinion = Pinion{Mm(-2230, 0, 395), 3.0 * kDegree};
  AddPair(axle.links, "lower arm", Mm(-1905, 430, 395), Mm(-2500, 465, 300));
  AddPair(axle.links, "upper arm", Mm(-2040, 345, 545), Mm(-2520, 330, 515));
  AddSingle(axle.links, "track bar", Mm(-2650, 455, 505), Mm(-2660, -440, 440));
  AddBoth(axle.springs, Coil({Mm(-2535, 420, 660), Mm(-2545, 430, 420)}, 29e3, 0.339, 0.120));
  AddBoth(axle.bump_stops, Cone({Mm(-2537, 520, 560), Mm(-2536, 520, 458)}, 0.067, 0.040));
  AddBoth(axle.dampers,
          Shock({Mm(-2450, 400, 720), Mm(-2580, 470, 330)}, 0.315, 0.505, 1000, 2200));
  axle.opening = Opening{-2.548, 0.372, 0.425};
  return axle;
}

}  // namespace

Vehicle HarbourVan() {
  Vehicle van{};
  van.aims = UsualAims();
  van.title = "Harbour delivery van";
  van.axles = {Front(), Rear()};
  Driveshaft shaft{};
  shaft.name = "rear";
  shaft.p_CO = Mm(-1130, 0, 470);
  shaft.output_angle = -3.0 * kDegree;
  shaft.axle = kRear;
  shaft.slip = 0.055;
  shaft.top_speed = 3600.0 * 2.0 * M_PI / 60.0;
  van.driveshafts.push_back(shaft);
  van.ledger = Ledger{.weighed = {446.0, 439.0, 352.0, 345.0},
                      .cg_height = 0.655,
                      .removed = {{"donor body and trim", 438.0, Mm(-1500, 0, 1010)},
                                  {"donor engine and gearbox", 268.0, Mm(-190, 15, 640)}},
                      .added = {{"van body, doors and glass", 522.0, Mm(-1480, 0, 1090)},
                                {"engine and gearbox", 205.0, Mm(-230, 10, 620)},
                                {"fuel tank, full", 52.0, Mm(-2960, -120, 520)}},
                      .pitch_inertia = std::nullopt};
  const Mass driver{"driver", 82.0, Mm(-1180, 400, 930)};
  van.loads = {{"empty", {}},
               {"driver", {driver}},
               {"deliveries", {driver, {"crates", 340.0, Mm(-2150, 0, 840)}}}};
  van.marks = {{"front arch lip left", Mm(8, 790, 825)},
               {"rear arch lip left", Mm(-2548, 790, 825)},
               {"sill front left", Mm(-520, 760, 420)},
               {"sill rear left", Mm(-2010, 760, 420)}};
  return van;
}

}  // namespace linkwright::sample
