// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/check_tables.h"
#include "io/write/note_writer.h"

namespace linkwright {

std::vector<std::string> CheckNotes(const Vehicle& vehicle, const CheckReport& report,
                                    UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (size_t i = 0; i < 2; ++i) {
    const std::string& axle = vehicle.axles[i].name;
    const Freedom& freedom = report.axles[i].freedom;
    if (!freedom.free.empty()) continue;
    if (!freedom.fight) {
      writer.Say(fmt::format("the {} axle: four links hold its four motions, none too many", axle));
      continue;
    }
    const LinkFight& fight = *freedom.fight;
    const bool metric = units == UnitSystem::kMetric;
    writer.Say(fmt::format(
        "the {} axle: {} links where four would do, so it lives on bushing give: near the measured "
        "stance {} takes {} a degree of roll, and {} takes {} a {} of bounce",
        axle, 4 + fight.too_many, fight.roll_name,
        writer.Amount(fight.roll_link_force * M_PI / 180.0, Dimension::kForce), fight.bounce_name,
        writer.Amount(fight.bounce_link_force * (metric ? 0.01 : 0.0254), Dimension::kForce),
        metric ? "10 mm" : "1 in"));
  }
  return notes;
}

std::vector<std::string> FightNotes(const Vehicle& vehicle,
                                    const std::vector<FightAtExtremes>& fights, UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const FightAtExtremes& fight : fights) {
    writer.Say(fmt::format(
        "the {} axle: crossed to {}, {} takes {} from the others; its joints twist up to {} and "
        "misalign up to {}: rod ends must take that, bushings give it",
        vehicle.axles[fight.axle].name, writer.Angle(fight.cross), fight.member,
        writer.Amount(fight.force, Dimension::kForce), writer.Angle(fight.twist),
        writer.Angle(fight.misalignment)));
  }
  return notes;
}

}  // namespace linkwright
