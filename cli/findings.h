// SPDX-License-Identifier: MIT
// Everything that a vehicle file gives cause to point at, whichever command it belongs to.
#pragma once

#include "io/read/vehicle_file.h"
#include "io/write/check_tables.h"

namespace linkwright {

// What is looked at.
struct FindingsRequest {
  const Load* load = nullptr;  // of the file's vehicle, this one alone; null: every one
  bool cures = true;           // with what would mend, and nearest places; without, the same
                               // warnings in shorter words
  const LimitsReport* limits = nullptr;  // of the first load looked at, where they are found
                                         // already
};

struct FoundInFile {
  std::vector<Finding> findings;
  std::vector<NamedTable> tables;  // of the finished vehicle: "gaps", where it has some
};

// What `check` names: its own report's findings, then those of the finished vehicle, its shafts and
// its steering, each as far as the file can be prepared and stands.
//   errors   InputErrors where the solver refuses the vehicle's frames
[[nodiscard]] FoundInFile AllFindings(const VehicleFile& file, const CheckReport& report,
                                      UnitSystem units, const FindingsRequest& request = {});

// What every note that is to be looked at begins with.
constexpr const char* kLookAtThis = "look at this: ";

// "look at this: 2 things in the file may be wrong; ..."; empty where nothing is pointed at.
[[nodiscard]] std::string CountFindings(const VehicleFile& file,
                                        const LimitsReport* limits = nullptr);

}  // namespace linkwright
