// SPDX-License-Identifier: MIT
#include "solver/model/masses.h"

#include "solver/model/error.h"

namespace linkwright {
namespace {

// Sum of masses and of their first moments, so that things can be taken off as well as put on.
struct Sum {
  double mass = 0.0;                                 // [kg]
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  // [kg m]
  void Add(double m, const Eigen::Vector3d& p) {
    mass += m;
    moment += m * p;
  }
};

// Inertia about an axis of C through the centre of all, from what is known about the body's own.
//   axis   0: roll, about x; 1: pitch, about y
double LoadedInertia(double own, int axis, const SprungMass& sprung, const Load& load,
                     const Eigen::Vector3d& p_CM) {
  const auto squared_arm = [&](const Eigen::Vector3d& p) {
    Eigen::Vector3d arm = p - p_CM;
    arm[axis] = 0.0;
    return arm.squaredNorm();
  };
  double inertia = own + sprung.mass * squared_arm(sprung.p_CM);
  for (const Mass& item : load.items) inertia += item.mass * squared_arm(item.p_CM);
  return inertia;
}

}  // namespace

bool IsGeometryOnly(const Vehicle& vehicle) { return !vehicle.sprung && !vehicle.ledger; }

Mass WeighedTotal(const Vehicle& vehicle, const Ledger& ledger) {
  Sum sum;
  for (size_t axle = 0; axle < 2; ++axle) {
    sum.Add(ledger.weighed[2 * axle], vehicle.axles[axle].p_CW_l);
    sum.Add(ledger.weighed[2 * axle + 1], vehicle.axles[axle].p_CW_r);
  }
  Eigen::Vector3d centre = sum.moment / sum.mass;
  centre.z() = vehicle.floor_z + ledger.cg_height;
  return {"as weighed", sum.mass, centre};
}

SprungMass FinishedSprungMass(const Vehicle& vehicle) {
  if (vehicle.sprung) return *vehicle.sprung;
  if (!vehicle.ledger) {
    throw ModelError({}, "there is no sprung mass: give a ledger, or sprung: {mass, at}");
  }
  const Ledger& ledger = *vehicle.ledger;
  Sum sum;
  const Mass weighed = WeighedTotal(vehicle, ledger);
  sum.Add(weighed.mass, weighed.p_CM);
  for (const Mass& item : ledger.removed) sum.Add(-item.mass, item.p_CM);
  for (const Mass& item : ledger.added) sum.Add(item.mass, item.p_CM);
  for (const Axle& axle : vehicle.axles) {
    if (axle.unsprung) sum.Add(-axle.unsprung->mass, axle.unsprung->p_CM);
  }
  if (!(sum.mass > 0.0)) {
    throw ModelError({"ledger"},
                     "more mass is taken off than was weighed: weighed less removed plus added "
                     "less both unsprung must be above zero");
  }
  return {sum.mass, sum.moment / sum.mass, ledger.pitch_inertia, ledger.roll_inertia};
}

SprungMass WithLoad(const SprungMass& sprung, const Load& load) {
  Sum sum;
  sum.Add(sprung.mass, sprung.p_CM);
  for (const Mass& item : load.items) sum.Add(item.mass, item.p_CM);
  SprungMass loaded{sum.mass, sum.moment / sum.mass, std::nullopt, std::nullopt};
  if (sprung.roll_inertia) {
    loaded.roll_inertia = LoadedInertia(*sprung.roll_inertia, 0, sprung, load, loaded.p_CM);
  }
  if (sprung.pitch_inertia) {
    loaded.pitch_inertia = LoadedInertia(*sprung.pitch_inertia, 1, sprung, load, loaded.p_CM);
  }
  return loaded;
}

}  // namespace linkwright
