// SPDX-License-Identifier: MIT
#include "solver/study/travel/reachable.h"

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

// The wheels' travels at left and right from rest [m], walked to from a place near it; where the
// links do not follow, the last pose on the way. Absent where no housing leans so far.
std::optional<PoseSolution> Walk(const RigAxle& axle, const HousingMotion& near, double start,
                                 double left, double right) {
  const AxleFrame& frame = axle.frame;
  const AxlePlace place = PlaceAt(frame, start, {left, right});
  if (!(std::abs(place.roll) < 0.5 * M_PI)) return std::nullopt;
  return MovePose(frame, near, place.z, place.roll);
}

std::optional<Pose> Move(const RigAxle& axle, const HousingMotion& near, double start, double left,
                         double right) {
  const std::optional<PoseSolution> moved = Walk(axle, near, start, left, right);
  if (!moved || moved->status != SolveStatus::kConverged) return std::nullopt;
  return moved->pose;
}

// Where a direction of the plane of both travels ends, and by which hold.
struct Direction {
  double turn, length;
  size_t ended_by;
  HousingMotion near;  // at a place of it no farther than kStep inside its end
};

// What holds leave at a place: the least of them and whose it is; below 0 past its end.
struct Left {
  double least;
  size_t of;
};

// A place on a direction that all holds leave, to look outward from.
struct Begin {
  HousingMotion near;
  double in, left;
};

struct Search {
  const RigAxle* axle;
  double start;
  const Holds* holds;

  [[nodiscard]] std::optional<Pose> At(const HousingMotion& near, double turn, double r) const {
    return Move(*axle, near, start, r * std::cos(turn), r * std::sin(turn));
  }

  // What each hold leaves, members first, then each side's bump and droop [m].
  [[nodiscard]] std::vector<double> EachLeft(const Pose& pose, double turn, double r) const {
    const Eigen::Isometry3d X_CA = Transform(pose);
    std::vector<double> left;
    for (const LengthLimit& hold : holds->members) left.push_back(LeftOf(hold, X_CA));
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

  [[nodiscard]] Begin AtRest(double turn) const {
    const std::optional<Pose> rest = At(axle->measured, turn, 0.0);
    return {axle->measured, 0.0, rest ? LeftAt(*rest, turn, 0.0).least : 0.0};
  }

  // A place to begin at, inside the ends of two directions on either side; the rest where the
  // holds do not leave it.
  [[nodiscard]] Begin Between(const Direction& a, const Direction& b, double turn) const {
    const double r = std::min(a.length, b.length) * (1.0 - (b.turn - a.turn)) - 2.0 * kStep;
    if (r > kStep) {
      const std::optional<Pose> pose = At(a.near, turn, r);
      const auto left = pose ? std::optional(LeftAt(*pose, turn, r)) : std::nullopt;
      if (left && left->least >= 0.0) return {EvaluateMotion(axle->frame, *pose), r, left->least};
    }
    return AtRest(turn);
  }

  // Outward in steps, then closed in on between the last place that all holds leave and the first
  // that one does not.
  [[nodiscard]] Direction Find(double turn, Begin from) const {
    Left past{};
    double out = from.in;
    while (true) {
      if (out >= kFarthest) return {turn, out, kLinks, from.near};
      out = from.in + kStep;
      const auto walked = Walk(*axle, from.near, start, out * std::cos(turn), out * std::sin(turn));
      if (!walked) return {turn, from.in, kLinks, from.near};
      const bool follows = walked->status == SolveStatus::kConverged;
      if (!follows) {  // the last place that the links follow to, as far out as its travels say
        const Travels travels = TravelsOf(axle->frame, walked->pose);
        out = (travels.left - start) * std::cos(turn) + (travels.right - start) * std::sin(turn);
        if (out <= from.in) return {turn, from.in, kLinks, from.near};
      }
      past = LeftAt(walked->pose, turn, out);
      if (past.least < 0.0) break;
      if (!follows) return {turn, out, kLinks, from.near};
      from = {EvaluateMotion(axle->frame, walked->pose), out, past.least};
    }
    const auto least = [&](double r) -> std::optional<double> {
      const std::optional<Pose> pose = At(from.near, turn, r);
      if (!pose) return std::nullopt;
      const Left left = LeftAt(*pose, turn, r);
      if (left.least <= 0.0) past = left;
      return left.least;
    };
    // At rest a hold may be at its very end, or past it where this direction leads out.
    constexpr double kSome = 1e-15;  // [m]
    const SignChange wide{from.in, std::max(from.left, kSome), out, past.least};
    return {turn, CloseIn(least, wide, kEndFound).above, past.of, from.near};
  }

  [[nodiscard]] Direction Look(const Direction& a, const Direction& b, double turn) const {
    return Find(turn, Between(a, b, turn));
  }
};

// Both sides of every corner between two directions that different holds end: where both leave as
// much. Where the search meets a third hold there are corners on either side of that.
void AddCorners(const Search& search, Direction a, Direction b, std::vector<Direction>& to) {
  const size_t first = a.ended_by, second = b.ended_by;
  const double met = first == kLinks || second == kLinks ? kLinksFound : kCornerFound;
  if (first == second || b.turn - a.turn <= met) return;
  const Direction from = a, until = b;
  std::optional<Direction> third;
  const auto take = [&](Direction found) {
    if (found.ended_by != first && found.ended_by != second) {
      third = std::move(found);
    } else {
      (found.ended_by == first ? a : b) = std::move(found);
    }
  };
  const auto more_of_second = [&](const Direction& found) -> std::optional<double> {
    if (found.ended_by != first && found.ended_by != second) return std::nullopt;
    const std::optional<Pose> end = search.At(found.near, found.turn, found.length);
    if (!end) return std::nullopt;
    const std::vector<double> left = search.EachLeft(*end, found.turn, found.length);
    return left[second] - left[first];
  };
  if (first != kLinks && second != kLinks) {
    const std::optional<double> at_a = more_of_second(a), at_b = more_of_second(b);
    if (at_a && at_b && *at_a > 0.0 && *at_b < 0.0) {
      const auto more = [&](double turn) -> std::optional<double> {
        if (third) return std::nullopt;
        Direction found = search.Look(a, b, turn);
        const std::optional<double> value = more_of_second(found);
        take(std::move(found));
        return value;
      };
      (void)CloseIn(more, {a.turn, *at_a, b.turn, *at_b}, kCornerFound);
    }
  }
  while (!third && b.turn - a.turn > met) take(search.Look(a, b, 0.5 * (a.turn + b.turn)));
  if (!third) {
    to.push_back(std::move(a));
    to.push_back(std::move(b));
    return;
  }
  AddCorners(search, from, *third, to);
  to.push_back(*third);
  AddCorners(search, *third, until, to);
}

}  // namespace

std::optional<Eigen::Isometry3d> PoseAtTravels(const RigAxle& axle, double start, double left,
                                               double right) {
  const std::optional<Pose> pose = Move(axle, axle.measured, start, left, right);
  return pose ? std::optional(Transform(*pose)) : std::nullopt;
}

Reachable FindReachable(const RigAxle& axle, double start, const Holds& holds) {
  const Search search{&axle, start, &holds};
  std::vector<Direction> directions;
  for (int k = 0; k <= kDirections; ++k) {
    const double turn = 2.0 * M_PI * k / kDirections;
    Direction found = search.Find(turn, search.AtRest(turn));
    if (k > 0) AddCorners(search, Direction(directions.back()), found, directions);
    directions.push_back(std::move(found));
  }
  Reachable all{.poses = {*PoseAtTravels(axle, start, 0.0, 0.0)}, .followed = true};
  for (const Direction& direction : directions) {
    all.followed = all.followed && direction.ended_by != kLinks;
    HousingMotion near = axle.measured;
    for (int i = 1; i <= kInside; ++i) {
      const std::optional<Pose> pose =
          search.At(near, direction.turn, direction.length * i / kInside);
      if (!pose) break;
      all.poses.push_back(Transform(*pose));
      if (i < kInside) near = EvaluateMotion(axle.frame, *pose);
    }
  }
  return all;
}

}  // namespace linkwright
