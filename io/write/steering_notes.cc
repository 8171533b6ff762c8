// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/note_writer.h"
#include "io/write/steering_tables.h"

namespace linkwright {
namespace {

void SayMissing(const NoteWriter& writer, const Axle& axle, const SteeredAxle& steered) {
  if (!steered.match) {
    writer.Say(
        fmt::format("the {} axle: no link lies across, so there is no track bar to hold "
                    "against the drag link",
                    axle.name));
  }
  if (!steered.tie_rod) {
    writer.Say(
        fmt::format("assumed: the {} axle has no tie_rod in the file, so both wheels are "
                    "taken to steer alike and toe does not change",
                    axle.name));
  }
}

// What centres an axle that stands off centre by more than a tape shows.
void SayCure(const NoteWriter& writer, const Axle& axle, const SidewaysCure& cure) {
  constexpr double kCentred = 1.2e-4;  // [m] shows as 0.00 in
  if (std::abs(cure.offset) < kCentred) return;
  const std::string start = "the " + axle.name + " axle: ";
  if (!cure.bar) {
    writer.Say(start + "no link lies across, so no one link centres it");
    return;
  }
  if (!cure.by) {
    writer.Say(start + fmt::format("no length of {} within {} of the present one centres it: more "
                                   "is not for a shop to turn (common practice)",
                                   cure.bar->name, writer.Length(*cure.most)));
    return;
  }
  std::string text =
      start + fmt::format("{} {} by {} centres it", cure.bar->name,
                          *cure.by > 0.0 ? "longer" : "shorter", writer.Length(std::abs(*cure.by)));
  if (cure.bar->thread) {
    text += fmt::format(", {} turns", ShowNumber(std::abs(*cure.by / *cure.bar->thread), 2));
  }
  if (cure.drag_link_by) {
    text += fmt::format(", and the drag link {} by {} keeps the wheels where they point",
                        *cure.drag_link_by > 0.0 ? "longer" : "shorter",
                        writer.Length(std::abs(*cure.drag_link_by)));
  }
  writer.Say(text);
}

}  // namespace

std::vector<std::string> SteeringNotes(const Vehicle& vehicle, const SteeringReport& report,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const SidewaysCure& cure : report.sideways) {
    SayCure(writer, vehicle.axles[cure.axle], cure);
  }
  for (const SteeredAxle& steered : report.axles) {
    SayMissing(writer, vehicle.axles[steered.axle], steered);
  }
  return notes;
}

}  // namespace linkwright
