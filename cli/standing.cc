// SPDX-License-Identifier: MIT
#include "cli/standing.h"

#include "cli/settled.h"
#include "io/write/table_of.h"
#include "solver/rest/settle.h"

namespace linkwright {

FileStanding StandFile(const Question& asked, const char* so) {
  const VehicleFile& file = asked.files.front();
  FileStanding at{
      .rig = PrepareRig(file.vehicle), .load = AskedLoad(asked, file, so), .standing = {}};
  if (at.load == nullptr) {
    at.standing = *Stand(at.rig, nullptr);
    return at;
  }
  const Stance stance = Settle(at.rig, *at.load);
  if (stance.status != StanceStatus::kRests) throw NoRest(FormatRefusal(file, *at.load, stance));
  at.standing = {.stance = stance, .level = LevelMotion(at.rig, stance)};
  return at;
}

const Stance* StanceOf(const FileStanding& at) {
  return at.standing.stance ? &*at.standing.stance : nullptr;
}

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
