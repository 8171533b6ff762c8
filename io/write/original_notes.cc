// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/note_writer.h"
#include "io/write/original_tables.h"

namespace linkwright {
namespace {

// "25.3 mm", without its sign.
std::string Length(double length, UnitSystem units) {
  return ShowAmount(std::abs(length), Dimension::kLength, units);
}

constexpr double kNothing = 5e-5;  // [m] shows as nothing on a tape

// "25.3 mm back", "0.0 mm forward".
std::string Along(double x, UnitSystem units) {
  return Length(x, units) + (x < 0.0 ? " back" : " forward");
}

void SayRule(const NoteWriter& writer, const Axle& axle, const LeafAxle& leaf) {
  if (!leaf.link_moved || leaf.moved.norm() < kNothing) return;
  writer.Say(
      fmt::format("the {} axle by the 3/4 link rule, which leaves the tilt of the leaf out: "
                  "{}",
                  axle.name, Along(*leaf.link_moved, writer.units)));
}

// What a doubt about the camber when new does to the answer.
void SayDoubt(const NoteWriter& writer, const Axle& axle, const LeafAxle& leaf) {
  if (leaf.guesses.size() < 2) return;
  const CamberGuess& low = leaf.guesses.front();
  const CamberGuess& high = leaf.guesses.back();
  writer.Say(
      fmt::format("the {} camber when new is the reading known worst: between {} "
                  "and {} of it the axle moved {} to {}",
                  axle.name, writer.Length(low.camber_new), writer.Length(high.camber_new),
                  Along(low.moved.x(), writer.units), Along(high.moved.x(), writer.units)));
}

void SayWheelbase(const NoteWriter& writer, const OriginalReport& report) {
  const std::string changed =
      Length(report.change, writer.units) + (report.change < 0.0 ? " shorter" : " longer");
  const std::optional<double> design = DesignWheelbase(report);
  writer.Say(design ? fmt::format("the design wheelbase is {}; the old axles have made it {} since",
                                  Length(*design, writer.units), changed)
                    : fmt::format("the old axle has made the wheelbase {}; give wheelbase_now or "
                                  "the other spring for the design wheelbase",
                                  changed));
}

}  // namespace

std::vector<std::string> OriginalNotes(const Vehicle& vehicle, const OriginalReport& report,
                                       UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  SayWheelbase(writer, report);
  for (const LeafAxle& leaf : report.axles) {
    const Axle& axle = vehicle.axles[static_cast<size_t>(leaf.axle)];
    SayRule(writer, axle, leaf);
    SayDoubt(writer, axle, leaf);
  }
  if (!vehicle.leaf_original->p_CD) {
    writer.Say(
        "without leaf_original.datum only distances are held against the file's openings, not "
        "places");
  }
  if (report.axles.size() == 1) {
    writer.Say(fmt::format("assumed: the {} axle, whose spring is not given, has not moved",
                           vehicle.axles[static_cast<size_t>(1 - report.axles[0].axle)].name));
  }
  writer.Say(
      "assumed: the leaf keeps its length and bends to arcs of one circle outside its clamp; bolts "
      "without play; the wheel stood centred in its opening when new; both cambers read under the "
      "same load");
  return notes;
}

}  // namespace linkwright
