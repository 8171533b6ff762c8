// SPDX-License-Identifier: MIT
// The format table: the leaf springs of the vehicle a body came from.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

Key Length(std::string_view name, Range range, std::string_view meaning) {
  return Number(name, D::kLength, range, meaning);
}

std::vector<BoundKey<LeafSpring>> FrameKeys() {
  return {
      {&LeafSpring::shackle_behind, "rear",
       Required(
           Word("shackled_end", {"front", "rear"}, "The end of the spring with the shackle."))},
      {&LeafSpring::p_DF,
       Required(SideView("fixed_eye",
                         "Centre of the bolt at the other end, [x, z] in the old frame's axes."))},
      {&LeafSpring::p_DS,
       Required(SideView("shackle_pivot", "Centre of the shackle's bolt on the frame, the same."))},
      {&LeafSpring::shackle,
       Required(Length("shackle_length", kPositive,
                       "From the shackle's one bolt to its other, centre to centre."))},
      {&LeafSpring::hangs, "hangs",
       Default(Word("shackle", {"hangs", "stands"},
                    "hangs: the spring's eye is below its bolt on the frame; stands: above it."),
               "hangs")},
  };
}

std::vector<BoundKey<LeafSpring>> LeafKeys() {
  return {
      {&LeafSpring::arc_fixed,
       Required(Length("arc_fixed", kPositive,
                       "Along the main leaf, tape laid on it, from under the centre of the fixed "
                       "eye to the centre bolt."))},
      {&LeafSpring::arc_shackled,
       Required(Length("arc_shackled", kPositive, "The same, centre bolt to shackled eye."))},
      {&LeafSpring::clamped,
       Default(Length("clamped", kNotNegative,
                      "Length that U-bolts and pad hold flat, half of it to either side of the "
                      "centre bolt."),
               "0")},
      {&LeafSpring::eye_up,
       Default(
           Length("eye_up", kAny,
                  "Centre of an eye above the middle of the main leaf's thickness, square to "
                  "the leaf: half the eye's outside diameter less half the thickness for an eye "
                  "rolled up, minus that for one rolled down, 0 for one in line."),
           "0")},
      {&LeafSpring::camber_new,
       Required(Length("camber_new", kAny,
                       "Camber when the vehicle was new, standing on its wheels: a string through "
                       "both eyes' centres stands this far above the middle of the main leaf's "
                       "thickness at the centre bolt; minus where it stands below. A catalogue's "
                       "free camber is not it: if that is all there is, give camber_now plus what "
                       "the free camber has lost."))},
      {&LeafSpring::camber_now,
       Required(Length("camber_now", kAny,
                       "The same as it stands now, on its wheels and laden "
                       "alike."))},
      {&LeafSpring::over_axle, "over_axle",
       Required(Word("leaf", {"over_axle", "under_axle"},
                     "Where the spring lies: over_axle, the axle hangs below it; under_axle."))},
      {&LeafSpring::to_wheel,
       Required(Length("leaf_to_wheel", kNotNegative,
                       "From the middle of the main leaf's thickness at the centre bolt to the "
                       "wheel's centre, square to the leaf."))},
      {&LeafSpring::eyes_now,
       Length("eyes_now", kPositive,
              "From eye to eye, straight, as it stands now: a check of the other readings.")},
      {&LeafSpring::p_DB,
       SideView(
           "opening",
           "Centre of the body's wheel opening, [x, z] in the old frame's axes, measured on the "
           "old vehicle: a check of camber_new.")},
  };
}

std::vector<BoundKey<LeafAims>> AimKeys() {
  const auto aim = [](std::string_view name, D dimension, std::string_view text,
                      std::string_view meaning) {
    return Default(Number(name, dimension, kNotNegative, meaning), text);
  };
  return {
      {&LeafAims::off_centre,
       aim("off_center", D::kLength, "1/4 in",
           "Most that an old axle may have moved along the frame, and that a wheel when new may "
           "stand off its opening's centre (common practice).")},
      {&LeafAims::spacing,
       aim("spacing", D::kLength, "1/4 in",
           "Most that the file's openings may be spaced otherwise than the old axles were "
           "designed (common practice).")},
      {&LeafAims::eyes_differ,
       aim("eyes_differ", D::kLength, "1/4 in",
           "Most that eye to eye may differ, worked out against measured (common practice).")},
      {&LeafAims::wheelbase_differ,
       aim("wheelbase_differ", D::kLength, "1/2 in",
           "Most that the present wheelbase may differ, worked out against measured (common "
           "practice).")},
      {&LeafAims::swing_least,
       aim("swing_least", D::kAngle, "20 deg",
           "Least angle between a shackle and the line of the eyes: nearer to it a small error of "
           "camber swings the shackle far (common practice).")},
  };
}

}  // namespace

const Table<LeafOriginal>& KeysOf(Of<LeafOriginal>) {
  static const Table<LeafOriginal> table{
      "leaf_original",
      "leaf_original",
      {{&LeafOriginal::axles, kFront,
        Map("front", "leaf_spring", "The old front spring, left or right.")},
       {&LeafOriginal::axles, kRear, Map("rear", "leaf_spring", "The old rear spring.")},
       {&LeafOriginal::wheelbase_now,
        Length("wheelbase_now", kPositive,
               "Hub to hub on the old vehicle as it stands now: a check, and with only one "
               "spring given the base of the design wheelbase.")},
       {&LeafOriginal::p_CD,
        SideView(
            "datum",
            "Where the old frame's datum (its x = 0, z = 0) lies in this file's axes once the "
            "body sits where you want it, [x, z], the old frame level with the new one. With it "
            "the designed wheel centres are compared with `openings`.")},
       {&LeafOriginal::aims,
        Formerly("limits", Map("aims", "leaf_aims", "What `original` points at."))}},
      {{RuleKind::kAtLeastOne, {"front", "rear"}}}};
  return table;
}

const Table<LeafSpring>& KeysOf(Of<LeafSpring>) {
  static const Table<LeafSpring> table = [] {
    std::vector<BoundKey<LeafSpring>> keys = FrameKeys();
    for (const auto& key : LeafKeys()) keys.push_back(key);
    return Table<LeafSpring>{"leaf_spring", "leaf_original.front, leaf_original.rear", keys};
  }();
  return table;
}

const Table<LeafAims>& KeysOf(Of<LeafAims>) {
  static const Table<LeafAims> table{"leaf_aims", "leaf_original.aims", AimKeys()};
  return table;
}

}  // namespace linkwright
