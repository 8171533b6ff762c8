// SPDX-License-Identifier: MIT
#include "cli/standing.h"

#include "cli/command.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"

namespace linkwright {

std::optional<FileStanding> StandFile(const VehicleFile& file, const std::string& load,
                                      Streams& streams) {
  FileStanding result{.rig = PrepareFor(file), .load = nullptr, .standing = {}};
  if (IsGeometryOnly(file.vehicle)) {
    if (!load.empty()) {
      throw UsageError("--load: the file has no masses, so it stands as measured");
    }
    result.standing = *Stand(result.rig, nullptr);
    return result;
  }
  result.load = &FindLoad(file.vehicle, load);
  try {
    const Stance stance = Settle(result.rig, *result.load);
    if (stance.status != StanceStatus::kRests) {
      streams.err << FormatRefusal(file, {.load = result.load->name, .message = stance.message});
      return std::nullopt;
    }
    result.standing = {.stance = stance, .level = LevelMotion(result.rig, stance)};
  } catch (const ModelError& error) {
    throw Locate(file, error);
  }
  return result;
}

const Stance* StanceOf(const FileStanding& standing) { return StanceOf(standing.standing); }

std::string StandingNote(const FileStanding& standing) {
  if (standing.load == nullptr) {
    return "the file gives no masses: rest is the measured stance, and a changed link leaves the "
           "wheels at that height";
  }
  return "rest is the resting position under the load '" + standing.load->name +
         "', each axle at the mean of its two wheels";
}

NamedTable StandingTable(const FileStanding& standing, UnitSystem units) {
  return StandingTable(standing.load, units);
}

NamedTable StandingTable(const Load* load, UnitSystem units) {
  return {"standing",
          {.units = units,
           .columns = {{"rest", "rest", Dimension::kNumber, "", "what everything is about"},
                       {"load", "load", Dimension::kNumber, "",
                        "the load it rests under; 'as measured' without masses"}},
           .rows = {{std::string("at rest"), load == nullptr ? "as measured" : load->name}}}};
}

}  // namespace linkwright
