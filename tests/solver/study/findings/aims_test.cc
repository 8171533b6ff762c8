// SPDX-License-Identifier: MIT
// Findings that come with a tight aim and go with a wide one.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>

#include "solver/study/findings/vehicle_findings.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

bool IsFound(const Vehicle& vehicle, FindingKind kind) {
  const std::vector<Finding> found = FindAll(PrepareRig(vehicle), CheckVehicle(vehicle)).findings;
  return std::any_of(found.begin(), found.end(),
                     [&](const Finding& finding) { return finding.kind == kind; });
}

struct Aimed {
  FindingKind kind;
  std::function<void(Vehicle&)> tight, wide;
};

// An aim of the whole vehicle.
Aimed AimOf(FindingKind kind, double Aims::*aim, double tight, double wide) {
  return {kind, [=](Vehicle& van) { van.aims.*aim = tight; },
          [=](Vehicle& van) { van.aims.*aim = wide; }};
}

// An aim of the rear driveshaft, which turns fast enough to be judged by its speed.
Aimed ShaftAimOf(FindingKind kind, std::optional<double> ShaftAims::*aim, double tight,
                 double wide) {
  const auto with = [=](double value) {
    return [=](Vehicle& van) {
      van.driveshafts[0].top_speed = 300.0;
      van.driveshafts[0].aims.*aim = value;
    };
  };
  return {kind, with(tight), with(wide)};
}

Aimed SteeringAimOf(FindingKind kind, std::optional<double> SteeringAims::*aim) {
  const auto with = [=](double value) {
    return [=](Vehicle& van) { van.axles[kFront].steering->aims.*aim = value; };
  };
  return {kind, with(0.0), with(1e3)};
}

void RestOnStops(Vehicle& van, double frequency) {
  for (Stop& stop : van.axles[kRear].bump_stops) stop.law.free_length += 0.08;
  van.aims.frequency = frequency;
}

void SlopeDragLink(Vehicle& van, double aim) {
  van.axles[kFront].steering->drag_link.p_CP.z() += 0.05;
  van.axles[kFront].steering->aims.slope_differ = aim;
}

std::vector<Aimed> AllAimed() {
  using K = FindingKind;
  return {
      AimOf(K::kScalesDisagree, &Aims::scales, 0.0, 10.0),
      AimOf(K::kDamperAtRest, &Aims::damper_left, 0.9, 0.0),
      AimOf(K::kDamperNearEnd, &Aims::damper_reserve, 0.9, 0.0),
      AimOf(K::kNotFlatRide, &Aims::flat_ride_least, 9.0, 0.0),
      AimOf(K::kDampingOff, &Aims::damping_least, 9.0, 0.0),
      AimOf(K::kHopOff, &Aims::hop_least, 1e4, 0.0),
      AimOf(K::kWheelOffCenter, &Aims::wheel_off_center, 0.0, 1.0),
      ShaftAimOf(K::kJointWorksHard, &ShaftAims::joint_most, 0.0, 1.0),
      ShaftAimOf(K::kJointIdle, &ShaftAims::joint_least, 1.0, 0.0),
      ShaftAimOf(K::kJointAtSpeed, &ShaftAims::angle_at_speed, 1e-3, 1.0),
      ShaftAimOf(K::kJointsDiffer, &ShaftAims::pair_differ, 0.0, 1.0),
      ShaftAimOf(K::kPinionOffAim, &ShaftAims::pair_differ, 0.0, 1.0),
      ShaftAimOf(K::kTorsional, &ShaftAims::torsional, 1e-3, 1e9),
      ShaftAimOf(K::kInertial, &ShaftAims::inertial, 1e-3, 1e9),
      ShaftAimOf(K::kSlipBottoms, &ShaftAims::bottom_least, 0.9, 0.0),
      ShaftAimOf(K::kSlipParts, &ShaftAims::part_least, 0.9, 0.0),
      {K::kBarSlopeDiffers, [](Vehicle& van) { SlopeDragLink(van, 0.0); },
       [](Vehicle& van) { SlopeDragLink(van, 1.0); }},
      SteeringAimOf(K::kBarLengthDiffers, &SteeringAims::length_differ),
      SteeringAimOf(K::kBumpSteers, &SteeringAims::steer_rate),
      {K::kStopRaisesRate, [](Vehicle& van) { RestOnStops(van, 0.1); },
       [](Vehicle& van) { RestOnStops(van, 1e3); }},
      {K::kNoRest,
       [](Vehicle& van) {
         van.loads[0].items.push_back({.item = "bricks",
                                       .mass = 9000.0,
                                       .p_CM = Eigen::Vector3d(-2.1, 0.0, 0.9),
                                       .fixed_to = {}});
       },
       [](Vehicle&) {}},
      {K::kNotMirrored, [](Vehicle& van) { van.axles[kRear].p_CW_r.x() += 0.005; },
       [](Vehicle& van) { van.axles[kRear].p_CW_r.x() += 0.0005; }},
  };
}

TEST(VehicleFindings, ComeWithATightAimAndGoWithAWideOne) {
  for (const Aimed& aimed : AllAimed()) {
    const char* slug = TraitOf(aimed.kind).slug;
    Vehicle tight = sample::HarbourVan(), wide = sample::HarbourVan();
    aimed.tight(tight);
    EXPECT_TRUE(IsFound(tight, aimed.kind)) << slug;
    aimed.wide(wide);
    EXPECT_FALSE(IsFound(wide, aimed.kind)) << slug;
  }
}

// One shaft is one, whether its travel or the shaft itself is asked about.
TEST(VehicleFindings, ASlipIsToldOnce) {
  Vehicle van = sample::HarbourVan();
  van.driveshafts[0].aims.bottom_least = 0.9;
  const std::vector<Finding> found = FindAll(PrepareRig(van), CheckVehicle(van)).findings;
  EXPECT_EQ(std::count_if(
                found.begin(), found.end(),
                [](const Finding& finding) { return finding.kind == FindingKind::kSlipBottoms; }),
            1);
}

}  // namespace
}  // namespace linkwright
