// SPDX-License-Identifier: MIT
// Every place that one axle has, visited: for what moves an axle, a hole or a whole end of a frame,
// and for what lists them.
#pragma once

#include <functional>
#include <string>

#include "solver/model/vehicle.h"

namespace linkwright {

enum class Body { kChassis, kHousing };

// A place of an axle's members, hubs and unsprung mass among them, and the body it is fixed to.
//   name   whose, and which of its places, in the words of the file: "lower arm left, frame end",
//          "radius arm left, first eye"
using VisitNamedPlace =
    std::function<void(const std::string& name, Body body, Eigen::Vector3d& place)>;
using VisitPlace = std::function<void(Eigen::Vector3d&)>;

// Calls for each place that the axle has. Openings belong to the body and are left out.
void VisitPlaces(Axle& axle, const VisitNamedPlace& visit);
void VisitPlaces(Axle& axle, const VisitPlace& on_chassis, const VisitPlace& on_housing);

}  // namespace linkwright
