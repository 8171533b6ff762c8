// SPDX-License-Identifier: MIT
#include "solver/model/places.h"

namespace linkwright {

void VisitPlaces(Axle& axle, const VisitPlace& on_chassis, const VisitPlace& on_housing) {
  on_housing(axle.p_CW_l), on_housing(axle.p_CW_r);
  if (axle.unsprung) on_housing(axle.unsprung->p_CM);
  const auto spans = [&](auto& members) {
    for (auto& member : members) on_chassis(member.span.p_CP), on_housing(member.span.p_CQ);
  };
  spans(axle.links), spans(axle.springs), spans(axle.bump_stops), spans(axle.dampers);
  spans(axle.straps), spans(axle.gaps);
  for (AArm& arm : axle.a_arms) {
    on_chassis(arm.p_CP[0]), on_chassis(arm.p_CP[1]), on_housing(arm.p_CQ);
  }
  for (RadiusArm& arm : axle.radius_arms) {
    on_chassis(arm.p_CP), on_housing(arm.p_CQ[0]), on_housing(arm.p_CQ[1]);
  }
  for (WattsLink& watts : axle.watts_links) {
    // The crank is on the body of its pivot, the far ends on the other.
    const VisitPlace& own = watts.on_housing ? on_housing : on_chassis;
    const VisitPlace& other = watts.on_housing ? on_chassis : on_housing;
    own(watts.pivot);
    for (size_t i = 0; i < 2; ++i) own(watts.end[i]), other(watts.far[i]);
  }
  if (axle.pinion) on_housing(axle.pinion->p_CY);
  if (axle.kingpin && axle.kingpin->p_CK) on_housing(*axle.kingpin->p_CK);
  if (!axle.steering) return;
  on_chassis(axle.steering->drag_link.p_CP), on_housing(axle.steering->drag_link.p_CQ);
  if (TieRod* rod = axle.steering->tie_rod ? &*axle.steering->tie_rod : nullptr) {
    on_housing(rod->p_CL), on_housing(rod->p_CR);
  }
}

}  // namespace linkwright
