// SPDX-License-Identifier: MIT
#include "cli/standing.h"

#include "cli/settled.h"
#include "io/write/table_of.h"

namespace linkwright {

FileStanding StandFile(const Question& asked, const char* so) {
  const VehicleFile& file = asked.files.front();
  const Load* load = AskedLoad(asked, file, so);
  if (load == nullptr) {
    const Rig rig = PrepareRig(file.vehicle);
    return {.rig = rig, .load = nullptr, .standing = *Stand(rig, nullptr)};
  }
  const Settled settled = SettleLoads(file, {load});
  if (settled.stances.empty()) throw NoRest(settled.refusals);
  const Stance& stance = settled.stances.front();
  return {.rig = settled.rig,
          .load = load,
          .standing = {.stance = stance, .level = LevelMotion(settled.rig, stance)}};
}

EachStanding StandUnderEach(const Question& asked, const FileStanding& at) {
  const std::vector<Load>& loads = asked.files.front().vehicle.loads;
  const bool one = IsGiven(asked, "--load");
  EachStanding each{.standings = {at}, .no_rest = {}, .one_load = one && loads.size() > 1};
  if (one || at.load == nullptr) return each;
  for (const Load& load : loads) {
    if (&load == at.load) continue;
    if (std::optional<Standing> standing = Stand(at.rig, &load)) {
      each.standings.push_back({.rig = at.rig, .load = &load, .standing = *std::move(standing)});
    } else {
      each.no_rest.push_back(load.name);
    }
  }
  return each;
}

const Stance* StanceOf(const FileStanding& at) { return StanceOf(at.standing); }

NamedTable StandingTable(const Load* load, UnitSystem units) {
  const std::string name = load == nullptr ? "as measured" : load->name;
  const TableOf<std::string> columns{
      {"rest", "rest", Dimension::kNumber, "what everything is about",
       [](auto&) { return "at rest"; }},
      {"load", "load", Dimension::kNumber, "the load it rests under; 'as measured' without masses",
       [](auto& of) { return of; }}};
  return {"standing", ToTable(columns, std::vector{name}, units)};
}

Answer AnswerAt(const FileStanding& at, const Question& asked) {
  const std::string about =
      at.load == nullptr
          ? "the file gives no masses: rest is the measured stance, and a changed link leaves the "
            "wheels at that height"
          : "rest is the resting position under the load '" + at.load->name +
                "', each axle at the mean of its two wheels";
  return {.standing = StandingTable(at.load, asked.units), .tables = {}, .notes = {about}};
}

}  // namespace linkwright
