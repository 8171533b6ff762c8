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
           SideView(
               &LeafOriginal::p_CD, "datum",
               "Where the old frame's datum (its x = 0, z = 0) lies in this file's axes once the "
               "body sits where you want it, [x, z], the old frame level with the new one. With it "
               "the designed wheel centres are compared with `openings`."),
           Formerly("limits",
                    Map(&LeafOriginal::aims, "aims", "leaf_aims", "What `original` points at."))},
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
           "old vehicle: a check of camber_new.")}};
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
