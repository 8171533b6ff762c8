// SPDX-License-Identifier: MIT
// docs/vehicle.schema.json, from the format table.
#pragma once

#include <string>

namespace linkwright {

// A JSON Schema (draft 07) that an editor can check and complete vehicle files and variants with.
// It takes every file the reader takes; the reader refuses more (units against ranges, one value
// against another, a variant's paths).
[[nodiscard]] std::string JsonSchema();

}  // namespace linkwright
