// SPDX-License-Identifier: MIT
// Takes values out of a validated document. What is absent or was refused comes back empty, so a
// check can ask for all it needs and stay silent where another error has been reported already.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/read/document.h"
#include "solver/model/vehicle.h"

namespace linkwright {

[[nodiscard]] std::optional<double> NumberAt(const Node& map, std::string_view key);  // SI

// The number, or the format table's default for this key of this group.
[[nodiscard]] double NumberOr(const Node& map, std::string_view group, std::string_view key);

[[nodiscard]] std::optional<Eigen::Vector3d> PointOf(const Node* value);                      // [m]
[[nodiscard]] std::optional<Eigen::Vector3d> PointAt(const Node& map, std::string_view key);  // [m]

// A point in side view, [x, z] [m].
[[nodiscard]] std::optional<Eigen::Vector2d> SideOf(const Node* value);

// Both ends of a member: `frame` and `axle`.
[[nodiscard]] std::optional<Span> SpanAt(const Node& member);

// The good points of a curve, in the order of the file.
[[nodiscard]] std::vector<CurvePoint> CurveOf(const Node* value);

[[nodiscard]] bool FlagAt(const Node& map, std::string_view key);         // false where absent
[[nodiscard]] std::string TextAt(const Node& map, std::string_view key);  // empty where absent

// "axles.rear" and "links" to "axles.rear.links".
[[nodiscard]] std::string JoinPath(std::string_view path, std::string_view key);

// A part of the vehicle under its key, with the way to it.
struct Part {
  const Entry* entry = nullptr;
  std::string path;
  [[nodiscard]] const Node& node() const { return entry->value; }
};

// The parts under a key: of a map of names, each name.
[[nodiscard]] std::vector<Part> PartsAt(const Part& owner, std::string_view key);

// The part under a key, or nothing where it is absent or no map.
[[nodiscard]] std::optional<Part> PartAt(const Part& owner, std::string_view key);

}  // namespace linkwright
