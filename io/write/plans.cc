// SPDX-License-Identifier: MIT
#include "io/write/plans.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "io/write/note_writer.h"
#include "solver/study/findings/steering_findings.h"

namespace linkwright {
namespace {

constexpr double kShim = 1e-4;  // [m] what is set by thread or shim; less is nothing to do

Plan Nothing(std::string why) {
  Plan plan;
  plan.says = {std::move(why)};
  return plan;
}

// A plan with its head: what it is of, under which load, and what it is not.
Plan Begun(const PlanFor& is, const char* command, const char* title) {
  Plan plan;
  plan.title = is.vehicle->title + ", " + title;
  const std::string under = is.load == nullptr ? ", as measured"
                            : is.every_load    ? ", under every load of the file"
                                               : ", standing under the load " + is.load->name;
  plan.says = {
      fmt::format("What linkwright {} advises for {}{}.", command, is.vehicle->title, under),
      "A prediction of geometry, not an approval: licensed people sign."};
  return plan;
}

NoteWriter WriterTo(const PlanFor& is, Plan& plan) { return {is.vehicle, is.units, &plan.says}; }

std::string PathOf(const Axle& axle, const char* kind, const std::string& member,
                   const char* key = "") {
  return fmt::format("axles.{}.{}.{}{}{}", axle.name, kind, member, *key == '\0' ? "" : ".", key);
}

// A key of a member that the file may leave out.
void Set(const PlanFor& is, const Axle& axle, const char* kind, const std::string& member,
         const char* key, const std::string& value, Plan& plan) {
  const bool there = is.has({"axles", axle.name, kind, member, key});
  (there ? plan.change : plan.add).push_back({PathOf(axle, kind, member, key), value});
}

// The advice for the member, or for both of a pair, that stands under one key of the file.
template <typename Advice, typename Member>
std::vector<const Advice*> AdviceFor(const std::vector<Advice>& advice, size_t axle,
                                     const std::vector<Member>& members, const std::string& key) {
  std::vector<const Advice*> found;
  for (const Member& member : members) {
    if (member.name.key != key) continue;
    for (const Advice& each : advice) {
      if (each.axle == axle && each.member == DisplayName(member.name)) found.push_back(&each);
    }
  }
  return found;
}

// Each key of the file once: a pair's stands for two members.
template <typename Member>
std::vector<const Member*> FirstOfEach(const std::vector<Member>& members) {
  std::vector<const Member*> first;
  for (const Member& member : members) {
    if (member.name.side != Side::kRight) first.push_back(&member);
  }
  return first;
}

// Why a member as advised is none that the file takes: it is held against the measured stance, from
// which everything is worked out. Empty where it is taken.
std::string NotTaken(const PlanFor& is, const PartsAdvice& advice) {
  const auto refuse = [&](size_t axle, const std::string& member, const char* why) {
    return fmt::format(
        "the {} axle's {}, as {} in the measured stance, which a file is held against; carry it "
        "out, measure the vehicle as it then stands, and ask again",
        is.vehicle->axles[axle].name, member, why);
  };
  for (size_t index = 0; index < 2; ++index) {
    const Axle& axle = is.vehicle->axles[index];
    for (const Stop& stop : axle.bump_stops) {
      for (const StopAdvice& each : advice.stops) {
        if (each.axle != index || each.member != DisplayName(stop.name) || !each.height) continue;
        if (*each.height - stop.law.curve.back().deflection >= MeasuredLength(stop.span)) {
          return refuse(index, stop.name.key, "high as advised, would be solid");
        }
      }
    }
    for (const StrapAdvice& each : advice.straps) {
      if (each.axle == index && each.length < MeasuredLength(each.span)) {
        return refuse(index, each.beside_damper ? "strap" : each.member,
                      "long as advised, would be too short");
      }
    }
    for (const Damper& damper : axle.dampers) {
      for (const DamperAdvice& each : advice.dampers) {
        if (each.axle != index || each.member != DisplayName(damper.name) || !each.p_CP) continue;
        const double length = MeasuredLength({*each.p_CP, damper.span.p_CQ});
        if (length < *damper.shortest || length > *damper.longest) {
          return refuse(index, damper.name.key, "hung as advised, would be past its stroke");
        }
      }
    }
  }
  return {};
}

void AddStops(const PlanFor& is, const PartsAdvice& advice, size_t index, Plan& plan) {
  const Axle& axle = is.vehicle->axles[index];
  for (const Stop* stop : FirstOfEach(axle.bump_stops)) {
    std::optional<double> height;
    for (const StopAdvice* each : AdviceFor(advice.stops, index, axle.bump_stops, stop->name.key)) {
      if (each->height) height = std::min(height.value_or(*each->height), *each->height);
    }
    if (!height || std::abs(*height - stop->law.free_length) < kShim) continue;
    plan.change.push_back(
        {PathOf(axle, "bump_stops", stop->name.key, "free_length"), PlanLength(*height, is.units)});
    WriterTo(is, plan).Say("The {} axle's {}: {} high, not {}.", axle.name, stop->name.key,
                           WriterTo(is, plan).Length(*height),
                           WriterTo(is, plan).Length(stop->law.free_length));
  }
}

// A strap beside each damper, where the axle has none.
void AddNewStraps(const PlanFor& is, const PartsAdvice& advice, size_t index, Plan& plan) {
  const Axle& axle = is.vehicle->axles[index];
  std::vector<PlanLine> straps;
  for (const Damper* damper : FirstOfEach(axle.dampers)) {
    std::optional<double> length;
    for (const StrapAdvice* each :
         AdviceFor(advice.straps, index, axle.dampers, damper->name.key)) {
      length = std::max(length.value_or(each->length), each->length);
    }
    if (!length) continue;
    straps.push_back(
        {"strap beside " + damper->name.key,
         fmt::format("{{pair: {}, frame: {}, axle: {}, length: {}}}",
                     damper->name.side == Side::kLeft, PlanPoint(damper->span.p_CP, is.units),
                     PlanPoint(damper->span.p_CQ, is.units), PlanLength(*length, is.units))});
    WriterTo(is, plan).Say(
        "The {} axle: a strap of {} beside each {}, pulled taut; where its ends are is yours to "
        "choose.",
        axle.name, WriterTo(is, plan).Length(*length), damper->name.key);
  }
  if (straps.empty()) return;
  const std::string all = fmt::format("axles.{}.straps", axle.name);
  if (is.has({"axles", axle.name, "straps"})) {
    for (const PlanLine& strap : straps) {
      plan.add.push_back({all + ".\"" + strap.key + "\"", strap.value});
    }
    return;
  }
  std::string map;
  for (const PlanLine& strap : straps) {
    map += fmt::format("{}{}: {}", map.empty() ? "" : ", ", PlanText(strap.key), strap.value);
  }
  plan.add.push_back({all, "{" + map + "}"});
}

void AddStraps(const PlanFor& is, const PartsAdvice& advice, size_t index, Plan& plan) {
  const Axle& axle = is.vehicle->axles[index];
  if (axle.straps.empty()) return AddNewStraps(is, advice, index, plan);
  for (const Strap* strap : FirstOfEach(axle.straps)) {
    std::optional<double> length;
    for (const StrapAdvice* each : AdviceFor(advice.straps, index, axle.straps, strap->name.key)) {
      length = std::max(length.value_or(each->length), each->length);
    }
    if (!length || (strap->length && std::abs(*length - *strap->length) < kShim)) continue;
    Set(is, axle, "straps", strap->name.key, "length", PlanLength(*length, is.units), plan);
    WriterTo(is, plan).Say("The {} axle's {}: {} long, pulled taut.", axle.name, strap->name.key,
                           WriterTo(is, plan).Length(*length));
  }
}

void AddTabs(const PlanFor& is, const PartsAdvice& advice, size_t index, Plan& plan) {
  const Axle& axle = is.vehicle->axles[index];
  for (const Damper* damper : FirstOfEach(axle.dampers)) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double count = 0.0;
    for (const DamperAdvice* each :
         AdviceFor(advice.dampers, index, axle.dampers, damper->name.key)) {
      if (!each->p_CP) continue;
      Eigen::Vector3d p_CP = *each->p_CP;
      if (damper->name.side == Side::kLeft) p_CP.y() = std::abs(p_CP.y());
      sum += p_CP, count += 1.0;
    }
    if (count == 0.0) continue;
    const Eigen::Vector3d p_CP = sum / count;
    const double move = (p_CP - damper->span.p_CP).norm();
    if (move < kShim) continue;
    plan.change.push_back(
        {PathOf(axle, "dampers", damper->name.key, "frame"), PlanPoint(p_CP, is.units)});
    WriterTo(is, plan).Say("The {} axle's {}: its tab on the frame moves {} along the damper.",
                           axle.name, damper->name.key, WriterTo(is, plan).Length(move));
  }
}

// The link that the answer names, made longer or shorter.
void TurnLink(const PlanFor& is, const Axle& axle, const LinkSet& links, double by, Plan& plan) {
  const Link& link = axle.links[links.members.front()];
  Set(is, axle, "links", link.name.key, "length", PlanLength(LengthOf(link) + by, is.units), plan);
  WriterTo(is, plan).Say("The {} axle's {}{}: {} by {}, eye to eye.", axle.name, link.name.key,
                         links.members.size() > 1 ? ", both alike" : "",
                         by > 0.0 ? "longer" : "shorter", WriterTo(is, plan).Length(std::abs(by)));
}

void TurnPinion(const PlanFor& is, const Axle& axle, double turn, Plan& plan) {
  plan.change.push_back({fmt::format("axles.{}.pinion.angle", axle.name),
                         PlanAngle(axle.pinion->angle + turn, is.units)});
  WriterTo(is, plan).Say(
      "The {} axle's pinion: its yoke end {} by {}, on the housing, so that no link changes; the "
      "place of its yoke stays as measured, so measure it again.",
      axle.name, turn > 0.0 ? "up" : "down", WriterTo(is, plan).Angle(std::abs(turn)));
}

// Whether the track bar or the drag link is past what it is held against.
bool IsPast(const Vehicle& vehicle, const SteeringReport& report, size_t axle) {
  const std::vector<Finding> findings = SteeringFindings(vehicle, report);
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return finding.past && finding.axle == axle && finding.kind != FindingKind::kOffCenter;
  });
}

// The first place found for the bar, other than where it is.
bool AddBarMove(const PlanFor& is, const SteeredAxle& steered, Plan& plan) {
  const Axle& axle = is.vehicle->axles[steered.axle];
  const auto move =
      std::find_if(steered.moves.begin(), steered.moves.end(),
                   [](const BarMove& each) { return each.kind != BarMoveKind::kAsIs; });
  if (!steered.match || move == steered.moves.end() || move->by.norm() < kShim) return false;
  const Link& bar = axle.links[steered.match->link];
  const bool on_axle = move->kind == BarMoveKind::kAxleEndToMatch;
  plan.change.push_back({PathOf(axle, "links", bar.name.key, on_axle ? "axle" : "frame"),
                         PlanPoint(move->p_C, is.units)});
  const NoteWriter writer = WriterTo(is, plan);
  writer.Say("The {} axle's {}: its {} end moves {}, {} and {}{}.", axle.name, bar.name.key,
             on_axle ? "axle" : "frame", writer.Way(move->by.x(), "forward", "back"),
             writer.Way(move->by.y(), "left", "right"), writer.Way(move->by.z(), "up", "down"),
             move->kind == BarMoveKind::kFrameEndNoSteer ? ", so that travel steers nothing at rest"
                                                         : ", so that it lies like the drag link");
  // For the axle to rest where it did.
  Set(is, axle, "links", bar.name.key, "length", PlanLength(move->length, is.units), plan);
  return true;
}

}  // namespace

Plan PlanOfOpenings(const PlanFor& is, const OpeningsAnswer& answer) {
  if (answer.plans.empty()) {
    return Nothing("both axles need an opening before there is a plan to centre their wheels");
  }
  const CentringPlan& first = answer.plans.front();
  if (!first.found) return Nothing("no plan was found that centres the wheels: " + first.message);
  const BodyMove& move = first.move;
  if (!IsWorthDoing(move)) {
    return Nothing("the wheels stand in the middle of their openings already");
  }
  Plan plan = Begun(is, "openings", "wheels centred in their openings");
  const PlanMoves moves = MovesOf(*is.vehicle, move);
  const NoteWriter writer = WriterTo(is, plan);
  if (move.longer != 0.0) {
    writer.Say("{} the chassis between the axles.",
               move.longer > 0.0 ? "Let " + writer.Length(move.longer) + " into"
                                 : "Cut " + writer.Length(-move.longer) + " out of");
    plan.keys.push_back(
        {"stretch", fmt::format("{{at: {}, by: {}}}", PlanLength(moves.stretch.at, is.units),
                                PlanLength(moves.stretch.by, is.units))});
  }
  writer.Say("Set the body {} on it, {} at its front opening and {} at its rear one.",
             writer.Way(move.ahead, "forward", "back"), writer.Way(move.up_front, "up", "down"),
             writer.Way(move.up_rear, "up", "down"));
  plan.keys.push_back({"body", fmt::format("{{move: [{}, {}], pitch: {}, about: {}}}",
                                           PlanLength(moves.body.move.x(), is.units),
                                           PlanLength(moves.body.move.y(), is.units),
                                           PlanAngle(moves.body.pitch, is.units),
                                           PlanLength(moves.body.about, is.units))});
  return plan;
}

Plan PlanOfLimits(const PlanFor& is, const PartsAdvice& advice) {
  Plan plan = Begun(is, "limits", "stops, straps and dampers for its travel");
  for (size_t axle = 0; axle < 2; ++axle) {
    AddStops(is, advice, axle, plan);
    AddStraps(is, advice, axle, plan);
    AddTabs(is, advice, axle, plan);
  }
  if (IsEmpty(plan)) {
    return Nothing(
        "its stops, straps and damper tabs are as they would be advised, or none can be");
  }
  if (std::string why = NotTaken(is, advice); !why.empty()) return Nothing(std::move(why));
  if (advice.rest_moves) {
    plan.says.emplace_back(
        "The stops then touch at rest and hold it up; the travel counts from where it then "
        "stands.");
  }
  if (!advice.in_the_way.empty()) {
    plan.says.emplace_back(
        "Something else is in the way of that travel; linkwright limits names it.");
  }
  return plan;
}

Plan PlanOfDriveline(const PlanFor& is, const std::vector<ShaftReport>& reports) {
  Plan plan = Begun(is, "driveline", "its driveshaft's angles mended");
  std::array<bool, 2> done{};
  for (const ShaftReport& report : reports) {
    const Driveshaft& shaft = is.vehicle->driveshafts[report.shaft];
    const auto axle = static_cast<size_t>(shaft.axle);
    if (done[axle] || !report.aim ||
        !Shows(*report.aim, shaft.pinion_low, AtRest(report).net_angle)) {
      continue;
    }
    done[axle] = true;
    const LinkCure* cure = CureToTurn(report);
    if (cure != nullptr) {
      TurnLink(is, is.vehicle->axles[axle], cure->links, cure->by, plan);
    } else {
      TurnPinion(is, is.vehicle->axles[axle], report.aim->turn, plan);
    }
  }
  if (!IsEmpty(plan)) return plan;
  return Nothing(
      "no turn of a pinion lowers its equivalent joint angle at rest by what a finder shows");
}

Plan PlanOfSteering(const PlanFor& is, const SteeringReport& report) {
  Plan plan = Begun(is, "steering", "track bar set");
  for (const SteeredAxle& steered : report.axles) {
    if (IsPast(*is.vehicle, report, steered.axle)) AddBarMove(is, steered, plan);
  }
  if (!IsEmpty(plan)) return plan;
  for (const SidewaysCure& cure : report.sideways) {
    const Axle& axle = is.vehicle->axles[cure.axle];
    const bool past = axle.sideways_most && std::abs(cure.offset) > *axle.sideways_most;
    if (!past || !cure.by || !cure.bar) continue;
    TurnLink(is, axle, *cure.bar, *cure.by, plan);
    if (!cure.drag_link_by || std::abs(*cure.drag_link_by) < kShim) continue;
    const NoteWriter writer = WriterTo(is, plan);
    writer.Say(
        "Its drag link then has to be {} {} for the wheels to point as measured; the file takes it "
        "as it is.",
        writer.Length(std::abs(*cure.drag_link_by)),
        *cure.drag_link_by > 0.0 ? "longer" : "shorter");
  }
  if (!IsEmpty(plan)) return plan;
  return Nothing(
      "no track bar and no drag link is past what it is held against, or no other place for the "
      "bar is found");
}

}  // namespace linkwright
