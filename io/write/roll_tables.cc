// SPDX-License-Identifier: MIT
#include "io/write/roll_tables.h"

#include "io/write/roll_table_rows.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

DataTable VehicleTable(const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"load", "load", kNumber, "", "name of the load that everything here is for"},
      {"total_mass", "total mass", kMass, "", "of the whole vehicle with it"},
      {"cg_height", "centre of mass up", kLength, "", "above the floor, at rest"},
      {"inside_right_wheels", "inside right wheels", kLength, "",
       "centre of mass to the line through the right wheels, sideways along the floor: what holds "
       "it in a left turn"},
      {"inside_left_wheels", "inside left wheels", kLength, "", "the same to the left wheels"}};
  table.rows.push_back({study.rest.load, study.report.total_mass, study.tipping[0].height,
                        study.tipping[0].inside, study.tipping[1].inside});
  return table;
}

DataTable StiffnessTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"axle", "axle", kNumber, "", "front or rear"},
      {"coil_spacing", "coil spacing", kLength, "",
       "between the outermost housing seats of the coils, along the housing"},
      {"coils_by_spacing", "half k s2", kRollRate, "",
       "of the coils by the handbook: half their rate times their spacing squared"},
      {"coils", "coils", kRollRate, "", "of the coils, from their energy: lean and force included"},
      {"stops", "stops", kRollRate, "", "of the stops that touch at rest"},
      {"anti_roll_bar", "bar", kRollRate, "", "of the anti-roll bar"},
      {"link_strain", "link strain", kRollRate, "",
       "of links that fight one another in roll; 0 with four links"},
      {"suspension", "together", kRollRate, "",
       "the sum: per degree of housing roll against the body"},
      {"tires", "tyres", kRollRate, "",
       "of both tyres at their track; empty where they are taken as rigid"},
      {"whole", "with tyres", kRollRate, "", "suspension and tyres in series"},
      {"share", "share", kPercent, "", "of both axles' stiffness with tyres"}};
  const double sum = study.stiffness[0].whole + study.stiffness[1].whole;
  for (size_t i = 0; i < 2; ++i) {
    const RollParts& parts = study.stiffness[i];
    const std::optional<CoilSpread>& spread = study.spread[i];
    std::optional<double> share;
    if (sum != 0.0) share = parts.whole / sum;
    table.rows.push_back(
        {vehicle.axles[i].name, CellIf(spread.has_value(), spread ? spread->spacing : 0.0),
         CellIf(spread.has_value(), spread ? spread->stiffness : 0.0), parts.coils, parts.stops,
         parts.bar, parts.strain, parts.suspension, Cell(parts.tires), parts.whole, Cell(share)});
  }
  return table;
}

DataTable AxisTable(const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"load", "load", kNumber, "", "name of the load"},
      {"front_roll_center_height", "front roll centre", kLength, "", "above the floor"},
      {"rear_roll_center_height", "rear roll centre", kLength, "", "above the floor"},
      {"roll_axis_height", "axis under the mass", kLength, "",
       "of the roll axis above the floor, under the sprung centre of mass"},
      {"roll_axis_slope", "axis slope", kAngle, "", "of the roll axis; + rises toward the front"},
      {"roll_arm", "mass above the axis", kLength, "",
       "sprung centre of mass above the roll axis: the arm that leans the body; below 0 it leans "
       "into the turn"},
      {"roll_gradient", "roll gradient", kRollGradient, "",
       "body roll per g by the handbook, tyres in series; of the sign of the mass above the axis; "
       "empty where the weight overturns it"},
      {"front_roll_steer", "front roll steer", kAngleRatio, "",
       "front axle steer per degree of body roll over a level axle; + left as the left side rises: "
       "into the turn"},
      {"rear_roll_steer", "rear roll steer", kAngleRatio, "", "the same of the rear axle"}};
  const RollGeometry& g = study.geometry;
  table.rows.push_back({study.rest.load, g.roll_center[0], g.roll_center[1], g.axis_height,
                        g.axis_slope, g.arm, Cell(study.report.roll_gradient), g.roll_steer[0],
                        g.roll_steer[1]});
  return table;
}

DataTable CornerTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = CornerColumns(), .rows = {}};
  const Corner& corner = study.corner;
  const bool stands = corner.stance.status == StanceStatus::kRests;
  std::array<double, 5> sums{};
  for (size_t i = 0; i < 2; ++i) {
    std::array<Cell, 5> cells;
    if (corner.handbook) {
      const HandbookTransfer& own = (*corner.handbook)[i];
      const std::array<double, 4> terms{own.sprung, own.unsprung, own.roll_moment, own.total};
      for (size_t t = 0; t < 4; ++t) {
        cells[t] = terms[t];
        sums[t] += terms[t];
      }
    }
    if (stands) cells[4] = corner.moved[i];
    sums[4] += corner.moved[i];
    table.rows.push_back({vehicle.axles[i].name, cells[0], cells[1], cells[2], cells[3], cells[4],
                          CellIf(stands, corner.axle_steer[i])});
  }
  std::vector<Cell> both{std::string("both")};
  for (size_t t = 0; t < 5; ++t) {
    const bool known = t == 4 ? stands : corner.handbook.has_value();
    both.push_back(CellIf(known, sums[t]));
  }
  both.emplace_back();
  table.rows.push_back(std::move(both));
  return table;
}

DataTable BodyTable(const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"lateral", "turn", kLateral, "", "sideways acceleration asked about; + turning left"},
      {"body_roll", "body roll", kAngle, "",
       "of the body against its rest, by the equilibrium; + left side up; empty where there is "
       "none"},
      {"body_roll_handbook", "by handbook", kAngle, "", "roll gradient times the acceleration"},
      {"rear_less_front_steer", "rear less front steer", kAngle, "",
       "axle steer of the rear less that of the front; of the sign of the turn: it turns in less "
       "(understeer), against it: more"}};
  const Corner& corner = study.corner;
  const bool stands = corner.stance.status == StanceStatus::kRests;
  table.rows.push_back({study.lateral, CellIf(stands, corner.body_roll), Cell(corner.handbook_roll),
                        CellIf(stands, corner.axle_steer[1] - corner.axle_steer[0])});
  return table;
}

DataTable WheelTable(const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"wheel", "wheel", kNumber, "", "which"},
                   {"load_at_rest", "load at rest", kForce, "", "floor on tyre"},
                   {"load_in_turn", "load in the turn", kForce, "",
                    "the same in the turn, by the equilibrium; empty where there is none"},
                   {"change", "change", kForce, "", "of the load; + more on it"}};
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    const double before = study.rest.wheel_load[wheel];
    std::vector<Cell> row{std::string(kWheelNames[wheel]), before, Cell(), Cell()};
    if (study.corner.stance.status == StanceStatus::kRests) {
      row[2] = study.corner.stance.wheel_load[wheel];
      row[3] = study.corner.stance.wheel_load[wheel] - before;
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::vector<Column> LiftColumns() {
  return {
      {"turn", "turn", kNumber, "", "left or right"},
      {"first_wheel", "first to lift", kNumber, "",
       "the wheel whose load is the first to reach zero as the turn gets tighter"},
      {"lift", "lifts at", kLateral, "",
       "sideways acceleration at which it does; empty where none lifts up to 2 g, or where it "
       "carries nothing as it stands, which a note says"},
      {"goes_over", "goes over", kLateral, "",
       "sideways acceleration beyond which no standing position is near; with no wheel lifted "
       "before "
       "it, the body leans over at once; empty where it still stands at 2 g, or where it goes over "
       "as it stands, which a note says"},
      {"stiff_tipping_point", "as a block", kLateral, "",
       "the same with nothing giving: how far the centre of mass stands inside the outer wheels, "
       "over its height; empty where that is not above 0, which a note says"},
      {"member_at", "at its end", kLateral, "",
       "sideways acceleration at which the first damper, coil, stop or strap is at its end; it "
       "holds from there on; empty where none is, or where it is there as it stands, which a note "
       "says"},
      {"member", "which", kNumber, "", "that member"}};
}

DataTable LiftTable(const Vehicle& vehicle, const RollStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = LiftColumns(), .rows = {}};
  const auto in_g = [](double share) { return CellIf(!AtOnce(share), share * kStandardGravity); };
  for (size_t side = 0; side < 2; ++side) {
    const PushEnds& ends = study.turns[side];
    std::vector<Cell> row{std::string(side == 0 ? "left" : "right"),
                          Cell(),
                          Cell(),
                          ends.over ? in_g(*ends.over) : Cell(),
                          Cell(study.tipping[side].lateral),
                          Cell(),
                          Cell()};
    if (ends.lift) row[1] = WheelName(vehicle, ends.lift->wheel);
    if (ends.lift) row[2] = in_g(ends.lift->share);
    if (ends.member) row[5] = in_g(ends.member->share);
    if (ends.member) row[6] = ends.member->what;
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace

std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                   UnitSystem units) {
  std::vector<NamedTable> tables{{"vehicle", VehicleTable(study, units)},
                                 {"roll stiffness", StiffnessTable(vehicle, study, units)},
                                 {"roll axis", AxisTable(study, units)},
                                 {"turn", BodyTable(study, units)},
                                 {"load transfer", CornerTable(vehicle, study, units)},
                                 {"wheels", WheelTable(study, units)},
                                 {"wheel lift", LiftTable(vehicle, study, units)}};
  if (study.torque) tables.push_back({"shaft torque", TorqueTable(vehicle, study, units)});
  return tables;
}

}  // namespace linkwright
