// SPDX-License-Identifier: MIT
// Checks of the members between chassis and axle, in the measured stance.
#include <fmt/format.h>

#include "io/read/check.h"

namespace linkwright {
namespace {

void CheckPair(const Part& member, const Span& span, Report& report) {
  CheckPairSide(member, {"frame", "axle"}, report);
  if (!FlagAt(member.node, "pair") || span.p_CP.y() != 0.0 || span.p_CQ.y() != 0.0) return;
  AddErrorAt(report, member, "pair",
             "both ends stand at y = 0, so left and right would be the same; leave 'pair' out");
}

void CheckLength(const Part& member, Report& report) {
  CheckApart(member, "axle", PointAt(member.node, "frame"), "'frame'; the two ends lie apart",
             report);
}

void CheckSeats(const Part& member, const Span& span, Report& report) {
  if (span.p_CP.z() > span.p_CQ.z()) return;
  AddErrorAt(report, member, "axle",
             "the axle seat (z {}) is not below the chassis seat (z {}); are 'frame' "
             "and 'axle' swapped?",
             span.p_CQ.z(), span.p_CP.z());
}

void CheckCurve(const Part& member, const std::optional<Span>& span, Report& report) {
  const Node* points = Find(member.node, "curve");
  const std::vector<CurvePoint> curve = CurveOf(points);
  if (points == nullptr || curve.size() < 2 || curve.size() != points->items.size()) return;
  for (std::size_t i = 1; i < curve.size(); ++i) {
    if (curve[i].deflection > curve[i - 1].deflection) continue;
    return AddError(
        report, points->items[i].place, ItemPath(JoinPath(member.path, "curve"), i),
        fmt::format("deflection {} does not follow {}; deflections rise from point to "
                    "point",
                    Show(curve[i].deflection, *points), Show(curve[i - 1].deflection, *points)));
  }
  const auto free_length = NumberAt(member.node, "free_length");
  if (!free_length) return;
  const double last = curve.back().deflection;
  if (last >= *free_length) {
    return AddErrorAt(report, member, "curve",
                      "its last deflection, {}, is not less than the free length, {}",
                      Show(last, *points), Show(*free_length, *points));
  }
  if (!span || *free_length - MeasuredLength(*span) <= last) return;
  AddErrorAt(report, member, "curve",
             "it ends at {} of deflection, and the measured length of {} is {} short "
             "of the free length; check the seats, or measure the curve further",
             Show(last, *points), Show(MeasuredLength(*span), *points),
             Show(*free_length - MeasuredLength(*span), *points));
}

// Refuses a length of a member that its measured one cannot be below, or above.
//   ends   "the seats"
//   than   "less than the solid length", as a sentence goes on with it
void CheckMeasured(const Part& member, std::string_view key, bool below, double measured,
                   std::string_view ends, std::string_view than, Report& report) {
  const auto limit = NumberAt(member.node, key);
  if (!limit || (below ? measured >= *limit : measured <= *limit)) return;
  AddErrorAt(report, member, key, "{} are {} apart as measured, {}, {}", ends, measured, than,
             *limit);
}

void CheckSpring(const Part& member, const std::optional<Span>& span, Report& report) {
  CheckMore(member, "free_length", "solid_length", "the solid length", report);
  if (span) {
    CheckMeasured(member, "solid_length", true, MeasuredLength(*span), "the seats",
                  "less than the solid length", report);
  }
  CheckMore(member, "mean_diameter", "wire", "the wire", report,
            "; the mean diameter is the outside less one wire");
}

// A spacer leaves room for a coil or stop that is solid in the measured stance, as moved seats do.
void CheckSpacer(const Part& member, const Span& span, Report& report) {
  const double spacer = NumberAt(member.node, "spacer").value_or(0.0);
  if (spacer <= 0.0) return;
  double solid = NumberAt(member.node, "solid_length").value_or(0.0);
  const std::vector<CurvePoint> curve = CurveOf(Find(member.node, "curve"));
  const auto free_length = NumberAt(member.node, "free_length");
  if (TextAt(member.node, "solid_length").empty() && !curve.empty() && free_length) {
    solid = *free_length - curve.back().deflection;
  }
  const double measured = MeasuredLength(span);
  if (spacer >= measured) {
    return AddErrorAt(report, member, "spacer", "it is no shorter than the seats are apart, {}",
                      measured);
  }
  if (measured - spacer > solid) return;
  AddErrorAt(report, member, "spacer",
             "it leaves {} between the seats as measured, no more than it has when solid, {}",
             measured - spacer, solid);
}

void CheckDamper(const Part& member, const std::optional<Span>& span, Report& report) {
  const auto shortest = NumberAt(member.node, "shortest");
  const auto longest = NumberAt(member.node, "longest");
  CheckMore(member, "longest", "shortest", "the shortest", report);
  if (!span || (shortest && longest && *shortest >= *longest)) return;
  const double length = MeasuredLength(*span);
  CheckMeasured(member, "shortest", true, length, "the eyes", "less than the shortest", report);
  CheckMeasured(member, "longest", false, length, "the eyes", "more than the longest", report);
}

void CheckStrap(const Part& member, const Span& span, Report& report) {
  const auto length = NumberAt(member.node, "length");
  if (!length || *length >= MeasuredLength(span)) return;
  AddErrorAt(report, member, "length", "its ends are {} apart as measured, more than its length",
             MeasuredLength(span));
}

void CheckSteeringRods(const Part& axle, Report& report) {
  const Part steering = PartAt(axle, "steering");
  CheckLength(PartAt(steering, "drag_link"), report);
  const Part rod = PartAt(steering, "tie_rod");
  const auto left = PointAt(rod.node, "left");
  if (!left) return;
  const auto right = PointAt(rod.node, "right");
  const double right_y = right ? right->y() : -left->y();
  if (left->y() > right_y) return;
  AddErrorAt(report, rod, "left", "y is {}, not to the left of the right end at {} (y points left)",
             left->y(), right_y);
}

}  // namespace

void CheckMembers(const Part& vehicle, const Part& axle, const Eigen::Isometry3d& moved,
                  Report& report) {
  for (const std::string_view kind : {"links", "springs", "bump_stops", "dampers", "straps"}) {
    const bool has_seats = kind == "springs" || kind == "bump_stops";
    for (const Part& member : PartsAt(axle, kind)) {
      std::optional<Span> span = SpanAt(member.node);
      if (span) span->p_CQ = moved * span->p_CQ;
      if (span) {
        CheckPair(member, *span, report);
        if (has_seats) {
          CheckSeats(member, *span, report);
        } else {
          CheckLength(member, report);
        }
      }
      if (has_seats) CheckCurve(member, span, report);
      if (has_seats && span) CheckSpacer(member, *span, report);
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
