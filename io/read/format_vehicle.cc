// SPDX-License-Identifier: MIT
// The format table: the two kinds of file and everything that is no part of one axle.
#include "io/read/format_keys.h"

namespace linkwright {
namespace {

using D = Dimension;

Group VehicleGroup() {
  return {
      "vehicle",
      "The file",
      {
          Text("title",
               "What the vehicle is, for the head of every table; the file's name unless given."),
          Required(Word("units", {"metric", "inch"},
                        "What a plain number means: metric is mm, kg, N, N/mm, deg; inch is in, "
                        "lb, lbf, lbf/in, deg.")),
          Default(Number("floor", D::kLength, kAny,
                         "Height (z) of the floor under the tyres in the measured stance."),
                  "0"),
          Required(Part("axles", "axles", "The two axles.")),
          Part("driveshafts", "driveshaft", "Driveshafts, each under a name of your own.",
               Many::kNamed),
          Part("ledger", "ledger",
               "Where the masses come from: the donor as weighed, what came off, what goes on."),
          Part("sprung", "sprung",
               "The sprung mass itself, where there is no ledger; with neither, the file is "
               "geometry only."),
          Part("loads", "item",
               "What is put on the finished vehicle, load by load, each under a name of your own; "
               "without it there is one load, named empty.",
               Many::kNamedList),
          Part("openings", "openings", "The body's wheel openings."),
          {.name = "marks",
           .kind = Kind::kPoint,
           .meaning = "Points of the body whose height above the floor matters, each under a name "
                      "of your own.",
           .dimension = D::kLength,
           .many = Many::kNamed},
          Part("limits", "limits", "What `check` points at."),
          Part("leaf_original", "leaf_original",
               "The leaf springs of the vehicle the body came from: where its axles sat when new."),
      },
      {{RuleKind::kAtMostOne, {"ledger", "sprung"}}}};
}

Group DriveshaftGroup() {
  return {
      "driveshaft",
      "driveshafts.NAME",
      {
          Required(Point("output", "Centre of the joint at the gearbox or transfer case.")),
          Required(Number("output_angle", D::kAngle, kSlope,
                          "Slope of the output shaft against the chassis x axis, yoke end up "
                          "positive: one that falls from the gearbox toward its axle is minus.")),
          Required(Word("axle", {"front", "rear"}, "The axle it drives, which needs a pinion.")),
          Default({.name = "joints",
                   .kind = Kind::kWords,
                   .meaning = "The joint at the output end, then the one at the axle end: single "
                              "is one cross, double two with a centring device.",
                   .words = {"single", "double"}},
                  "[single, single]"),
          Default(Number("phase", D::kAngle, kHalfTurn,
                         "How far the axle-end inner yoke is turned ahead of the other; of the "
                         "piece at the axle where there is a centre bearing."),
                  "0"),
          Part("center_bearing", "center_bearing",
               "The bearing between the pieces of a two-piece shaft."),
          Number("slip", D::kLength, kPositive, "Whole stroke of the slip joint."),
          Number("slip_left", D::kLength, kNotNegative,
                 "What is left of it before bottoming in the measured stance; half of slip unless "
                 "given."),
          Number("top_speed_rpm", D::kShaftSpeed, kPositive, "Fastest the shaft turns."),
          Number("pinion_low", D::kAngle, kLean,
                 "How far below the angle of least net joint angle the pinion's yoke end is wanted "
                 "at rest, - above, "
                 "against its wind-up: a yoke ahead of the wheels comes up under power, one behind "
                 "them (a front axle's) goes down. Unless given, with a double joint at the output "
                 "and a single one at the axle 1.5 deg (1 to 2 is common practice), -1.5 where the "
                 "yoke is behind the wheels; else 0."),
          Part("limits", "driveshaft_limits", "What `driveline` points at."),
      },
      {{RuleKind::kNeeds, {"slip_left", "slip"}}}};
}

std::vector<Group> DriveshaftPartGroups() {
  const auto angle = [](std::string_view name, std::string_view text, std::string_view meaning) {
    return Default(Number(name, D::kAngle, kNotNegative, meaning), text);
  };
  return {
      {"center_bearing",
       "driveshafts.NAME.center_bearing",
       {Required(Point("at",
                       "Centre of the joint at the bearing; it is fixed to the chassis and the "
                       "front piece runs from the output to it.")),
        Default(Word("joint", {"single", "double"}, "The joint there."), "single"),
        Default(Number("phase", D::kAngle, kHalfTurn,
                       "Of the front piece: how far its yoke at the bearing is turned ahead of its "
                       "yoke at the output."),
                "0")}},
      {"driveshaft_limits",
       "driveshafts.NAME.limits",
       {angle("joint_least", "0.5 deg",
              "Least working angle of a single joint at rest, so that its needles turn (General "
              "Motors vibration procedure; truck driveline guides)."),
        angle("joint_most", "3 deg", "Greatest one at rest (the same)."),
        angle("pair_differ", "1 deg",
              "What the two joints of a piece may differ by at rest, and what the pinion may be "
              "off (the same)."),
        angle("double_most", "10 deg",
              "Greatest angle of a double joint at rest (a light-truck maker's manual)."),
        Default(Number("torsional", D::kAcceleration, kPositive,
                       "Torsional acceleration at top speed; 400 is what the table of residual "
                       "angles in SAE AE-7, section 3.1.1, comes to."),
                "400"),
        Default(Number("inertial", D::kAcceleration, kPositive,
                       "Inertial acceleration of a piece at top speed; 1000 is what driveline "
                       "makers' tables of greatest angle by speed come to."),
                "1000"),
        Number("angle_at_speed", D::kAngle, kPositive,
               "Greatest working angle of any joint at rest at the speed; unless given, by speed "
               "from a driveline maker's table: 3.2 deg at 5000 rpm, 3.7 at 4500, 4.2 at 4000, 5.0 "
               "at 3500, 5.8 at 3000, 7.0 at 2500, 8.7 at 2000, 11.5 at 1500 and below (the last "
               "four from memory)."),
        Number("bottom_least", D::kLength, kNotNegative,
               "Least of the slip that may be left before it bottoms; unless given, only bottoming "
               "is pointed at."),
        Number("part_least", D::kLength, kNotNegative,
               "Least that may be left before it parts; unless given, only parting is pointed "
               "at.")}}};
}

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

std::vector<Group> MassGroups() {
  return {
      {"ledger",
       "ledger",
       {Required(Part("weighed", "weighed", "The donor on four scales.")),
        Default(Part("removed", "item", "What came off the donor.", Many::kList), "[]"),
        Default(Part("added", "item", "What goes on.", Many::kList), "[]"), Inertia(),
        RollInertia()}},
      {"weighed",
       "ledger.weighed",
       {Scale("front_left", "Under the front left wheel."),
        Scale("front_right", "Under the front right wheel."),
        Scale("rear_left", "Under the rear left wheel."),
        Scale("rear_right", "Under the rear right wheel."),
        Required(Number("cg_height", D::kLength, kPositive,
                        "Height of the centre of mass above the floor."))}},
      {"item",
       "Items of ledger.removed, ledger.added and loads.NAME",
       {Required(Text("item", "What it is.")),
        Required(Number("mass", D::kMass, kPositive, "Its mass.")),
        Required(Point("at", "Its centre.")),
        Word("fixed_to", {"body", "chassis", "rear"},
             "What it goes along with where the body is moved on the chassis or the chassis is cut "
             "(openings): the body, the chassis ahead of the cut, or the chassis behind it; unless "
             "given, an item of a load goes with the body and any other stays.")},
       {},
       true},
      {"sprung",
       "sprung",
       {Required(Number("mass", D::kMass, kPositive, "Everything the springs carry.")),
        Required(Point("at", "Its centre.")), Inertia(), RollInertia()}},
  };
}

std::vector<Group> OtherGroups() {
  return {
      {"axles",
       "axles",
       {Required(Part("front", "axle", "The front axle.")),
        Required(Part("rear", "axle", "The rear axle."))}},
      {"openings",
       "openings",
       {Part("front", "opening", "The front wheel openings."),
        Part("rear", "opening", "The rear wheel openings.")}},
      {"opening",
       "openings.front, openings.rear",
       {Required({.name = "center",
                  .kind = Kind::kSide,
                  .meaning = "Its centre in side view, where the wheel should sit.",
                  .dimension = D::kLength}),
        Number("radius", D::kLength, kPositive, "Its radius."),
        Number("lip_y", D::kLength, kPositive,
               "Where its left lip stands, out from the centreline; without it the lip is taken to "
               "reach across the whole tyre."),
        Number("inner_panel_y", D::kLength, kPositive,
               "Where the left inner panel stands, out from the centreline.")}},
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
         .many = Many::kList}}},
  };
}

}  // namespace

std::vector<Group> VehicleGroups() {
  std::vector<Group> groups = {VehicleGroup(), DriveshaftGroup()};
  for (const Group& group : DriveshaftPartGroups()) groups.push_back(group);
  for (const Group& group : MassGroups()) groups.push_back(group);
  for (const Group& group : OtherGroups()) groups.push_back(group);
  for (const Group& group : LeafGroups()) groups.push_back(group);
  return groups;
}

}  // namespace linkwright
