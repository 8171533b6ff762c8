// SPDX-License-Identifier: MIT
// The format table: what stands under axles.front and axles.rear.
#include "io/read/format_keys.h"

namespace linkwright {
namespace {

using D = Dimension;

Group AxleGroup() {
  return {
      "axle",
      "axles.front, axles.rear",
      {
          Required(Point("wheel_center", "Centre of the left wheel; its y is half the track.")),
          Point("wheel_center_right",
                "Centre of the right wheel, where it is not the left one's mirror image."),
          Part("tire", "tire", "The tyres of this axle."),
          Part("unsprung", "unsprung",
               "The mass that moves with the axle: housing, wheels, brakes, half the links and "
               "coils; required unless the file is geometry only."),
          Number("drive_share", D::kNumber, kShare, "Share of the drive torque at this axle."),
          Number("brake_share", D::kNumber, kShare, "Share of the brake force at this axle."),
          Part("kingpin", "kingpin", "The axis a steered wheel turns about; the left one."),
          Part("links", "link",
               "The links (control arms, track bar), each under a name of your own.", Many::kNamed),
          Part("a_arms", "a_arm", "A-shaped arms, each under a name of your own.", Many::kNamed),
          Part("radius_arms", "radius_arm",
               "Radius arms, ladder bars, a torque arm, each under a name of your own.",
               Many::kNamed),
          Part("watts_links", "watts_link", "Watt's links, each under a name of your own.",
               Many::kNamed),
          Part("springs", "spring", "The coils, each under a name of your own.", Many::kNamed),
          Part("bump_stops", "bump_stop", "The bump stops, each under a name of your own.",
               Many::kNamed),
          Part("dampers", "damper", "The dampers, each under a name of your own.", Many::kNamed),
          Part("gaps", "gap",
               "Points of chassis and axle that must keep clear of one another, as oil pan and "
               "housing, each under a name of your own.",
               Many::kNamed),
          Number("rating", D::kMass, kPositive, "What the axle may carry on the floor."),
          Part("straps", "strap",
               "Straps that hold the axle up in droop, each under a name of your own.",
               Many::kNamed),
          Part("steering", "steering", "The steering linkage to this axle."),
          Part("anti_roll_bar", "anti_roll_bar", "The anti-roll bar, free in the measured stance."),
          Part("pinion", "pinion", "The pinion shaft of a driven axle."),
          Default(Number("sideways_most", D::kLength, kNotNegative,
                         "How far to the side the axle may stand at rest before it is pointed at; "
                         "1/4 in is what the eye sees (common practice)."),
                  "1/4 in"),
      },
      {{RuleKind::kAtLeastOne, {"links", "a_arms", "radius_arms", "watts_links"}}}};
}

// What every member between chassis and axle has, and more.
std::vector<Key> MemberKeys(const std::vector<Key>& more) {
  std::vector<Key> keys = {
      Default({.name = "pair",
               .kind = Kind::kFlag,
               .meaning = "true: the left member is given (y more than 0) and the right one is its "
                          "mirror image."},
              "false"),
      Required(Point("frame", "The end on the chassis.")),
      Required(Point("axle", "The end on the axle.")),
  };
  keys.insert(keys.end(), more.begin(), more.end());
  return keys;
}

Group LinkGroup() {
  return {"link", "axles.A.links.NAME",
          MemberKeys({Default(Number("rate", D::kRate, kPositive,
                                     "Stiffness along the link with both bushings in it; it "
                                     "matters where an axle has more than four links, and where "
                                     "torque winds the pinion up."),
                              "5 kN/mm"),
                      Number("thread", D::kLength, kPositive,
                             "How much one turn of its adjuster lengthens it: the thread's pitch, "
                             "or the sum of both pitches where one end has a left-hand thread."),
                      Number("misalignment_limit", D::kAngle, kJointLimit,
                             "How far either joint may be out of line with its bolt, counted from "
                             "the measured stance, before it binds.")})};
}

Key CurveKey(std::string_view meaning) {
  return {.name = "curve", .kind = Kind::kCurve, .meaning = meaning};
}

Group SpringGroup() {
  Key free_length =
      Number("free_length", D::kLength, kPositive,
             "Length with nothing on it; or weighed: what makes the pair carry the weighed axle "
             "load less its unsprung mass at the measured length.");
  free_length.words = {"weighed"};
  return {"spring",
          "axles.A.springs.NAME",
          MemberKeys({
              Number("rate", D::kRate, kPositive, "Force per deflection."),
              CurveKey("Measured points, deflection from the free length and force."),
              Number("wire", D::kLength, kPositive,
                     "Wire diameter of a helical coil; its rate is worked out."),
              Number("mean_diameter", D::kLength, kPositive,
                     "Mean diameter of the coil: outside less one wire."),
              Number("active_coils", D::kNumber, kPositive,
                     "Coils that work: those not lying on a seat."),
              Default(Number("shear_modulus", D::kModulus, kAny,
                             "Shear modulus of the wire; the default is that of EN 13906-1."),
                      "81.5 GPa"),
              Required(free_length),
              Number("solid_length", D::kLength, kPositive,
                     "Length with every coil touching the next."),
              Default({.name = "keep_seated",
                       .kind = Kind::kFlag,
                       .meaning = "true: nothing but its load holds it in, so that travel ends "
                                  "where it would let go of its seats (limits)."},
                      "false"),
          }),
          {{RuleKind::kExactlyOne, {"rate", "curve", "wire"}},
           {RuleKind::kNeeds, {"wire", "mean_diameter", "active_coils"}},
           {RuleKind::kNeeds, {"mean_diameter", "wire"}},
           {RuleKind::kNeeds, {"active_coils", "wire"}},
           {RuleKind::kNeeds, {"shear_modulus", "wire"}}}};
}

Group StopGroup() {
  return {"bump_stop",
          "axles.A.bump_stops.NAME",
          MemberKeys({
              Required(Number("free_length", D::kLength, kPositive, "Length with nothing on it.")),
              CurveKey("Measured points, deflection from the free length and force; beyond the "
                       "last the stop is solid."),
              Number("rate", D::kRate, kPositive, "Force per deflection, where there is no curve."),
          }),
          {{RuleKind::kExactlyOne, {"curve", "rate"}}}};
}

Group DamperGroup() {
  return {"damper", "axles.A.dampers.NAME",
          MemberKeys({
              Number("shortest", D::kLength, kPositive, "Eye to eye, pushed in."),
              Number("longest", D::kLength, kPositive, "Eye to eye, pulled out."),
              Number("bump", D::kDamping, kNotNegative, "Force per speed when pushed in."),
              Number("rebound", D::kDamping, kNotNegative, "Force per speed when pulled out."),
          })};
}

Group StrapGroup() {
  return {"strap", "axles.A.straps.NAME",
          MemberKeys({Number("length", D::kLength, kPositive,
                             "Eye to eye, pulled taut; without it limits says how long to make "
                             "it.")})};
}

std::vector<Group> SteeringGroups() {
  return {
      {"kingpin",
       "axles.A.kingpin",
       {Required(Number("caster", D::kAngle, kLean, "Lean in side view, top rearward positive.")),
        Default(Number("inclination", D::kAngle, kLean, "Lean in front view, top inward positive."),
                "0"),
        Point("at", "A point of the left axis; needed with steering.")}},
      {"steering",
       "axles.A.steering",
       {Required(Part("drag_link", "drag_link", "From the pitman arm to the knuckle.")),
        Part("tie_rod", "tie_rod",
             "From knuckle to knuckle; without it both wheels are taken to steer alike."),
        Number("lock", D::kAngle, kLock,
               "Steer of the wheel on the inside of the bend at full lock, against the axle; the "
               "same both ways."),
        Part("limits", "steering_limits", "What `steering` points at.")}},
      {"steering_limits",
       "axles.A.steering.limits",
       {Default(Number("slope_differ", D::kAngle, kNotNegative,
                       "Track bar against drag link at rest, seen from in front: beyond it they "
                       "are not parallel (common practice; 1 deg is what is aimed for)."),
                "2 deg"),
        Default(Number("length_differ", D::kPercent, kNotNegative,
                       "Their lengths, of the drag link's (common practice)."),
                "10 %"),
        Default(Number("steer_rate", D::kAngleRate, kNotNegative,
                       "Steer per travel at rest with the steering wheel held (common practice)."),
                "0.1 deg/in")}},
      {"drag_link",
       "axles.A.steering.drag_link",
       {Required(Point("frame", "The end at the pitman arm.")),
        Required(Point("axle", "The end at the knuckle."))}},
      {"tie_rod",
       "axles.A.steering.tie_rod",
       {Required(Point("left", "The end at the left knuckle.")),
        Point("right",
              "The end at the right knuckle, where it is not the left one's mirror image.")}},
  };
}

std::vector<Group> SmallGroups() {
  return {
      {"gap",
       "axles.A.gaps.NAME",
       {Required(Point("frame", "The point on the chassis, engine or body.")),
        Required(Point("axle", "The point on the axle.")),
        Number("least", D::kLength, kPositive,
               "Least distance over the travel; `limits.gap` unless given.")}},
      {"tire",
       "axles.A.tire",
       {Number("radius", D::kLength, kPositive,
               "Unloaded radius, half the tyre's height off the ground; it carries nothing without "
               "a rate, and stands in its opening with or without."),
        Number("width", D::kLength, kPositive, "Width of the tyre."),
        Number("rate", D::kRate, kPositive,
               "Vertical stiffness; without it the tyre is rigid at its measured loaded height."),
        Number("lateral_rate", D::kRate, kPositive,
               "Stiffness sideways on the floor; half of rate is taken, and said, where it is "
               "needed.")},
       {{RuleKind::kNeeds, {"rate", "radius"}}, {RuleKind::kNeeds, {"lateral_rate", "rate"}}}},
      {"unsprung",
       "axles.A.unsprung",
       {Required(Number("mass", D::kMass, kPositive, "Everything that moves with the axle.")),
        Required(
            Point("at", "Its centre: on the centreline at hub height, unless you know better.")),
        Number("roll_inertia", D::kInertia, kPositive,
               "About the x axis through its centre; without it the commands that need it take an "
               "estimate and say so.")}},
      {"anti_roll_bar",
       "axles.A.anti_roll_bar",
       {Required(Number("roll_rate", D::kRollRate, kPositive,
                        "Moment per angle of axle roll against the body."))}},
      {"pinion",
       "axles.A.pinion",
       {Required(Point("yoke", "Centre of the joint at the pinion.")),
        Required(Number("angle", D::kAngle, kSlope,
                        "Slope of the pinion shaft, yoke end up positive."))}},
  };
}

}  // namespace

std::vector<Group> AxleGroups() {
  std::vector<Group> groups = {AxleGroup(), LinkGroup()};
  for (const Group& group : ArmGroups()) groups.push_back(group);
  for (const Group& group : {SpringGroup(), StopGroup(), DamperGroup(), StrapGroup()})
    groups.push_back(group);
  for (const Group& group : SteeringGroups()) groups.push_back(group);
  for (const Group& group : SmallGroups()) groups.push_back(group);
  return groups;
}

}  // namespace linkwright
