// SPDX-License-Identifier: MIT
// The format table: what locates an axle besides plain links.
#include "io/read/format_keys.h"

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

std::vector<Group> ArmGroups() {
  return {
      {"a_arm",
       "axles.A.a_arms.NAME",
       {PairFlag(), Required(Point("first_eye", "One of its two eyes on the chassis.")),
        Point("second_eye", "The other, where it is not the first one's mirror image."),
        Required(Point("axle", "Its point on the axle.")),
        Default(Number("rate", D::kRate, kPositive,
                       "Stiffness along each leg with its bushings in it; it matters only where "
                       "an axle is held more than four ways."),
                "5 kN/mm")},
       {}},
      {"radius_arm",
       "axles.A.radius_arms.NAME",
       {PairFlag(), Required(Point("frame", "Its eye on the chassis.")),
        Required(Point("first_eye", "One of its two eyes on the axle.")),
        Required(Point("second_eye", "The other.")),
        Radial("frame_rate", "Radial stiffness of the bushing on the chassis."),
        Radial("axle_rate", "Radial stiffness of each of the two bushings on the axle.")},
       {}},
      {"watts_link",
       "axles.A.watts_links.NAME",
       {Default(Word("crank_on", {"axle", "frame"}, "What the crank's pivot is bolted to."),
                "axle"),
        Required(Point("pivot", "Centre of the crank's pivot.")),
        Point("bolt",
              "Another point along the pivot's bolt; without it the bolt lies fore and aft."),
        Required(Point("first_crank", "First link: its end at the crank.")),
        Required(Point("first_far", "First link: its other end.")),
        Required(Point("second_crank", "Second link: its end at the crank.")),
        Required(Point("second_far", "Second link: its other end.")),
        Default(Number("rate", D::kRate, kPositive,
                       "Stiffness along each link with its bushings in it; it matters only where "
                       "an axle is held more than four ways."),
                "5 kN/mm")},
       {}},
  };
}

}  // namespace linkwright
