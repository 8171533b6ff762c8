// SPDX-License-Identifier: MIT
// The format table: the two kinds of file and everything that is no part of one axle.
#include "io/read/build_vehicle.h"
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"

namespace linkwright {
namespace {

using D = Dimension;

Key RollInertia() {
  return Number("roll_inertia", D::kInertia, kPositive,
                "The same about the x axis; without it the commands that need it take an estimate "
                "and say so.");
}

Key Inertia() {
  return Number("pitch_inertia", D::kInertia, kPositive,
                "Of the sprung mass about the y axis through its centre, without loads; without "
                "it a dynamic index of 1 is assumed.");
}

Key Scale(std::string_view name, std::string_view meaning) {
  return Required(Number(name, D::kMass, kPositive, meaning));
}

// Groups that are no struct.
std::vector<Group> PlainGroups() {
  return {
      {"axles",
       "axles",
       {Required(Map("front", "axle", "The front axle.")),
        Required(Map("rear", "axle", "The rear axle."))}},
      {"openings",
       "openings",
       {Map("front", "opening", "The front wheel openings."),
        Map("rear", "opening", "The rear wheel openings.")}},
      {"variant",
       "A variant's file",
       {Required(Text("base", "The file this is a variant of, seen from this file's folder.")),
        Text("title", "The variant's own title; the base's unless given."),
        Word("units", {"metric", "inch"},
             "What a plain number in this file means, and how results are written; as in the base "
             "unless given."),
        {.name = "change", .kind = Kind::kPaths, .meaning = "New values for what the base has."},
        {.name = "add", .kind = Kind::kPaths, .meaning = "What the base does not have."},
        {.name = "remove",
         .kind = Kind::kText,
         .meaning = "Paths of what the base has and the variant does not.",
         .many = Many::kList}}}};
}

const Table<Ledger>& WeighedKeys() {
  static const Table<Ledger> table{
      "weighed",
      "ledger.weighed",
      {{&Ledger::weighed, 0, Scale("front_left", "Under the front left wheel.")},
       {&Ledger::weighed, 1, Scale("front_right", "Under the front right wheel.")},
       {&Ledger::weighed, 2, Scale("rear_left", "Under the rear left wheel.")},
       {&Ledger::weighed, 3, Scale("rear_right", "Under the rear right wheel.")},
       {&Ledger::cg_height, Required(Number("cg_height", D::kLength, kPositive,
                                            "Height of the centre of mass above the floor."))}}};
  return table;
}

}  // namespace

const Table<Vehicle>& KeysOf(Of<Vehicle>) {
  static const Table<Vehicle> table{
      "vehicle",
      "The file",
      {
          {&Vehicle::title,
           Text("title",
                "What the vehicle is, for the head of every table; the file's name unless given.")},
          Required(Word("units", {"metric", "inch"},
                        "What a plain number means: metric is mm, kg, N, N/mm, deg; inch is in, "
                        "lb, lbf, lbf/in, deg.")),
          {&Vehicle::floor_z,
           Default(Number("floor", D::kLength, kAny,
                          "Height (z) of the floor under the tyres in the measured stance."),
                   "0")},
          Required(Map("axles", "axles", "The two axles.")),
          {&Vehicle::driveshafts, Map("driveshafts", "driveshaft",
                                      "Driveshafts, each under a name of your own.", Many::kNamed)},
          {&Vehicle::ledger,
           Map("ledger", "ledger",
               "Where the masses come from: the donor as weighed, what came off, what goes on.")},
          {&Vehicle::sprung,
           Map("sprung", "sprung",
               "The sprung mass itself, where there is no ledger; with neither, the file is "
               "geometry only.")},
          Map("loads", "item",
              "What is put on the finished vehicle, load by load, each under a name of your own; "
              "without it there is one load, named empty.",
              Many::kNamedList),
          Map("openings", "openings", "The body's wheel openings."),
          Key{.name = "marks",
              .kind = Kind::kPoint,
              .meaning =
                  "Points of the body whose height above the floor matters, each under a name "
                  "of your own.",
              .dimension = D::kLength,
              .many = Many::kNamed},
          {&Vehicle::aims, Formerly("limits", Map("aims", "aims", "What `check` points at."))},
          {&Vehicle::leaf_original, Map("leaf_original", "leaf_original",
                                        "The leaf springs of the vehicle the body came from: "
                                        "where its axles sat when new.")},
      },
      {{RuleKind::kAtMostOne, {"ledger", "sprung"}}},
      Complete};
  return table;
}

const Table<Driveshaft>& KeysOf(Of<Driveshaft>) {
  static const Table<Driveshaft> table{
      "driveshaft",
      "driveshafts.NAME",
      {
          {&Driveshaft::p_CO,
           Required(Point("output", "Centre of the joint at the gearbox or transfer case."))},
          {&Driveshaft::output_angle,
           Required(Number("output_angle", D::kAngle, kSlope,
                           "Slope of the output shaft against the chassis x axis, yoke end up "
                           "positive: one that falls from the gearbox toward its axle is minus."))},
          {&Driveshaft::axle,
           Required(Word("axle", {"front", "rear"}, "The axle it drives, which needs a pinion."))},
          Default({.name = "joints",
                   .kind = Kind::kWords,
                   .meaning = "The joint at the output end, then the one at the axle end: single "
                              "is one cross, double two with a centring device.",
                   .words = {"single", "double"}},
                  "[single, single]"),
          {&Driveshaft::phase,
           Default(Number("phase", D::kAngle, kHalfTurn,
                          "How far the axle-end inner yoke is turned ahead of the other; of the "
                          "piece at the axle where there is a centre bearing."),
                   "0")},
          {&Driveshaft::center_bearing,
           Map("center_bearing", "center_bearing",
               "The bearing between the pieces of a two-piece shaft.")},
          {&Driveshaft::slip,
           Number("slip", D::kLength, kPositive, "Whole stroke of the slip joint.")},
          {&Driveshaft::slip_left,
           Number("slip_left", D::kLength, kNotNegative,
                  "What is left of it before bottoming in the measured stance; half of slip unless "
                  "given.")},
          {&Driveshaft::top_speed,
           Number("top_speed_rpm", D::kShaftSpeed, kPositive, "Fastest the shaft turns.")},
          Number("pinion_low", D::kAngle, kLean,
                 "How far below the angle of least net joint angle the pinion's yoke end is wanted "
                 "at rest, - above, "
                 "against its wind-up: a yoke ahead of the wheels comes up under power, one behind "
                 "them (a front axle's) goes down. Unless given, with a double joint at the output "
                 "and a single one at the axle 1.5 deg (1 to 2 is common practice), -1.5 where the "
                 "yoke is behind the wheels; else 0."),
          {&Driveshaft::aims,
           Formerly("limits", Map("aims", "driveshaft_aims", "What `driveline` points at."))},
      },
      {{RuleKind::kNeeds, {"slip_left", "slip"}}},
      Complete};
  return table;
}

const Table<CenterBearing>& KeysOf(Of<CenterBearing>) {
  static const Table<CenterBearing> table{
      "center_bearing",
      "driveshafts.NAME.center_bearing",
      {{&CenterBearing::p_CB,
        Required(Point("at",
                       "Centre of the joint at the bearing; it is fixed to the chassis and the "
                       "front piece runs from the output to it."))},
       {&CenterBearing::joint,
        Default(Word("joint", {"single", "double"}, "The joint there."), "single")},
       {&CenterBearing::phase,
        Default(Number("phase", D::kAngle, kHalfTurn,
                       "Of the front piece: how far its yoke at the bearing is turned ahead of its "
                       "yoke at the output."),
                "0")}}};
  return table;
}

const Table<ShaftAims>& KeysOf(Of<ShaftAims>) {
  const auto angle = [](std::string_view name, std::string_view text, std::string_view meaning) {
    return Default(Number(name, D::kAngle, kNotNegative, meaning), text);
  };
  static const Table<ShaftAims> table{
      "driveshaft_aims",
      "driveshafts.NAME.aims",
      {{&ShaftAims::joint_least,
        angle("joint_least", "0.5 deg",
              "Least working angle of a single joint at rest, so that its needles turn (General "
              "Motors vibration procedure; truck driveline guides).")},
       {&ShaftAims::joint_most, angle("joint_most", "3 deg", "Greatest one at rest (the same).")},
       {&ShaftAims::pair_differ,
        angle("pair_differ", "1 deg",
              "What the two joints of a piece may differ by at rest, and what the pinion may be "
              "off (the same).")},
       {&ShaftAims::double_most,
        angle("double_most", "10 deg",
              "Greatest angle of a double joint at rest (a light-truck maker's manual).")},
       {&ShaftAims::torsional,
        Default(Number("torsional", D::kAcceleration, kPositive,
                       "Torsional acceleration at top speed; 400 is what the table of residual "
                       "angles in SAE AE-7, section 3.1.1, comes to."),
                "400")},
       {&ShaftAims::inertial,
        Default(Number("inertial", D::kAcceleration, kPositive,
                       "Inertial acceleration of a piece at top speed; 1000 is what driveline "
                       "makers' tables of greatest angle by speed come to."),
                "1000")},
       {&ShaftAims::angle_at_speed,
        Number("angle_at_speed", D::kAngle, kPositive,
               "Greatest working angle of any joint at rest at the speed; unless given, by speed "
               "from a driveline maker's table: 3.2 deg at 5000 rpm, 3.7 at 4500, 4.2 at 4000, 5.0 "
               "at 3500, 5.8 at 3000, 7.0 at 2500, 8.7 at 2000, 11.5 at 1500 and below (the last "
               "four from memory).")},
       {&ShaftAims::bottom_least,
        Number("bottom_least", D::kLength, kNotNegative,
               "Least of the slip that may be left before it bottoms; unless given, only bottoming "
               "is pointed at.")},
       {&ShaftAims::part_least,
        Number("part_least", D::kLength, kNotNegative,
               "Least that may be left before it parts; unless given, only parting is pointed "
               "at.")}}};
  return table;
}

const Table<Ledger>& KeysOf(Of<Ledger>) {
  static const Table<Ledger> table{
      "ledger",
      "ledger",
      {{&WeighedKeys, Required(Map("weighed", "weighed", "The donor on four scales."))},
       {&Ledger::removed,
        Default(Map("removed", "item", "What came off the donor.", Many::kList), "[]")},
       {&Ledger::added, Default(Map("added", "item", "What goes on.", Many::kList), "[]")},
       {&Ledger::pitch_inertia, Inertia()},
       {&Ledger::roll_inertia, RollInertia()}}};
  return table;
}

const Table<Mass>& KeysOf(Of<Mass>) {
  static const Table<Mass> table{
      "item",
      "Items of ledger.removed, ledger.added and loads.NAME",
      {{&Mass::item, Required(Text("item", "What it is."))},
       {&Mass::mass, Required(Number("mass", D::kMass, kPositive, "Its mass."))},
       {&Mass::p_CM, Required(Point("at", "Its centre."))},
       {&Mass::fixed_to,
        Word("fixed_to", {"body", "chassis", "rear"},
             "What it goes along with where the body is moved on the chassis or the chassis is cut "
             "(openings): the body, the chassis ahead of the cut, or the chassis behind it; unless "
             "given, an item of a load goes with the body and any other stays.")}},
      {},
      nullptr,
      true};
  return table;
}

const Table<SprungMass>& KeysOf(Of<SprungMass>) {
  static const Table<SprungMass> table{
      "sprung",
      "sprung",
      {{&SprungMass::mass,
        Required(Number("mass", D::kMass, kPositive, "Everything the springs carry."))},
       {&SprungMass::p_CM, Required(Point("at", "Its centre."))},
       {&SprungMass::pitch_inertia, Inertia()},
       {&SprungMass::roll_inertia, RollInertia()}}};
  return table;
}

const Table<Opening>& KeysOf(Of<Opening>) {
  static const Table<Opening> table{
      "opening",
      "openings.front, openings.rear",
      {Required({.name = "center",
                 .kind = Kind::kSide,
                 .meaning = "Its centre in side view, where the wheel should sit.",
                 .dimension = D::kLength}),
       {&Opening::radius, Number("radius", D::kLength, kPositive, "Its radius.")},
       {&Opening::lip_y,
        Number("lip_y", D::kLength, kPositive,
               "Where its left lip stands, out from the centreline; without it the lip is taken to "
               "reach across the whole tyre.")},
       {&Opening::inner_panel_y,
        Number("inner_panel_y", D::kLength, kPositive,
               "Where the left inner panel stands, out from the centreline.")}},
      {},
      Complete};
  return table;
}

std::vector<Group> VehicleGroups() {
  const std::vector<Group> plain = PlainGroups();
  return {GroupOf<Vehicle>(),
          GroupOf<Driveshaft>(),
          GroupOf<CenterBearing>(),
          GroupOf<ShaftAims>(),
          GroupOf<Ledger>(),
          GroupOf(WeighedKeys()),
          GroupOf<Mass>(),
          GroupOf<SprungMass>(),
          plain[0],
          plain[1],
          GroupOf<Opening>(),
          plain[2],
          GroupOf<LeafOriginal>(),
          GroupOf<LeafSpring>(),
          GroupOf<LeafAims>()};
}

}  // namespace linkwright
