// SPDX-License-Identifier: MIT
// Members that stand on both sides of an axle: which is whose twin, and whether they are mirror
// images.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "solver/model/vehicle.h"

namespace linkwright {

// The right one for a left one: names that differ in "left" and "right" only, as those of a pair
// do. Absent for any other member.
template <typename Member>
std::optional<size_t> TwinOf(const std::vector<Member>& members, size_t left) {
  const std::string name = DisplayName(members[left].name);
  const size_t at = name.find("left");
  if (at == std::string::npos) return std::nullopt;
  std::string twin = name;
  twin.replace(at, 4, "right");
  for (size_t i = 0; i < members.size(); ++i) {
    if (DisplayName(members[i].name) == twin) return i;
  }
  return std::nullopt;
}

// How far a point is from the mirror image of another [m].
[[nodiscard]] inline double ApartMirrored(const Eigen::Vector3d& left,
                                          const Eigen::Vector3d& right) {
  return (Eigen::Vector3d(right.x(), -right.y(), right.z()) - left).norm();
}

// The greater of both ends.
[[nodiscard]] inline double ApartMirrored(const Span& left, const Span& right) {
  return std::max(ApartMirrored(left.p_CP, right.p_CP), ApartMirrored(left.p_CQ, right.p_CQ));
}

// Members by ones and by twos that are ordered alike: a left one and its mirror image to `most`
// [m], else each alone. The left one comes first.
template <typename Member>
std::vector<std::vector<size_t>> Pairs(const std::vector<Member>& members, double most) {
  std::vector<std::vector<size_t>> pairs;
  std::vector<bool> placed(members.size(), false);
  for (size_t i = 0; i < members.size(); ++i) {
    const std::optional<size_t> twin = TwinOf(members, i);
    if (!twin || ApartMirrored(members[i].span, members[*twin].span) > most) continue;
    pairs.push_back({i, *twin});
    placed[i] = placed[*twin] = true;
  }
  for (size_t i = 0; i < members.size(); ++i) {
    if (!placed[i]) pairs.push_back({i});
  }
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

}  // namespace linkwright
