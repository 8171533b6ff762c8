// SPDX-License-Identifier: MIT
#include "solver/study/walk/axle_walk.h"

#include <algorithm>
#include <cmath>

#include "solver/model/error.h"
#include "solver/numeric/minima.h"
#include "solver/numeric/roots.h"

namespace linkwright {
namespace {

constexpr double kFound = 1e-11;       // [m, rad] of the parameter at which a limit is reached
constexpr double kLinksFound = 1e-10;  // [m, rad] where links or a linkage follow no farther

// An axle on its way.
struct Way {
  const Rig* rig;
  size_t axle;
  const AxlePath* path;
  AxleLimits limits;

  [[nodiscard]] PoseSolution To(const HousingMotion& from, double s) const {
    const AxlePlace place = path->place(s, axle);
    return MovePose(rig->axles[axle].frame, from, place.z, place.roll);
  }
};

struct Step {
  WalkPlace place;
  std::vector<std::optional<double>> left;  // in the order of the limits
};

Step StepAt(const Way& way, double s, const Pose& pose) {
  return {.place = {s, EvaluateMotion(way.rig->axles[way.axle].frame, pose)},
          .left = LeftOfAll(way.limits, Transform(pose))};
}

// What is left of one limit a little away from a step; absent where it cannot be told.
std::optional<double> LeftAt(const Way& way, const Step& from, double s, size_t limit) {
  const PoseSolution moved = way.To(from.place.motion, s);
  if (moved.status != SolveStatus::kConverged) return std::nullopt;
  return LeftOf(way.limits, limit, Transform(moved.pose));
}

// A place of a limit on the way: the parameter and what is left there.
struct LeftThere {
  double at, left;
};

// The parameter between a place where a limit holds and one where it is past its end, at which
// kEndTolerance is used up.
double FindEnd(const Way& way, const Step& from, const LeftThere& holds, const LeftThere& past,
               size_t limit) {
  const auto over = [&](double s) -> std::optional<double> {
    const std::optional<double> left = LeftAt(way, from, s, limit);
    return left ? std::optional(*left + kEndTolerance) : std::nullopt;
  };
  if (holds.left + kEndTolerance <= 0.0) return holds.at;
  const SignChange wide{holds.at, holds.left + kEndTolerance, past.at, past.left + kEndTolerance};
  return CloseIn(over, wide, kFound).above;
}

// Marks what runs out between two steps. What is past its end already runs out there and then,
// unless this way leads out of it.
void MarkEnds(const Way& way, const Step& from, const Step& to, std::vector<LimitHit>& hits) {
  for (size_t i = 0; i < hits.size(); ++i) {
    const std::optional<double> before = from.left[i];
    if (hits[i].at || !before) continue;
    double end = to.place.parameter;
    std::optional<double> now = to.left[i];
    if (!now) {
      end = LastThatHolds(from.place.parameter, end, kLinksFound,
                          [&](double s) { return LeftAt(way, from, s, i).has_value(); });
      now = LeftAt(way, from, end, i);
    }
    if (!now || *now >= -kEndTolerance) continue;
    if (*before >= -kEndTolerance) {
      hits[i].at = FindEnd(way, from, {from.place.parameter, *before}, {end, *now}, i);
    } else if (*now <= *before) {
      hits[i].at = from.place.parameter;
    }
  }
}

// Looks for dips about a step at which a limit has less left than at both its neighbours. Between
// them a bend as sharp as the three tell takes it lower by half the bend at most, a corner
// included; ten times that is looked into.
//   low   where the search begins: the step before, or the stance
void MarkDips(const Way& way, const Step& before, const Step& here, const Step& next, double low,
              std::vector<LimitHit>& hits) {
  constexpr double kLookInto = 10.0;
  constexpr double kNowhere = 1e3;    // [m] where it cannot be told it is not near its end
  constexpr double kClosedIn = 1e-6;  // of the interval: 10 nm
  const double high = next.place.parameter;
  for (size_t i = 0; i < hits.size(); ++i) {
    const auto a = before.left[i], b = here.left[i], c = next.left[i];
    if (hits[i].at || !a || !b || !c || *b > *a || *b > *c) continue;
    if (*b < -kEndTolerance || *b > kLookInto * (*a + *c - 2.0 * *b)) continue;
    const auto left = [&](double share) {  // forward from low, whichever way that is
      return LeftAt(way, here, low + share * (high - low), i).value_or(kNowhere);
    };
    const LeastPoint least = LeastOnInterval(left, 0.0, 1.0, 3, kClosedIn);
    if (least.value >= -kEndTolerance) continue;
    const double past = low + least.at * (high - low);
    hits[i].at = FindEnd(way, here, {low, left(0.0)}, {past, least.value}, i);
  }
}

// What the links or the motion itself refuse at a parameter; absent where the axle gets there.
std::optional<TravelLimit> RefusalAt(const Way& way, double s, const PoseSolution& moved) {
  if (moved.status != SolveStatus::kConverged) {
    const size_t link = moved.blocking_link.value_or(0);
    const std::string& name = way.rig->axles[way.axle].frame.links[link].name;
    return TravelLimit{{LimitKind::kLinksStraight, link}, name, name, LimitRole::kEndsRows};
  }
  if (!way.path->refuse) return std::nullopt;
  const auto kind = way.path->refuse(s, way.axle, Transform(moved.pose));
  if (!kind) return std::nullopt;
  return TravelLimit{{*kind}, "", "", LimitRole::kEndsRows};
}

// What ends the way for good, and the pose there.
struct Refusal {
  LimitHit hit;
  Pose pose;
};

// The farthest place that is not refused between a step and a place that is.
//   moved   how far the links went on the way to `out`
Refusal FindRefusal(const Way& way, const Step& from, double out, const PoseSolution& moved,
                    TravelLimit refused) {
  const auto hit = [&refused](double at) {
    return LimitHit{
        .limit = std::move(refused), .at_rest = {}, .left = {}, .at = at, .wheel_travel = {}};
  };
  if (refused.id.kind == LimitKind::kLinksStraight) {
    const auto place = [&](double s) { return way.path->place(s, way.axle); };
    const auto fold = FindFold(way.rig->axles[way.axle].frame, place, from.place.parameter,
                               from.place.motion.pose, out, moved.pose);
    if (fold) return {hit(fold->at), fold->pose};
  }
  const double in = LastThatHolds(from.place.parameter, out, kLinksFound, [&](double s) {
    std::optional<TravelLimit> there = RefusalAt(way, s, way.To(from.place.motion, s));
    if (there) refused = *std::move(there);
    return !there;
  });
  return {hit(in), way.To(from.place.motion, in).pose};
}

bool EndFound(const std::vector<LimitHit>& hits) {
  return std::any_of(hits.begin(), hits.end(), [](const LimitHit& each) {
    return each.at && each.limit.role != LimitRole::kPassed;
  });
}

// Those with `at` first, the soonest first; what is met together, as twins on a symmetrical axle
// are, by its id.
void SortHits(std::vector<LimitHit>& hits) {
  constexpr double kTogether = 1e-9;  // [m, rad]
  std::stable_sort(hits.begin(), hits.end(), [](const LimitHit& a, const LimitHit& b) {
    if (!a.at || !b.at) return a.at.has_value() && !b.at.has_value();
    return std::abs(*a.at) < std::abs(*b.at);
  });
  for (auto first = hits.begin(); first != hits.end() && first->at;) {
    const auto last = std::find_if(first, hits.end(), [&](const LimitHit& hit) {
      return !hit.at || std::abs(*hit.at - *first->at) > kTogether;
    });
    std::sort(first, last,
              [](const LimitHit& a, const LimitHit& b) { return a.limit.id < b.limit.id; });
    first = last;
  }
}

// A step on the other side of the stance, so that a dip right after it is seen; the stance itself
// where the links do not go there.
Step StepBehind(const Way& way, const Step& stance, double s) {
  const PoseSolution moved = way.To(stance.place.motion, s);
  return moved.status == SolveStatus::kConverged ? StepAt(way, s, moved.pose) : stance;
}

void WalkOut(const Way& way, const Step& stance, const WalkRequest& request, AxleWalk& walk) {
  const double far = std::abs(request.far), sign = std::copysign(1.0, request.far);
  Step here = stance, before = StepBehind(way, stance, -sign * request.step);
  for (int i = 1; std::abs(here.place.parameter) < far; ++i) {
    const bool found = EndFound(walk.hits);  // once more: a dip is seen from the step after it
    const double out = i * request.step;
    double s = sign * (out < far - kFound ? out : far);  // no last step of a rounding
    PoseSolution moved = way.To(here.place.motion, s);
    std::optional<LimitHit> refused;
    if (std::optional<TravelLimit> limit = RefusalAt(way, s, moved)) {
      Refusal last = FindRefusal(way, here, s, moved, *std::move(limit));
      s = *last.hit.at;
      moved.pose = last.pose;
      refused = std::move(last.hit);
    }
    const Step next = StepAt(way, s, moved.pose);
    MarkEnds(way, here, next, walk.hits);
    MarkDips(way, before, here, next, i == 1 ? 0.0 : before.place.parameter, walk.hits);
    if (s != here.place.parameter) walk.places.push_back(next.place);
    if (refused) walk.hits.push_back(*std::move(refused));
    if (refused || (request.to_first && found)) return;
    before = std::move(here);
    here = next;
  }
}

}  // namespace

HousingMotion StartMotion(const Rig& rig, size_t axle, const AxlePath& path) {
  const RigAxle& prepared = rig.axles[axle];
  const AxlePlace start = path.place(0.0, axle);
  const PoseSolution pose = MovePose(prepared.frame, prepared.measured, start.z, start.roll);
  if (pose.status != SolveStatus::kConverged) {
    throw ModelError({"axles", rig.vehicle->axles[axle].name},
                     "its links do not let it stand level at the mean height of its two wheels, "
                     "where every motion starts");
  }
  return EvaluateMotion(prepared.frame, pose.pose);
}

AxleWalk WalkAxle(const Rig& rig, size_t axle, const AxlePath& path, const WalkRequest& request) {
  Way way{.rig = &rig,
          .axle = axle,
          .path = &path,
          .limits = PrepareLimits(*rig.vehicle, axle, rig.axles[axle].frame, request.watch)};
  const Step stance = StepAt(way, 0.0, StartMotion(rig, axle, path).pose);
  AxleWalk walk{.axle = axle, .path = path, .limits = {}, .places = {stance.place}, .hits = {}};
  const Eigen::Isometry3d X_CA = Transform(stance.place.motion.pose);
  for (size_t i = 0; i < way.limits.list.size(); ++i) {
    walk.hits.push_back({.limit = way.limits.list[i],
                         .at_rest = IsMissed(way.limits, i, X_CA) ? std::nullopt : stance.left[i],
                         .left = {},
                         .at = {},
                         .wheel_travel = {}});
  }
  WalkOut(way, stance, request, walk);
  SortHits(walk.hits);
  walk.limits = std::move(way.limits);
  return walk;
}

std::optional<Pose> PoseOn(const Rig& rig, const AxleWalk& walk, double parameter) {
  const auto beyond = std::find_if(walk.places.begin() + 1, walk.places.end(), [&](const auto& p) {
    return std::abs(p.parameter) > std::abs(parameter);
  });
  const HousingMotion& near = std::prev(beyond)->motion;
  if (std::prev(beyond)->parameter == parameter) return near.pose;
  const AxlePlace place = walk.path.place(parameter, walk.axle);
  const PoseSolution moved = MovePose(rig.axles[walk.axle].frame, near, place.z, place.roll);
  if (moved.status != SolveStatus::kConverged) return std::nullopt;
  return moved.pose;
}

const LimitHit* FirstEnd(const std::vector<LimitHit>& hits, Watch watch, double real) {
  for (const LimitHit& hit : hits) {
    if (!hit.at) return nullptr;
    if (!EndsFor(hit.limit, watch)) continue;
    const LimitKind kind = hit.limit.id.kind;
    const bool links = kind == LimitKind::kLinksStraight || kind == LimitKind::kDragLinkOutOfReach;
    return links && std::abs(*hit.at) > real ? nullptr : &hit;
  }
  return nullptr;
}

std::string DescribeShort(const TravelLimit& limit) {
  if (limit.id.kind == LimitKind::kLinksStraight) return "links (" + limit.name + ") line up";
  return Describe(limit);
}

}  // namespace linkwright
