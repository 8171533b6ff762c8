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

// A part of the vehicle: a map under its key, with the way to it. One that is absent, or no map,
// has nothing under it.
struct Part {
  const Node& node;
  std::string path;  // "axles.rear.links.track bar"
  Place place;       // of its key
  explicit operator bool() const { return node.kind == NodeKind::kMap; }
};

[[nodiscard]] Part PartAt(const Part& owner, std::string_view key);

// The parts under a key: of a map of names, each name; of a list, each item.
[[nodiscard]] std::vector<Part> PartsAt(const Part& owner, std::string_view key);
[[nodiscard]] std::vector<Part> ItemsAt(const Part& owner, std::string_view key);

// Those of the parts called front and rear that are there.
[[nodiscard]] std::vector<Part> AxleParts(const Part& owner);

// "rear" where the file has the rear axle and no front one; nothing where it has both, or neither.
//   vehicle   the whole document
[[nodiscard]] std::optional<std::string_view> OnlyAxle(const Part& vehicle);

}  // namespace linkwright
