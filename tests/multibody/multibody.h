// SPDX-License-Identifier: MIT
// Axles and vehicles in a general multibody library that knows nothing of axles: Simbody (Sherman,
// Seth, Delp, "Simbody: multibody dynamics for biomedical research", Procedia IUTAM 2, 2011, pp.
// 241 to 261). Links are its rods, wheels points at heights. Uses nothing of the solver's.
#pragma once

#include <Eigen/Geometry>
#include <array>
#include <memory>
#include <vector>

namespace multibody {

struct Rod {
  Eigen::Vector3d on_chassis;  // in the chassis' axes [m]
  Eigen::Vector3d on_housing;  // in the housing's axes [m]
  double length;               // [m]
};

// One massless-enough housing on rods to a chassis that stands still, its wheel centres at
// (0, +-half_track, 0) of its own axes held at heights.
class Housing {
 public:
  Housing(const std::vector<Rod>& rods, double half_track, const Eigen::Isometry3d& start);
  Housing(const Housing&) = delete;
  Housing& operator=(const Housing&) = delete;
  ~Housing();

  // Projects onto the rods with the wheel centres at these heights [m], from the pose before.
  //   accuracy   of the rods' lengths [m]
  Eigen::Isometry3d MoveTo(double left, double right, double accuracy);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

struct Coil {
  Eigen::Vector3d on_chassis, on_housing;  // seats [m]
  double rate, free_length;                // [N/m, m]
};

struct AxleModel {
  double mass;                    // [kg]
  Eigen::Vector3d centre;         // of mass, in the housing's axes [m]
  double half_track;              // [m]
  double tire_radius, tire_rate;  // unloaded [m], vertical [N/m]
  std::vector<Rod> rods;
  std::vector<Coil> coils;
};

struct VehicleModel {
  double mass;             // of the body [kg]
  Eigen::Vector3d centre;  // of mass, in the chassis' axes [m]
  double pitch_inertia;    // about y through it [kg m2]; roll and yaw are 0.4 and 1.1 times that
  double gravity;          // [m/s2]
  std::array<AxleModel, 2> axles;
};

// A whole vehicle on a level floor at height 0: body, two housings, rods, coils that also pull,
// tyres that push straight up at the wheel centres.
class Vehicle {
 public:
  explicit Vehicle(const VehicleModel& model);
  Vehicle(const Vehicle&) = delete;
  Vehicle& operator=(const Vehicle&) = delete;
  ~Vehicle();

  // Chassis on the floor, housings in the chassis.
  void Place(const Eigen::Isometry3d& chassis, const std::array<Eigen::Isometry3d, 2>& housings);

  // Of all bodies, from standstill [m/s2, rad/s2].
  [[nodiscard]] Eigen::VectorXd Accelerations() const;

  // Lets it move, damped, until it stands: to its least potential energy nearby.
  void SinkToRest();

  // Of a point of the chassis above the floor [m].
  [[nodiscard]] double HeightOfBodyPoint(const Eigen::Vector3d& p) const;

  // Of small motions that keep the rods, ascending [Hz]; 0 for those nothing holds.
  [[nodiscard]] std::vector<double> Frequencies() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace multibody
