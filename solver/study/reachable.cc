// SPDX-License-Identifier: MIT
#include "solver/study/reachable.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace linkwright {
namespace {

constexpr int kDirections = 72;
constexpr int kInside = 8;              // places along a direction, its end among them
constexpr double kStep = 0.010;         // [m] holds are as good as straight over it
constexpr double kFarthest = 0.6;       // [m] in the plane of both travels
constexpr double kEndFound = 1e-11;     // [m]
constexpr double kCornerFound = 1e-10;  // [rad]
constexpr size_t kLinks = SIZE_MAX;     // ended by the links
constexpr int kOneSided = 4;            // chords that fall on one side before halving

// The pose with the wheels' travels at left and right from rest [m], walked from a place near it.
std::optional<Pose> Move(const RigAxle& axle, const HousingMotion& near, double start, double left,
                         double right) {
  const AxleFrame& frame = axle.frame;
  const double z = frame.measured.z + start + 0.5 * (left + right);
  const double up = std::sin(frame.measured.roll) + (left - right) / frame.track;
  if (std::abs(up) >= 1.0) return std::nullopt;
  const PoseSolution moved = MovePose(frame, near, z, std::asin(up));
  if (moved.status != SolveStatus::kConverged) return std::nullopt;
  return moved.pose;
}

// Where a direction ends, and by which hold.
struct Ray {
  double turn, length;
  size_t ended_by;
};

// What holds leave at a place: the least of them and whose it is; below 0 past its end.
struct Left {
  double least;
  size_t of;
};

struct Search {
  const RigAxle* axle;
  double start;
  const Holds* holds;

  [[nodiscard]] std::optional<Pose> At(const HousingMotion& near, double turn, double r) const {
    return Move(*axle, near, start, r * std::cos(turn), r * std::sin(turn));
  }

  [[nodiscard]] Left LeftAt(const Pose& pose, double turn, double r) const {
    const Eigen::Isometry3d X_CA = Transform(pose);
    Left left{std::numeric_limits<double>::infinity(), kLinks};
    size_t index = 0;
    const auto look = [&](double of) {
      if (of < left.least) left = {of, index};
      ++index;
    };
    for (const Hold& hold : holds->members) {
      const double length = (X_CA * OnHousing(axle->frame, hold.span.p_CQ) - hold.span.p_CP).norm();
      look(hold.stop ? length - hold.length : hold.length - length);
    }
    constexpr double kNone = std::numeric_limits<double>::infinity();
    const std::array<double, 2> travel{r * std::cos(turn), r * std::sin(turn)};
    for (size_t side = 0; side < 2; ++side) {
      const auto &up = holds->bump[side], &down = holds->droop[side];
      look(up ? *up - travel[side] : kNone);
      look(down ? *down + travel[side] : kNone);
    }
    return left;
  }

  // Outward in steps, then between the last place that all holds leave and the first that one does
  // not: by the chord of what is left (Illinois), or by halves where the links do not follow.
  [[nodiscard]] Ray Find(double turn) const {
    HousingMotion near = axle->measured;
    double in = 0.0, out = 0.0, left_in = 0.0;
    std::optional<Left> past;  // at `out`; absent: the links end it there
    while (true) {
      if (out >= kFarthest) return {turn, out, kLinks};
      in = out, out += kStep;
      const std::optional<Pose> pose = At(near, turn, out);
      past = pose ? std::optional(LeftAt(*pose, turn, out)) : std::nullopt;
      if (!past || past->least < 0.0) break;
      near = EvaluateMotion(axle->frame, *pose);
      left_in = past->least;
    }
    double left_out = past ? past->least : 0.0;
    int same = 0;  // looks in a row that fell on one side, + outside
    while (out - in > kEndFound) {
      const double chord = in + (out - in) * left_in / (left_in - left_out);
      const double inset = std::min(kEndFound, 0.25 * (out - in));
      const bool halve = !past || !(left_in > 0.0) || std::abs(same) > kOneSided;
      const double r = halve ? 0.5 * (in + out) : std::clamp(chord, in + inset, out - inset);
      const std::optional<Pose> pose = At(near, turn, r);
      const auto left = pose ? std::optional(LeftAt(*pose, turn, r)) : std::nullopt;
      if (!left || left->least < 0.0) {
        out = r, past = left, left_out = left ? left->least : 0.0;
        same = std::max(same, 0) + 1;
        if (same > 1) left_in *= 0.5;
      } else {
        in = r, left_in = left->least;
        same = std::min(same, 0) - 1;
        if (same < -1) left_out *= 0.5;
      }
    }
    return {turn, in, past ? past->of : kLinks};
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
  const std::optional<Pose> pose = Move(axle, axle.measured, start, left, right);
  return pose ? std::optional(Transform(*pose)) : std::nullopt;
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
      const double r = ray.length * i / kInside;
      if (const auto X_CA =
              PoseAtTravels(axle, start, r * std::cos(ray.turn), r * std::sin(ray.turn))) {
        all.poses.push_back(*X_CA);
      }
    }
  }
  return all;
}

}  // namespace linkwright
