// SPDX-License-Identifier: MIT
// Reads a vehicle and settles it through the installed headers and libraries alone.
#include <cstdio>

#include "io/read/vehicle_file.h"
#include "solver/rest/settle.h"

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const linkwright::VehicleFile file = linkwright::ReadVehicleFile(argv[1]);
  const linkwright::Rig rig = linkwright::PrepareRig(file.vehicle);
  const linkwright::Stance stance = linkwright::Settle(rig, file.vehicle.loads.front());
  std::printf("rake %.3f rad\n", Rake(stance));
  return stance.status == linkwright::StanceStatus::kRests ? 0 : 1;
}
