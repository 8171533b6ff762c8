// SPDX-License-Identifier: MIT
#include "cli/assumed.h"

#include <fmt/format.h>

#include "io/write/amount.h"

namespace linkwright {

void AddAssumedBushings(const VehicleFile& file, UnitSystem units,
                        std::vector<std::string>& notes) {
  for (const size_t i : AxlesOf(file.vehicle)) {
    const Axle& axle = file.vehicle.axles[i];
    for (const RadiusArm& arm : axle.radius_arms) {
      if (arm.name.side == Side::kRight) continue;  // a pair is one entry of the file
      std::string rates;
      const auto add = [&](const char* key, double rate) {
        // The file, or the base of a variant, gives it.
        if (file.places.entries.contains({"axles", axle.name, "radius_arms", arm.name.key, key})) {
          return;
        }
        rates += fmt::format("{}{} of {}", rates.empty() ? "" : " and ", key,
                             ShowAmount(rate, Dimension::kRate, units));
      };
      add("frame_rate", arm.frame_rate);
      add("axle_rate", arm.axle_rate);
      if (rates.empty()) continue;
      notes.push_back(fmt::format(
          "assumed: the {} axle's {} has no rate of its bushings in the file and takes {}; where "
          "radius arms twist their axle as the body rolls, much of the roll stiffness hangs on it",
          axle.name, arm.name.key, rates));
    }
  }
}

void AddAssumedTires(const VehicleFile& file, std::vector<std::string>& notes) {
  for (const size_t i : AxlesOf(file.vehicle)) {
    const Axle& axle = file.vehicle.axles[i];
    if (axle.tire.rate) continue;
    notes.push_back("assumed: the " + axle.name +
                    " tyres have no rate and are taken as rigid at their measured loaded height");
  }
}

void AddOneAxle(const Vehicle& vehicle, const std::string& left_out,
                std::vector<std::string>& notes) {
  if (!vehicle.only_axle) return;
  notes.push_back(
      fmt::format("the file has the {} axle only: the chassis is taken to stand level as measured, "
                  "and angles and heights to the floor, pinion and caster too, are against that",
                  vehicle.axles[*vehicle.only_axle].name));
  if (left_out.empty()) return;
  notes.push_back(fmt::format("left out for want of the {} axle: {}",
                              vehicle.axles[1 - *vehicle.only_axle].name, left_out));
}

}  // namespace linkwright
