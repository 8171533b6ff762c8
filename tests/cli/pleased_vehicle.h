// SPDX-License-Identifier: MIT
// The reference vehicle with every limit set so wide that nothing is pointed at.
#pragma once

#include <string>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {

inline std::string PleasedVehicle(const Folder& folder) {
  return folder.Write(
      "pleased.yaml",
      "base: " + VehiclePath("harbour_van") +
          "\nadd:\n"
          "  aims: {coil_preload: 0, pitch: 9 deg, link_slope: 20 deg, roll_steer: 0.5,\n"
          "           frequency: 3, side_to_side: 50, height_change: 50, tire_clearance: 0,\n"
          "           bump_left: 30, damper_left: 0, wheel_off_center: 50, flat_ride_least: 1,\n"
          "           damping_least: 0.1}\n"
          "  axles.front.straps: {band: {pair: true, frame: [0, 300, 650], axle: [0, 300, 400],\n"
          "                              length: 295}}\n"
          "  axles.rear.straps: {band: {pair: true, frame: [-2540, 300, 650],\n"
          "                             axle: [-2540, 300, 400], length: 295}}\n"
          "  openings.front.lip_y: 920\n"
          "  openings.rear.lip_y: 920\n"
          "  axles.front.steering.aims: {steer_rate: 0.5 deg/in}\n"
          "  driveshafts.rear.aims: {joint_least: 0}\n"
          "remove:\n"
          "  - axles.front.dampers.damper.longest\n"
          "  - axles.rear.dampers.damper.longest\n"
          "  - driveshafts.rear.slip\n");
}

}  // namespace linkwright::check
