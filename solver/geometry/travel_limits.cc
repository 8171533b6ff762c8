// SPDX-License-Identifier: MIT
#include "solver/geometry/travel_limits.h"

#include <algorithm>

#include "solver/model/force_law.h"

namespace linkwright {
namespace {

double LengthAt(const Span& span, const AxleFrame& frame, const Eigen::Isometry3d& X_CA) {
  return (X_CA * OnHousing(frame, span.p_CQ) - span.p_CP).norm();
}

}  // namespace

std::vector<TravelMargin> TravelMargins(const Axle& axle, const AxleFrame& frame,
                                        const Eigen::Isometry3d& X_CA) {
  std::vector<TravelMargin> margins;
  for (const Damper& damper : axle.dampers) {
    const double length = LengthAt(damper.span, frame, X_CA);
    const std::string name = DisplayName(damper.name);
    if (damper.shortest)
      margins.push_back({TravelEnd::kDamperClosed, name, length - *damper.shortest});
    if (damper.longest) margins.push_back({TravelEnd::kDamperOpen, name, *damper.longest - length});
  }
  for (const Spring& spring : axle.springs) {
    const double length = LengthAt(spring.span, frame, X_CA);
    const std::string name = DisplayName(spring.name);
    // One end, even where the file has both: whichever comes first.
    const std::optional<double> bound = BoundLength(spring);
    if (bound) margins.push_back({TravelEnd::kCoilBound, name, length - *bound});
  }
  for (const Stop& stop : axle.bump_stops) {
    if (stop.law.curve.empty()) continue;
    const double length = LengthAt(stop.span, frame, X_CA);
    margins.push_back(
        {TravelEnd::kStopSolid, DisplayName(stop.name), length - SolidBelow(stop.law)});
  }
  for (const Strap& strap : axle.straps) {
    if (!strap.length) continue;
    margins.push_back({TravelEnd::kStrapTaut, DisplayName(strap.name),
                       *strap.length - LengthAt(strap.span, frame, X_CA)});
  }
  return margins;
}

std::optional<TravelMargin> PastEnd(const std::vector<TravelMargin>& margins) {
  std::optional<TravelMargin> worst;
  for (const TravelMargin& margin : margins) {
    if (margin.left >= -kEndTolerance) continue;
    if (!worst || margin.left < worst->left) worst = margin;
  }
  return worst;
}

std::string Describe(const TravelMargin& margin) {
  switch (margin.end) {
    case TravelEnd::kDamperClosed:
      return margin.member + " is fully closed";
    case TravelEnd::kDamperOpen:
      return margin.member + " is fully open";
    case TravelEnd::kCoilBound:
      return margin.member + " is coil-bound";
    case TravelEnd::kStopSolid:
      return margin.member + " is solid";
    case TravelEnd::kLinksStraight:
      return "its links line up and can follow no further (" + margin.member + " holds it most)";
    case TravelEnd::kDragLinkOutOfReach:
      return "the drag link cannot reach its knuckle";
    case TravelEnd::kCoilUnseated:
      return margin.member + " is off its seat";
    case TravelEnd::kStrapTaut:
      return margin.member + " is taut";
    case TravelEnd::kJointAtLimit:
      return margin.member + " is at its misalignment limit";
    case TravelEnd::kShaftBottomed:
      return margin.member + " bottoms in its slip";
    case TravelEnd::kShaftParted:
      return margin.member + " parts";
    case TravelEnd::kTireOnLip:
      return margin.member + " touches its opening";
    case TravelEnd::kTireOnPanel:
      return margin.member + " touches its inner panel";
  }
  return margin.member;
}

}  // namespace linkwright
