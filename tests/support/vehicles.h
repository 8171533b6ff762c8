// SPDX-License-Identifier: MIT
// Sample axles and vehicles in code, SI units. Named by their geometry.
#pragma once

#include "solver/model/vehicle.h"

namespace linkwright::sample {

constexpr double kInch = 0.0254;  // [m] exact; for reference cases printed in inches

// A point mirrored left to right.
[[nodiscard]] Eigen::Vector3d Mirrored(const Eigen::Vector3d& p);

// Appends the left member and its mirror image.
void AddPair(std::vector<Link>& links, const std::string& key, const Eigen::Vector3d& p_CP,
             const Eigen::Vector3d& p_CQ, double rate = 5e6);
void AddSingle(std::vector<Link>& links, const std::string& key, const Eigen::Vector3d& p_CP,
               const Eigen::Vector3d& p_CQ, double rate = 5e6);

// An axle with nothing but a name, wheel centres at (x, +-half_track, z) and a rigid tyre.
[[nodiscard]] Axle BareAxle(const std::string& name, double x, double half_track, double z);

// Three equal parallel level trailing links of length a, one level cross link of length b: the
// housing translates and never turns.
[[nodiscard]] Axle EqualParallelLinks(double a, double b);

// Triangulated upper links, splayed lower ones; symmetrical, four links; in whole inches
// (tests/outside/triangulated_rear_test.cc).
[[nodiscard]] Axle TriangulatedRear();

// Two lower arms, one upper arm off the centre plane, a slanted track bar: four links, nothing
// symmetrical.
[[nodiscard]] Axle ThreeLinkTrackBar();

// Four arms and a track bar: five links whose residuals are not zero off the measured stance.
//   bar_rate  axial rate of the bar [N/m]; the arms have 5 MN/m
[[nodiscard]] Axle FourArmsTrackBar(double bar_rate);

// A truck with triangulated four-link axles front and rear, symmetrical, whose coils and tyres
// carry exactly their share in the measured stance: it stands where it was measured. Sprung mass
// 1000 kg.
[[nodiscard]] Vehicle LevelTruck();

// A truck simple enough for closed forms: level parallel trailing links and a level cross link in
// the plane of each axle, so that housings go straight up and down and roll about the cross link's
// height; upright coils and dampers over the housing; everything at rest where it was measured.
constexpr double kFlatHub = 0.35;  // height of its wheel centres [m]
struct FlatTruck {
  double mass = 1000.0;           // sprung [kg]
  double b = 1.3, c = 1.3;        // its centre behind the front, ahead of the rear axle [m]
  double height = kFlatHub;       // of its centre [m]
  double pitch_inertia = 1690.0;  // [kg m2]
  double roll_inertia = 400.0;    // [kg m2]
  std::array<double, 2> coil{25e3, 25e3};  // per wheel [N/m]
  double damper = 0.0;                     // per wheel, bump and rebound alike [N s/m]
  double unsprung = 1e-9;                  // each axle, at its centre [kg]
  std::optional<double> tire;              // rate [N/m]; absent: rigid
  double bar_height = kFlatHub;            // of the cross links [m]
};
[[nodiscard]] Vehicle MakeFlatTruck(const FlatTruck& is);

// The delivery van of the reference file, in SI: five links an axle, coils, stops, dampers,
// steering.
[[nodiscard]] Vehicle HarbourVan();

// The same vehicle seen in a mirror: every left member becomes the right one.
[[nodiscard]] Vehicle MirrorImage(const Vehicle& vehicle);

// The same vehicle measured from another datum: every point moved by `shift` [m].
[[nodiscard]] Vehicle FromAnotherDatum(const Vehicle& vehicle, const Eigen::Vector3d& shift);

}  // namespace linkwright::sample
