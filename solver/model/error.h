// SPDX-License-Identifier: MIT
// The solver's complaint about a vehicle that cannot be: it names the part, knows no file.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace linkwright {

// Thrown by solver functions on impossible geometry or masses.
//   part      path of the part in the words of the vehicle file, outermost first:
//             {"axles", "rear", "links", "track bar"}; io/ turns it into file:line:column
//   what()    what is wrong and what is wanted, for a person in a shop; "{}" in it stands for
//             `length`, which io/ writes in the file's units
//   length    [m]
struct ModelError : std::runtime_error {
  ModelError(std::vector<std::string> part_path, const std::string& message,
             std::optional<double> length_told = std::nullopt)
      : std::runtime_error(message), part(std::move(part_path)), length(length_told) {}
  std::vector<std::string> part;
  std::optional<double> length;
};

}  // namespace linkwright
