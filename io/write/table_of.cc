// SPDX-License-Identifier: MIT
#include "io/write/table_of.h"

#include <cctype>
#include <numeric>

namespace linkwright {

std::vector<size_t> Indices(size_t count) {
  std::vector<size_t> indices(count);
  std::iota(indices.begin(), indices.end(), size_t{0});
  return indices;
}

std::string AxleGroup(const std::string& axle, const std::string& part) {
  std::string group = axle + " axle: " + part;
  group[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(group[0])));
  return group;
}

std::optional<double> Less(const std::optional<double>& value, const std::optional<double>& base) {
  if (!value || !base) return std::nullopt;
  return *value - *base;
}

}  // namespace linkwright
