// SPDX-License-Identifier: MIT
// Checks of the members between chassis and axle, in the measured stance.
#include <fmt/format.h>

#include <algorithm>

#include "io/read/check.h"
#include "io/read/weighed.h"

namespace linkwright {
namespace {

constexpr double kShortestMember = 1e-3;  // [m] less than the play of any bolt hole

void CheckPair(const Part& member, const Span& span, Report& report) {
  if (!FlagAt(member.node(), "pair")) return;
  for (const auto& [key, point] : {std::pair("frame", span.p_CP), std::pair("axle", span.p_CQ)}) {
    if (point.y() >= 0.0) continue;
    AddErrorAt(report, member, key,
               fmt::format("y is {}; a pair is given by its left member, whose y is more than 0",
                           Show(point.y(), member.node())));
  }
  if (span.p_CP.y() == 0.0 && span.p_CQ.y() == 0.0) {
    AddErrorAt(report, member, "pair",
               "both ends stand at y = 0, so left and right would be the same; leave 'pair' out");
  }
}

void CheckLength(const Part& member, const Span& span, Report& report) {
  if (MeasuredLength(span) >= kShortestMember) return;
  AddErrorAt(report, member, "axle", "it is the same point as 'frame'; the two ends lie apart");
}

void CheckSeats(const Part& member, const Span& span, Report& report) {
  if (span.p_CP.z() > span.p_CQ.z()) return;
  AddErrorAt(report, member, "axle",
             fmt::format("the axle seat (z {}) is not below the chassis seat (z {}); are 'frame' "
                         "and 'axle' swapped?",
                         Show(span.p_CQ.z(), member.node()), Show(span.p_CP.z(), member.node())));
}

void CheckCurve(const Part& member, const std::optional<Span>& span, Report& report) {
  const Node* points = Find(member.node(), "curve");
  const std::vector<CurvePoint> curve = CurveOf(Find(member.node(), "curve"));
  if (points == nullptr || curve.size() < 2 || curve.size() != points->items.size()) return;
  for (std::size_t i = 1; i < curve.size(); ++i) {
    if (curve[i].deflection > curve[i - 1].deflection) continue;
    return AddError(
        report, points->items[i].place, fmt::format("{}.curve[{}]", member.path, i + 1),
        fmt::format("deflection {} does not follow {}; deflections rise from point to "
                    "point",
                    Show(curve[i].deflection, *points), Show(curve[i - 1].deflection, *points)));
  }
  const auto free_length = NumberAt(member.node(), "free_length");
  if (!free_length) return;
  const double last = curve.back().deflection;
  if (last >= *free_length) {
    return AddErrorAt(report, member, "curve",
                      fmt::format("its last deflection, {}, is not less than the free length, {}",
                                  Show(last, *points), Show(*free_length, *points)));
  }
  if (!span || *free_length - MeasuredLength(*span) <= last) return;
  AddErrorAt(report, member, "curve",
             fmt::format("it ends at {} of deflection, and the measured length of {} is {} short "
                         "of the free length; check the seats, or measure the curve further",
                         Show(last, *points), Show(MeasuredLength(*span), *points),
                         Show(*free_length - MeasuredLength(*span), *points)));
}

void CheckSpring(const Part& member, const std::optional<Span>& span, Report& report) {
  const Node& node = member.node();
  const auto solid = NumberAt(node, "solid_length");
  const auto free_length = NumberAt(node, "free_length");
  const auto wire = NumberAt(node, "wire");
  const auto mean_diameter = NumberAt(node, "mean_diameter");
  if (solid && free_length && *free_length <= *solid) {
    AddErrorAt(report, member, "free_length",
               fmt::format("it is not more than the solid length, {}", Show(*solid, node)));
  }
  if (solid && span && MeasuredLength(*span) < *solid) {
    AddErrorAt(report, member, "solid_length",
               fmt::format("the seats are {} apart as measured, less than the solid length, {}",
                           Show(MeasuredLength(*span), node), Show(*solid, node)));
  }
  if (wire && mean_diameter && *mean_diameter <= *wire) {
    AddErrorAt(report, member, "mean_diameter",
               fmt::format("it is not more than the wire, {}; the mean diameter is the outside "
                           "less one wire",
                           Show(*wire, node)));
  }
}

void CheckDamper(const Part& member, const std::optional<Span>& span, Report& report) {
  const Node& node = member.node();
  const auto shortest = NumberAt(node, "shortest");
  const auto longest = NumberAt(node, "longest");
  if (shortest && longest && *shortest >= *longest) {
    return AddErrorAt(report, member, "longest",
                      fmt::format("it is not more than the shortest, {}", Show(*shortest, node)));
  }
  if (!span) return;
  const double length = MeasuredLength(*span);
  if (shortest && length < *shortest) {
    AddErrorAt(report, member, "shortest",
               fmt::format("the eyes are {} apart as measured, less than the shortest, {}",
                           Show(length, node), Show(*shortest, node)));
  }
  if (longest && length > *longest) {
    AddErrorAt(report, member, "longest",
               fmt::format("the eyes are {} apart as measured, more than the longest, {}",
                           Show(length, node), Show(*longest, node)));
  }
}

void CheckStrap(const Part& member, const Span& span, Report& report) {
  const auto length = NumberAt(member.node(), "length");
  if (!length || *length >= MeasuredLength(span)) return;
  AddErrorAt(report, member, "length",
             fmt::format("its ends are {} apart as measured, more than its length",
                         Show(MeasuredLength(span), member.node())));
}

void CheckSteeringRods(const Part& axle, Report& report) {
  const auto steering = PartAt(axle, "steering");
  if (!steering) return;
  const auto drag_link = PartAt(*steering, "drag_link");
  const auto span = drag_link ? SpanAt(drag_link->node()) : std::nullopt;
  if (span) CheckLength(*drag_link, *span, report);

  const auto rod = PartAt(*steering, "tie_rod");
  const auto left = rod ? PointAt(rod->node(), "left") : std::nullopt;
  if (!left) return;
  const auto right = PointAt(rod->node(), "right");
  const double right_y = right ? right->y() : -left->y();
  if (left->y() > right_y) return;
  AddErrorAt(report, *rod, "left",
             fmt::format("y is {}, not to the left of the right end at {} (y points left)",
                         Show(left->y(), rod->node()), Show(right_y, rod->node())));
}

}  // namespace

void CheckMembers(const Part& vehicle, const Part& axle, Report& report) {
  for (const std::string_view kind : {"links", "springs", "bump_stops", "dampers", "straps"}) {
    const bool has_seats = kind == "springs" || kind == "bump_stops";
    for (const Part& member : PartsAt(axle, kind)) {
      const std::optional<Span> span = SpanAt(member.node());
      if (span) {
        CheckPair(member, *span, report);
        if (has_seats) {
          CheckSeats(member, *span, report);
        } else {
          CheckLength(member, *span, report);
        }
      }
      if (has_seats) CheckCurve(member, span, report);
      if (kind == "springs") {
        CheckSpring(member, span, report);
        CheckWeighed(vehicle, axle, member, report);
      }
      if (kind == "dampers") CheckDamper(member, span, report);
      if (kind == "straps" && span) CheckStrap(member, *span, report);
    }
  }
  CheckArms(axle, report);
  CheckSteeringRods(axle, report);
}

}  // namespace linkwright
