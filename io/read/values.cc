// SPDX-License-Identifier: MIT
#include "io/read/values.h"

#include <cstddef>

#include "io/read/format.h"

namespace linkwright {

std::optional<double> NumberAt(const Node& map, std::string_view key) {
  const Node* node = Find(map, key);
  return node == nullptr ? std::nullopt : node->si;
}

double NumberOr(const Node& map, std::string_view group, std::string_view key) {
  const auto value = NumberAt(map, key);
  return value ? *value : DefaultOf(group, key);
}

std::optional<Eigen::Vector3d> PointOf(const Node* node) {
  if (node == nullptr || node->items.size() != 3) return std::nullopt;
  Eigen::Vector3d point;
  for (std::size_t i = 0; i < 3; ++i) {
    if (!node->items[i].si) return std::nullopt;
    point[static_cast<Eigen::Index>(i)] = *node->items[i].si;
  }
  return point;
}

std::optional<Eigen::Vector3d> PointAt(const Node& map, std::string_view key) {
  return PointOf(Find(map, key));
}

std::optional<Eigen::Vector2d> SideOf(const Node* node) {
  if (node == nullptr || node->items.size() != 2) return std::nullopt;
  if (!node->items[0].si || !node->items[1].si) return std::nullopt;
  return Eigen::Vector2d(*node->items[0].si, *node->items[1].si);
}

std::optional<Span> SpanAt(const Node& member) {
  const auto frame = PointAt(member, "frame");
  const auto axle = PointAt(member, "axle");
  if (!frame || !axle) return std::nullopt;
  return Span{*frame, *axle};
}

std::vector<CurvePoint> CurveOf(const Node* node) {
  std::vector<CurvePoint> curve;
  if (node == nullptr) return curve;
  for (const Node& point : node->items) {
    if (point.items.size() != 2 || !point.items[0].si || !point.items[1].si) continue;
    curve.push_back({*point.items[0].si, *point.items[1].si});
  }
  return curve;
}

bool FlagAt(const Node& map, std::string_view key) { return TextAt(map, key) == "true"; }

std::string TextAt(const Node& map, std::string_view key) {
  const Node* node = Find(map, key);
  return node == nullptr ? "" : node->text;
}

Part PartAt(const Part& owner, std::string_view key) {
  static const Node nothing;
  const Entry* entry = FindEntry(owner.node, key);
  const bool there = entry != nullptr && entry->value.kind == NodeKind::kMap;
  return {there ? entry->value : nothing, JoinPath(owner.path, key),
          there ? entry->key_place : owner.place};
}

std::vector<Part> PartsAt(const Part& owner, std::string_view key) {
  std::vector<Part> parts;
  const Node* node = Find(owner.node, key);
  if (node == nullptr) return parts;
  const std::string path = JoinPath(owner.path, key);
  for (const Entry& entry : node->entries) {
    parts.push_back({entry.value, JoinPath(path, entry.key), entry.key_place});
  }
  return parts;
}

std::vector<Part> ItemsAt(const Part& owner, std::string_view key) {
  std::vector<Part> parts;
  const Node* node = Find(owner.node, key);
  if (node == nullptr) return parts;
  const std::string path = JoinPath(owner.path, key);
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    parts.push_back({node->items[i], ItemPath(path, i), node->items[i].place});
  }
  return parts;
}

std::vector<Part> AxleParts(const Part& owner) {
  std::vector<Part> parts;
  for (const std::string_view axle : {"front", "rear"}) {
    if (const Part part = PartAt(owner, axle)) parts.push_back(part);
  }
  return parts;
}

std::optional<std::string_view> OnlyAxle(const Part& vehicle) {
  const Part axles = PartAt(vehicle, "axles");
  const bool front = Find(axles.node, "front") != nullptr;
  const bool rear = Find(axles.node, "rear") != nullptr;
  if (front == rear) return std::nullopt;
  return front ? "front" : "rear";
}

}  // namespace linkwright
