// SPDX-License-Identifier: MIT
#include "io/write/check_tables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

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
      {"motions_held", "ways held", kNumber,
       "of the four that links hold: fore and aft, sideways, steer, wind-up",
       [&](auto i) { return std::to_string(freedom(i).rank) + " of 4"; }},
      {"free", "free to move", kNumber, "ways that no link holds",
       [&](auto i) { return Join(freedom(i).free); }},
      {"nearly_free", "nearly free", kNumber, "ways that the links hold weakly",
       [&](auto i) { return Join(freedom(i).weak); }},
      {"links_too_many", "links too many", kNumber, "links beyond the ways they hold",
       [&](auto i) { return std::to_string(freedom(i).fight ? freedom(i).fight->too_many : 0); }},
      {"strain_bounce_rate", "bind in bounce", kRate,
       "rate that links too many add in bounce, both wheels, about the measured stance",
       [&](auto i) { return Within(freedom(i).fight, &LinkFight::bounce_rate); }},
      {"strain_roll_rate", "bind in roll", kRollRate, "roll stiffness that links too many add",
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

// Lengths that put right what the tape had between two points, where those still stand so.
void SayCorrected(const NoteWriter& writer, const Axle& axle) {
  for (const Link& link : axle.links) {
    const auto& [frame, housing] = link.corrected;
    if (std::abs(link.taped_short) < kNothing || frame.isZero() || housing.isZero()) continue;
    writer.Say(
        "the {} axle: {} by its own length is {} than its two points were taped apart; each stands "
        "moved by half of that, along it",
        axle.name, DisplayName(link.name), writer.Way(link.taped_short, "longer", "shorter"));
  }
}

// "front and rear" of the axles of which it is so.
std::string AxlesWith(const Vehicle& vehicle, const std::function<bool(size_t)>& is_so) {
  std::string names;
  for (const size_t i : AxlesOf(vehicle)) {
    if (is_so(i)) names += (names.empty() ? "" : " and ") + vehicle.axles[i].name;
  }
  return names;
}

// "2 can hurt someone, 10 are parts that hit or run out".
std::string CountByHarm(const std::vector<Finding>& findings) {
  constexpr std::array kOne{"can hurt someone", "is parts that hit or run out",
                            "wears or drives badly", "looks wrong",
                            "may be a slip of the tape or of the file"};
  constexpr std::array kMore{"can hurt someone", "are parts that hit or run out",
                             "wear or drive badly", "look wrong",
                             "may be slips of the tape or of the file"};
  std::string text;
  for (size_t h = 0; h < kOne.size(); ++h) {
    const auto count = std::count_if(findings.begin(), findings.end(), [h](const Finding& finding) {
      return static_cast<size_t>(TraitOf(finding.kind).harm) == h;
    });
    if (count == 0) continue;
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count,
                        count == 1 ? kOne.at(h) : kMore.at(h));
  }
  return text;
}

// Is it sound?
void SaySoundness(const Vehicle& vehicle, const CheckReport& report,
                  const std::vector<Finding>& findings, std::vector<std::string>& said) {
  bool held = true;
  for (const size_t i : AxlesOf(vehicle)) {
    for (const FreeMotion& motion : report.axles[i].freedom.free) {
      said.push_back(fmt::format("{} the {} axle {}.", held ? "No," : "And", vehicle.axles[i].name,
                                 motion.words));
      held = false;
    }
  }
  if (!held) {
    said.emplace_back("Until its links hold it, nothing else can be worked out.");
    return;
  }
  const bool slips = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return TraitOf(finding.kind).harm == Harm::kSlip;
  });
  const char* sound = slips ? "Perhaps not: look at the slips first" : "The file is sound";
  if (findings.empty()) {
    said.push_back(fmt::format("{}, and nothing is past its aim.", sound));
    return;
  }
  said.push_back(fmt::format(
      "{}; of {} to look at {}.", sound,
      findings.size() == 1 ? std::string("one thing") : fmt::format("{} things", findings.size()),
      CountByHarm(findings)));
}

// How each axle is held, those alike in one sentence.
void SayHeld(const NoteWriter& writer, const CheckReport& report) {
  const Vehicle& vehicle = *writer.vehicle;
  const auto freedom = [&](size_t i) -> const Freedom& { return report.axles[i].freedom; };
  const auto just = [&](size_t i) { return freedom(i).free.empty() && !freedom(i).fight; };
  const std::string by_four = AxlesWith(vehicle, just);
  if (!by_four.empty()) {
    writer.Say("Four links hold the {} axle{}, none too many.", by_four,
               by_four.find(' ') == std::string::npos ? "" : "s");
  }
  for (const size_t i : AxlesOf(vehicle)) {
    if (!freedom(i).fight) continue;
    const LinkFight& fight = *freedom(i).fight;
    writer.Say(
        "{} links hold the {} axle where four would do, so bushings must give: in roll {} "
        "takes {} a degree.",
        4 + fight.too_many, vehicle.axles[i].name, fight.roll_name,
        writer.Amount(fight.roll_link_force * M_PI / 180.0, Dimension::kForce));
  }
}

// What the coils carry and what the scales said.
void SayScales(const NoteWriter& writer, const CheckReport& report) {
  const Vehicle& vehicle = *writer.vehicle;
  if (IsGeometryOnly(vehicle)) {
    writer.Say("The file has no masses, so nothing is said of coils, heights and ride.");
    return;
  }
  if (!vehicle.ledger) {
    writer.Say("The file has no scales, so nothing checks what the coils carry.");
    return;
  }
  const auto made = [&](size_t i) {
    const std::vector<Spring>& coils = vehicle.axles[i].springs;
    return std::any_of(coils.begin(), coils.end(), [](const Spring& coil) { return coil.weighed; });
  };
  const auto scale = [&](double mass) {
    return ShowOnScale(mass * kStandardGravity, writer.units);
  };
  std::string against;
  for (const size_t i : AxlesOf(vehicle)) {
    const std::optional<WeightCheck>& weight = report.axles[i].weight;
    if (made(i) || !weight || !weight->by_scales) continue;
    against +=
        fmt::format("{}{} {} by its coils, {} by the scales", against.empty() ? "" : "; ",
                    vehicle.axles[i].name, scale(weight->by_coils), scale(*weight->by_scales));
  }
  const std::string weighed = AxlesWith(vehicle, made);
  if (!against.empty()) writer.Say("Coils against scales: {}.", against);
  if (!weighed.empty()) {
    writer.Say("The {} coils have their length from the scales, so they agree with them.", weighed);
  }
}

}  // namespace

std::vector<std::string> CheckAnswer(const Vehicle& vehicle, const CheckReport& report,
                                     const std::vector<Finding>& findings, UnitSystem units) {
  std::vector<std::string> said;
  const NoteWriter writer{&vehicle, units, &said};
  SaySoundness(vehicle, report, findings, said);
  SayHeld(writer, report);
  SayScales(writer, report);
  return said;
}

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
    const bool shifts = std::max(std::abs(moved.x), std::abs(moved.y)) > kNothing;
    if (shifts || std::max(std::abs(moved.steer), std::abs(moved.pitch)) > kNothing) {
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
      writer.Say("the {} axle: four links hold it all four ways, none too many", axle);
      continue;
    }
    const LinkFight& fight = *freedom.fight;
    const bool metric = units == UnitSystem::kMetric;
    writer.Say(
        "the {} axle: {} links where four would do, so its bushings must give: near the measured "
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
