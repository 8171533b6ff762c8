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

TableOf<Eigen::Vector3d> PointColumns(const std::string& name, const std::string& head,
                                      const std::string& definition) {
  TableOf<Eigen::Vector3d> columns;
  for (const Eigen::Index i : {0, 1, 2}) {
    const std::string axis(1, "xyz"[i]);
    columns.push_back({name + axis, head + axis, Dimension::kLength, definition,
                       [i](auto& point) { return point[i]; }});
  }
  return columns;
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
