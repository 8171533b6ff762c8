// SPDX-License-Identifier: MIT
#include "io/write/motion_columns.h"

#include <cctype>
#include <functional>

#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

struct MotionColumn {
  Column column;
  std::function<Cell(const MotionRow&)> value;
};

Column ParameterColumn(MotionKind kind) {
  switch (kind) {
    case MotionKind::kRoll:
      return {
          "body_roll", "body roll", kAngle, "",
          "of the body on level ground, left side up +: the left wheels droop by half the track "
          "times its sine, the right ones rise"};
    case MotionKind::kCrossed:
      return {"cross", "cross", kAngle, "",
              "the front housing as in roll at +, the rear one as in roll at -"};
    case MotionKind::kSteer:
      return {"hand", "left wheel steer", kAngle, "",
              "the left road wheel's steer at rest; + left"};
    case MotionKind::kBounce:  // has rows of its own: sweep_columns.cc
    case MotionKind::kOneWheel:
      break;
  }
  return {"travel", "travel", kLength, "",
          "of the one wheel, against the stance, along the chassis z axis; + bump"};
}

MotionColumn DiagonalColumn() {
  return {{"diagonal_travel", "travel between diagonals", kLength, "Both axles",
           "mean travel of the front right and rear left wheel less that of the other two, along "
           "the chassis z axis; + where those two rise"},
          [](const MotionRow& row) { return Cell(row.diagonal_travel); }};
}

// "Front" for "front": how a printed table's title begins.
std::string GroupOf(std::string axle) {
  axle[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(axle[0])));
  return axle;
}

// Columns of one axle. `axle` is its index in a row, `name` what the columns are called after.
void AddHousing(std::vector<MotionColumn>& to, size_t a, const std::string& name, bool forces) {
  const std::string group = GroupOf(name) + " axle: housing";
  const auto add = [&](const char* column, const char* head, Dimension dimension,
                       const char* definition, double MotionAxleRow::*member) {
    to.push_back({{name + "_" + column, head, dimension, group, definition},
                  [a, member](const MotionRow& row) { return Cell(row.axles[a].*member); }});
  };
  add("lateral_shift", "lateral shift", kLength, "housing centre y against the row at 0; + left",
      &MotionAxleRow::lateral_shift);
  add("axle_steer", "axle steer", kAngle,
      "heading of the housing's lateral axis in chassis axes, not against the rest; + turned left",
      &MotionAxleRow::axle_steer);
  add("housing_pitch", "housing pitch", kAngle,
      "elevation of the housing's forward axis, against the measured stance; + nose up",
      &MotionAxleRow::housing_pitch);
  add("housing_roll", "housing roll", kAngle, "of the housing against the chassis; + left up",
      &MotionAxleRow::housing_roll);
  add("wheelbase_change", "wheelbase change", kLength,
      "change of the housing-centre x against the row at 0; + lengthens the wheelbase",
      &MotionAxleRow::wheelbase_change);
  if (!forces) return;
  add("link_strain_force", "link strain force", kForce,
      "greatest force in a link from links fighting one another; 0 for four links",
      &MotionAxleRow::link_strain_force);
}

void AddSide(std::vector<MotionColumn>& to, size_t a, size_t s, const std::string& name,
             const std::string& side, bool coils) {
  const std::string group = GroupOf(name) + " axle: " + side + " wheel";
  const std::string prefix = name + "_" + side + "_";
  constexpr std::array kAxes{"x", "y", "z"};
  for (int i = 0; i < 3; ++i) {
    const std::string axis = kAxes[static_cast<size_t>(i)];
    to.push_back(
        {{prefix + "wheel_" + axis, "wheel " + axis, kLength, group, "wheel centre, chassis axes"},
         [a, s, i](const MotionRow& row) { return Cell(row.axles[a].wheel[s][i]); }});
  }
  if (!coils) return;
  to.push_back({{prefix + "spring_length", "coil length", kLength, group,
                 "mean length of that side's coils, seat to seat"},
                [a, s](const MotionRow& row) { return ToCell(row.axles[a].spring_length[s]); }});
}

constexpr const char* kSwing = "turn of the link or arm about the bolt since the measured stance";
constexpr const char* kTwist =
    "turn about the link's own length since the measured stance, shared by both ends; of a radius "
    "arm, all at its frame eye";
constexpr const char* kMisalignment = "between the bolt and the bore of the eye";

// Swing, twist and misalignment of one joint; `at` and `what` stand in the column's name.
using JointOf = std::function<const JointTurn&(const MotionRow&)>;
void AddJoint(std::vector<MotionColumn>& to, const std::string& at, const std::string& what,
              const std::string& head, const std::string& group, const JointOf& joint) {
  const auto add = [&](const char* kind, const char* definition, double JointTurn::*member) {
    to.push_back(
        {{std::string("joint_") + kind + at + " " + what, kind + head, kAngle, group, definition},
         [joint, member](const MotionRow& row) { return Cell(joint(row).*member); }});
  };
  add("swing", kSwing, &JointTurn::swing);
  add("twist", kTwist, &JointTurn::twist);
  add("misalignment", kMisalignment, &JointTurn::misalignment);
}

void AddArmJoint(std::vector<MotionColumn>& to, size_t a, size_t i, const std::string& axle,
                 const std::string& name) {
  AddJoint(
      to, "", axle + " " + name, ", " + name, GroupOf(axle) + " axle: joints of arms",
      [a, i](const MotionRow& row) -> const JointTurn& { return row.axles[a].arm_joints[i].turn; });
}

void AddLink(std::vector<MotionColumn>& to, size_t a, size_t l, const std::string& axle,
             const std::string& link, bool forces) {
  const std::string name = axle + " " + link;
  const std::string group = GroupOf(axle) + " axle: " + link;
  if (forces) {
    to.push_back({{"link_force " + name, "force", kForce, group,
                   "with coils, stops, weight and strain on it, wheels free to roll and slide; + "
                   "tension"},
                  [a, l](const MotionRow& row) { return ToCell(row.axles[a].links[l].force); }});
    to.push_back(
        {{"link_strain " + name, "strain force", kForce, group,
          "the part of it that comes from links fighting one another; + tension"},
         [a, l](const MotionRow& row) { return Cell(row.axles[a].links[l].strain_force); }});
  }
  AddJoint(to, "_frame", name, ", frame end", group,
           [a, l](const MotionRow& row) -> const JointTurn& {
             return row.axles[a].links[l].turn.frame;
           });
  AddJoint(
      to, "_axle", name, ", axle end", group,
      [a, l](const MotionRow& row) -> const JointTurn& { return row.axles[a].links[l].turn.axle; });
}

void AddArms(std::vector<MotionColumn>& to, size_t a, const Axle& axle) {
  const std::vector<std::string> names = ArmMemberNames(axle);
  const auto add = [&](size_t i, const char* what, const std::string& head, const char* definition,
                       std::vector<MemberForce> MotionAxleRow::*member) {
    to.push_back(
        {{std::string(what) + " " + axle.name + " " + names[i], head, kForce,
          GroupOf(axle.name) + " axle: arms", definition},
         [a, i, member](const MotionRow& row) { return Cell((row.axles[a].*member)[i].force); }});
  };
  for (size_t i = 0; i < names.size(); ++i) {
    add(i, "link_force", names[i],
        "with coils, stops, weight and strain on it; + tension, of an eye its size",
        &MotionAxleRow::arms);
    add(i, "link_strain", names[i] + ", strain",
        "the part of it that comes from links fighting one another", &MotionAxleRow::arms_strain);
  }
}

constexpr const char* kSteerDefinition =
    "heading of the road wheel on the drag link's side with the steering wheel held, axle steer "
    "included, less its value in the row at 0; in steer as it is turned by hand; + left";

void AddHand(std::vector<MotionColumn>& to, size_t a, size_t s, const std::string& name,
             const std::string& side) {
  to.push_back(
      {{name + "_" + side + "_road_steer", side + " road steer", kAngle,
        GroupOf(name) + " axle: steered", "road-wheel steer against straight ahead; + left"},
       [a, s](const MotionRow& row) { return ToCell(row.axles[a].hand[s]); }});
}

void AddPitman(std::vector<MotionColumn>& to, size_t a, const std::string& name) {
  to.push_back({{name + "_pitman_travel", "pitman end", kLength, GroupOf(name) + " axle: steered",
                 "how far the drag link's pitman end must have moved along the link from where the "
                 "steering wheel is straight; + toward the knuckle"},
                [a](const MotionRow& row) { return ToCell(row.axles[a].pitman_travel); }});
}

std::vector<MotionColumn> Collect(const Vehicle& vehicle, MotionKind kind) {
  const bool forces = !IsGeometryOnly(vehicle);
  std::vector<MotionColumn> columns{
      {ParameterColumn(kind), [](const MotionRow& row) { return Cell(row.parameter); }}};
  if (kind == MotionKind::kCrossed) columns.push_back(DiagonalColumn());
  for (size_t a = 0; a < 2; ++a) {
    const Axle& axle = vehicle.axles[a];
    AddHousing(columns, a, axle.name, forces);
    AddSide(columns, a, 0, axle.name, "left", !axle.springs.empty());
    AddSide(columns, a, 1, axle.name, "right", !axle.springs.empty());
  }
  for (size_t a = 0; a < 2; ++a) {
    if (kind != MotionKind::kSteer || !vehicle.axles[a].steering) continue;
    AddHand(columns, a, 0, vehicle.axles[a].name, "left");
    AddHand(columns, a, 1, vehicle.axles[a].name, "right");
    AddPitman(columns, a, vehicle.axles[a].name);
  }
  const bool both = vehicle.axles[0].steering && vehicle.axles[1].steering;
  for (size_t a = 0; a < 2; ++a) {
    if (!vehicle.axles[a].steering) continue;
    columns.push_back({{both && a == kRear ? "rear_steer" : "steer", "steer", kAngle,
                        GroupOf(vehicle.axles[a].name) + " axle: housing", kSteerDefinition},
                       [a](const MotionRow& row) { return ToCell(row.axles[a].steer); }});
  }
  for (size_t a = 0; a < 2; ++a) {
    const Axle& axle = vehicle.axles[a];
    for (size_t l = 0; l < axle.links.size(); ++l) {
      AddLink(columns, a, l, axle.name, DisplayName(axle.links[l].name), forces);
    }
    if (forces) AddArms(columns, a, axle);
    const std::vector<std::string> joints = ArmJointNames(axle);
    for (size_t i = 0; i < joints.size(); ++i) AddArmJoint(columns, a, i, axle.name, joints[i]);
  }
  return columns;
}

}  // namespace

DataTable MotionTable(const Vehicle& vehicle, const MotionSweep& sweep, UnitSystem units) {
  const std::vector<MotionColumn> columns = Collect(vehicle, sweep.request.kind);
  DataTable table{.units = units, .columns = {}, .rows = {}};
  for (const MotionColumn& column : columns) table.columns.push_back(column.column);
  for (const MotionRow& row : sweep.rows) {
    std::vector<Cell> cells;
    for (const MotionColumn& column : columns) cells.push_back(column.value(row));
    table.rows.push_back(std::move(cells));
  }
  return table;
}

std::vector<Column> AllMotionColumns() {
  std::vector<MotionColumn> columns;
  for (const MotionKind kind :
       {MotionKind::kRoll, MotionKind::kOneWheel, MotionKind::kCrossed, MotionKind::kSteer}) {
    columns.push_back({ParameterColumn(kind), {}});
  }
  columns.push_back(DiagonalColumn());
  AddHousing(columns, 0, "A", true);
  AddSide(columns, 0, 0, "A", "S", true);
  AddHand(columns, 0, 0, "A", "S");
  AddPitman(columns, 0, "A");
  columns.push_back({{"steer", "steer", kAngle, "", kSteerDefinition}, {}});
  AddLink(columns, 0, 0, "A", "LINK", true);
  AddArmJoint(columns, 0, 0, "A", "EYE");
  std::vector<Column> all;
  for (const MotionColumn& column : columns) all.push_back(column.column);
  return all;
}

}  // namespace linkwright
