// SPDX-License-Identifier: MIT
#include "solver/model/moves.h"

#include "solver/model/places.h"

namespace linkwright {
namespace {

double HubX(const Axle& axle) { return 0.5 * (axle.p_CW_l.x() + axle.p_CW_r.x()); }

void MoveInSideView(double& x, double& z, const Eigen::Isometry3d& way) {
  const Eigen::Vector3d moved = way * Eigen::Vector3d(x, 0.0, z);
  x = moved.x(), z = moved.z();
}

// Toward the axle seat, along the line between both seats as measured.
void SeatOn(double spacer, Span& span) {
  span.p_CP += spacer * (span.p_CQ - span.p_CP).normalized();
}

}  // namespace

Cut CutOf(const Vehicle& vehicle, const Stretch& stretch) {
  return {.stretch = stretch, .hub_x = {HubX(vehicle.axles[0]), HubX(vehicle.axles[1])}};
}

double ChassisBack(const Cut& cut, double x) { return x < cut.stretch.at ? cut.stretch.by : 0.0; }

double AxleBack(const Cut& cut, size_t axle) { return ChassisBack(cut, cut.hub_x[axle]); }

double MassBack(const Cut& cut, std::optional<FixedTo> fixed_to, double x) {
  if (!fixed_to) {
    // Two lumps over the axles, each of which goes with its own.
    const double on_rear = (cut.hub_x[0] - x) / (cut.hub_x[0] - cut.hub_x[1]);
    return on_rear * AxleBack(cut, 1) + (1.0 - on_rear) * AxleBack(cut, 0);
  }
  switch (*fixed_to) {
    case FixedTo::kBody:
      return 0.0;
    case FixedTo::kChassis:
      return ChassisBack(cut, x);
    case FixedTo::kRear:
      return cut.stretch.by;
  }
  return 0.0;
}

Eigen::Isometry3d BodyWay(const BodyPlacing& placing, double floor_z) {
  const Eigen::Vector3d about(placing.about, 0.0, floor_z);
  // Right-handed about y a turn lowers what lies ahead.
  return Eigen::Translation3d(placing.move.x(), 0.0, placing.move.y()) *
         Eigen::Translation3d(about) * Eigen::AngleAxisd(-placing.pitch, Eigen::Vector3d::UnitY()) *
         Eigen::Translation3d(-about);
}

Vehicle Stretched(const Vehicle& vehicle, const Stretch& stretch) {
  const Cut cut = CutOf(vehicle, stretch);
  Vehicle longer = vehicle;
  const VisitPlace on_chassis = [&](Eigen::Vector3d& place) {
    place.x() -= ChassisBack(cut, place.x());
  };
  for (size_t i = 0; i < 2; ++i) {
    VisitPlaces(longer.axles[i], on_chassis,
                [&](Eigen::Vector3d& place) { place.x() -= AxleBack(cut, i); });
  }
  for (Driveshaft& shaft : longer.driveshafts) {
    on_chassis(shaft.p_CO);
    if (shaft.center_bearing) on_chassis(shaft.center_bearing->p_CB);
  }
  const auto back = [&](Eigen::Vector3d& centre, std::optional<FixedTo> fixed_to) {
    centre.x() -= MassBack(cut, fixed_to, centre.x());
  };
  if (longer.sprung) back(longer.sprung->p_CM, std::nullopt);
  if (longer.ledger) {
    // The scales go with their wheels.
    for (Mass& item : longer.ledger->removed) back(item.p_CM, std::nullopt);
    for (Mass& item : longer.ledger->added) back(item.p_CM, item.fixed_to);
  }
  for (Load& load : longer.loads) load = Stretched(load, cut);
  return longer;
}

Vehicle WithBodyPlaced(const Vehicle& vehicle, const BodyPlacing& placing) {
  const Eigen::Isometry3d way = BodyWay(placing, vehicle.floor_z);
  Vehicle placed = vehicle;
  for (Axle& axle : placed.axles) {
    if (axle.opening) MoveInSideView(axle.opening->x, axle.opening->z, way);
  }
  for (Mark& mark : placed.marks) mark.p_CB = way * mark.p_CB;
  if (placed.leaf_original && placed.leaf_original->p_CD) {
    Eigen::Vector2d& datum = *placed.leaf_original->p_CD;
    MoveInSideView(datum.x(), datum.y(), way);
  }
  if (placed.ledger) {
    for (Mass& item : placed.ledger->added) {
      if (item.fixed_to == FixedTo::kBody) item.p_CM = way * item.p_CM;
    }
  }
  for (Load& load : placed.loads) load = WithBodyPlaced(load, way);
  return placed;
}

Load Stretched(const Load& load, const Cut& cut) {
  Load longer = load;
  for (Mass& item : longer.items) {
    item.p_CM.x() -= MassBack(cut, LoadGoesWith(item), item.p_CM.x());
  }
  return longer;
}

Load WithBodyPlaced(const Load& load, const Eigen::Isometry3d& way) {
  Load placed = load;
  for (Mass& item : placed.items) {
    if (LoadGoesWith(item) == FixedTo::kBody) item.p_CM = way * item.p_CM;
  }
  return placed;
}

void SeatOnSpacers(Vehicle& vehicle) {
  for (Axle& axle : vehicle.axles) {
    for (Spring& spring : axle.springs) SeatOn(spring.spacer, spring.span);
    for (Stop& stop : axle.bump_stops) SeatOn(stop.spacer, stop.span);
  }
}

}  // namespace linkwright
