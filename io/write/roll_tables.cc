// SPDX-License-Identifier: MIT
#include "io/write/roll_tables.h"

#include <fmt/format.h>

#include <cmath>
#include <span>

#include "io/write/amount.h"
#include "io/write/table_of.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

bool Stands(const RollStudy& study) { return study.corner.stance.status == StanceStatus::kRests; }

TableOf<RollStudy> VehicleColumns() {
  return {{"load", "load", kNumber, "name of the load that everything here is for",
           [](auto& study) { return study.rest.load; }},
          {"total_mass", "total mass", kMass, "of the whole vehicle with it",
           [](auto& study) { return study.report.total_mass; }},
          {"cg_height", "centre of mass up", kLength, "above the floor, at rest",
           [](auto& study) { return study.tipping[0].height; }},
          {"inside_right_wheels", "inside right wheels", kLength,
           "centre of mass to the line through the right wheels, sideways along the floor: what "
           "holds it in a left turn",
           [](auto& study) { return study.tipping[0].inside; }},
          {"inside_left_wheels", "inside left wheels", kLength, "the same to the left wheels",
           [](auto& study) { return study.tipping[1].inside; }}};
}

std::optional<double> ShareOfStiffness(const RollStudy& study, size_t axle) {
  const double sum = study.stiffness[0].whole + study.stiffness[1].whole;
  return sum == 0.0 ? std::nullopt : std::optional(study.stiffness[axle].whole / sum);
}

TableOf<size_t> StiffnessColumns(const Vehicle& vehicle, const RollStudy& study) {
  const std::array<RollParts, 2>& parts = study.stiffness;
  return {
      AxleColumn<size_t>(vehicle),
      {"coil_spacing", "coil spacing", kLength,
       "between the outermost housing seats of the coils, along the housing",
       [&](auto i) { return Within(study.spread[i], &CoilSpread::spacing); }},
      {"coils_by_spacing", "coils by spacing", kRollRate,
       "of the coils by the handbook: half their rate times their spacing squared",
       [&](auto i) { return Within(study.spread[i], &CoilSpread::stiffness); }},
      {"coils", "coils", kRollRate, "of the coils, from their energy: lean and force included",
       [&](auto i) { return parts[i].coils; }},
      {"stops", "stops", kRollRate, "of the stops that touch at rest",
       [&](auto i) { return parts[i].stops; }},
      {"anti_roll_bar", "bar", kRollRate, "of the anti-roll bar",
       [&](auto i) { return parts[i].bar; }},
      {"link_strain", "link bind", kRollRate,
       "of links that fight one another in roll; 0 with four links",
       [&](auto i) { return parts[i].strain; }},
      {"suspension", "together", kRollRate, "the sum: per degree of housing roll against the body",
       [&](auto i) { return parts[i].suspension; }},
      {"tires", "tyres", kRollRate,
       "of both tyres at their track; empty where they are taken as rigid",
       [&](auto i) { return parts[i].tires; }},
      {"whole", "with tyres", kRollRate, "suspension and tyres in series",
       [&](auto i) { return parts[i].whole; }},
      {"share", "share", kPercent, "of both axles' stiffness with tyres",
       [&](auto i) { return ShareOfStiffness(study, i); }}};
}

TableOf<RollStudy> AxisColumns() {
  return {
      {"load", "load", kNumber, "name of the load", [](auto& study) { return study.rest.load; }},
      {"front_roll_center_height", "front roll centre", kLength, "above the floor",
       [](auto& study) { return study.geometry.roll_center[0]; }},
      {"rear_roll_center_height", "rear roll centre", kLength, "above the floor",
       [](auto& study) { return study.geometry.roll_center[1]; }},
      {"roll_axis_height", "roll axis height", kLength,
       "of the roll axis above the floor, under the sprung centre of mass",
       [](auto& study) { return study.geometry.axis_height; }},
      {"roll_axis_slope", "roll axis slope", kAngle, "of the roll axis; + rises toward the front",
       [](auto& study) { return study.geometry.axis_slope; }},
      {"roll_arm", "centre of mass to roll axis", kLength,
       "sprung centre of mass above the roll axis: the arm that leans the body; below 0 it leans "
       "into the turn",
       [](auto& study) { return study.geometry.arm; }},
      {"roll_gradient", "roll gradient", kRollGradient,
       "body roll per g by the handbook, tyres in series; of the sign of the centre of mass to "
       "roll axis; "
       "empty where the weight overturns it",
       [](auto& study) { return study.report.roll_gradient; }},
      {"front_roll_steer", "front roll steer", kAngleRatio,
       "front axle steer per degree of body roll over a level axle; + left as the left side rises: "
       "into the turn",
       [](auto& study) { return study.geometry.roll_steer[0]; }},
      {"rear_roll_steer", "rear roll steer", kAngleRatio, "the same of the rear axle",
       [](auto& study) { return study.geometry.roll_steer[1]; }}};
}

TableOf<RollStudy> BodyColumns() {
  return {{"lateral", "turn", kLateral, "sideways acceleration asked about; + turning left",
           &RollStudy::lateral},
          {"body_roll", "body roll", kAngle,
           "of the body against its rest, by the equilibrium; + left side up; empty where there is "
           "none",
           [](auto& study) { return CellIf(Stands(study), study.corner.body_roll); }},
          {"body_roll_handbook", "by handbook", kAngle, "roll gradient times the acceleration",
           [](auto& study) { return study.corner.handbook_roll; }},
          {"rear_less_front_steer", "rear less front steer", kAngle,
           "axle steer of the rear less that of the front; of the sign of the turn: it turns in "
           "less (understeer), against it: more",
           [](auto& study) {
             const std::array<double, 2>& steer = study.corner.axle_steer;
             return CellIf(Stands(study), steer[1] - steer[0]);
           }}};
}

// The rows are the wheels.
TableOf<size_t> WheelColumns(const Vehicle& vehicle, const RollStudy& study) {
  const PerWheel& before = study.rest.wheel_load;
  const PerWheel& after = study.corner.stance.wheel_load;
  return {
      {"wheel", "wheel", kNumber, "which", [&](auto w) { return WheelName(vehicle, w); }},
      {"load_at_rest", "load at rest", kForce, "floor on tyre", [&](auto w) { return before[w]; }},
      {"load_in_turn", "load in the turn", kForce,
       "the same in the turn, by the equilibrium; empty where there is none",
       [&](auto w) { return CellIf(Stands(study), after[w]); }},
      {"change", "change", kForce, "of the load; + more on it",
       [&](auto w) { return CellIf(Stands(study), after[w] - before[w]); }}};
}

// In g; absent where it happens as the vehicle stands.
std::optional<double> InG(std::optional<double> share) {
  if (!share || AtOnce(*share)) return std::nullopt;
  return *share * kStandardGravity;
}

// The rows are the turns: left, right.
TableOf<size_t> LiftColumns(const Vehicle& vehicle, const RollStudy& study) {
  const std::array<PushEnds, 2>& ends = study.turns;
  return {
      {"turn", "turn", kNumber, "left or right", [](auto i) { return i == 0 ? "left" : "right"; }},
      {"first_wheel", "first to lift", kNumber,
       "the wheel whose load is the first to reach zero as the turn gets tighter",
       [&](auto i) {
         return Within(ends[i].lift, [&](auto& lift) { return WheelName(vehicle, lift.wheel); });
       }},
      {"lift", "lifts at", kLateral,
       "sideways acceleration at which it does; empty where none lifts up to 2 g, or where it "
       "carries nothing as it stands, which a note says",
       [&](auto i) { return Within(ends[i].lift, [](auto& lift) { return InG(lift.share); }); }},
      {"goes_over", "rollover threshold", kLateral,
       "sideways acceleration beyond which no standing position is near; with no wheel lifted "
       "before it, the body leans over at once; empty where it still stands at 2 g, or where it "
       "rolls over as it stands, which a note says",
       [&](auto i) { return InG(ends[i].over); }},
      {"stiff_tipping_point", "rollover, rigid", kLateral,
       "the same with nothing giving: how far the centre of mass stands inside the outer wheels, "
       "over its height; empty where that is not above 0, which a note says",
       [&](auto i) { return study.tipping[i].lateral; }},
      {"member_at", "at its end", kLateral,
       "sideways acceleration at which the first damper, coil, stop or strap is at its end; it "
       "holds from there on; empty where none is, or where it is there as it stands, which a note "
       "says",
       [&](auto i) { return Within(ends[i].member, [](auto& end) { return InG(end.share); }); }},
      {"member", "which", kNumber, "that member",
       [&](auto i) { return Within(ends[i].member, &PushEnds::Member::what); }}};
}

// The rows are the axles that are taken together: one, the other, both.
using Axles = std::vector<size_t>;

// The sum over a row's axles.
template <typename OfAxle>
std::function<Cell(const Axles&)> SumIf(bool known, const OfAxle& of_axle) {
  return [=](const Axles& axles) {
    double sum = 0.0;
    for (size_t i = 0; known && i < axles.size(); ++i) sum += of_axle(axles[i]);
    return CellIf(known, sum);
  };
}

TableOf<Axles> TransferColumns(const Vehicle& vehicle, const RollStudy& study) {
  const Corner& corner = study.corner;
  const bool stands = Stands(study);
  const auto handbook = [&](double HandbookTransfer::*part) {
    return SumIf(corner.handbook.has_value(),
                 [&corner, part](size_t i) { return (*corner.handbook)[i].*part; });
  };
  return {
      {"axle", "axle", kNumber, "front, rear or both",
       [&](auto& axles) { return axles.size() > 1 ? "both" : vehicle.axles[axles[0]].name; }},
      {"sprung_direct", "sprung direct", kForce,
       "by the handbook: what the sprung mass moves through the links, at the roll centre",
       handbook(&HandbookTransfer::sprung)},
      {"unsprung", "unsprung", kForce, "by the handbook: the axle's own mass",
       handbook(&HandbookTransfer::unsprung)},
      {"roll_moment", "roll moment", kForce,
       "by the handbook: through coils, stops and bar, by the body's roll",
       handbook(&HandbookTransfer::roll_moment)},
      {"handbook", "handbook", kForce, "the three together; + from left to right",
       handbook(&HandbookTransfer::total)},
      {"moved", "equilibrium", kForce,
       "moved from left to right as the whole vehicle stands in the turn, solved as at rest; empty "
       "where it finds no position",
       SumIf(stands, [&corner](size_t i) { return corner.moved[i]; })},
      {"axle_steer", "axle steer", kAngle,
       "of the housing against the chassis and the rest; + left", [&corner, stands](auto& axles) {
         return CellIf(stands && axles.size() == 1, corner.axle_steer[axles[0]]);
       }}};
}

// The first thing that happens as the torque grows.
struct FirstEnd {
  std::optional<double> share;
  std::string what = "nothing";
};

FirstEnd FirstOf(const Vehicle& vehicle, const PushEnds& ends) {
  FirstEnd first;
  const auto take = [&](double share, const std::string& what) {
    if (!first.share || share < *first.share) first = {share, what};
  };
  if (ends.lift) take(ends.lift->share, WheelName(vehicle, ends.lift->wheel) + " wheel lifts");
  if (ends.member) take(ends.member->share, ends.member->what);
  if (ends.over) take(*ends.over, "it stands no longer");
  if (first.share && AtOnce(*first.share)) {
    first = {std::nullopt, first.what + ", with hardly any torque"};
  }
  return first;
}

TableOf<TorqueLift> TorqueColumns(const Vehicle& vehicle, double torque) {
  const double sign = torque < 0.0 ? -1.0 : 1.0;
  const auto if_stands = [](const TorqueLift& lift, double value) {
    return CellIf(lift.stance.status == StanceStatus::kRests, value);
  };
  return {{"axle", "driven axle", kNumber, "the axle whose shaft carries the torque",
           [&](auto& lift) { return vehicle.axles[lift.axle].name; }},
          {"torque", "shaft torque", kTorque,
           "in the shaft; + presses the left wheel down, as an engine does that turns clockwise "
           "seen from its front",
           [=](auto&) { return torque; }},
          {"lifted_wheel", "lighter wheel", kNumber, "which of its wheels loses load",
           [=](auto&) { return sign > 0.0 ? "right" : "left"; }},
          {"moved", "moved", kForce,
           "from the lighter wheel to the other, by the equilibrium; empty where there is none",
           [=](auto& lift) { return if_stands(lift, sign * lift.moved[lift.axle]); }},
          {"moved_handbook", "by handbook", kForce,
           "torque over the track, less the share of the body's reaction that the axle takes back",
           [=](auto& lift) { return sign * lift.handbook[lift.axle]; }},
          {"other_axle", "other axle moves", kForce,
           "by the equilibrium, the other way round; the two differ by what the leaning body moves "
           "over",
           [=](auto& lift) { return if_stands(lift, -sign * lift.moved[1 - lift.axle]); }},
          {"front_share", "front takes", kPercent,
           "of the body's reaction, by roll stiffness with tyres",
           [](auto& lift) { return lift.share[0]; }},
          {"body_roll", "body roll", kAngle, "against the rest; + left side up",
           [=](auto& lift) { return if_stands(lift, lift.body_roll); }},
          {"limit_torque", "ends at", kTorque,
           "shaft torque at which something happens first; empty where nothing does up to 20 times "
           "the torque asked about, or where it does with hardly any",
           [=, &vehicle](auto& lift) {
             return Within(FirstOf(vehicle, lift.ends).share,
                           [=](double share) { return share * torque; });
           }},
          {"limit", "with", kNumber,
           "what happens there: a wheel lifts, or a damper, coil, stop or strap is at its end",
           [&](auto& lift) { return FirstOf(vehicle, lift.ends).what; }}};
}

// Sentences about a vehicle that turns.
struct TurnWriter {
  const Vehicle& vehicle;
  const RollStudy& study;
  UnitSystem units;

  [[nodiscard]] std::string Show(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] static const char* Turn(size_t i) { return i == 0 ? "left" : "right"; }
  [[nodiscard]] static std::string AtG(double share) {
    return AtOnce(share) ? std::string("with hardly any turn") : ShowNumber(share, 2) + " g";
  }
  [[nodiscard]] std::string Lean() const;
  [[nodiscard]] std::string Lift() const;
  [[nodiscard]] std::string Rollover() const;
  [[nodiscard]] std::string Grip() const;
  [[nodiscard]] std::string Axis() const;
  [[nodiscard]] std::string RollSteer() const;
  [[nodiscard]] std::string Shares() const;
  [[nodiscard]] std::string End() const;
};

std::string TurnWriter::Lean() const {
  const std::string turn = fmt::format("Turning {} at {}", Turn(study.lateral > 0.0 ? 0 : 1),
                                       Show(std::abs(study.lateral), kLateral));
  if (!Stands(study)) return turn + " it does not stand.";
  const double moved = study.corner.moved[0] + study.corner.moved[1];
  const double roll = study.corner.body_roll;
  const std::string leans =
      ShowsNothing(roll, kAngle, units)
          ? "the body stays level"
          : fmt::format("the body leans {}, its {} side up", Show(std::abs(roll), kAngle),
                        roll > 0.0 ? "left" : "right");
  return fmt::format("{} {}, and {} of load goes to the {} wheels.", turn, leans,
                     ShowOnScale(std::abs(moved), units), moved < 0.0 ? "left" : "right");
}

std::string TurnWriter::Lift() const {
  std::array<std::string, 2> at;
  for (size_t i = 0; i < 2; ++i) {
    const std::optional<PushEnds::Lift>& lift = study.turns[i].lift;
    if (lift)
      at[i] = fmt::format("the {} at {}", WheelName(vehicle, lift->wheel), AtG(lift->share));
  }
  if (at[0].empty() && at[1].empty()) {
    return fmt::format("No wheel lifts up to {} g.", ShowNumber(kMostLateralInG, 0));
  }
  for (std::string& each : at) {
    if (each.empty()) each = "none";
  }
  return fmt::format("First wheel to lift: turning left {}, turning right {}.", at[0], at[1]);
}

std::string TurnWriter::Rollover() const {
  const auto told = [](const std::optional<double>& share) {
    return share ? AtG(*share) : fmt::format("none up to {} g", ShowNumber(kMostLateralInG, 0));
  };
  const auto rigid = [&](size_t i) {
    const std::optional<double>& at = study.tipping[i].lateral;
    return at ? Show(*at, kLateral) : std::string("none");
  };
  return fmt::format(
      "Rollover threshold: turning left {}, turning right {}; taken as rigid, {} and {}.",
      told(study.turns[0].over), told(study.turns[1].over), rigid(0), rigid(1));
}

// Whether it slides first.
std::string TurnWriter::Grip() const {
  const double grip = vehicle.aims.tire_grip;  // [m/s2]
  std::optional<double> first;
  for (const PushEnds& ends : study.turns) {
    for (const std::optional<double>& share :
         {ends.lift ? std::optional(ends.lift->share) : std::nullopt, ends.over}) {
      if (share && (!first || *share < *first)) first = *share;
    }
  }
  const bool slides = !first || *first * kStandardGravity > grip;
  return fmt::format("Road tyres hold about {} (aims.tire_grip), so on level ground it {}.",
                     Show(grip, kLateral),
                     slides ? "slides before a wheel lifts" : "can lift a wheel before it slides");
}

std::string TurnWriter::Axis() const {
  const RollGeometry& geometry = study.geometry;
  const std::string stands = fmt::format(
      "The sprung centre of mass stands {} {} the roll axis, whose centres are {} up in front and "
      "{} at the rear",
      Show(std::abs(geometry.arm), kLength), geometry.arm < 0.0 ? "below" : "above",
      Show(geometry.roll_center[0], kLength), Show(geometry.roll_center[1], kLength));
  const std::optional<double>& gradient = study.report.roll_gradient;
  if (!gradient) return stands + ": its weight overturns what holds it in roll.";
  return stands + ": " + Show(std::abs(*gradient), kRollGradient) + " of lean.";
}

std::string TurnWriter::RollSteer() const {
  constexpr double kNone = 5e-3;  // [rad/rad] as two decimals show it
  const auto axle = [&](size_t i) {
    const double steer = study.geometry.roll_steer[i];
    if (std::abs(steer) < kNone) return std::string("not at all");
    const bool in = steer > 0.0;
    return fmt::format("{} deg {} the turn ({})", ShowNumber(std::abs(steer), 2),
                       in ? "into" : "out of", in == (i == kFront) ? "oversteer" : "understeer");
  };
  return fmt::format("A degree of lean steers the front axle {}, the rear axle {}.", axle(0),
                     axle(1));
}

std::string TurnWriter::Shares() const {
  const std::optional<double> front = ShareOfStiffness(study, kFront);
  if (!front) return {};
  return fmt::format("The front axle has {} % of the roll stiffness, the rear {} %.",
                     ShowNumber(100.0 * *front, 0), ShowNumber(100.0 * (1.0 - *front), 0));
}

// What is at its end before a wheel lifts, in the turn in which it comes first.
std::string TurnWriter::End() const {
  const PushEnds::Member* first = nullptr;
  size_t turn = 0;
  for (size_t i = 0; i < 2; ++i) {
    const std::optional<PushEnds::Member>& member = study.turns[i].member;
    if (member && (first == nullptr || member->share < first->share)) first = &*member, turn = i;
  }
  if (first == nullptr) return {};
  return fmt::format("First at its end, turning {} at {}: {}.", Turn(turn), AtG(first->share),
                     first->what);
}

}  // namespace

std::vector<std::string> RollAnswer(const Vehicle& vehicle, const RollStudy& study,
                                    UnitSystem units) {
  const TurnWriter writer{vehicle, study, units};
  std::vector<std::string> said;
  for (const std::string& sentence :
       {writer.Lean(), writer.Lift(), writer.Rollover(), writer.Grip(), writer.Axis(),
        writer.Shares(), writer.RollSteer(), writer.End()}) {
    if (!sentence.empty()) said.push_back(sentence);
  }
  return said;
}

std::vector<NamedTable> RollTables(const Vehicle& vehicle, const RollStudy& study,
                                   UnitSystem units) {
  const std::span whole(&study, 1);
  std::vector<NamedTable> tables{
      {"vehicle", ToTable(VehicleColumns(), whole, units)},
      {"roll stiffness", ToTable(StiffnessColumns(vehicle, study), kBothAxles, units)},
      {"roll axis", ToTable(AxisColumns(), whole, units)},
      {"turn", ToTable(BodyColumns(), whole, units)},
      {"load transfer", ToTable(TransferColumns(vehicle, study),
                                std::vector<Axles>{{kFront}, {kRear}, {kFront, kRear}}, units)},
      {"wheels", ToTable(WheelColumns(vehicle, study), Indices(4), units)},
      {"wheel lift", ToTable(LiftColumns(vehicle, study), Indices(2), units)}};
  if (study.torque) {
    tables.push_back(
        {"shaft torque", ToTable(TorqueColumns(vehicle, *study.torque), study.torques, units)});
  }
  return tables;
}

}  // namespace linkwright
