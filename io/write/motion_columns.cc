// SPDX-License-Identifier: MIT
#include "io/write/motion_columns.h"

#include "io/write/table_of.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;
using MotionColumns = TableOf<MotionRow>;
using AxleColumns = TableOf<MotionAxleRow>;

// The first column: what is moved.
ColumnOf<MotionRow> ParameterColumn(MotionKind kind) {
  const auto value = &MotionRow::parameter;
  switch (kind) {
    case MotionKind::kRoll:
      return {"body_roll", "body roll", kAngle,
              "of the body on level ground, left side up +: the left wheels droop by half the "
              "track times its sine, the right ones rise",
              value};
    case MotionKind::kCrossed:
      return {"cross", "cross", kAngle,
              "the front housing as in roll at +, the rear one as in roll at -", value};
    case MotionKind::kSteer:
      return {"hand", "left wheel steer", kAngle, "the left road wheel's steer at rest; + left",
              value};
    case MotionKind::kBounce:  // has rows of its own: sweep_columns.cc
    case MotionKind::kOneWheel:
      break;
  }
  return {"travel", "travel", kLength,
          "of the one wheel, against the stance, along the chassis z axis; + bump", value};
}

ColumnOf<MotionRow> DiagonalColumn() {
  return {"diagonal_travel",
          "travel between diagonals",
          kLength,
          "mean travel of the front right and rear left wheel less that of the other two, along "
          "the chassis z axis; + where those two rise",
          &MotionRow::diagonal_travel,
          "Both axles"};
}

// Of one axle's housing.
AxleColumns HousingColumns(bool forces) {
  AxleColumns to{
      {"lateral_shift", "lateral shift", kLength, "housing centre y against the row at 0; + left",
       &MotionAxleRow::lateral_shift},
      {"axle_steer", "axle steer", kAngle,
       "heading of the housing's lateral axis in chassis axes, not against the rest; + turned left",
       &MotionAxleRow::axle_steer},
      {"housing_pitch", "housing pitch", kAngle,
       "elevation of the housing's forward axis, against the measured stance; + nose up",
       &MotionAxleRow::housing_pitch},
      {"housing_roll", "housing roll", kAngle, "of the housing against the chassis; + left up",
       &MotionAxleRow::housing_roll},
      {"wheelbase_change", "wheelbase change", kLength,
       "change of the housing-centre x against the row at 0; + lengthens the wheelbase",
       &MotionAxleRow::wheelbase_change}};
  if (forces) {
    to.push_back({"link_strain_force", "link strain force", kForce,
                  "greatest force in a link from links fighting one another; 0 for four links",
                  &MotionAxleRow::link_strain_force});
  }
  return to;
}

// Of one of its sides, 0 left, 1 right.
AxleColumns SideColumns(size_t s, bool coils) {
  AxleColumns to;
  AddPart(
      to, PointColumns("wheel_", "wheel ", "wheel centre, chassis axes"), [s](auto& r) -> auto& {
        return r.wheel[s];
      });
  if (coils) {
    to.push_back({"spring_length", "coil length", kLength,
                  "mean length of that side's coils, seat to seat",
                  [s](auto& r) { return r.spring_length[s]; }});
  }
  return to;
}

// Of one joint; `at` and `what` stand in the columns' names.
TableOf<JointTurn> JointColumns(const std::string& at, const std::string& what,
                                const std::string& head) {
  const std::string name = at + " " + what;
  return {{"joint_swing" + name, "swing" + head, kAngle,
           "turn of the link or arm about the bolt since the measured stance", &JointTurn::swing},
          {"joint_twist" + name, "twist" + head, kAngle,
           "turn about the link's own length since the measured stance, shared by both ends; of a "
           "radius arm, all at its frame eye",
           &JointTurn::twist},
          {"joint_misalignment" + name, "misalignment" + head, kAngle,
           "between the bolt and the bore of the eye", &JointTurn::misalignment}};
}

TableOf<LinkRow> LinkColumns(const std::string& name, bool forces) {
  TableOf<LinkRow> to;
  if (forces) {
    to = {{"link_force " + name, "force", kForce,
           "with coils, stops, weight and strain on it, wheels free to roll and slide; + tension",
           &LinkRow::force},
          {"link_strain " + name, "strain force", kForce,
           "the part of it that comes from links fighting one another; + tension",
           &LinkRow::strain_force}};
  }
  AddPart(
      to, JointColumns("_frame", name, ", frame end"),
      [](auto& link) -> auto& { return link.turn.frame; });
  AddPart(
      to, JointColumns("_axle", name, ", axle end"),
      [](auto& link) -> auto& { return link.turn.axle; });
  return to;
}

// Of one link or leg of an arm, or of a radius arm's eye.
AxleColumns ArmColumns(size_t i, const std::string& axle, const std::string& member) {
  const std::string name = axle + " " + member;
  return {{"link_force " + name, member, kForce,
           "with coils, stops, weight and strain on it; + tension, of an eye its size",
           [i](auto& r) { return r.arms[i].force; }},
          {"link_strain " + name, member + ", strain", kForce,
           "the part of it that comes from links fighting one another",
           [i](auto& r) { return r.arms_strain[i].force; }}};
}

// Adds columns of axle `a`, called `name`; `part` of it stands in the printed table's title.
struct AxleAdder {
  MotionColumns& to;
  size_t a;
  std::string name;

  void Add(const AxleColumns& columns, const std::string& part,
           const std::string& prefix = "") const {
    AddPart(
        to, columns, [a = a](auto& row) -> auto& { return row.axles[a]; }, AxleGroup(name, part),
        prefix);
  }
  void Housing(bool forces) const { Add(HousingColumns(forces), "housing", name + "_"); }
  void Side(size_t s, const std::string& side, bool coils) const {
    Add(SideColumns(s, coils), side + " wheel", name + "_" + side + "_");
  }
  void Hand(size_t s, const std::string& side) const {
    Add({{side + "_road_steer", side + " road steer", kAngle,
          "road-wheel steer against straight ahead; + left", [s](auto& r) { return r.hand[s]; }}},
        "steered", name + "_");
  }
  void Pitman() const {
    Add({{"pitman_travel", "pitman end", kLength,
          "how far the drag link's pitman end must have moved along the link from where the "
          "steering wheel is straight; + toward the knuckle",
          &MotionAxleRow::pitman_travel}},
        "steered", name + "_");
  }
  void Steer(const std::string& prefix) const {
    Add({{"steer", "steer", kAngle,
          "heading of the road wheel on the drag link's side with the steering wheel held, axle "
          "steer included, less its value in the row at 0; in steer as it is turned by hand; + "
          "left",
          &MotionAxleRow::steer}},
        "housing", prefix);
  }
  void Link(size_t l, const std::string& link, bool forces) const {
    AxleColumns columns;
    AddPart(
        columns,
        LinkColumns(name + " " + link, forces), [l](auto& row) -> auto& { return row.links[l]; });
    Add(columns, link);
  }
  void Arm(size_t i, const std::string& member) const { Add(ArmColumns(i, name, member), "arms"); }
  void ArmJoint(size_t i, const std::string& eye) const {
    AxleColumns columns;
    AddPart(
        columns, JointColumns("", name + " " + eye, ", " + eye), [i](auto& row) -> auto& {
          return row.arm_joints[i].turn;
        });
    Add(columns, "joints of arms");
  }
};

MotionColumns Collect(const Vehicle& vehicle, MotionKind kind, const std::optional<size_t>& only) {
  const bool forces = !IsGeometryOnly(vehicle);
  const std::array<Axle, 2>& axles = vehicle.axles;
  MotionColumns columns{ParameterColumn(kind)};
  if (kind == MotionKind::kCrossed && !only) columns.push_back(DiagonalColumn());
  const auto shown = only ? std::vector{*only} : std::vector<size_t>{kFront, kRear};
  const std::array<AxleAdder, 2> of{AxleAdder{columns, 0, axles[0].name},
                                    AxleAdder{columns, 1, axles[1].name}};
  for (const size_t a : shown) {
    of[a].Housing(forces);
    of[a].Side(0, "left", !axles[a].springs.empty());
    of[a].Side(1, "right", !axles[a].springs.empty());
  }
  for (const size_t a : shown) {
    if (kind != MotionKind::kSteer || !axles[a].steering) continue;
    of[a].Hand(0, "left");
    of[a].Hand(1, "right");
    of[a].Pitman();
  }
  for (const size_t a : shown) {
    if (axles[a].steering) of[a].Steer(a == kRear && axles[kFront].steering ? "rear_" : "");
  }
  for (const size_t a : shown) {
    for (size_t l = 0; l < axles[a].links.size(); ++l) {
      of[a].Link(l, DisplayName(axles[a].links[l].name), forces);
    }
    const std::vector<std::string> arms = ArmMemberNames(axles[a]);
    for (size_t i = 0; forces && i < arms.size(); ++i) of[a].Arm(i, arms[i]);
    const std::vector<std::string> joints = ArmJointNames(axles[a]);
    for (size_t i = 0; i < joints.size(); ++i) of[a].ArmJoint(i, joints[i]);
  }
  return columns;
}

}  // namespace

DataTable MotionTable(const Vehicle& vehicle, const MotionSweep& sweep, UnitSystem units) {
  return ToTable(Collect(vehicle, sweep.request.kind, sweep.request.grid.axle), sweep.rows, units);
}

std::vector<Column> AllMotionColumns() {
  MotionColumns all;
  for (const MotionKind kind :
       {MotionKind::kRoll, MotionKind::kOneWheel, MotionKind::kCrossed, MotionKind::kSteer}) {
    all.push_back(ParameterColumn(kind));
  }
  all.push_back(DiagonalColumn());
  const AxleAdder of{all, 0, "A"};
  of.Housing(true);
  of.Side(0, "S", true);
  of.Hand(0, "S");
  of.Pitman();
  of.Steer("");
  of.Link(0, "LINK", true);
  of.ArmJoint(0, "EYE");
  return ColumnsOf(all);
}

}  // namespace linkwright
