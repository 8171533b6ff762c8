// SPDX-License-Identifier: MIT
// What a command line asks: its options as they were given and the vehicle files it names, read.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "cli/options.h"
#include "io/read/vehicle_file.h"

namespace linkwright {

// A command line that asks for what is not there: exit 2, no place in a file.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Question {
  std::vector<Given> given;
  std::vector<VehicleFile> files;          // FILE; or FIRST and SECOND
  UnitSystem units = UnitSystem::kMetric;  // that results are written in
};

[[nodiscard]] bool IsGiven(const Question& asked, std::string_view option);

// The words given to an option, none where it is not given; the only one of them, or `otherwise`.
[[nodiscard]] std::vector<std::string> WordsOf(const Question& asked, std::string_view option);
[[nodiscard]] std::string WordOf(const Question& asked, std::string_view option,
                                 const std::string& otherwise = {});

// The same of amounts, within the range they are declared with [SI].
//   dimension   of an option that can have several; absent: the only one
//   errors      UsageError
[[nodiscard]] std::vector<double> AmountsOf(const Question& asked, std::string_view option,
                                            std::optional<Dimension> dimension = {});
[[nodiscard]] std::optional<double> AmountOf(const Question& asked, std::string_view option,
                                             std::optional<Dimension> dimension = {});

// The load of that name, the file's default one for an empty name. errors: UsageError naming those
// there are.
[[nodiscard]] const Load& FindLoad(const Vehicle& vehicle, const std::string& name);

// The load that --load names, the file's default one where it is not given; null: geometry only.
//   so       what the file then does, for the complaint
//   errors   UsageError for a load that is not there or means nothing
[[nodiscard]] const Load* AskedLoad(const Question& asked, const VehicleFile& file,
                                    const char* so = "it stands as measured");

}  // namespace linkwright
