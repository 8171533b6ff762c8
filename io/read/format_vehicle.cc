// SPDX-License-Identifier: MIT
// The format table: the two kinds of file and everything that is no part of one axle.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

using D = Dimension;

template <typename To>
auto RollInertia(To to) {
  return Number(to, "roll_inertia", D::kInertia, kPositive,
                "The same about the x axis; without it the commands that need it take an estimate "
                "and say so.");
}

template <typename To>
auto Inertia(To to) {
  return Number(to, "pitch_inertia", D::kInertia, kPositive,
                "Of the sprung mass about the y axis through its centre, without loads; without "
                "it a dynamic index of 1 is assumed.");
}

BoundKey<Ledger> Scale(std::size_t corner, std::string_view name, std::string_view meaning) {
  return Number(Into(&Ledger::weighed, corner), name, D::kMass, kPositive, meaning);
}

// One scale under an axle: half of it under each of its wheels.
BoundKey<Ledger> AxleScale(std::size_t axle, std::string_view name, std::string_view meaning) {
  const Taker<Ledger> take = [axle](const Node* value, const Key& key, Ledger& into) {
    const auto mass = ValueOf<double>(value, key);
    if (!mass) return;
    into.weighed[2 * axle] = into.weighed[2 * axle + 1] = 0.5 * *mass;
    into.by_axle = true;
  };
  return Number(take, name, D::kMass, kPositive, meaning);
}

Table<Vehicle> AxlesKeys() {
  return {"axles",
          "axles",
          {Map(Into(&Vehicle::axles, kFront), "front", "axle", "The front axle."),
           Map(Into(&Vehicle::axles, kRear), "rear", "axle", "The rear axle.")},
          {{RuleKind::kAtLeastOne, {"front", "rear"}}}};
}

// They stand at the body.
Table<Vehicle> OpeningsKeys() {
  return {"openings",
          "openings",
          {Map(Into(&Vehicle::axles, kFront, &Axle::opening), "front", "opening",
               "The front wheel openings."),
           Map(Into(&Vehicle::axles, kRear, &Axle::opening), "rear", "opening",
               "The rear wheel openings.")}};
}

Key DefaultLoadKey() {
  return Text("default_load",
              "The load that every command stands on unless --load says otherwise; the first "
              "unless given.");
}

Key AcceptKey(std::string_view meaning) {
  return {.name = "accept", .kind = Kind::kText, .meaning = meaning, .many = Many::kNamed};
}

// The other kind of file; it is applied to its base, not read into a struct.
Group VariantGroup() {
  return {"variant",
          "A variant's file",
          {Required(Text("base", "The file this is a variant of, seen from this file's folder.")),
           Text("title", "The variant's own title; the base's unless given."),
           Word("units", {"metric", "inch"},
                "What a plain number in this file means, and how results are written; as in the "
                "base unless given."),
           DefaultLoadKey(),
           AcceptKey("More findings that may be so, beside those that the base accepts; the same "
                     "one again gives it another reason."),
           Map("stretch", "stretch", "The chassis cut or stretched, after the changes."),
           Map("body", "body", "The body set elsewhere on the chassis, after the stretch."),
           {.name = "change", .kind = Kind::kPaths, .meaning = "New values for what the base has."},
           {.name = "add", .kind = Kind::kPaths, .meaning = "What the base does not have."},
           {.name = "remove",
            .kind = Kind::kText,
            .meaning = "Paths of what the base has and the variant does not.",
            .many = Many::kList}}};
}

Table<Ledger> WeighedKeys() {
  return {"weighed",
          "ledger.weighed",
          {Scale(0, "front_left", "Under the front left wheel."),
           Scale(1, "front_right", "Under the front right wheel."),
           Scale(2, "rear_left", "Under the rear left wheel."),
           Scale(3, "rear_right", "Under the rear right wheel."),
           AxleScale(0, "front", "Under the front axle, where each axle was weighed whole."),
           AxleScale(1, "rear", "Under the rear axle, where each axle was weighed whole."),
           Required(Number(&Ledger::cg_height, "cg_height", D::kLength, kPositive,
                           "Height of the centre of mass above the floor."))},
          {{RuleKind::kExactlyOne, {"front_left", "front"}},
           {RuleKind::kNeeds, {"front_left", "front_right", "rear_left", "rear_right"}},
           {RuleKind::kNeeds, {"front_right", "front_left"}},
           {RuleKind::kNeeds, {"rear_left", "front_left"}},
           {RuleKind::kNeeds, {"rear_right", "front_left"}},
           {RuleKind::kNeeds, {"front", "rear"}},
           {RuleKind::kNeeds, {"rear", "front"}}}};
}

// Against the wind-up: under power a housing's front comes up, and with it a yoke that stands ahead
// of the wheels; one behind them, as on a front axle, goes down.
double UsualPinionLow(const Driveshaft& shaft, const Axle& axle) {
  if (shaft.output_joint != JointKind::kDouble || shaft.axle_joint != JointKind::kSingle) {
    return 0.0;
  }
  const double preset = ToSi(1.5, Dimension::kAngle, UnitSystem::kMetric);
  return axle.pinion && axle.pinion->p_CY.x() < axle.p_CW_l.x() ? -preset : preset;
}

// What no key says alone: the axles' names and which is there alone, the usual loads, how low a
// pinion is wanted.
void Complete(const Node& map, Vehicle& vehicle) {
  for (const int index : {kFront, kRear}) {
    Axle& axle = vehicle.axles[static_cast<std::size_t>(index)];
    axle.name = index == kFront ? "front" : "rear";
    if (Find(*Find(map, "axles"), axle.name) == nullptr) vehicle.only_axle = 1 - index;
    if (axle.unsprung) axle.unsprung->item = axle.name + " axle";
  }
  for (Driveshaft& shaft : vehicle.driveshafts) {
    const Node& node = *Find(*Find(map, "driveshafts"), shaft.name);
    const Axle& axle = vehicle.axles[static_cast<std::size_t>(shaft.axle)];
    shaft.pinion_low = NumberAt(node, "pinion_low").value_or(UsualPinionLow(shaft, axle));
  }
  if (vehicle.loads.empty()) vehicle.loads.push_back({"empty", {}});
  const std::string name = TextAt(map, "default_load");
  for (std::size_t i = 0; i < vehicle.loads.size(); ++i) {
    if (vehicle.loads[i].name == name) vehicle.default_load = i;
  }
}

}  // namespace

Table<Vehicle> KeysOf(Of<Vehicle>) {
  return {
      "vehicle",
      "The file",
      {
          Text(&Vehicle::title, "title",
               "What the vehicle is, for the head of every table; the file's name unless given."),
          Required(Word("units", {"metric", "inch"},
                        "What a plain number means: metric is mm, kg, N, N/mm, deg; inch is in, "
                        "lb, lbf, lbf/in, deg.")),
          Default(Number(&Vehicle::floor_z, "floor", D::kLength, kAny,
                         "Height (z) of the floor under the tyres in the measured stance."),
                  "0"),
          Required(Map(&AxlesKeys, "axles", "axles",
                       "The two axles, or the one that is known: the file is then geometry only, "
                       "and answers that take both axles are left out.")),
          Map(&Vehicle::driveshafts, "driveshafts", "driveshaft",
              "Driveshafts, each under a name of your own.", Many::kNamed),
          Map(&Vehicle::ledger, "ledger", "ledger",
              "Where the masses come from: the donor as weighed, what came off, what goes on."),
          Map(&Vehicle::sprung, "sprung", "sprung",
              "The sprung mass itself, where there is no ledger; with neither, the file is "
              "geometry only."),
          Map(&Vehicle::loads, "loads", "item",
              "What is put on the finished vehicle, load by load, each under a name of your own; "
              "without it there is one load, named empty.",
              Many::kNamedList),
          DefaultLoadKey(),
          Map(&OpeningsKeys, "openings", "openings", "The body's wheel openings."),
          Bound(&Vehicle::marks,
                {.name = "marks",
                 .kind = Kind::kPoint,
                 .meaning =
                     "Points of the body whose height above the floor matters, each under a name "
                     "of your own.",
                 .dimension = D::kLength,
                 .many = Many::kNamed}),
          Formerly("limits", Map(&Vehicle::aims, "aims", "aims", "What `check` points at.")),
          Bound(
              &Vehicle::accept,
              AcceptKey("Findings that are known and may be so, each with why: under its slug, or "
                        "under its slug and the member as the finding names it, `coil-preload "
                        "rear coil left` (its twin on the other side goes with it). They are "
                        "counted and no longer told; `linkwright explain` lists the slugs.")),
          Map(&Vehicle::leaf_original, "leaf_original", "leaf_original",
              "The leaf springs of the vehicle the body came from: "
              "where its axles sat when new."),
      },
      {{RuleKind::kAtMostOne, {"ledger", "sprung"}}},
      Complete};
}

Table<Driveshaft> KeysOf(Of<Driveshaft>) {
  return {
      "driveshaft",
      "driveshafts.NAME",
      {
          Required(Point(&Driveshaft::p_CO, "output",
                         "Centre of the joint at the gearbox or transfer case.")),
          Required(Number(&Driveshaft::output_angle, "output_angle", D::kAngle, kSlope,
                          "Slope of the output shaft against the chassis x axis, yoke end up "
                          "positive: one that falls from the gearbox toward its axle is minus.")),
          Required(Word(&Driveshaft::axle, "axle", {"front", "rear"},
                        "The axle it drives, which needs a pinion.")),
          Bound(Into(&Driveshaft::output_joint, &Driveshaft::axle_joint),
                {.name = "joints",
                 .kind = Kind::kWords,
                 .meaning = "The joint at the output end, then the one at the axle end: single "
                            "is one cross, double two with a centring device.",
                 .default_text = "[single, single]",
                 .words = {"single", "double"}}),
          Default(Number(&Driveshaft::phase, "phase", D::kAngle, kHalfTurn,
                         "How far the axle-end inner yoke is turned ahead of the other; of the "
                         "piece at the axle where there is a centre bearing."),
                  "0"),
          Map(&Driveshaft::center_bearing, "center_bearing", "center_bearing",
              "The bearing between the pieces of a two-piece shaft."),
          Number(&Driveshaft::slip, "slip", D::kLength, kPositive,
                 "Whole stroke of the slip joint."),
          Number(&Driveshaft::slip_left, "slip_left", D::kLength, kNotNegative,
                 "What is left of it before bottoming in the measured stance; half of slip unless "
                 "given."),
          Number(&Driveshaft::top_speed, "top_speed_rpm", D::kShaftSpeed, kPositive,
                 "Fastest the shaft turns."),
          Number("pinion_low", D::kAngle, kLean,
                 "How far below the angle of least net joint angle the pinion's yoke end is wanted "
                 "at rest, - above, "
                 "against its wind-up: a yoke ahead of the wheels comes up under power, one behind "
                 "them (a front axle's) goes down. Unless given, with a double joint at the output "
                 "and a single one at the axle 1.5 deg (1 to 2 is common practice), -1.5 where the "
                 "yoke is behind the wheels; else 0."),
          Formerly("limits", Map(&Driveshaft::aims, "aims", "driveshaft_aims",
                                 "What `driveline` points at.")),
      },
      {{RuleKind::kNeeds, {"slip_left", "slip"}}},
      [](const Node&, Driveshaft& shaft) {
        if (shaft.slip && !shaft.slip_left) shaft.slip_left = *shaft.slip / 2.0;
      }};
}

Table<CenterBearing> KeysOf(Of<CenterBearing>) {
  return {
      "center_bearing",
      "driveshafts.NAME.center_bearing",
      {Required(Point(&CenterBearing::p_CB, "at",
                      "Centre of the joint at the bearing; it is fixed to the chassis and the "
                      "front piece runs from the output to it.")),
       Default(Word(&CenterBearing::joint, "joint", {"single", "double"}, "The joint there."),
               "single"),
       Default(Number(&CenterBearing::phase, "phase", D::kAngle, kHalfTurn,
                      "Of the front piece: how far its yoke at the bearing is turned ahead of its "
                      "yoke at the output."),
               "0")}};
}

Table<ShaftAims> KeysOf(Of<ShaftAims>) {
  return {
      "driveshaft_aims",
      "driveshafts.NAME.aims",
      {Aim(&ShaftAims::joint_least, "joint_least", D::kAngle, "0.5 deg",
           "Least working angle of a single joint at rest, so that its needles turn (General "
           "Motors vibration procedure; truck driveline guides)."),
       Aim(&ShaftAims::joint_most, "joint_most", D::kAngle, "3 deg",
           "Greatest one at rest (the same)."),
       Aim(&ShaftAims::pair_differ, "pair_differ", D::kAngle, "1 deg",
           "What the two joints of a piece may differ by at rest, and what the pinion may be "
           "off (the same)."),
       Aim(&ShaftAims::double_most, "double_most", D::kAngle, "10 deg",
           "Greatest angle of a double joint at rest (a light-truck maker's manual)."),
       Default(Number(&ShaftAims::torsional, "torsional", D::kAcceleration, kPositive,
                      "Torsional acceleration at top speed; 400 is what the table of residual "
                      "angles in SAE AE-7, section 3.1.1, comes to."),
               "400"),
       Default(Number(&ShaftAims::inertial, "inertial", D::kAcceleration, kPositive,
                      "Inertial acceleration of a piece at top speed; 1000 is what driveline "
                      "makers' tables of greatest angle by speed come to."),
               "1000"),
       Number(&ShaftAims::angle_at_speed, "angle_at_speed", D::kAngle, kPositive,
              "Greatest working angle of any joint at rest at the speed; unless given, by speed "
              "from a driveline maker's table: 3.2 deg at 5000 rpm, 3.7 at 4500, 4.2 at 4000, 5.0 "
              "at 3500, 5.8 at 3000, 7.0 at 2500, 8.7 at 2000, 11.5 at 1500 and below (the last "
              "four from memory)."),
       Number(&ShaftAims::bottom_least, "bottom_least", D::kLength, kNotNegative,
              "Least of the slip that may be left before it bottoms; unless given, only bottoming "
              "is pointed at."),
       Number(&ShaftAims::part_least, "part_least", D::kLength, kNotNegative,
              "Least that may be left before it parts; unless given, only parting is pointed "
              "at.")}};
}

Table<Ledger> KeysOf(Of<Ledger>) {
  return {
      "ledger",
      "ledger",
      {Required(
           Map(&WeighedKeys, "weighed", "weighed", "The donor on four scales, or axle by axle.")),
       Default(Map(&Ledger::removed, "removed", "item", "What came off the donor.", Many::kList),
               "[]"),
       Default(Map(&Ledger::added, "added", "item", "What goes on.", Many::kList), "[]"),
       Inertia(&Ledger::pitch_inertia), RollInertia(&Ledger::roll_inertia)}};
}

Table<Mass> KeysOf(Of<Mass>) {
  return {
      "item",
      "Items of ledger.removed, ledger.added and loads.NAME",
      {Required(Text(&Mass::item, "item", "What it is.")),
       Required(Number(&Mass::mass, "mass", D::kMass, kPositive, "Its mass.")),
       Required(Point(&Mass::p_CM, "at", "Its centre.")),
       Word(&Mass::fixed_to, "fixed_to", {"body", "chassis", "rear"},
            "What it goes along with where the body is moved on the chassis or the chassis is cut "
            "(stretch, body, openings): the body; the chassis, ahead of the cut or behind it by "
            "its place; rear, the chassis behind the cut wherever it is. Unless given, an item of "
            "a load goes with the body, and of any other a cut keeps what it puts on each axle.")},
      {},
      nullptr,
      true};
}

Table<SprungMass> KeysOf(Of<SprungMass>) {
  return {"sprung",
          "sprung",
          {Required(Number(&SprungMass::mass, "mass", D::kMass, kPositive,
                           "Everything the springs carry.")),
           Required(Point(&SprungMass::p_CM, "at", "Its centre.")),
           Inertia(&SprungMass::pitch_inertia), RollInertia(&SprungMass::roll_inertia)}};
}

Table<Stretch> KeysOf(Of<Stretch>) {
  return {"stretch",
          "stretch, of a variant",
          {Required(Number(&Stretch::at, "at", D::kLength, kAny,
                           "Station (x) of the cut: everything fixed to the chassis behind it goes "
                           "back, an axle with all that is on it where its hub is behind it.")),
           Required(Number(&Stretch::by, "by", D::kLength, kAny,
                           "Length let into the chassis there; below 0, cut out of it."))}};
}

Table<BodyPlacing> KeysOf(Of<BodyPlacing>) {
  return {"body",
          "body, of a variant",
          {SideView(&BodyPlacing::move, "move",
                    "How far it goes ahead and up, [x, z]; pucks under its mounts are z."),
           Number(&BodyPlacing::pitch, "pitch", D::kAngle, kLean,
                  "How far it is turned, nose up positive, before it is moved."),
           Number(&BodyPlacing::about, "about", D::kLength, kAny,
                  "Station (x) of the line across the vehicle that it is turned about, on the "
                  "floor of the measured stance.")},
          {{RuleKind::kAtLeastOne, {"move", "pitch"}},
           {RuleKind::kNeeds, {"pitch", "about"}},
           {RuleKind::kNeeds, {"about", "pitch"}}}};
}

Table<Opening> KeysOf(Of<Opening>) {
  return {
      "opening",
      "openings.front, openings.rear",
      {Required(SideView(Into(&Opening::x, &Opening::z), "center",
                         "Its centre in side view, where the wheel should sit.")),
       Number(&Opening::radius, "radius", D::kLength, kPositive, "Its radius."),
       Number(&Opening::lip_y, "lip_y", D::kLength, kPositive,
              "Where its left lip stands, out from the centreline; without it the lip is taken to "
              "reach across the whole tyre."),
       Number(&Opening::inner_panel_y, "inner_panel_y", D::kLength, kPositive,
              "Where the left inner panel stands, out from the centreline.")}};
}

std::vector<Group> VehicleGroups() {
  return {GroupOf<Vehicle>(),      GroupOf<Driveshaft>(),  GroupOf<CenterBearing>(),
          GroupOf<ShaftAims>(),    GroupOf<Ledger>(),      GroupOf(WeighedKeys()),
          GroupOf<Mass>(),         GroupOf<SprungMass>(),  GroupOf(AxlesKeys()),
          GroupOf(OpeningsKeys()), GroupOf<Opening>(),     VariantGroup(),
          GroupOf<Stretch>(),      GroupOf<BodyPlacing>(), GroupOf<LeafOriginal>(),
          GroupOf<LeafSpring>(),   GroupOf<LeafAims>(),    GroupOf<LeafTolerances>()};
}

}  // namespace linkwright
