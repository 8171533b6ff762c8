// SPDX-License-Identifier: MIT
// One vehicle turned into another that must behave the same.
#include <utility>

#include "tests/support/vehicles.h"

namespace linkwright::sample {
namespace {

// Applies `change` to every point of a vehicle, whatever it belongs to.
template <typename Change>
void ForEachPoint(Vehicle& vehicle, const Change& change) {
  const auto spans = [&](auto& members) {
    for (auto& member : members) change(member.span.p_CP), change(member.span.p_CQ);
  };
  const auto masses = [&](std::vector<Mass>& items) {
    for (Mass& item : items) change(item.p_CM);
  };
  for (Axle& axle : vehicle.axles) {
    change(axle.p_CW_l), change(axle.p_CW_r);
    spans(axle.links), spans(axle.springs), spans(axle.bump_stops), spans(axle.dampers);
    if (axle.unsprung) change(axle.unsprung->p_CM);
    if (axle.pinion) change(axle.pinion->p_CY);
    if (axle.steering) {
      change(axle.steering->drag_link.p_CP), change(axle.steering->drag_link.p_CQ);
      std::optional<TieRod>& rod = axle.steering->tie_rod;
      if (rod) change(rod->p_CL), change(rod->p_CR);
    }
  }
  for (Driveshaft& shaft : vehicle.driveshafts) change(shaft.p_CO);
  for (Mark& mark : vehicle.marks) change(mark.p_CB);
  for (Load& load : vehicle.loads) masses(load.items);
  if (vehicle.sprung) change(vehicle.sprung->p_CM);
  if (vehicle.ledger) masses(vehicle.ledger->removed), masses(vehicle.ledger->added);
}

}  // namespace

Vehicle MirrorImage(const Vehicle& vehicle) {
  Vehicle image = vehicle;
  ForEachPoint(image, [](Eigen::Vector3d& p) { p.y() = -p.y(); });
  for (Axle& axle : image.axles) {
    std::swap(axle.p_CW_l, axle.p_CW_r);
    if (axle.steering && axle.steering->tie_rod) {
      std::swap(axle.steering->tie_rod->p_CL, axle.steering->tie_rod->p_CR);
    }
  }
  for (Driveshaft& shaft : image.driveshafts) shaft.phase = -shaft.phase;
  if (image.ledger) {
    std::swap(image.ledger->weighed[0], image.ledger->weighed[1]);
    std::swap(image.ledger->weighed[2], image.ledger->weighed[3]);
  }
  return image;
}

Vehicle FromAnotherDatum(const Vehicle& vehicle, const Eigen::Vector3d& shift) {
  Vehicle moved = vehicle;
  ForEachPoint(moved, [&](Eigen::Vector3d& p) { p += shift; });
  moved.floor_z += shift.z();
  for (Axle& axle : moved.axles) {
    if (axle.opening) axle.opening->x += shift.x(), axle.opening->z += shift.z();
    // kingpin.at is the left one whatever the drag link's side: it mirrors about y = 0.
    if (axle.kingpin && axle.kingpin->p_CK) {
      axle.kingpin->p_CK->x() += shift.x();
      axle.kingpin->p_CK->z() += shift.z();
    }
  }
  return moved;
}

}  // namespace linkwright::sample
