// SPDX-License-Identifier: MIT
#include "io/read/keys_of.h"

#include <algorithm>
#include <cassert>

namespace linkwright {
namespace {

// What would stand under the key.
std::string_view TextOf(const Node* value, const Key& key) {
  return value == nullptr ? key.default_text : std::string_view(value->text);
}

// A key of another kind bound to such a member is a mistake of ours.
void NeedKind([[maybe_unused]] const Key& key, [[maybe_unused]] Kind kind) {
  assert(key.kind == kind);
}

}  // namespace

template <>
std::optional<double> ValueOf(const Node* value, const Key& key) {
  NeedKind(key, Kind::kNumber);
  if (value != nullptr) return value->si;
  return key.default_text.empty() ? std::nullopt : std::optional(DefaultOf(key));
}

template <>
std::optional<bool> ValueOf(const Node* value, const Key& key) {
  NeedKind(key, Kind::kFlag);
  return TextOf(value, key) == "true";
}

template <>
std::optional<std::string> ValueOf(const Node* value, const Key& key) {
  NeedKind(key, Kind::kText);
  return std::string(TextOf(value, key));
}

template <>
std::optional<Eigen::Vector3d> ValueOf(const Node* value, const Key& key) {
  NeedKind(key, Kind::kPoint);
  return PointOf(value);
}

template <>
std::optional<Eigen::Vector2d> ValueOf(const Node* value, const Key& key) {
  NeedKind(key, Kind::kSide);
  return SideOf(value);
}

void Take(const Node* value, const Key& key, std::vector<CurvePoint>& into) {
  NeedKind(key, Kind::kCurve);
  into = CurveOf(value);
}

void Take(const Node* value, const Key& key, std::vector<Load>& into) {
  if (value == nullptr) return;
  for (const Entry& load : value->entries) {
    into.push_back({load.key, {}});
    Take(&load.value, key, into.back().items);
  }
}

void Take(const Node* value, const Key& key, std::vector<Mark>& into) {
  NeedKind(key, Kind::kPoint);
  if (value == nullptr) return;
  for (const Entry& mark : value->entries) {
    into.push_back({mark.key, PointOf(&mark.value).value()});
  }
}

void Take(const Node* value, const Key& key, std::vector<Acceptance>& into) {
  NeedKind(key, Kind::kText);
  if (value == nullptr) return;
  for (const Entry& entry : value->entries) into.push_back({entry.key, entry.value.text});
}

std::optional<int> WordIndex(const Node* value, const Key& key) {
  assert(!key.words.empty());
  const auto found = std::find(key.words.begin(), key.words.end(), TextOf(value, key));
  if (found == key.words.end()) return std::nullopt;
  return static_cast<int>(found - key.words.begin());
}

}  // namespace linkwright
