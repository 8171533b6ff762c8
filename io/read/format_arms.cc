// SPDX-License-Identifier: MIT
// The format table: what locates an axle besides plain links.
#include "io/read/build_vehicle.h"
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

Key PairFlag() {
  return Default({.name = "pair",
                  .kind = Kind::kFlag,
                  .meaning = "true: the left one is given (y more than 0) and the right one is its "
                             "mirror image."},
                 "false");
}

Key Radial(std::string_view name, std::string_view meaning) {
  return Default(Number(name, D::kRate, kPositive, meaning), "10 kN/mm");
}

}  // namespace

const Table<AArm>& KeysOf(Of<AArm>) {
  static const Table<AArm> table{
      "a_arm",
      "axles.A.a_arms.NAME",
      {PairFlag(),
       {&AArm::p_CP, 0, Required(Point("first_eye", "One of its two eyes on the chassis."))},
       {&AArm::p_CP, 1,
        Point("second_eye", "The other, where it is not the first one's mirror image.")},
       {&AArm::p_CQ, Required(Point("axle", "Its point on the axle."))},
       {&AArm::rate,
        Default(Number("rate", D::kRate, kPositive,
                       "Stiffness along each leg with its bushings in it; it matters only where "
                       "an axle is held more than four ways."),
                "5 kN/mm")}},
      {},
      Complete};
  return table;
}

const Table<RadiusArm>& KeysOf(Of<RadiusArm>) {
  static const Table<RadiusArm> table{
      "radius_arm",
      "axles.A.radius_arms.NAME",
      {PairFlag(),
       {&RadiusArm::p_CP, Required(Point("frame", "Its eye on the chassis."))},
       {&RadiusArm::p_CQ, 0, Required(Point("first_eye", "One of its two eyes on the axle."))},
       {&RadiusArm::p_CQ, 1, Required(Point("second_eye", "The other."))},
       {&RadiusArm::frame_rate,
        Radial("frame_rate", "Radial stiffness of the bushing on the chassis.")},
       {&RadiusArm::axle_rate,
        Radial("axle_rate", "Radial stiffness of each of the two bushings on the axle.")}}};
  return table;
}

const Table<WattsLink>& KeysOf(Of<WattsLink>) {
  static const Table<WattsLink> table{
      "watts_link",
      "axles.A.watts_links.NAME",
      {{&WattsLink::on_housing, "axle",
        Default(Word("crank_on", {"axle", "frame"}, "What the crank's pivot is bolted to."),
                "axle")},
       {&WattsLink::pivot, Required(Point("pivot", "Centre of the crank's pivot."))},
       Point("bolt",
             "Another point along the pivot's bolt; without it the bolt lies fore and aft."),
       {&WattsLink::end, 0, Required(Point("first_crank", "First link: its end at the crank."))},
       {&WattsLink::far, 0, Required(Point("first_far", "First link: its other end."))},
       {&WattsLink::end, 1, Required(Point("second_crank", "Second link: its end at the crank."))},
       {&WattsLink::far, 1, Required(Point("second_far", "Second link: its other end."))},
       {&WattsLink::rate,
        Default(Number("rate", D::kRate, kPositive,
                       "Stiffness along each link with its bushings in it; it matters only where "
                       "an axle is held more than four ways."),
                "5 kN/mm")}},
      {},
      Complete};
  return table;
}

}  // namespace linkwright
