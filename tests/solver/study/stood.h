// SPDX-License-Identifier: MIT
// A vehicle settled under its first load, kept together with its rig.
#pragma once

#include "solver/rest/settle.h"

namespace linkwright::check {

struct Stood {
  Vehicle vehicle;
  Rig rig;
  Stance stance;
  explicit Stood(const Vehicle& given) : vehicle(given), rig(PrepareRig(vehicle)) {
    stance = Settle(rig, vehicle.loads.front());
  }
  Stood(const Stood&) = delete;  // the rig refers to the vehicle here
  Stood& operator=(const Stood&) = delete;
};

}  // namespace linkwright::check
