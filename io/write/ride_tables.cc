// SPDX-License-Identifier: MIT
#include "io/write/ride_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/table_of.h"
#include "solver/model/masses.h"

namespace linkwright {
namespace {

using enum Dimension;

TableOf<size_t> AxleRideColumns(const Vehicle& vehicle, const RideStudy& study) {
  const std::array<AxleRide, 2>& rides = study.report.axles;
  TableOf<size_t> columns{AxleColumn<size_t>(vehicle)};
  const TableOf<AxleRide> of_axle{
      {"sprung_mass", "carries", kMass, "sprung mass on this axle at rest", &AxleRide::sprung_mass},
      {"coil_ratio", "coil ratio", kNumber, "change of coil length per wheel travel",
       &AxleRide::coil_ratio},
      {"wheel_rate", "wheel rate", kRate, "per wheel, of coils and stops", &AxleRide::wheel_rate},
      {"ride_rate", "ride rate", kRate, "per wheel, the tyre in series", &AxleRide::ride_rate},
      {"ride_frequency", "ride frequency", kFrequency,
       "of the sprung mass it carries on both ride rates", &AxleRide::frequency},
      {"damper_ratio", "damper ratio", kNumber, "change of damper length per wheel travel",
       [](auto& ride) { return Within(ride.dampers, &AxleDamping::motion_ratio); }},
      {"damper_bump", "bump at wheel", kDamping, "damper rate at each wheel, pushed in",
       [](auto& ride) { return Within(ride.dampers, &AxleDamping::bump); }},
      {"damper_rebound", "rebound at wheel", kDamping, "the same, pulled out",
       [](auto& ride) { return Within(ride.dampers, &AxleDamping::rebound); }},
      {"damping", "damping by textbook", kNumber,
       "ratio of the mass carried on both wheel rates, its tyres rigid, mean of bump and rebound; "
       "1 is the least that does not swing; the limits are held against the modes' instead",
       &AxleRide::damping},
      {"damping_bump", "in bump", kNumber, "the same of bump alone", &AxleRide::damping_bump},
      {"damping_rebound", "in rebound", kNumber, "the same of rebound alone",
       &AxleRide::damping_rebound},
      {"stop_touches", "stop", kNumber,
       "whether a bump stop touches at rest, so that its rate is in the wheel rate",
       [](auto& ride) { return ride.stop_touches ? "touches" : "clear"; }}};
  AddPart(
      columns, of_axle, [&rides](size_t i) -> auto& { return rides[i]; });
  return columns;
}

TableOf<ModeReport> ModeColumns(bool damped) {
  return {
      {"mode", "mode", kNumber,
       "bounce and pitch of the body in side view; roll; sway and yaw on the tyres; hop: both "
       "wheels of an axle together; tramp: in turn",
       [](auto& row) { return ModeName(row.mode.part); }},
      {"frequency", "frequency", kFrequency, "of the whole model without damping",
       [](auto& row) { return row.mode.undamped; }},
      {"damped_frequency", "swings at", kFrequency,
       "the same with its dampers; 0 where it creeps back without swinging; empty without dampers",
       [=](auto& row) { return CellIf(damped, row.mode.damped); }},
      {"damping", "damping ratio", kNumber,
       "of the whole model; 1 and more does not swing; empty without dampers",
       [=](auto& row) { return CellIf(damped, row.mode.damping); }},
      {"centre_ahead", "still point", kLength,
       "where the body stands still in this motion, ahead of its sprung centre of mass (- behind); "
       "empty where it has none",
       &ModeReport::centre_ahead},
      {"share", "share", kPercent, "of the kinetic energy that is in the motion it is named by",
       [](auto& row) { return row.mode.share; }}};
}

TableOf<ModeReport> TextbookColumns(bool damped) {
  return {{"mode", "mode", kNumber, "as in `modes`, where a textbook has it",
           [](auto& row) { return ModeName(row.mode.part); }},
          {"textbook_frequency", "frequency", kFrequency,
           "two-degree body for bounce and pitch, as `settle` has it; a body on the roll axis; an "
           "axle between coils and tyres",
           [](auto& row) { return row.textbook->frequency; }},
          {"model_frequency", "whole model", kFrequency, "the same of `modes`, to compare",
           [](auto& row) { return row.mode.undamped; }},
          {"textbook_damping", "damping ratio", kNumber,
           "of the textbook's model; empty without dampers",
           [](auto& row) { return row.textbook->damping; }},
          {"model_damping", "whole model", kNumber, "the same of `modes`",
           [=](auto& row) { return CellIf(damped, row.mode.damping); }},
          {"textbook_centre_ahead", "still point", kLength,
           "where the textbook's body stands still, ahead of its centre of mass",
           [](auto& row) { return row.textbook->centre_ahead; }}};
}

TableOf<RideStudy> BodyRideColumns() {
  return {
      {"load", "load", kNumber, "name of the load", &RideStudy::load},
      {"sprung_mass", "sprung mass", kMass, "with the load", &RideStudy::sprung_mass},
      {"behind_front", "behind front axle", kLength, "its centre, horizontally",
       [](auto& study) { return study.report.arms.behind_front; }},
      {"ahead_of_rear", "ahead of rear axle", kLength, "the same",
       [](auto& study) { return study.report.arms.ahead_of_rear; }},
      {"gyration", "pitch radius", kLength, "radius of gyration of the sprung mass in pitch",
       [](auto& study) { return study.report.gyration; }},
      {"dynamic_index", "dynamic index", kNumber,
       "pitch radius squared over the product of the two distances: at 1 each end moves by itself; "
       "below, the body pitches faster than it bounces; empty where its centre is not between the "
       "axles",
       [](auto& study) { return study.report.dynamic_index; }},
      {"from", "from", kNumber, "pitch inertia of the file, or an assumed index of 1",
       [](auto& study) { return study.report.inertias.pitch_guessed ? "assumed" : "the file"; }}};
}

struct NamedInertia {
  std::string of;
  double value;  // [kg m2]
  bool guessed;
  std::string how;  // it is guessed
};

TableOf<NamedInertia> InertiaColumns() {
  return {{"inertia", "inertia", kNumber, "of what, about which axis", &NamedInertia::of},
          {"value", "value", kInertia, "about its own centre", &NamedInertia::value},
          {"from", "from", kNumber, "the file, or what was assumed",
           [](auto& row) { return row.guessed ? row.how : "the file"; }}};
}

std::vector<NamedInertia> InertiasIn(const Vehicle& vehicle, const Inertias& are) {
  std::vector<NamedInertia> all{
      {"body in roll", are.roll, are.roll_guessed, "assumed: radius 0.4 of the track"},
      {"body in pitch", are.pitch, are.pitch_guessed, "assumed: dynamic index of 1"},
      {"body in yaw", are.yaw, true, "assumed: as in pitch"}};
  for (const size_t i : kBothAxles) {
    all.push_back({vehicle.axles[i].name + " axle in roll", are.axle[i], are.axle_guessed[i],
                   "assumed: half its mass in the wheels"});
  }
  return all;
}

// Under its name, or with a payload: rows of those have the same name.
TableOf<LoadedRide> LoadColumns(bool payload) {
  TableOf<LoadedRide> columns{{"load", "load", kNumber, "name of the load", &LoadedRide::name}};
  if (payload) {
    columns = {
        {"payload", "payload", kMass, "put on beyond the load's own items", &LoadedRide::payload}};
  }
  const auto front = [](const StanceReport& r) { return r.axles[0].ride_frequency; };
  const auto rear = [](const StanceReport& r) { return r.axles[1].ride_frequency; };
  const TableOf<StanceReport> at_rest{
      {"total_mass", "total mass", kMass, "of the whole vehicle", &StanceReport::total_mass},
      {"front_ride_frequency", "front", kFrequency, "ride frequency of the front axle", front},
      {"rear_ride_frequency", "rear", kFrequency, "ride frequency of the rear axle", rear},
      {"rear_over_front", "rear over front", kNumber, "ratio of the two",
       [=](auto& r) { return front(r) && rear(r) ? Cell(*rear(r) / *front(r)) : Cell(); }},
      {"bounce", "bounce", kFrequency, "of the two-degree body, as `settle` has it",
       [](auto& r) { return Within(r.modes, &BodyModes::bounce); }},
      {"pitch", "pitch", kFrequency, "the same",
       [](auto& r) { return Within(r.modes, &BodyModes::pitch); }},
      {"body_rise_front", "front rise", kLength,
       "of the body over the front axle against the measured stance",
       [](auto& r) { return r.axles[0].body_rise; }},
      {"body_rise_rear", "rear rise", kLength, "the same over the rear axle",
       [](auto& r) { return r.axles[1].body_rise; }}};
  AddPart(columns, at_rest, &LoadedRide::stance);
  return columns;
}

TableOf<RideStudy> PlaceColumns() {
  return {
      {"load", "on top of load", kNumber, "the load it is put on top of", &RideStudy::load},
      {"x", "x", kLength, "of its centre, chassis axes; + forward of the datum",
       [](auto& study) { return study.payload_at.x(); }},
      {"y", "y", kLength, "the same, + left", [](auto& study) { return study.payload_at.y(); }},
      {"z", "z", kLength, "the same, + up", [](auto& study) { return study.payload_at.z(); }},
      {"from", "from", kNumber, "asked for, or where it is put unless asked for", [](auto& study) {
         return study.payload_placed ? "asked for" : "over rear axle, at sprung centre";
       }}};
}

// Sentences about how a vehicle rides.
struct RideWriter {
  const Vehicle& vehicle;
  const RideStudy& study;
  UnitSystem units;

  [[nodiscard]] static std::string Hz(double frequency) { return ShowNumber(frequency, 2); }
  [[nodiscard]] const ModeReport* Find(MotionPart part) const {
    const std::vector<ModeReport>& modes = study.report.modes;
    const auto found = std::find_if(modes.begin(), modes.end(),
                                    [&](const ModeReport& row) { return row.mode.part == part; });
    return found == modes.end() ? nullptr : &*found;
  }
  [[nodiscard]] std::string Ends() const;
  [[nodiscard]] std::string Body() const;
  [[nodiscard]] std::string Hop() const;
  [[nodiscard]] std::string Stops() const;
  [[nodiscard]] std::string Loads() const;
  [[nodiscard]] std::string Payload() const;
};

std::string RideWriter::Ends() const {
  const std::array<AxleRide, 2>& axles = study.report.axles;
  if (!axles[0].frequency || !axles[1].frequency) return {};
  const double ratio = *axles[1].frequency / *axles[0].frequency;
  const std::string percent = ShowNumber(100.0 * std::abs(ratio - 1.0), 0);
  return fmt::format("Under {} it rides at {} Hz in front and {} Hz at the rear: the rear {}.",
                     Quoted(study.load), Hz(*axles[0].frequency), Hz(*axles[1].frequency),
                     percent == "0" ? "as quick as the front"
                                    : percent + " % " + (ratio > 1.0 ? "quicker" : "slower"));
}

std::string RideWriter::Body() const {
  std::string text;
  for (const auto& [part, name] :
       {std::pair{kBodyHeave, "bounces"}, {kBodyPitch, "pitches"}, {kBodyRoll, "rolls"}}) {
    const ModeReport* row = Find(part);
    if (row == nullptr) continue;
    text += fmt::format("{}{} at {} Hz", text.empty() ? "" : ", ", name, Hz(row->mode.undamped));
    if (study.report.damped) text += ", damped " + ShowNumber(row->mode.damping, 2);
  }
  if (text.empty()) return {};
  return fmt::format("The body {}{}.", text,
                     study.report.damped ? " (1 is critical)" : "; no damper has a rate");
}

std::string RideWriter::Hop() const {
  const ModeReport *front = Find(kFrontHop), *rear = Find(kRearHop);
  if (front == nullptr && rear == nullptr) return {};
  const auto told = [](const ModeReport* row) {
    return row == nullptr ? std::string("does not hop (rigid tyres)")
                          : "hops at " + ShowNumber(row->mode.undamped, 1) + " Hz";
  };
  return fmt::format("The front axle {}, the rear axle {}.", told(front), told(rear));
}

std::string RideWriter::Stops() const {
  std::string axles;
  for (const size_t i : kBothAxles) {
    if (!study.report.axles[i].stop_touches) continue;
    axles += (axles.empty() ? "" : " and ") + vehicle.axles[i].name;
  }
  if (axles.empty()) return {};
  return fmt::format("At the {} a bump stop touches at rest, and its rate is in these.", axles);
}

// From the softest load to the stiffest, each end.
std::string RideWriter::Loads() const {
  if (study.loads.size() < 2) return {};
  std::string text;
  for (const size_t i : kBothAxles) {
    const auto frequency = [&](const LoadedRide& ride) {
      return ride.stance ? ride.stance->axles[i].ride_frequency : std::optional<double>();
    };
    const LoadedRide *low = nullptr, *high = nullptr;
    for (const LoadedRide& ride : study.loads) {
      if (!frequency(ride)) continue;
      if (low == nullptr || *frequency(ride) < *frequency(*low)) low = &ride;
      if (high == nullptr || *frequency(ride) > *frequency(*high)) high = &ride;
    }
    if (low == nullptr) continue;
    text += text.empty() ? "Over the loads it rides " : ", ";
    text += fmt::format("{} at {} Hz ({})", i == kFront ? "in front" : "at the rear",
                        Hz(*frequency(*low)), Shown(low->name));
    if (Hz(*frequency(*low)) == Hz(*frequency(*high))) continue;
    text += fmt::format(" to {} Hz ({})", Hz(*frequency(*high)), Shown(high->name));
  }
  return text.empty() ? text : text + ".";
}

std::string RideWriter::Payload() const {
  const auto rests = [](const LoadedRide& ride) { return ride.stance.has_value(); };
  const auto last = std::find_if(study.payload.rbegin(), study.payload.rend(), rests);
  if (last == study.payload.rend() || last->payload <= 0.0) return {};
  const std::array<AxleReport, 2>& axles = last->stance->axles;
  if (!axles[0].ride_frequency || !axles[1].ride_frequency) return {};
  return fmt::format("With {} on top, {}, it rides at {} Hz in front and {} Hz at the rear.",
                     ShowOnScale(last->payload * kStandardGravity, units),
                     study.payload_placed ? "where asked" : "over the rear axle",
                     Hz(*axles[0].ride_frequency), Hz(*axles[1].ride_frequency));
}

}  // namespace

std::vector<std::string> RideAnswer(const Vehicle& vehicle, const RideStudy& study,
                                    UnitSystem units) {
  const RideWriter writer{vehicle, study, units};
  std::vector<std::string> said;
  for (const std::string& sentence : {writer.Ends(), writer.Stops(), writer.Body(), writer.Hop(),
                                      writer.Loads(), writer.Payload()}) {
    if (!sentence.empty()) said.push_back(sentence);
  }
  return said;
}

std::vector<NamedTable> RideTables(const Vehicle& vehicle, const RideStudy& study,
                                   UnitSystem units) {
  const RideReport& report = study.report;
  const std::span whole(&study, 1);
  std::vector<ModeReport> in_textbook = report.modes;
  std::erase_if(in_textbook, [](auto& row) { return !row.textbook; });
  return {{"axles", ToTable(AxleRideColumns(vehicle, study), kBothAxles, units)},
          {"body", ToTable(BodyRideColumns(), whole, units)},
          {"modes", ToTable(ModeColumns(report.damped), report.modes, units)},
          {"modes by textbook", ToTable(TextbookColumns(report.damped), in_textbook, units)},
          {"inertias", ToTable(InertiaColumns(), InertiasIn(vehicle, report.inertias), units)},
          {"loads", ToTable(LoadColumns(false), study.loads, units)},
          {"payload place", ToTable(PlaceColumns(), whole, units)},
          {"payload", ToTable(LoadColumns(true), study.payload, units)}};
}

}  // namespace linkwright
