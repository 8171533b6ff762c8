// SPDX-License-Identifier: MIT
// The format table: what stands under axles.front and axles.rear.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"
#include "io/read/mirrored.h"
#include "io/read/values.h"
#include "solver/model/force_law.h"

namespace linkwright {
namespace {

using D = Dimension;

// What every member between chassis and axle has, and more.
template <typename Member>
std::vector<BoundKey<Member>> MemberKeys(const std::vector<BoundKey<Member>>& more) {
  std::vector<BoundKey<Member>> keys = {
      Flag("pair",
           "true: the left member is given (y more than 0) and the right one is its mirror "
           "image."),
      Required(Point(Into(&Member::span, &Span::p_CP), "frame", "The end on the chassis.")),
      Required(Point(Into(&Member::span, &Span::p_CQ), "axle", "The end on the axle.")),
  };
  keys.insert(keys.end(), more.begin(), more.end());
  return keys;
}

// Of a coil or a stop.
template <typename Member>
BoundKey<Member> Spacer(double Member::*to) {
  return Default(Number(to, "spacer", D::kLength, kAny,
                        "Thickness of the spacer under its chassis seat: the seat moves so far "
                        "toward the axle seat, along the line between both; below 0 away from it, "
                        "into a deeper pocket. Given again, the later value counts."),
                 "0");
}

template <typename Member>
BoundKey<Member> CurveKey(ForceLaw Member::*law, std::string_view meaning) {
  return Bound(Into(law, &ForceLaw::curve),
               {.name = "curve", .kind = Kind::kCurve, .meaning = meaning});
}

Table<Axle> UnsprungKeys() {
  return {
      "unsprung",
      "axles.A.unsprung",
      {Required(Number(Into(&Axle::unsprung, &Mass::mass), "mass", D::kMass, kPositive,
                       "Everything that moves with the axle.")),
       Required(Point(Into(&Axle::unsprung, &Mass::p_CM), "at",
                      "Its centre: on the centreline at hub height, unless you know better.")),
       Number(&Axle::unsprung_roll_inertia, "roll_inertia", D::kInertia, kPositive,
              "About the x axis through its centre; without it the commands that need it take an "
              "estimate and say so.")}};
}

Table<Axle> BarKeys() {
  return {"anti_roll_bar",
          "axles.A.anti_roll_bar",
          {Required(Number(&Axle::bar_roll_rate, "roll_rate", D::kRollRate, kPositive,
                           "Moment per angle of axle roll against the body."))}};
}

}  // namespace

Table<Axle> KeysOf(Of<Axle>) {
  return {
      "axle",
      "axles.front, axles.rear",
      {
          Required(Point(&Axle::p_CW_l, "wheel_center",
                         "Centre of the left wheel; its y is half the track.")),
          Point(&Axle::p_CW_r, "wheel_center_right",
                "Centre of the right wheel, where it is not the left one's mirror image."),
          Map(&Axle::tire, "tire", "tire", "The tyres of this axle."),
          Map(&UnsprungKeys, "unsprung", "unsprung",
              "The mass that moves with the axle: housing, wheels, brakes, half the links and "
              "coils; required unless the file is geometry only."),
          Number(&Axle::drive_share, "drive_share", D::kNumber, kShare,
                 "Share of the drive torque at this axle."),
          Number(&Axle::brake_share, "brake_share", D::kNumber, kShare,
                 "Share of the brake force at this axle."),
          Map(&Axle::kingpin, "kingpin", "kingpin",
              "The axis a steered wheel turns about; the left one."),
          Map(&Axle::links, "links", "link",
              "The links (control arms, track bar), each under a name of your own.", Many::kNamed),
          Map(&Axle::a_arms, "a_arms", "a_arm", "A-shaped arms, each under a name of your own.",
              Many::kNamed),
          Map(&Axle::radius_arms, "radius_arms", "radius_arm",
              "Radius arms, ladder bars, a torque arm, each under a name of your own.",
              Many::kNamed),
          Map(&Axle::watts_links, "watts_links", "watts_link",
              "Watt's links, each under a name of your own.", Many::kNamed),
          Map(&Axle::springs, "springs", "spring", "The coils, each under a name of your own.",
              Many::kNamed),
          Map(&Axle::bump_stops, "bump_stops", "bump_stop",
              "The bump stops, each under a name of your own.", Many::kNamed),
          Map(&Axle::dampers, "dampers", "damper", "The dampers, each under a name of your own.",
              Many::kNamed),
          Map(&Axle::gaps, "gaps", "gap",
              "Points of chassis and axle that must keep clear of one another, as oil pan and "
              "housing, each under a name of your own.",
              Many::kNamed),
          Number(&Axle::rating, "rating", D::kMass, kPositive,
                 "What the axle may carry on the floor."),
          Map(&Axle::straps, "straps", "strap",
              "Straps that hold the axle up in droop, each under a name of your own.",
              Many::kNamed),
          Map(&Axle::steering, "steering", "steering", "The steering linkage to this axle."),
          Map(&BarKeys, "anti_roll_bar", "anti_roll_bar",
              "The anti-roll bar, free in the measured stance."),
          Map(&Axle::pinion, "pinion", "pinion", "The pinion shaft of a driven axle."),
          Default(Number(&Axle::sideways_most, "sideways_most", D::kLength, kNotNegative,
                         "How far to the side the axle may stand at rest before it is pointed at; "
                         "1/4 in is what the eye sees (common practice)."),
                  "1/4 in"),
      },
      {{RuleKind::kAtLeastOne, {"links", "a_arms", "radius_arms", "watts_links"}}},
      [](const Node& map, Axle& axle) {
        if (Find(map, "wheel_center_right") == nullptr) axle.p_CW_r = Mirrored(axle.p_CW_l);
      }};
}

Table<Link> KeysOf(Of<Link>) {
  Key length = Number("length", D::kLength, kPositive,
                      "The arm's own length, eye to eye; in a measurement it corrects the two "
                      "points, half each, in a variant the holes stay and the housing moves. fit: "
                      "the arm is made or turned to fit the two points, as it is unless given.");
  length.words = {"fit"};
  return {"link", "axles.A.links.NAME",
          MemberKeys<Link>(
              {Bound(&Link::length, length),
               Default(Number(&Link::rate, "rate", D::kRate, kPositive,
                              "Stiffness along the link with both bushings in it; it "
                              "matters where an axle has more than four links, and where "
                              "torque winds the pinion up."),
                       "5 kN/mm"),
               Number(&Link::thread, "thread", D::kLength, kPositive,
                      "How much one turn of its adjuster lengthens it: the thread's pitch, "
                      "or the sum of both pitches where one end has a left-hand thread."),
               Number(&Link::misalignment_limit, "misalignment_limit", D::kAngle, kJointLimit,
                      "How far either joint may be out of line with its bolt, counted from "
                      "the measured stance, before it binds.")})};
}

Table<Spring> KeysOf(Of<Spring>) {
  Key free_length =
      Number("free_length", D::kLength, kPositive,
             "Length with nothing on it; or weighed: what makes the pair carry the weighed axle "
             "load less its unsprung mass at the measured length.");
  free_length.words = {"weighed"};
  return {
      "spring",
      "axles.A.springs.NAME",
      MemberKeys<Spring>({
          Number(Into(&Spring::law, &ForceLaw::rate), "rate", D::kRate, kPositive,
                 "Force per deflection."),
          CurveKey(&Spring::law, "Measured points, deflection from the free length and force."),
          Number(Into(&Spring::wire, &CoilWire::wire_diameter), "wire", D::kLength, kPositive,
                 "Wire diameter of a helical coil; its rate is worked out."),
          Number(Into(&Spring::wire, &CoilWire::mean_diameter), "mean_diameter", D::kLength,
                 kPositive, "Mean diameter of the coil: outside less one wire."),
          Number(Into(&Spring::wire, &CoilWire::active_coils), "active_coils", D::kNumber,
                 kPositive, "Coils that work: those not lying on a seat."),
          Default(
              Number(Into(&Spring::wire, &CoilWire::shear_modulus), "shear_modulus", D::kModulus,
                     kAny, "Shear modulus of the wire; the default is that of EN 13906-1."),
              "81.5 GPa"),
          Bound(Into(&Spring::law, &ForceLaw::free_length), Required(free_length)),
          Number(&Spring::solid_length, "solid_length", D::kLength, kPositive,
                 "Length with every coil touching the next."),
          Flag(&Spring::keep_seated, "keep_seated",
               "true: nothing but its load holds it in, so that travel ends where it would let go "
               "of its seats (limits)."),
          Spacer(&Spring::spacer),
      }),
      {{RuleKind::kExactlyOne, {"rate", "curve", "wire"}},
       {RuleKind::kNeeds, {"wire", "mean_diameter", "active_coils"}},
       {RuleKind::kNeeds, {"mean_diameter", "wire"}},
       {RuleKind::kNeeds, {"active_coils", "wire"}},
       {RuleKind::kNeeds, {"shear_modulus", "wire"}}},
      // The free length of a weighed one is worked out once the whole vehicle is known
      // (ResolveWeighedLengths).
      [](const Node& map, Spring& spring) {
        if (spring.wire) spring.law.rate = HelicalRate(*spring.wire);
        spring.weighed = TextAt(map, "free_length") == "weighed";
      }};
}

Table<Stop> KeysOf(Of<Stop>) {
  return {"bump_stop",
          "axles.A.bump_stops.NAME",
          MemberKeys<Stop>({
              Required(Number(Into(&Stop::law, &ForceLaw::free_length), "free_length", D::kLength,
                              kPositive, "Length with nothing on it.")),
              CurveKey(&Stop::law,
                       "Measured points, deflection from the free length and force; beyond the "
                       "last the stop is solid."),
              Number(Into(&Stop::law, &ForceLaw::rate), "rate", D::kRate, kPositive,
                     "Force per deflection, where there is no curve."),
              Default(Word(Into(&Stop::cone_on_axle, "axle"), "cone_on", {"frame", "axle"},
                           "Which end carries the cone; the other one is its pad. The cone points "
                           "at the pad's point as measured."),
                      "frame"),
              Number(&Stop::pad_radius, "pad_radius", D::kLength, kPositive,
                     "Of the pad about its point: beyond it the cone misses and carries nothing; "
                     "without it the pad is taken to have no rim."),
              Spacer(&Stop::spacer),
          }),
          {{RuleKind::kExactlyOne, {"curve", "rate"}}}};
}

Table<Damper> KeysOf(Of<Damper>) {
  return {
      "damper", "axles.A.dampers.NAME",
      MemberKeys<Damper>({
          Number(&Damper::shortest, "shortest", D::kLength, kPositive, "Eye to eye, pushed in."),
          Number(&Damper::longest, "longest", D::kLength, kPositive, "Eye to eye, pulled out."),
          Number(&Damper::bump, "bump", D::kDamping, kNotNegative,
                 "Force per speed when pushed in."),
          Number(&Damper::rebound, "rebound", D::kDamping, kNotNegative,
                 "Force per speed when pulled out."),
      })};
}

Table<Strap> KeysOf(Of<Strap>) {
  return {
      "strap", "axles.A.straps.NAME",
      MemberKeys<Strap>({Number(&Strap::length, "length", D::kLength, kPositive,
                                "Eye to eye, pulled taut; without it limits says how long to make "
                                "it.")})};
}

Table<Kingpin> KeysOf(Of<Kingpin>) {
  return {"kingpin",
          "axles.A.kingpin",
          {Required(Number(&Kingpin::caster, "caster", D::kAngle, kLean,
                           "Lean in side view, top rearward positive.")),
           Default(Number(&Kingpin::inclination, "inclination", D::kAngle, kLean,
                          "Lean in front view, top inward positive."),
                   "0"),
           Point(&Kingpin::p_CK, "at", "A point of the left axis; needed with steering.")}};
}

Table<Steering> KeysOf(Of<Steering>) {
  return {
      "steering",
      "axles.A.steering",
      {Required(Map(&Steering::drag_link, "drag_link", "drag_link",
                    "From the pitman arm to the knuckle.")),
       Map(&Steering::tie_rod, "tie_rod", "tie_rod",
           "From knuckle to knuckle; without it both wheels are taken to steer alike."),
       Number(&Steering::lock, "lock", D::kAngle, kLock,
              "Steer of the wheel on the inside of the bend at full lock, against the axle; the "
              "same both ways."),
       Formerly("limits",
                Map(&Steering::aims, "aims", "steering_aims", "What `steering` points at."))}};
}

Table<SteeringAims> KeysOf(Of<SteeringAims>) {
  return {"steering_aims",
          "axles.A.steering.aims",
          {Aim(&SteeringAims::slope_differ, "slope_differ", D::kAngle, "2 deg",
               "Track bar against drag link at rest, seen from in front: beyond it they "
               "are not parallel (common practice; 1 deg is what is aimed for)."),
           Aim(&SteeringAims::length_differ, "length_differ", D::kPercent, "10 %",
               "Their lengths, of the drag link's (common practice)."),
           Aim(&SteeringAims::steer_rate, "steer_rate", D::kAngleRate, "0.1 deg/in",
               "Steer per travel at rest with the steering wheel held (common practice).")}};
}

Table<Span> KeysOf(Of<Span>) {
  return {"drag_link",
          "axles.A.steering.drag_link",
          {Required(Point(&Span::p_CP, "frame", "The end at the pitman arm.")),
           Required(Point(&Span::p_CQ, "axle", "The end at the knuckle."))}};
}

Table<TieRod> KeysOf(Of<TieRod>) {
  return {"tie_rod",
          "axles.A.steering.tie_rod",
          {Required(Point(&TieRod::p_CL, "left", "The end at the left knuckle.")),
           Point(&TieRod::p_CR, "right",
                 "The end at the right knuckle, where it is not the left one's mirror image.")},
          {},
          [](const Node& map, TieRod& rod) {
            if (Find(map, "right") == nullptr) rod.p_CR = Mirrored(rod.p_CL);
          }};
}

Table<Gap> KeysOf(Of<Gap>) {
  return {"gap",
          "axles.A.gaps.NAME",
          {Required(Point(Into(&Gap::span, &Span::p_CP), "frame",
                          "The point on the chassis, engine or body.")),
           Required(Point(Into(&Gap::span, &Span::p_CQ), "axle", "The point on the axle.")),
           Number(&Gap::least, "least", D::kLength, kPositive,
                  "Least distance over the travel; `aims.gap` unless given.")}};
}

Table<Tire> KeysOf(Of<Tire>) {
  return {
      "tire",
      "axles.A.tire",
      {Number(&Tire::radius, "radius", D::kLength, kPositive,
              "Unloaded radius, half the tyre's height off the ground; it carries nothing without "
              "a rate, and stands in its opening with or without. With a rate and no radius it is "
              "the one "
              "at which the tyre stands at its measured height under its measured load."),
       Number(&Tire::width, "width", D::kLength, kPositive, "Width of the tyre."),
       Number(&Tire::rate, "rate", D::kRate, kPositive,
              "Vertical stiffness; without it the tyre is rigid at its measured loaded height."),
       Number(&Tire::lateral_rate, "lateral_rate", D::kRate, kPositive,
              "Stiffness sideways on the floor; half of rate is taken, and said, where it is "
              "needed.")},
      {{RuleKind::kNeeds, {"lateral_rate", "rate"}}}};
}

Table<Pinion> KeysOf(Of<Pinion>) {
  return {"pinion",
          "axles.A.pinion",
          {Required(Point(&Pinion::p_CY, "yoke", "Centre of the joint at the pinion.")),
           Required(Number(&Pinion::angle, "angle", D::kAngle, kSlope,
                           "Slope of the pinion shaft, yoke end up positive."))}};
}

std::vector<Group> AxleGroups() {
  return {GroupOf<Axle>(),         GroupOf<Link>(),    GroupOf<AArm>(),     GroupOf<RadiusArm>(),
          GroupOf<WattsLink>(),    GroupOf<Spring>(),  GroupOf<Stop>(),     GroupOf<Damper>(),
          GroupOf<Strap>(),        GroupOf<Kingpin>(), GroupOf<Steering>(), GroupOf<SteeringAims>(),
          GroupOf<Span>(),         GroupOf<TieRod>(),  GroupOf<Gap>(),      GroupOf<Tire>(),
          GroupOf(UnsprungKeys()), GroupOf(BarKeys()), GroupOf<Pinion>()};
}

}  // namespace linkwright
