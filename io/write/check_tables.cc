// SPDX-License-Identifier: MIT
#include "io/write/check_tables.h"

#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

std::string Join(const std::vector<FreeMotion>& motions) {
  std::string joined;
  for (const FreeMotion& motion : motions) joined += (joined.empty() ? "" : "; ") + motion.words;
  return joined.empty() ? "none" : joined;
}

DataTable AxleTable(const Vehicle& vehicle, const CheckReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"axle", "axle", kNumber, "", "front or rear"},
      {"links", "links", kNumber, "", "how many locate the housing"},
      {"motions_held", "motions held", kNumber, "",
       "of the four: fore and aft, sideways, steer, wind-up"},
      {"free", "free to move", kNumber, "", "motions that no link holds"},
      {"nearly_free", "nearly free", kNumber, "", "motions that the links hold weakly"},
      {"links_too_many", "links too many", kNumber, "", "links beyond the motions they hold"},
      {"strain_bounce_rate", "strain in bounce", kRate, "",
       "rate that over-constraint adds in bounce, both wheels, about the measured stance"},
      {"strain_roll_rate", "strain in roll", kRollRate, "",
       "roll stiffness that over-constraint adds"}};
  for (size_t i = 0; i < 2; ++i) {
    const Freedom& freedom = report.axles[i].freedom;
    std::vector<Cell> row{vehicle.axles[i].name,
                          std::to_string(report.axles[i].links),
                          std::to_string(freedom.rank) + " of 4",
                          Join(freedom.free),
                          Join(freedom.weak),
                          std::string("0"),
                          std::monostate{},
                          std::monostate{}};
    if (freedom.fight) {
      row[5] = std::to_string(freedom.fight->too_many);
      row[6] = freedom.fight->bounce_rate;
      row[7] = freedom.fight->roll_rate;
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

DataTable CoilTable(const Vehicle& vehicle, const CheckReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"coil", "coil", kNumber, "", "axle and name"},
                   {"measured_length", "length measured", kLength, "", "seat to seat"},
                   {"free_length", "free length", kLength, "", "without load"},
                   {"deflection", "squeezed", kLength, "", "free length less measured length"},
                   {"force", "force", kForce, "", "at the measured length"},
                   {"rate", "rate", kRate, "", "at the measured length"},
                   {"to_solid", "left to solid", kLength, "",
                    "measured length less solid length, or less the last point of its curve where "
                    "that comes first; empty where neither is given"}};
  for (const CoilCheck& coil : report.coils) {
    std::optional<double> squeezed;
    if (coil.free_length) squeezed = *coil.free_length - coil.length;
    table.rows.push_back({vehicle.axles[coil.axle].name + " " + coil.member, coil.length,
                          ToCell(coil.free_length), ToCell(squeezed), ToCell(coil.force), coil.rate,
                          ToCell(coil.to_solid)});
  }
  return table;
}

void AddMass(DataTable& table, const std::string& what, double mass, const Eigen::Vector3d& p) {
  table.rows.push_back({what, mass, p.x(), p.y(), p.z()});
}

DataTable MassTable(const Vehicle& vehicle, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"item", "item", kNumber, "", "what"},
                   {"mass", "mass", kMass, "", "- where it is taken off"},
                   {"x", "x", kLength, "", "of its centre, chassis axes"},
                   {"y", "y", kLength, "", "of its centre, chassis axes"},
                   {"z", "z", kLength, "", "of its centre, chassis axes"}};
  if (vehicle.ledger) {
    const Mass weighed = WeighedTotal(vehicle, *vehicle.ledger);
    AddMass(table, "as weighed", weighed.mass, weighed.p_CM);
    for (const Mass& m : vehicle.ledger->removed) AddMass(table, m.item, -m.mass, m.p_CM);
    for (const Mass& m : vehicle.ledger->added) AddMass(table, m.item, m.mass, m.p_CM);
    for (const Axle& axle : vehicle.axles) {
      if (axle.unsprung) {
        AddMass(table, axle.name + " unsprung", -axle.unsprung->mass, axle.unsprung->p_CM);
      }
    }
  }
  const SprungMass sprung = FinishedSprungMass(vehicle);
  AddMass(table, "sprung mass", sprung.mass, sprung.p_CM);
  for (const Load& load : vehicle.loads) {
    if (load.items.empty()) continue;
    const SprungMass loaded = WithLoad(sprung, load);
    AddMass(table, "sprung with " + load.name, loaded.mass, loaded.p_CM);
  }
  return table;
}

DataTable WeightTable(const Vehicle& vehicle, const CheckReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"axle", "axle", kNumber, "", "front or rear"},
      {"by_coils", "by its coils", kMass, "",
       "what coils and stops carry at their measured length, by virtual work in bounce (links "
       "carry "
       "a part where a coil leans or the housing turns), and the unsprung mass"},
      {"by_scales", "by the scales", kMass, "", "as weighed"},
      {"tire_height", "hub height by its tyre", kLength, "",
       "unloaded radius less the tyre's deflection under that weight"},
      {"measured_height", "hub height measured", kLength, "", "wheel centre above the floor"}};
  for (size_t i = 0; i < 2; ++i) {
    const std::optional<WeightCheck>& weight = report.axles[i].weight;
    if (!weight) continue;
    table.rows.push_back({vehicle.axles[i].name, weight->by_coils, ToCell(weight->by_scales),
                          ToCell(weight->tire_height), weight->measured_height});
  }
  return table;
}

}  // namespace

std::vector<NamedTable> CheckTables(const Vehicle& vehicle, const CheckReport& report,
                                    UnitSystem units) {
  std::vector<NamedTable> tables{{"axles", AxleTable(vehicle, report, units)}};
  if (!report.coils.empty()) tables.push_back({"coils", CoilTable(vehicle, report, units)});
  if (!IsGeometryOnly(vehicle)) {
    tables.push_back({"masses", MassTable(vehicle, units)});
    tables.push_back({"weights", WeightTable(vehicle, report, units)});
  }
  return tables;
}

}  // namespace linkwright
