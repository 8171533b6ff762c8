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

double SquaredArmInSideView(const Eigen::Vector3d& p, const Eigen::Vector3d& q) {
  const double dx = p.x() - q.x();
  const double dz = p.z() - q.z();
  return dx * dx + dz * dz;
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
  return {sum.mass, sum.moment / sum.mass, ledger.pitch_inertia};
}

SprungMass WithLoad(const SprungMass& sprung, const Load& load) {
  Sum sum;
  sum.Add(sprung.mass, sprung.p_CM);
  for (const Mass& item : load.items) sum.Add(item.mass, item.p_CM);
  SprungMass loaded{sum.mass, sum.moment / sum.mass, std::nullopt};
  if (sprung.pitch_inertia) {
    double inertia =
        *sprung.pitch_inertia + sprung.mass * SquaredArmInSideView(sprung.p_CM, loaded.p_CM);
    for (const Mass& item : load.items) {
      inertia += item.mass * SquaredArmInSideView(item.p_CM, loaded.p_CM);
    }
    loaded.pitch_inertia = inertia;
  }
  return loaded;
}

}  // namespace linkwright
