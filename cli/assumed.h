// SPDX-License-Identifier: MIT
// What answers hang on that the vehicle file leaves out.
#pragma once

#include "io/read/vehicle_file.h"

namespace linkwright {

// "assumed: ..." for every radius arm without a rate of its bushings: arms in a pair twist the
// housing between them as the body rolls, so their bushings are an anti-roll bar, and a default
// rate makes roll stiffness out of nothing that was measured.
void AddAssumedBushings(const VehicleFile& file, UnitSystem units, std::vector<std::string>& notes);

constexpr const char* kAssumedPitchInertia =
    "assumed: no pitch inertia is given, so bounce and pitch take a dynamic index of 1";

// "assumed: ..." for every axle whose tyres have no rate.
void AddAssumedTires(const VehicleFile& file, std::vector<std::string>& notes);

// Of a file with one axle: what its floor is, and what is left out for want of the other.
//   left_out   by this command: "wheelbase and roll axis"; may be empty
void AddOneAxle(const Vehicle& vehicle, const std::string& left_out,
                std::vector<std::string>& notes);

}  // namespace linkwright
