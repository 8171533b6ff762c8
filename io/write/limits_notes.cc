// SPDX-License-Identifier: MIT
// What `limits` tells beside its findings: ways that nothing ends, parts for which nothing is
// asked, what it takes as it is given, and what it cannot watch for want of data.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "io/write/limits_tables.h"
#include "io/write/note_writer.h"

namespace linkwright {
namespace {

void SayEnd(const NoteWriter& writer, const AxleLimit& limit) {
  if (limit.ended_by) return;
  writer.Say(fmt::format("{} {}: nothing in the file ends it",
                         writer.vehicle->axles[limit.axle].name, NameOf(limit.motion)));
}

void SayWish(const NoteWriter& writer, size_t axle, const PartsAdvice& advice) {
  for (const bool bump : {true, false}) {
    if (bump ? advice.wanted[axle].bump : advice.wanted[axle].droop) continue;
    const char* way = bump ? "bump" : "droop";
    writer.Say(
        fmt::format("{}: no {} is wanted and none is found, so no parts are advised for it; "
                    "ask with --{}",
                    writer.vehicle->axles[axle].name, way, way));
  }
}

template <typename Members, typename F>
void AddMissing(std::set<std::string>& what, const Members& members, const char* text,
                const F& lacks) {
  if (std::any_of(members.begin(), members.end(), lacks)) what.insert(text);
}

void SayUnwatched(const NoteWriter& writer, size_t axle) {
  const Axle& it = writer.vehicle->axles[axle];
  std::set<std::string> what;
  AddMissing(what, it.springs, "coils going solid (solid_length)",
             [](const Spring& s) { return !s.solid_length && s.law.curve.empty(); });
  AddMissing(what, it.dampers, "dampers' ends (shortest, longest)",
             [](const Damper& d) { return !d.shortest || !d.longest; });
  AddMissing(what, it.bump_stops, "stops going solid (curve)",
             [](const Stop& s) { return s.law.curve.empty(); });
  AddMissing(what, it.straps, "straps (length)", [](const Strap& s) { return !s.length; });
  AddMissing(what, it.links, "joints of links (misalignment_limit)",
             [](const Link& l) { return !l.misalignment_limit; });
  for (const Driveshaft& shaft : writer.vehicle->driveshafts) {
    if (static_cast<size_t>(shaft.axle) == axle && !shaft.slip) what.insert("the spline (slip)");
  }
  if (!it.opening || !it.opening->radius) what.insert("tyre at the lip (openings: radius)");
  if (!it.opening || !it.opening->inner_panel_y) {
    what.insert("tyre at the inner panel (openings: inner_panel_y)");
  }
  if (it.opening && it.opening->radius && !it.opening->lip_y) {
    writer.Say(it.name +
               ": assumed: the opening has no lip_y, so its lip is taken to reach across "
               "the whole tyre; a tyre that tucks in behind it goes farther");
  }
  SayLipLegs(writer, it);
  if (what.empty()) return;
  std::string text;
  for (const std::string& each : what) text += (text.empty() ? "" : "; ") + each;
  writer.Say(it.name + ", not watched for want of data: " + text);
}

}  // namespace

void SayLipLegs(const NoteWriter& writer, const Axle& axle) {
  if (!axle.opening || !axle.opening->radius) return;
  writer.Say(axle.name +
             ": assumed: from the ends of its arc the opening's edge runs straight down without "
             "end; below the real one's lower end a tyre is clear that is said to touch");
}

std::vector<std::string> LimitsNotes(const Vehicle& vehicle, const LimitsReport& limits,
                                     const PartsAdvice& advice, UnitSystem units, bool planned) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  if (planned) {
    writer.Say(
        "what is in the way, stops and coils are judged in the travel wanted; lines that say 'as "
        "found' are of the vehicle as the file has it, without the parts advised");
  }
  for (size_t axle = 0; axle < 2; ++axle) {
    if (vehicle.axles[axle].straps.empty()) {
      writer.Say(vehicle.axles[axle].name +
                 ": the file has no strap, so that something else must end droop");
    }
    for (const AxleLimit& limit : limits.bounce[axle]) SayEnd(writer, limit);
    for (const CrossedLimit& crossed : limits.crossed) {
      if (!crossed.first) SayEnd(writer, crossed.axles[axle]);
    }
    SayWish(writer, axle, advice);
  }
  for (size_t axle = 0; axle < 2; ++axle) SayUnwatched(writer, axle);
  return notes;
}

}  // namespace linkwright
