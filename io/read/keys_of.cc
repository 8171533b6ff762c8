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

template <typename Value>
void TakeIfGood(std::optional<Value> found, Value& into) {
  if (found) into = *std::move(found);
}

}  // namespace

void Take(const Node* value, const Key& key, std::optional<double>& into) {
  NeedKind(key, Kind::kNumber);
  if (value != nullptr) {
    into = value->si;
  } else if (!key.default_text.empty()) {
    into = DefaultOf(key);
  }
}

void Take(const Node* value, const Key& key, double& into) {
  std::optional<double> number;
  Take(value, key, number);
  TakeIfGood(number, into);
}

void Take(const Node* value, const Key& key, bool& into) {
  NeedKind(key, Kind::kFlag);
  into = TextOf(value, key) == "true";
}

void Take(const Node* value, const Key& key, std::string& into) {
  NeedKind(key, Kind::kText);
  into = TextOf(value, key);
}

void Take(const Node* value, const Key& key, std::optional<Eigen::Vector3d>& into) {
  NeedKind(key, Kind::kPoint);
  into = PointOf(value);
}

void Take(const Node* value, const Key& key, Eigen::Vector3d& into) {
  NeedKind(key, Kind::kPoint);
  TakeIfGood(PointOf(value), into);
}

void Take(const Node* value, const Key& key, std::optional<Eigen::Vector2d>& into) {
  NeedKind(key, Kind::kSide);
  into = SideOf(value);
}

void Take(const Node* value, const Key& key, Eigen::Vector2d& into) {
  NeedKind(key, Kind::kSide);
  TakeIfGood(SideOf(value), into);
}

void Take(const Node* value, const Key& key, std::vector<CurvePoint>& into) {
  NeedKind(key, Kind::kCurve);
  into = CurveOf(value);
}

std::optional<int> WordIndex(const Node* value, const Key& key) {
  assert(!key.words.empty());
  const auto found = std::find(key.words.begin(), key.words.end(), TextOf(value, key));
  if (found == key.words.end()) return std::nullopt;
  return static_cast<int>(found - key.words.begin());
}

}  // namespace linkwright
