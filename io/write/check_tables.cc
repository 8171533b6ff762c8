// SPDX-License-Identifier: MIT
#include "io/write/check_tables.h"

#include <algorithm>
#include <cmath>

#include "io/write/arm_tables.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"
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
  const auto freedom = [&](size_t i) -> const Freedom& { return report.axles[i].freedom; };
  const TableOf<size_t> columns{
      AxleColumn<size_t>(vehicle),
      {"links", "links", kNumber, "how many locate the housing",
       [&](auto i) { return std::to_string(report.axles[i].links); }},
      {"motions_held", "motions held", kNumber,
       "of the four: fore and aft, sideways, steer, wind-up",
       [&](auto i) { return std::to_string(freedom(i).rank) + " of 4"; }},
      {"free", "free to move", kNumber, "motions that no link holds",
       [&](auto i) { return Join(freedom(i).free); }},
      {"nearly_free", "nearly free", kNumber, "motions that the links hold weakly",
       [&](auto i) { return Join(freedom(i).weak); }},
      {"links_too_many", "links too many", kNumber, "links beyond the motions they hold",
       [&](auto i) { return std::to_string(freedom(i).fight ? freedom(i).fight->too_many : 0); }},
      {"strain_bounce_rate", "strain in bounce", kRate,
       "rate that over-constraint adds in bounce, both wheels, about the measured stance",
       [&](auto i) { return Within(freedom(i).fight, &LinkFight::bounce_rate); }},
      {"strain_roll_rate", "strain in roll", kRollRate, "roll stiffness that over-constraint adds",
       [&](auto i) { return Within(freedom(i).fight, &LinkFight::roll_rate); }}};
  return ToTable(columns, AxlesOf(vehicle), units);
}

DataTable CoilTable(const Vehicle& vehicle, const CheckReport& report, UnitSystem units) {
  const TableOf<CoilCheck> columns{
      {"coil", "coil", kNumber, "axle and name", MemberNameIn(vehicle)},
      {"measured_length", "length measured", kLength, "seat to seat", &CoilCheck::length},
      {"free_length", "free length", kLength, "without load", &CoilCheck::free_length},
      {"deflection", "squeezed", kLength, "free length less measured length",
       [](auto& coil) { return Less(coil.free_length, coil.length); }},
      {"force", "force", kForce, "at the measured length", &CoilCheck::force},
      {"rate", "rate", kRate, "at the measured length", &CoilCheck::rate},
      {"to_solid", "left to solid", kLength,
       "measured length less solid length, or less the last point of its curve where that comes "
       "first; empty where neither is given",
       &CoilCheck::to_solid}};
  return ToTable(columns, report.coils, units);
}

// What is weighed, put on or taken off, below 0; then what is left, alone and with each load.
std::vector<Mass> MassesOf(const Vehicle& vehicle) {
  std::vector<Mass> masses;
  const auto take_off = [&](const std::string& what, const auto& mass) {
    masses.push_back({what, -mass.mass, mass.p_CM});
  };
  if (vehicle.ledger) {
    const Mass weighed = WeighedTotal(vehicle, *vehicle.ledger);
    masses.push_back({"as weighed", weighed.mass, weighed.p_CM});
    for (const Mass& m : vehicle.ledger->removed) take_off(m.item, m);
    for (const Mass& m : vehicle.ledger->added) masses.push_back(m);
    for (const Axle& axle : vehicle.axles) {
      if (axle.unsprung) take_off(axle.name + " unsprung", *axle.unsprung);
    }
  }
  const SprungMass sprung = FinishedSprungMass(vehicle);
  masses.push_back({"sprung mass", sprung.mass, sprung.p_CM});
  for (const Load& load : vehicle.loads) {
    if (load.items.empty()) continue;
    const SprungMass loaded = WithLoad(sprung, load);
    masses.push_back({"sprung with " + load.name, loaded.mass, loaded.p_CM});
  }
  return masses;
}

DataTable MassTable(const Vehicle& vehicle, UnitSystem units) {
  TableOf<Mass> columns{{"item", "item", kNumber, "what", &Mass::item},
                        {"mass", "mass", kMass, "- where it is taken off", &Mass::mass}};
  AddPart(columns, PointColumns("", "", "of its centre, chassis axes"), &Mass::p_CM);
  return ToTable(columns, MassesOf(vehicle), units);
}

DataTable WeightTable(const Vehicle& vehicle, const CheckReport& report, UnitSystem units) {
  const auto weight = [&](size_t i) -> const WeightCheck& { return *report.axles[i].weight; };
  const TableOf<size_t> columns{
      AxleColumn<size_t>(vehicle),
      {"by_coils", "by its coils", kMass,
       "what coils and stops carry at their measured length, by virtual work in bounce (links "
       "carry a part where a coil leans or the housing turns), and the unsprung mass",
       [&](auto i) { return weight(i).by_coils; }},
      {"by_scales", "by the scales", kMass, "as weighed",
       [&](auto i) { return weight(i).by_scales; }},
      {"tire_height", "hub height by its tyre", kLength,
       "unloaded radius less the tyre's deflection under that weight",
       [&](auto i) { return weight(i).tire_height; }},
      {"measured_height", "hub height measured", kLength, "wheel centre above the floor",
       [&](auto i) { return weight(i).measured_height; }}};
  std::vector<size_t> weighed;
  for (const size_t i : AxlesOf(vehicle)) {
    if (report.axles[i].weight) weighed.push_back(i);
  }
  return ToTable(columns, weighed, units);
}

constexpr double kTapeShows = 5e-5;  // [m, rad] what a tape or a finder could show

// Lengths that put right what the tape had between two points, where those still stand so.
void SayCorrected(const NoteWriter& writer, const Axle& axle) {
  for (const Link& link : axle.links) {
    const auto& [frame, housing] = link.corrected;
    if (std::abs(link.taped_short) < kTapeShows || frame.isZero() || housing.isZero()) continue;
    writer.Say(
        "the {} axle: {} by its own length is {} than its two points were taped apart; each stands "
        "moved by half of that, along it",
        axle.name, DisplayName(link.name), writer.Way(link.taped_short, "longer", "shorter"));
  }
}

}  // namespace

std::vector<NamedTable> CheckTables(const Vehicle& vehicle, const CheckReport& report,
                                    UnitSystem units) {
  std::vector<NamedTable> tables{{"axles", AxleTable(vehicle, report, units)}};
  if (!report.arms.empty()) tables.push_back({"arms", ArmTable(vehicle, report.arms, units)});
  if (!report.coils.empty()) tables.push_back({"coils", CoilTable(vehicle, report, units)});
  if (!IsGeometryOnly(vehicle)) {
    tables.push_back({"masses", MassTable(vehicle, units)});
    tables.push_back({"weights", WeightTable(vehicle, report, units)});
  }
  return tables;
}

DataTable GapTable(const Vehicle& vehicle, const std::vector<GapAtLeast>& gaps, UnitSystem units) {
  const TableOf<GapAtLeast> columns{
      {"gap", "gap", kNumber, "axle and name",
       [&](const GapAtLeast& gap) { return vehicle.axles[gap.axle].name + " " + gap.name; }},
      {"rest", "at rest", kLength, "between its two points", &GapAtLeast::rest},
      {"least", "least", kLength,
       "over bounce, and over roll of the housing at rest height, out to what ends each",
       &GapAtLeast::least},
      {"travel", "least at travel", kLength,
       "of both wheels from rest; + bump; empty where it is nearest rolled",
       [](const GapAtLeast& gap) { return gap.rolled ? Cell() : Cell(gap.at); }},
      {"roll", "least at roll", kAngle,
       "of the housing against the body; + left wheel up; empty where it is nearest in bounce",
       [](const GapAtLeast& gap) { return gap.rolled ? Cell(gap.at) : Cell(); }},
      {"limit", "limit", kLength, "its own, or aims.gap", &GapAtLeast::limit}};
  return ToTable(columns, gaps, units);
}

std::vector<std::string> CheckNotes(const Vehicle& vehicle, const CheckReport& report,
                                    UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const size_t i : AxlesOf(vehicle)) {
    const std::string& axle = vehicle.axles[i].name;
    const Pose& moved = report.axles[i].moved;
    SayCorrected(writer, vehicle.axles[i]);
    const bool shifts = std::max(std::abs(moved.x), std::abs(moved.y)) > kTapeShows;
    if (shifts || std::max(std::abs(moved.steer), std::abs(moved.pitch)) > kTapeShows) {
      writer.Say(
          "the {} axle: its arms keep their lengths, so that at its measured height it stands {} "
          "and "
          "{} of where its points say, steered {} to the {}, its nose {} {}",
          axle, writer.Way(moved.x, "ahead", "back"), writer.Way(moved.y, "left", "right"),
          writer.Angle(std::abs(moved.steer)), moved.steer < 0.0 ? "right" : "left",
          writer.Angle(std::abs(moved.pitch)), moved.pitch < 0.0 ? "down" : "up");
    }
    const Freedom& freedom = report.axles[i].freedom;
    if (!freedom.free.empty()) continue;
    if (!freedom.fight) {
      writer.Say("the {} axle: four links hold its four motions, none too many", axle);
      continue;
    }
    const LinkFight& fight = *freedom.fight;
    const bool metric = units == UnitSystem::kMetric;
    writer.Say(
        "the {} axle: {} links where four would do, so it lives on bushing give: near the measured "
        "stance {} takes {} a degree of roll, and {} takes {} a {} of bounce",
        axle, 4 + fight.too_many, fight.roll_name,
        writer.Amount(fight.roll_link_force * M_PI / 180.0, Dimension::kForce), fight.bounce_name,
        writer.Amount(fight.bounce_link_force * (metric ? 0.01 : 0.0254), Dimension::kForce),
        metric ? "10 mm" : "1 in");
  }
  // Of an axle with an arm past its aim the finding on that tells it.
  std::vector<ArmCheck> within = report.arms;
  std::erase_if(within, [&](const ArmCheck& it) {
    return std::any_of(report.arms.begin(), report.arms.end(), [&](const ArmCheck& other) {
      return other.axle == it.axle && std::abs(other.arm.longer) > vehicle.aims.arm_misfit;
    });
  });
  for (std::string& note : PullNotes(vehicle, within, "at its measured height", units)) {
    notes.push_back(std::move(note));
  }
  return notes;
}

std::vector<std::string> FightNotes(const Vehicle& vehicle,
                                    const std::vector<FightAtExtremes>& fights, UnitSystem units) {
  std::vector<std::string> notes;
  const NoteWriter writer{&vehicle, units, &notes};
  for (const FightAtExtremes& fight : fights) {
    writer.Say(
        "the {} axle: crossed to {}, {} takes {} from the others; its joints twist up to {} and "
        "misalign up to {}: rod ends must take that, bushings give it",
        vehicle.axles[fight.axle].name, writer.Angle(fight.cross), fight.member,
        writer.Amount(fight.force, Dimension::kForce), writer.Angle(fight.twist),
        writer.Angle(fight.misalignment));
  }
  return notes;
}

}  // namespace linkwright
