// SPDX-License-Identifier: MIT
#include "io/write/arm_tables.h"

#include <algorithm>
#include <cmath>

#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

TableOf<ArmCheck> ArmsColumns(const Vehicle& vehicle) {
  TableOf<ArmCheck> to{
      {"arm", "arm", kNumber, "axle and name; of an A-arm each leg, of a Watt's link each link",
       [&vehicle](const ArmCheck& it) { return vehicle.axles[it.axle].name + " " + it.arm.name; }}};
  AddPart(
      to,
      TableOf<ArmAt>{
          {"length", "eye to eye", kLength, "its own length", &ArmAt::length},
          {"longer", "longer than its holes", kLength,
           "its length less how far its two holes are apart with the axle as measured; - "
           "shorter",
           &ArmAt::longer},
          {"side_slope", "slope from the side", kAngle,
           "against the chassis x axis where the arms hold the axle; + frame end up", &ArmAt::side},
          {"plan_slope", "slope from above", kAngle,
           "against the chassis x axis, likewise; + frame end to the left", &ArmAt::plan},
          {"turns", "turns", kNumber, "of its adjuster, that make up that difference",
           &ArmAt::turns}},
      &ArmCheck::arm);
  return to;
}

}  // namespace

DataTable ArmTable(const Vehicle& vehicle, const std::vector<ArmCheck>& arms, UnitSystem units) {
  return ToTable(ArmsColumns(vehicle), arms, units);
}

DataTable ArmsAtRestTable(const Vehicle& vehicle, const std::vector<ArmAtRest>& arms,
                          UnitSystem units) {
  TableOf<ArmAtRest> columns;
  AddPart(columns, ArmsColumns(vehicle), &ArmAtRest::of);
  columns.insert(columns.begin() + 1,
                 {"load", "load", kNumber, "name of the load it rests under", &ArmAtRest::load});
  columns.push_back({"strain_force", "pulled by the others", kForce,
                     "along it, what links fighting one another put into it, where more than four "
                     "hold the axle: + stretched, - pressed; what coils, weight and a radius arm's "
                     "bending put into it is not in it; empty for four links, which cannot fight",
                     [](const ArmAtRest& it) { return it.of.arm.strain_force; }});
  return ToTable(columns, arms, units);
}

std::vector<std::string> PullNotes(const Vehicle& vehicle, const std::vector<ArmCheck>& arms,
                                   const std::string& where, UnitSystem units) {
  constexpr double kMisfit = 5e-5;  // [m] what a tape could show
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const size_t i : AxlesOf(vehicle)) {
    bool fits = true;
    double most = 0.0;
    for (const ArmCheck& it : arms) {
      if (it.axle != i) continue;
      fits = fits && std::abs(it.arm.longer) < kMisfit;
      most = std::max(most, std::abs(it.arm.strain_force.value_or(0.0)));
    }
    if (fits || most == 0.0) continue;
    writer.Say(
        "the {} axle: its arms are more than four and do not all fit their holes: {} they pull up "
        "to {} on one another; that and where it stands hang on their rates",
        vehicle.axles[i].name, where, writer.Amount(most, kForce));
  }
  return notes;
}

}  // namespace linkwright
