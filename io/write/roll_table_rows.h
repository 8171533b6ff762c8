// SPDX-License-Identifier: MIT
// Parts of the tables of `roll` that stand by themselves.
#pragma once

#include <array>

#include "io/write/roll_tables.h"

namespace linkwright {

inline constexpr std::array kWheelNames{"front left", "front right", "rear left", "rear right"};

// Whether it stands in the turn asked about.
[[nodiscard]] bool Stands(const RollStudy& study);

// "front right": a wheel's name in the vehicle's own words.
[[nodiscard]] std::string WheelName(const Vehicle& vehicle, size_t wheel);

[[nodiscard]] DataTable TransferTable(const Vehicle& vehicle, const RollStudy& study,
                                      UnitSystem units);

[[nodiscard]] DataTable TorqueTable(const Vehicle& vehicle, const RollStudy& study,
                                    UnitSystem units);

}  // namespace linkwright
