// SPDX-License-Identifier: MIT
#pragma once

#include "solver/model/aims.h"

namespace linkwright::sample {

// What docs/vehicle-file.md says a vehicle is held against where its file says nothing.
[[nodiscard]] Aims UsualAims();

}  // namespace linkwright::sample
