// SPDX-License-Identifier: MIT
// What `limits` takes as it is given, and what it cannot watch for want of data.
#include <algorithm>
#include <set>

#include "io/write/finding_writer.h"
#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

template <typename Members, typename F>
void AddMissing(std::set<std::string>& what, const Members& members, const char* text,
                const F& lacks) {
  if (std::any_of(members.begin(), members.end(), lacks)) what.insert(text);
}

}  // namespace

void SayUnwatched(const FindingWriter& writer, size_t axle) {
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

void SayLipLegs(const FindingWriter& writer, const Axle& axle) {
  if (!axle.opening || !axle.opening->radius) return;
  writer.Say(axle.name +
             ": assumed: from the ends of its arc the opening's edge runs straight down without "
             "end; below the real one's lower end a tyre is clear that is said to touch");
}

}  // namespace linkwright
