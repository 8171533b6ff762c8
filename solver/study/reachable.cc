// SPDX-License-Identifier: MIT
#include "solver/study/reachable.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solver/numeric/roots.h"

namespace linkwright {
namespace {

constexpr int kDirections = 72;
constexpr int kInside = 8;              // places along a direction, its end among them
constexpr double kStep = 0.010;         // [m] holds are as good as straight over it
constexpr double kFarthest = 0.6;       // [m] in the plane of both travels
constexpr double kEndFound = 1e-11;     // [m]
constexpr double kCornerFound = 1e-10;  // [rad]
constexpr double kLinksFound = 1e-5;    // [rad] where links end it, no hold's length hangs on it
constexpr size_t kLinks = SIZE_MAX;     // ended by the links
constexpr int kOneSided = 4;            // chords that fall on one side before halving

// The pose with the wheels' travels at left and right from rest [m], walked from a place near it;
// where the links do not follow, the last pose on the way. Absent where no housing leans so far.
std::optional<PoseSolution> Walk(const RigAxle& axle, const HousingMotion& near, double start,
                                 double left, double right) {
  const AxleFrame& frame = axle.frame;
  const double z = frame.measured.z + start + 0.5 * (left + right);
  const double up = std::sin(frame.measured.roll) + (left - right) / frame.track;
  if (std::abs(up) >= 1.0) return std::nullopt;
  return MovePose(frame, near, z, std::asin(up));
}

std::optional<Pose> Move(const RigAxle& axle, const HousingMotion& near, double start, double left,
                         double right) {
  const std::optional<PoseSolution> moved = Walk(axle, near, start, left, right);
  if (!moved || moved->status != SolveStatus::kConverged) return std::nullopt;
  return moved->pose;
}

// Where a direction ends, and by which hold.
struct Ray {
  double turn, length;
  size_t ended_by;
  HousingMotion near;  // at a place of it no farther than kStep inside its end
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

  // The last place on the way outward that the links follow to, as far out as its travels say.
  struct Last {
    Pose pose;
    double r;
  };
  [[nodiscard]] std::optional<Last> LastOnTheWay(const HousingMotion& near, double turn,
                                                 double r) const {
    const auto walked = Walk(*axle, near, start, r * std::cos(turn), r * std::sin(turn));
    if (!walked) return std::nullopt;
    const Travels travels = TravelsOf(axle->frame, walked->pose);
    return Last{walked->pose,
                (travels.left - start) * std::cos(turn) + (travels.right - start) * std::sin(turn)};
  }

  // What each hold leaves, members first, then each side's bump and droop [m].
  [[nodiscard]] std::vector<double> EachLeft(const Pose& pose, double turn, double r) const {
    const Eigen::Isometry3d X_CA = Transform(pose);
    std::vector<double> left;
    for (const Hold& hold : holds->members) {
      const double length = (X_CA * OnHousing(axle->frame, hold.span.p_CQ) - hold.span.p_CP).norm();
      left.push_back(hold.stop ? length - hold.length : hold.length - length);
    }
    constexpr double kNone = std::numeric_limits<double>::infinity();
    const std::array<double, 2> travel{r * std::cos(turn), r * std::sin(turn)};
    for (size_t side = 0; side < 2; ++side) {
      const auto &up = holds->bump[side], &down = holds->droop[side];
      left.push_back(up ? *up - travel[side] : kNone);
      left.push_back(down ? *down + travel[side] : kNone);
    }
    return left;
  }

  [[nodiscard]] Left LeftAt(const Pose& pose, double turn, double r) const {
    const std::vector<double> left = EachLeft(pose, turn, r);
    const auto least = std::min_element(left.begin(), left.end());
    if (!(*least < std::numeric_limits<double>::infinity())) return {*least, kLinks};
    return {*least, static_cast<size_t>(least - left.begin())};
  }

  // A place to begin at, inside the ends of two directions on either side; the rest where the
  // holds do not leave it.
  struct Begin {
    HousingMotion near;
    double in, left;
  };
  [[nodiscard]] Begin BeginBetween(const Ray& a, const Ray& b, double turn) const {
    const double r = std::min(a.length, b.length) * (1.0 - (b.turn - a.turn)) - 2.0 * kStep;
    if (r > kStep) {
      const std::optional<Pose> pose = At(a.near, turn, r);
      const auto left = pose ? std::optional(LeftAt(*pose, turn, r)) : std::nullopt;
      if (left && left->least >= 0.0) return {EvaluateMotion(axle->frame, *pose), r, left->least};
    }
    return {axle->measured, 0.0, 0.0};
  }

  // Outward in steps, then between the last place that all holds leave and the first that one does
  // not: by the chord of what is left (Illinois), or by halves where the links do not follow.
  [[nodiscard]] Ray Find(double turn) const { return Find(turn, {axle->measured, 0.0, 0.0}); }
  [[nodiscard]] Ray Find(double turn, Begin begin) const {
    HousingMotion near = std::move(begin.near);
    double in = begin.in, out = begin.in, left_in = begin.left;
    std::optional<Left> past;  // at `out`; absent: the links end it there
    while (true) {
      if (out >= kFarthest) return {turn, out, kLinks, near};
      in = out, out += kStep;
      const std::optional<Pose> pose = At(near, turn, out);
      past = pose ? std::optional(LeftAt(*pose, turn, out)) : std::nullopt;
      if (!past) {
        const std::optional<Last> last = LastOnTheWay(near, turn, out);
        if (!last || last->r <= in) return {turn, in, kLinks, near};
        const Left left = LeftAt(last->pose, turn, last->r);
        if (left.least >= 0.0) return {turn, last->r, kLinks, near};
        out = last->r, past = left;
      }
      if (past->least < 0.0) break;
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
    return {turn, in, past ? past->of : kLinks, near};
  }
};

// Both sides of the corner between two directions that different holds end: where both leave as
// much. By halves where a third one comes between them or the links end one of them.
std::array<Ray, 2> Corner(const Search& search, Ray a, Ray b) {
  const size_t first = a.ended_by, second = b.ended_by;
  const auto more_of_second = [&](const Ray& ray) -> std::optional<double> {
    if (ray.ended_by != first && ray.ended_by != second) return std::nullopt;
    const std::optional<Pose> end = search.At(ray.near, ray.turn, ray.length);
    if (!end) return std::nullopt;
    const std::vector<double> left = search.EachLeft(*end, ray.turn, ray.length);
    return left[second] - left[first];
  };
  const auto look = [&](double turn) { return search.Find(turn, search.BeginBetween(a, b, turn)); };
  if (first != kLinks && second != kLinks) {
    const std::optional<double> at_a = more_of_second(a), at_b = more_of_second(b);
    if (at_a && at_b && *at_a > 0.0 && *at_b < 0.0) {
      const auto f = [&](double turn) -> std::optional<double> {
        Ray ray = look(turn);
        const std::optional<double> more = more_of_second(ray);
        if (more) (ray.ended_by == first ? a : b) = std::move(ray);
        return more;
      };
      (void)CloseIn(f, {a.turn, *at_a, b.turn, *at_b}, kCornerFound);
    }
  }
  const double met = first == kLinks || second == kLinks ? kLinksFound : kCornerFound;
  while (b.turn - a.turn > met) {
    Ray middle = look(0.5 * (a.turn + b.turn));
    (middle.ended_by == a.ended_by ? a : b) = std::move(middle);
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
    HousingMotion near = axle.measured;
    for (int i = 1; i <= kInside; ++i) {
      const std::optional<Pose> pose = search.At(near, ray.turn, ray.length * i / kInside);
      if (!pose) break;
      all.poses.push_back(Transform(*pose));
      if (i < kInside) near = EvaluateMotion(axle.frame, *pose);
    }
  }
  return all;
}

}  // namespace linkwright
