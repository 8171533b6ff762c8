// SPDX-License-Identifier: MIT
#include "solver/study/reachable.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

constexpr int kDirections = 72;
constexpr int kInside = 8;              // places along a direction, its end among them
constexpr double kStep = 0.010;         // [m] holds are as good as straight over it
constexpr double kFarthest = 0.6;       // [m] in the plane of both travels
constexpr double kEndFound = 1e-11;     // [m]
constexpr double kCornerFound = 1e-10;  // [rad]
constexpr size_t kLinks = SIZE_MAX;     // ended by the links

// Where a direction ends, and by which hold.
struct Ray {
  double turn, length;
  size_t ended_by;
};

struct Search {
  const RigAxle* axle;
  double start;
  const Holds* holds;

  [[nodiscard]] std::optional<Eigen::Isometry3d> At(double turn, double r) const {
    return PoseAtTravels(*axle, start, r * std::cos(turn), r * std::sin(turn));
  }

  // The hold that is past its end by most; absent where all have something left.
  [[nodiscard]] std::optional<size_t> EndedBy(double turn, double r) const {
    const auto X_CA = At(turn, r);
    if (!X_CA) return kLinks;
    std::optional<size_t> worst;
    double least = 0.0;
    size_t index = 0;
    const auto look = [&](std::optional<double> left) {
      if (left && *left < least) least = *left, worst = index;
      ++index;
    };
    for (const Hold& hold : holds->members) {
      const double length =
          (*X_CA * OnHousing(axle->frame, hold.span.p_CQ) - hold.span.p_CP).norm();
      look(hold.stop ? length - hold.length : hold.length - length);
    }
    const std::array<double, 2> travel{r * std::cos(turn), r * std::sin(turn)};
    for (size_t side = 0; side < 2; ++side) {
      const auto &up = holds->bump[side], &down = holds->droop[side];
      look(up ? std::optional(*up - travel[side]) : std::nullopt);
      look(down ? std::optional(*down + travel[side]) : std::nullopt);
    }
    return worst;
  }

  [[nodiscard]] Ray Find(double turn) const {
    double in = 0.0, out = 0.0;
    std::optional<size_t> ended_by;
    while (!ended_by && out < kFarthest) {
      in = out, out += kStep;
      ended_by = EndedBy(turn, out);
    }
    while (ended_by && out - in > kEndFound) {
      const double middle = 0.5 * (in + out);
      if (const auto by = EndedBy(turn, middle)) {
        out = middle, ended_by = by;
      } else {
        in = middle;
      }
    }
    return {turn, ended_by ? in : out, ended_by.value_or(kLinks)};
  }
};

// Both sides of the corner between two directions that different holds end.
std::array<Ray, 2> Corner(const Search& search, Ray a, Ray b) {
  while (b.turn - a.turn > kCornerFound) {
    const Ray middle = search.Find(0.5 * (a.turn + b.turn));
    (middle.ended_by == a.ended_by ? a : b) = middle;
  }
  return {a, b};
}

}  // namespace

std::optional<Eigen::Isometry3d> PoseAtTravels(const RigAxle& axle, double start, double left,
                                               double right) {
  const AxleFrame& frame = axle.frame;
  const double z = frame.measured.z + start + 0.5 * (left + right);
  const double up = std::sin(frame.measured.roll) + (left - right) / frame.track;
  if (std::abs(up) >= 1.0) return std::nullopt;
  const PoseSolution moved = MovePose(frame, axle.measured, z, std::asin(up));
  if (moved.status != SolveStatus::kConverged) return std::nullopt;
  return Transform(moved.pose);
}

Reachable FindReachable(const RigAxle& axle, double start, const Holds& holds) {
  const Search search{&axle, start, &holds};
  std::vector<Ray> rays;
  for (int k = 0; k <= kDirections; ++k) {
    const Ray ray = search.Find(2.0 * M_PI * k / kDirections);
    if (k > 0 && ray.ended_by != rays.back().ended_by) {
      for (const Ray& side : Corner(search, rays.back(), ray)) rays.push_back(side);
    }
    rays.push_back(ray);
  }
  Reachable all{.poses = {*PoseAtTravels(axle, start, 0.0, 0.0)}, .followed = true};
  for (const Ray& ray : rays) {
    all.followed = all.followed && ray.ended_by != kLinks;
    for (int i = 1; i <= kInside; ++i) {
      if (const auto X_CA = search.At(ray.turn, ray.length * i / kInside)) {
        all.poses.push_back(*X_CA);
      }
    }
  }
  return all;
}

}  // namespace linkwright
