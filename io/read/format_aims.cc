// SPDX-License-Identifier: MIT
// The format table: what `check`, `limits`, `openings`, `roll` and `ride` hold a vehicle against,
// and where each figure comes from.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

}  // namespace

Table<Aims> KeysOf(Of<Aims>) {
  return {
      "aims",
      "aims",
      {Aim(&Aims::coil_preload, "coil_preload", D::kLength, "1/4 in",
           "Least squeeze of a coil at full droop, so that it stays seated (common "
           "practice)."),
       Aim(&Aims::coil_gap, "coil_gap", D::kLength, "1/4 in",
           "Least length left before a coil is solid at full bump (common practice)."),
       Aim(&Aims::stop_crush, "stop_crush", D::kNumber, "0.25",
           "Least share of its free length that a stop crushes; less is a stop taken as "
           "rigid: a 70 mm foam stop crushes to 28 (common practice)."),
       Aim(&Aims::height_change, "height_change", D::kLength, "1/4 in",
           "Most that a wheel may sit elsewhere in its opening at rest than as measured "
           "(common practice)."),
       Aim(&Aims::tire_squash, "tire_squash", D::kNumber, "0.01",
           "Least share of its radius that a tyre flattens as measured; less, and its "
           "nominal size was taken for its loaded radius (common practice)."),
       Aim(&Aims::mirror, "mirror", D::kLength, "1/16 in",
           "Most that a right member may differ from the left one's mirror image (common "
           "practice)."),
       Aim(&Aims::triangulation, "triangulation", D::kAngle, "40 deg",
           "Least angle, seen from above, between two arms that alone hold an axle "
           "sideways (common practice)."),
       Aim(&Aims::pitch, "pitch", D::kAngle, "3 deg",
           "Most that a housing may turn over its travel; under 2 is good (common "
           "practice)."),
       Aim(&Aims::link_slope, "link_slope", D::kAngle, "12 deg",
           "Most slope of a fore-and-aft link at rest, from the side; 15 to 18 off the "
           "street (common practice)."),
       Aim(&Aims::roll_steer, "roll_steer", D::kAngleRatio, "0.10",
           "Most roll steer at rest, either way (common practice)."),
       Aim(&Aims::frequency, "frequency", D::kFrequency, "1.8",
           "Highest ride frequency at rest: a donor's springs under a lighter body "
           "(common practice)."),
       Aim(&Aims::side_to_side, "side_to_side", D::kLength, "12 mm",
           "Most that one axle's wheels may differ in travel at rest (General Motors trim "
           "height)."),
       Aim(&Aims::bump_left, "bump_left", D::kLength, "2 in",
           "Least bump travel left at rest on a paved road (street-rod inspection lists)."),
       Aim(&Aims::damper_reserve, "damper_reserve", D::kLength, "1/2 in",
           "Least length left in a damper, closed and open, wherever stops and straps let "
           "the axle go: `limits` orders dampers with it (common practice)."),
       Aim(&Aims::damper_dead_length, "damper_dead_length", D::kLength, "25 mm",
           "What the body, eyes and piston of a damper take beside its stroke: `limits` calls an "
           "order impossible that is shorter closed than its stroke and this (the least that any "
           "damper has; common practice: 100 mm and more)."),
       Aim(&Aims::damper_left, "damper_left", D::kLength, "2 in",
           "Least length left in a damper at rest, either way (street-rod inspection "
           "lists)."),
       Aim(&Aims::slip_at_bump, "slip_at_bump", D::kLength, "3/4 in",
           "Least length left before a spline bottoms at full bump, or at full droop where that "
           "is "
           "the way it goes in (common practice)."),
       Aim(&Aims::slip_at_droop, "slip_at_droop", D::kLength, "1 1/2 in",
           "Least length of a spline still engaged at full droop, or at full bump where that is "
           "the way it comes out, of its `slip` (common practice)."),
       Aim(&Aims::joint_reserve, "joint_reserve", D::kAngle, "2 deg",
           "Least misalignment left in a link's joint where the travel ends (joint makers; "
           "common practice)."),
       Aim(&Aims::tire_clearance, "tire_clearance", D::kLength, "25 mm",
           "Least gap of a tyre to its opening's lip and to its inner panel, at full bump, "
           "crossed and lock to lock (British Columbia inspection; as quoted)."),
       Aim(&Aims::wheel_off_center, "wheel_off_center", D::kLength, "1/4 in",
           "Most that a hub may stand ahead of, behind, above or below its opening's centre "
           "at rest (common practice)."),
       Aim(&Aims::scales, "scales", D::kNumber, "0.03",
           "Most that coils may differ from scales, of the weight (common practice)."),
       Aim(&Aims::hub_height, "hub_height", D::kLength, "12 mm",
           "Most that a measured hub height may differ from what its tyre holds (General "
           "Motors trim height)."),
       Aim(&Aims::tire_radius, "tire_radius", D::kLength, "3 mm",
           "Most that a tyre's given radius may differ from the one that makes it stand at its "
           "measured height under what its scale showed (this program's own choice)."),
       Aim(&Aims::weighed_pair, "weighed_pair", D::kLength, "6 mm",
           "Most that the free lengths of a pair of weighed coils may differ (this program's own "
           "choice)."),
       Aim(&Aims::arm_misfit, "arm_misfit", D::kLength, "10 mm",
           "Most that an arm may be longer or shorter than its two holes are apart with the axle "
           "as measured (this program's own choice)."),
       Aim(&Aims::arm_pitch, "arm_pitch", D::kAngle, "3 deg",
           "Most that arms which do not fit their holes may pitch a housing off its measured "
           "stance (common practice for pitch over the travel)."),
       Aim(&Aims::gap, "gap", D::kLength, "1 in",
           "Least distance of a gap over the travel, unless the gap has its own (British "
           "Columbia inspection, for tyres; as quoted)."),
       Number(&Aims::link_force, "link_force", D::kForce, kPositive,
              "Most force from links fighting one another at crossed extremes; not pointed at "
              "unless given."),
       // How it rides and leans.
       Aim(&Aims::damping_least, "damping_least", D::kNumber, "0.20",
           "Least damping ratio of bounce, pitch and roll, by the whole model that `ride` shows "
           "(common practice: 0.2 to 0.4)."),
       Aim(&Aims::damping_most, "damping_most", D::kNumber, "0.40",
           "Greatest damping ratio of the same (common practice)."),
       Aim(&Aims::flat_ride_least, "flat_ride_least", D::kNumber, "1.10",
           "Least rear ride frequency over the front one for a flat ride (damper makers' notes)."),
       Aim(&Aims::flat_ride_most, "flat_ride_most", D::kNumber, "1.20",
           "Greatest of the same (damper makers' notes)."),
       Aim(&Aims::hop_least, "hop_least", D::kFrequency, "8",
           "Least frequency of wheel hop (course notes)."),
       Aim(&Aims::hop_most, "hop_most", D::kFrequency, "14",
           "Greatest frequency of wheel hop (course notes)."),
       Aim(&Aims::tire_grip, "tire_grip", D::kLateral, "0.8",
           "Sideways acceleration that road tyres hold: `roll` warns where a wheel lifts or it "
           "goes over before that (common practice).")}};
}

}  // namespace linkwright
