// SPDX-License-Identifier: MIT
// The format table: what stands under axles.front and axles.rear.
#include "io/read/build_vehicle.h"
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

// What every member between chassis and axle has, and more.
template <typename Member>
std::vector<BoundKey<Member>> MemberKeys(const std::vector<BoundKey<Member>>& more) {
  std::vector<BoundKey<Member>> keys = {
      Default({.name = "pair",
               .kind = Kind::kFlag,
               .meaning = "true: the left member is given (y more than 0) and the right one is its "
                          "mirror image."},
              "false"),
      {&Member::span, &Span::p_CP, Required(Point("frame", "The end on the chassis."))},
      {&Member::span, &Span::p_CQ, Required(Point("axle", "The end on the axle."))},
  };
  keys.insert(keys.end(), more.begin(), more.end());
  return keys;
}

Key CurveKey(std::string_view meaning) {
  return {.name = "curve", .kind = Kind::kCurve, .meaning = meaning};
}

const Table<Axle>& UnsprungKeys() {
  static const Table<Axle> table{
      "unsprung",
      "axles.A.unsprung",
      {{&Axle::unsprung, &Mass::mass,
        Required(Number("mass", D::kMass, kPositive, "Everything that moves with the axle."))},
       {&Axle::unsprung, &Mass::p_CM,
        Required(
            Point("at", "Its centre: on the centreline at hub height, unless you know better."))},
       {&Axle::unsprung_roll_inertia,
        Number("roll_inertia", D::kInertia, kPositive,
               "About the x axis through its centre; without it the commands that need it take an "
               "estimate and say so.")}}};
  return table;
}

const Table<Axle>& BarKeys() {
  static const Table<Axle> table{
      "anti_roll_bar",
      "axles.A.anti_roll_bar",
      {{&Axle::bar_roll_rate,
        Required(Number("roll_rate", D::kRollRate, kPositive,
                        "Moment per angle of axle roll against the body."))}}};
  return table;
}

}  // namespace

const Table<Axle>& KeysOf(Of<Axle>) {
  static const Table<Axle> table{
      "axle",
      "axles.front, axles.rear",
      {
          {&Axle::p_CW_l,
           Required(Point("wheel_center", "Centre of the left wheel; its y is half the track."))},
          {&Axle::p_CW_r,
           Point("wheel_center_right",
                 "Centre of the right wheel, where it is not the left one's mirror image.")},
          {&Axle::tire, Map("tire", "tire", "The tyres of this axle.")},
          {&UnsprungKeys,
           Map("unsprung", "unsprung",
               "The mass that moves with the axle: housing, wheels, brakes, half the links and "
               "coils; required unless the file is geometry only.")},
          {&Axle::drive_share,
           Number("drive_share", D::kNumber, kShare, "Share of the drive torque at this axle.")},
          {&Axle::brake_share,
           Number("brake_share", D::kNumber, kShare, "Share of the brake force at this axle.")},
          {&Axle::kingpin,
           Map("kingpin", "kingpin", "The axis a steered wheel turns about; the left one.")},
          {&Axle::links, Map("links", "link",
                             "The links (control arms, track bar), each under a name of your own.",
                             Many::kNamed)},
          {&Axle::a_arms,
           Map("a_arms", "a_arm", "A-shaped arms, each under a name of your own.", Many::kNamed)},
          {&Axle::radius_arms,
           Map("radius_arms", "radius_arm",
               "Radius arms, ladder bars, a torque arm, each under a name of your own.",
               Many::kNamed)},
          {&Axle::watts_links, Map("watts_links", "watts_link",
                                   "Watt's links, each under a name of your own.", Many::kNamed)},
          {&Axle::springs,
           Map("springs", "spring", "The coils, each under a name of your own.", Many::kNamed)},
          {&Axle::bump_stops, Map("bump_stops", "bump_stop",
                                  "The bump stops, each under a name of your own.", Many::kNamed)},
          {&Axle::dampers,
           Map("dampers", "damper", "The dampers, each under a name of your own.", Many::kNamed)},
          {&Axle::gaps,
           Map("gaps", "gap",
               "Points of chassis and axle that must keep clear of one another, as oil pan and "
               "housing, each under a name of your own.",
               Many::kNamed)},
          {&Axle::rating,
           Number("rating", D::kMass, kPositive, "What the axle may carry on the floor.")},
          {&Axle::straps,
           Map("straps", "strap",
               "Straps that hold the axle up in droop, each under a name of your own.",
               Many::kNamed)},
          {&Axle::steering, Map("steering", "steering", "The steering linkage to this axle.")},
          {&BarKeys, Map("anti_roll_bar", "anti_roll_bar",
                         "The anti-roll bar, free in the measured stance.")},
          {&Axle::pinion, Map("pinion", "pinion", "The pinion shaft of a driven axle.")},
          {&Axle::sideways_most,
           Default(Number("sideways_most", D::kLength, kNotNegative,
                          "How far to the side the axle may stand at rest before it is pointed at; "
                          "1/4 in is what the eye sees (common practice)."),
                   "1/4 in")},
      },
      {{RuleKind::kAtLeastOne, {"links", "a_arms", "radius_arms", "watts_links"}}},
      Complete};
  return table;
}

const Table<Link>& KeysOf(Of<Link>) {
  static const Table<Link> table{
      "link", "axles.A.links.NAME",
      MemberKeys<Link>(
          {{&Link::rate, Default(Number("rate", D::kRate, kPositive,
                                        "Stiffness along the link with both bushings in it; it "
                                        "matters where an axle has more than four links, and where "
                                        "torque winds the pinion up."),
                                 "5 kN/mm")},
           {&Link::thread,
            Number("thread", D::kLength, kPositive,
                   "How much one turn of its adjuster lengthens it: the thread's pitch, "
                   "or the sum of both pitches where one end has a left-hand thread.")},
           {&Link::misalignment_limit,
            Number("misalignment_limit", D::kAngle, kJointLimit,
                   "How far either joint may be out of line with its bolt, counted from "
                   "the measured stance, before it binds.")}})};
  return table;
}

const Table<Spring>& KeysOf(Of<Spring>) {
  Key free_length =
      Number("free_length", D::kLength, kPositive,
             "Length with nothing on it; or weighed: what makes the pair carry the weighed axle "
             "load less its unsprung mass at the measured length.");
  free_length.words = {"weighed"};
  static const Table<Spring> table{
      "spring",
      "axles.A.springs.NAME",
      MemberKeys<Spring>({
          {&Spring::law, &ForceLaw::rate,
           Number("rate", D::kRate, kPositive, "Force per deflection.")},
          {&Spring::law, &ForceLaw::curve,
           CurveKey("Measured points, deflection from the free length and force.")},
          {&Spring::wire, &CoilWire::wire_diameter,
           Number("wire", D::kLength, kPositive,
                  "Wire diameter of a helical coil; its rate is worked out.")},
          {&Spring::wire, &CoilWire::mean_diameter,
           Number("mean_diameter", D::kLength, kPositive,
                  "Mean diameter of the coil: outside less one wire.")},
          {&Spring::wire, &CoilWire::active_coils,
           Number("active_coils", D::kNumber, kPositive,
                  "Coils that work: those not lying on a seat.")},
          {&Spring::wire, &CoilWire::shear_modulus,
           Default(Number("shear_modulus", D::kModulus, kAny,
                          "Shear modulus of the wire; the default is that of EN 13906-1."),
                   "81.5 GPa")},
          {&Spring::law, &ForceLaw::free_length, Required(free_length)},
          {&Spring::solid_length, Number("solid_length", D::kLength, kPositive,
                                         "Length with every coil touching the next.")},
          {&Spring::keep_seated,
           Default({.name = "keep_seated",
                    .kind = Kind::kFlag,
                    .meaning = "true: nothing but its load holds it in, so that travel ends "
                               "where it would let go of its seats (limits)."},
                   "false")},
      }),
      {{RuleKind::kExactlyOne, {"rate", "curve", "wire"}},
       {RuleKind::kNeeds, {"wire", "mean_diameter", "active_coils"}},
       {RuleKind::kNeeds, {"mean_diameter", "wire"}},
       {RuleKind::kNeeds, {"active_coils", "wire"}},
       {RuleKind::kNeeds, {"shear_modulus", "wire"}}},
      Complete};
  return table;
}

const Table<Stop>& KeysOf(Of<Stop>) {
  static const Table<Stop> table{
      "bump_stop",
      "axles.A.bump_stops.NAME",
      MemberKeys<Stop>({
          {&Stop::law, &ForceLaw::free_length,
           Required(Number("free_length", D::kLength, kPositive, "Length with nothing on it."))},
          {&Stop::law, &ForceLaw::curve,
           CurveKey("Measured points, deflection from the free length and force; beyond the "
                    "last the stop is solid.")},
          {&Stop::law, &ForceLaw::rate,
           Number("rate", D::kRate, kPositive, "Force per deflection, where there is no curve.")},
      }),
      {{RuleKind::kExactlyOne, {"curve", "rate"}}}};
  return table;
}

const Table<Damper>& KeysOf(Of<Damper>) {
  static const Table<Damper> table{
      "damper", "axles.A.dampers.NAME",
      MemberKeys<Damper>({
          {&Damper::shortest, Number("shortest", D::kLength, kPositive, "Eye to eye, pushed in.")},
          {&Damper::longest, Number("longest", D::kLength, kPositive, "Eye to eye, pulled out.")},
          {&Damper::bump,
           Number("bump", D::kDamping, kNotNegative, "Force per speed when pushed in.")},
          {&Damper::rebound,
           Number("rebound", D::kDamping, kNotNegative, "Force per speed when pulled out.")},
      })};
  return table;
}

const Table<Strap>& KeysOf(Of<Strap>) {
  static const Table<Strap> table{
      "strap", "axles.A.straps.NAME",
      MemberKeys<Strap>({{&Strap::length,
                          Number("length", D::kLength, kPositive,
                                 "Eye to eye, pulled taut; without it limits says how long to make "
                                 "it.")}})};
  return table;
}

const Table<Kingpin>& KeysOf(Of<Kingpin>) {
  static const Table<Kingpin> table{
      "kingpin",
      "axles.A.kingpin",
      {{&Kingpin::caster,
        Required(Number("caster", D::kAngle, kLean, "Lean in side view, top rearward positive."))},
       {&Kingpin::inclination,
        Default(Number("inclination", D::kAngle, kLean, "Lean in front view, top inward positive."),
                "0")},
       {&Kingpin::p_CK, Point("at", "A point of the left axis; needed with steering.")}}};
  return table;
}

const Table<Steering>& KeysOf(Of<Steering>) {
  static const Table<Steering> table{
      "steering",
      "axles.A.steering",
      {{&Steering::drag_link,
        Required(Map("drag_link", "drag_link", "From the pitman arm to the knuckle."))},
       {&Steering::tie_rod,
        Map("tie_rod", "tie_rod",
            "From knuckle to knuckle; without it both wheels are taken to steer alike.")},
       {&Steering::lock,
        Number("lock", D::kAngle, kLock,
               "Steer of the wheel on the inside of the bend at full lock, against the axle; the "
               "same both ways.")},
       {&Steering::aims,
        Formerly("limits", Map("aims", "steering_aims", "What `steering` points at."))}}};
  return table;
}

const Table<SteeringAims>& KeysOf(Of<SteeringAims>) {
  static const Table<SteeringAims> table{
      "steering_aims",
      "axles.A.steering.aims",
      {{&SteeringAims::slope_differ,
        Default(Number("slope_differ", D::kAngle, kNotNegative,
                       "Track bar against drag link at rest, seen from in front: beyond it they "
                       "are not parallel (common practice; 1 deg is what is aimed for)."),
                "2 deg")},
       {&SteeringAims::length_differ,
        Default(Number("length_differ", D::kPercent, kNotNegative,
                       "Their lengths, of the drag link's (common practice)."),
                "10 %")},
       {&SteeringAims::steer_rate,
        Default(Number("steer_rate", D::kAngleRate, kNotNegative,
                       "Steer per travel at rest with the steering wheel held (common practice)."),
                "0.1 deg/in")}}};
  return table;
}

const Table<Span>& KeysOf(Of<Span>) {
  static const Table<Span> table{
      "drag_link",
      "axles.A.steering.drag_link",
      {{&Span::p_CP, Required(Point("frame", "The end at the pitman arm."))},
       {&Span::p_CQ, Required(Point("axle", "The end at the knuckle."))}}};
  return table;
}

const Table<TieRod>& KeysOf(Of<TieRod>) {
  static const Table<TieRod> table{
      "tie_rod",
      "axles.A.steering.tie_rod",
      {{&TieRod::p_CL, Required(Point("left", "The end at the left knuckle."))},
       {&TieRod::p_CR,
        Point("right",
              "The end at the right knuckle, where it is not the left one's mirror image.")}},
      {},
      Complete};
  return table;
}

const Table<Gap>& KeysOf(Of<Gap>) {
  static const Table<Gap> table{
      "gap",
      "axles.A.gaps.NAME",
      {{&Gap::span, &Span::p_CP,
        Required(Point("frame", "The point on the chassis, engine or body."))},
       {&Gap::span, &Span::p_CQ, Required(Point("axle", "The point on the axle."))},
       {&Gap::least, Number("least", D::kLength, kPositive,
                            "Least distance over the travel; `aims.gap` unless given.")}}};
  return table;
}

const Table<Tire>& KeysOf(Of<Tire>) {
  static const Table<Tire> table{
      "tire",
      "axles.A.tire",
      {{&Tire::radius,
        Number("radius", D::kLength, kPositive,
               "Unloaded radius, half the tyre's height off the ground; it carries nothing without "
               "a rate, and stands in its opening with or without.")},
       {&Tire::width, Number("width", D::kLength, kPositive, "Width of the tyre.")},
       {&Tire::rate,
        Number("rate", D::kRate, kPositive,
               "Vertical stiffness; without it the tyre is rigid at its measured loaded height.")},
       {&Tire::lateral_rate,
        Number("lateral_rate", D::kRate, kPositive,
               "Stiffness sideways on the floor; half of rate is taken, and said, where it is "
               "needed.")}},
      {{RuleKind::kNeeds, {"rate", "radius"}}, {RuleKind::kNeeds, {"lateral_rate", "rate"}}}};
  return table;
}

const Table<Pinion>& KeysOf(Of<Pinion>) {
  static const Table<Pinion> table{
      "pinion",
      "axles.A.pinion",
      {{&Pinion::p_CY, Required(Point("yoke", "Centre of the joint at the pinion."))},
       {&Pinion::angle, Required(Number("angle", D::kAngle, kSlope,
                                        "Slope of the pinion shaft, yoke end up positive."))}}};
  return table;
}

std::vector<Group> AxleGroups() {
  return {GroupOf<Axle>(),         GroupOf<Link>(),    GroupOf<AArm>(),     GroupOf<RadiusArm>(),
          GroupOf<WattsLink>(),    GroupOf<Spring>(),  GroupOf<Stop>(),     GroupOf<Damper>(),
          GroupOf<Strap>(),        GroupOf<Kingpin>(), GroupOf<Steering>(), GroupOf<SteeringAims>(),
          GroupOf<Span>(),         GroupOf<TieRod>(),  GroupOf<Gap>(),      GroupOf<Tire>(),
          GroupOf(UnsprungKeys()), GroupOf(BarKeys()), GroupOf<Pinion>()};
}

}  // namespace linkwright
