// SPDX-License-Identifier: MIT
// Every place that one axle has, visited: for what moves an axle, a hole or a whole end of a frame.
#pragma once

#include <functional>

#include "solver/model/vehicle.h"

namespace linkwright {

using VisitPlace = std::function<void(Eigen::Vector3d&)>;

// Calls `on_chassis` for each place that an axle's members have on the chassis and `on_housing` for
// each on the housing, hubs and unsprung mass among them. Openings belong to the body and are left
// out.
void VisitPlaces(Axle& axle, const VisitPlace& on_chassis, const VisitPlace& on_housing);

}  // namespace linkwright
