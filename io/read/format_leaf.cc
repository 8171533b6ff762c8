// SPDX-License-Identifier: MIT
// The format table: the leaf springs of the vehicle a body came from.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

template <typename To>
auto Length(To to, std::string_view name, Range range, std::string_view meaning) {
  return Number(to, name, D::kLength, range, meaning);
}

}  // namespace

Table<LeafOriginal> KeysOf(Of<LeafOriginal>) {
  return {"leaf_original",
          "leaf_original",
          {Map(Into(&LeafOriginal::axles, kFront), "front", "leaf_spring",
               "The old front spring, left or right."),
           Map(Into(&LeafOriginal::axles, kRear), "rear", "leaf_spring", "The old rear spring."),
           Length(&LeafOriginal::wheelbase_now, "wheelbase_now", kPositive,
                  "Hub to hub on the old vehicle as it stands now: a check, and with only one "
                  "spring given the base of the design wheelbase."),
           Length(&LeafOriginal::wheelbase_design, "wheelbase_design", kPositive,
                  "The wheelbase when new as the maker printed it: weighed against the readings."),
           SideView(
               &LeafOriginal::p_CD, "datum",
               "Where the old frame's datum (its x = 0, z = 0) lies in this file's axes once the "
               "body sits where you want it, [x, z], the old frame level with the new one. With it "
               "the designed wheel centres are compared with `openings`."),
           Formerly("limits",
                    Map(&LeafOriginal::aims, "aims", "leaf_aims", "What `original` points at.")),
           Map(&LeafOriginal::tolerances, "tolerances", "leaf_tolerances",
               "How far each kind of reading is usually off: by this `original` weighs them.")},
          {{RuleKind::kAtLeastOne, {"front", "rear"}}}};
}

Table<LeafSpring> KeysOf(Of<LeafSpring>) {
  return {
      "leaf_spring",
      "leaf_original.front, leaf_original.rear",
      {Required(Word(Into(&LeafSpring::shackle_behind, "rear"), "shackled_end", {"front", "rear"},
                     "The end of the spring with the shackle.")),
       Required(SideView(&LeafSpring::p_DF, "fixed_eye",
                         "Centre of the bolt at the other end, [x, z] in the old frame's axes.")),
       Required(SideView(&LeafSpring::p_DS, "shackle_pivot",
                         "Centre of the shackle's bolt on the frame, the same.")),
       Required(Length(&LeafSpring::shackle, "shackle_length", kPositive,
                       "From the shackle's one bolt to its other, centre to centre.")),
       Default(Word(Into(&LeafSpring::hangs, "hangs"), "shackle", {"hangs", "stands"},
                    "hangs: the spring's eye is below its bolt on the frame; stands: above it."),
               "hangs"),
       Required(Length(&LeafSpring::arc_fixed, "arc_fixed", kPositive,
                       "Along the main leaf, tape laid on it, from under the centre of the fixed "
                       "eye to the centre bolt.")),
       Required(Length(&LeafSpring::arc_shackled, "arc_shackled", kPositive,
                       "The same, centre bolt to shackled eye.")),
       Default(Length(&LeafSpring::clamped, "clamped", kNotNegative,
                      "Length that U-bolts and pad hold flat, half of it to either side of the "
                      "centre bolt."),
               "0"),
       Default(
           Length(&LeafSpring::eye_up, "eye_up", kAny,
                  "Centre of an eye above the middle of the main leaf's thickness, square to "
                  "the leaf: half the eye's outside diameter less half the thickness for an eye "
                  "rolled up, minus that for one rolled down, 0 for one in line."),
           "0"),
       Required(Length(&LeafSpring::camber_new, "camber_new", kAny,
                       "Camber when the vehicle was new, standing on its wheels: a string through "
                       "both eyes' centres stands this far above the middle of the main leaf's "
                       "thickness at the centre bolt; minus where it stands below. A catalogue's "
                       "free camber is not it: if that is all there is, give camber_now plus what "
                       "the free camber has lost.")),
       Required(Length(&LeafSpring::camber_now, "camber_now", kAny,
                       "The same as it stands now, on its wheels and laden "
                       "alike.")),
       Required(Word(Into(&LeafSpring::over_axle, "over_axle"), "leaf", {"over_axle", "under_axle"},
                     "Where the spring lies: over_axle, the axle hangs below it; under_axle.")),
       Required(Length(&LeafSpring::to_wheel, "leaf_to_wheel", kNotNegative,
                       "From the middle of the main leaf's thickness at the centre bolt to the "
                       "wheel's centre, square to the leaf.")),
       Length(&LeafSpring::eyes_now, "eyes_now", kPositive,
              "From eye to eye, straight, as it stands now: a check of the other readings."),
       SideView(
           &LeafSpring::p_DB, "opening",
           "Centre of the body's wheel opening, [x, z] in the old frame's axes, measured on the "
           "old vehicle: a check of camber_new."),
       Length(&LeafSpring::eyes_new, "eyes_new", kPositive,
              "Eye to eye when new, as laden as for camber_new: a check of it."),
       Number(&LeafSpring::lean_now, "shackle_lean_now", D::kAngle, kSlope,
              "The shackle's lean from upright on the frame as it stands now, + with the leaf's "
              "eye rearward of the bolt on the frame: a check of the shackle and the arcs."),
       Length(&LeafSpring::bolts_apart, "bolts_apart", kPositive,
              "From the fixed eye's bolt to the shackle's bolt on the frame, straight: a check of "
              "both places."),
       SideView(&LeafSpring::p_DW_now, "wheel_now",
                "Centre of the wheel as it stands now, [x, z], plumbed to the same marks of the "
                "old frame: a check of the spring as it is now."),
       SideView(&LeafSpring::p_BW_now, "wheel_in_opening",
                "The same from the centre of the body's opening, [ahead, up]: a check of opening "
                "and camber_new.")}};
}

Table<LeafTolerances> KeysOf(Of<LeafTolerances>) {
  const auto sigma = [](auto to, std::string_view name, D dimension, std::string_view text,
                        std::string_view meaning) {
    return Default(Number(to, name, dimension, kPositive, meaning), text);
  };
  return {"leaf_tolerances",
          "leaf_original.tolerances",
          {sigma(&LeafTolerances::tape, "tape", D::kLength, "3 mm",
                 "A tape over a wheelbase; one sigma, as all of these: two readings in three are "
                 "nearer than that (common practice)."),
           sigma(&LeafTolerances::rule, "rule", D::kLength, "1.5 mm",
                 "A tape or rule over a shorter part: arcs, shackle, eye to eye (common "
                 "practice)."),
           sigma(&LeafTolerances::plumb, "plumb", D::kLength, "2 mm",
                 "A plumb bob: each coordinate of a bolt, a wheel or an opening (common "
                 "practice)."),
           sigma(&LeafTolerances::camber, "camber", D::kLength, "2 mm",
                 "The camber now, by string or straightedge (common practice)."),
           sigma(&LeafTolerances::camber_new, "camber_new", D::kLength, "6 mm",
                 "The camber when new, which nobody knows to the quarter inch (common practice)."),
           sigma(&LeafTolerances::angle, "angle", D::kAngle, "0.2 deg",
                 "An angle finder on a shackle (common practice)."),
           sigma(&LeafTolerances::maker, "maker", D::kLength, "1.5 mm",
                 "A length that the maker printed: wheelbase_design, eyes_new (common practice)."),
           sigma(&LeafTolerances::centred, "centred", D::kLength, "6 mm",
                 "How far fore and aft a wheel stood off its opening's centre when new: an "
                 "assumption (common practice)."),
           sigma(&LeafTolerances::unmoved, "unmoved", D::kLength, "6 mm",
                 "How far an axle whose spring is not given has moved since: an assumption "
                 "(common practice).")}};
}

Table<LeafAims> KeysOf(Of<LeafAims>) {
  return {
      "leaf_aims",
      "leaf_original.aims",
      {Aim(&LeafAims::off_centre, "off_center", D::kLength, "1/4 in",
           "Most that an old axle may have moved along the frame, and that a wheel when new may "
           "stand off its opening's centre (common practice)."),
       Aim(&LeafAims::spacing, "spacing", D::kLength, "1/4 in",
           "Most that the file's openings may be spaced otherwise than the old axles were "
           "designed (common practice)."),
       Aim(&LeafAims::eyes_differ, "eyes_differ", D::kLength, "1/4 in",
           "Most that eye to eye may differ, worked out against measured (common practice)."),
       Aim(&LeafAims::wheelbase_differ, "wheelbase_differ", D::kLength, "1/2 in",
           "Most that the present wheelbase may differ, worked out against measured (common "
           "practice)."),
       Aim(&LeafAims::swing_least, "swing_least", D::kAngle, "20 deg",
           "Least angle between a shackle and the line of the eyes: nearer to it a small error of "
           "camber swings the shackle far (common practice).")}};
}

}  // namespace linkwright
