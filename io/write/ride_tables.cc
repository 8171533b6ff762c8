// SPDX-License-Identifier: MIT
#include "io/write/ride_tables.h"

namespace linkwright {
namespace {

using enum Dimension;

DataTable AxleTable(const Vehicle& vehicle, const RideStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"axle", "axle", kNumber, "", "front or rear"},
      {"sprung_mass", "carries", kMass, "", "sprung mass on this axle at rest"},
      {"coil_ratio", "coil ratio", kNumber, "", "change of coil length per wheel travel"},
      {"wheel_rate", "wheel rate", kRate, "", "per wheel, of coils and stops"},
      {"ride_rate", "ride rate", kRate, "", "per wheel, the tyre in series"},
      {"ride_frequency", "ride frequency", kFrequency, "",
       "of the sprung mass it carries on both ride rates"},
      {"damper_ratio", "damper ratio", kNumber, "", "change of damper length per wheel travel"},
      {"damper_bump", "bump at wheel", kDamping, "", "damper rate at each wheel, pushed in"},
      {"damper_rebound", "rebound at wheel", kDamping, "", "the same, pulled out"},
      {"damping", "damping by textbook", kNumber, "",
       "ratio of the mass carried on both wheel rates, its tyres rigid, mean of bump and rebound; "
       "1 "
       "is the least that does not swing; the limits are held against the modes' instead"},
      {"damping_bump", "in bump", kNumber, "", "the same of bump alone"},
      {"damping_rebound", "in rebound", kNumber, "", "the same of rebound alone"},
      {"stop_touches", "stop", kNumber, "",
       "whether a bump stop touches at rest, so that its rate is in the wheel rate"}};
  for (size_t i = 0; i < 2; ++i) {
    const AxleRide& ride = study.report.axles[i];
    const std::optional<AxleDamping>& d = ride.dampers;
    table.rows.push_back({vehicle.axles[i].name, ride.sprung_mass, Cell(ride.coil_ratio),
                          ride.wheel_rate, ride.ride_rate, Cell(ride.frequency),
                          d ? Cell(d->motion_ratio) : Cell(), d ? Cell(d->bump) : Cell(),
                          d ? Cell(d->rebound) : Cell(), Cell(ride.damping),
                          Cell(ride.damping_bump), Cell(ride.damping_rebound),
                          std::string(ride.stop_touches ? "touches" : "clear")});
  }
  return table;
}

DataTable ModeTable(const RideStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"mode", "mode", kNumber, "",
       "bounce and pitch of the body in side view; roll; sway and yaw on the tyres; hop: both "
       "wheels "
       "of an axle together; tramp: in turn"},
      {"frequency", "frequency", kFrequency, "", "of the whole model without damping"},
      {"damped_frequency", "swings at", kFrequency, "",
       "the same with its dampers; 0 where it creeps back without swinging; empty without dampers"},
      {"damping", "damping ratio", kNumber, "",
       "of the whole model; 1 and more does not swing; empty without dampers"},
      {"centre_ahead", "still point", kLength, "",
       "where the body stands still in this motion, ahead of its sprung centre of mass (- behind); "
       "empty where it has none"},
      {"share", "share", kPercent, "",
       "of the kinetic energy that is in the motion it is named by"}};
  for (const ModeReport& row : study.report.modes) {
    const bool damped = study.report.damped;
    table.rows.push_back(
        {ModeName(row.mode.part), row.mode.undamped, damped ? Cell(row.mode.damped) : Cell(),
         damped ? Cell(row.mode.damping) : Cell(), Cell(row.centre_ahead), row.mode.share});
  }
  return table;
}

DataTable TextbookTable(const RideStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"mode", "mode", kNumber, "", "as in `modes`, where a textbook has it"},
      {"textbook_frequency", "frequency", kFrequency, "",
       "two-degree body for bounce and pitch, as `settle` has it; a body on the roll axis; an axle "
       "between coils and tyres"},
      {"model_frequency", "whole model", kFrequency, "", "the same of `modes`, to compare"},
      {"textbook_damping", "damping ratio", kNumber, "",
       "of the textbook's model; empty without dampers"},
      {"model_damping", "whole model", kNumber, "", "the same of `modes`"},
      {"textbook_centre_ahead", "still point", kLength, "",
       "where the textbook's body stands still, ahead of its centre of mass"}};
  for (const ModeReport& row : study.report.modes) {
    if (!row.textbook) continue;
    table.rows.push_back({ModeName(row.mode.part), row.textbook->frequency, row.mode.undamped,
                          Cell(row.textbook->damping),
                          study.report.damped ? Cell(row.mode.damping) : Cell(),
                          Cell(row.textbook->centre_ahead)});
  }
  return table;
}

DataTable BodyTable(const RideStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"load", "load", kNumber, "", "name of the load"},
      {"sprung_mass", "sprung mass", kMass, "", "with the load"},
      {"behind_front", "behind front axle", kLength, "", "its centre, horizontally"},
      {"ahead_of_rear", "ahead of rear axle", kLength, "", "the same"},
      {"gyration", "pitch radius", kLength, "", "radius of gyration of the sprung mass in pitch"},
      {"dynamic_index", "dynamic index", kNumber, "",
       "pitch radius squared over the product of the two distances: at 1 each end moves by itself; "
       "below, the body pitches faster than it bounces; empty where its centre is not between the "
       "axles"},
      {"from", "from", kNumber, "", "pitch inertia of the file, or an assumed index of 1"}};
  const RideReport& report = study.report;
  table.rows.push_back({study.load, study.sprung_mass, report.arms.behind_front,
                        report.arms.ahead_of_rear, report.gyration, Cell(report.dynamic_index),
                        std::string(report.inertias.pitch_guessed ? "assumed" : "the file")});
  return table;
}

DataTable InertiaTable(const Vehicle& vehicle, const RideStudy& study, UnitSystem units) {
  const Inertias& inertias = study.report.inertias;
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"inertia", "inertia", kNumber, "", "of what, about which axis"},
                   {"value", "value", kInertia, "", "about its own centre"},
                   {"from", "from", kNumber, "", "the file, or what was assumed"}};
  const auto add = [&](const std::string& what, double value, bool guessed, const char* how) {
    table.rows.push_back({what, value, std::string(guessed ? how : "the file")});
  };
  add("body in roll", inertias.roll, inertias.roll_guessed, "assumed: radius 0.4 of the track");
  add("body in pitch", inertias.pitch, inertias.pitch_guessed, "assumed: dynamic index of 1");
  add("body in yaw", inertias.yaw, true, "assumed: as in pitch");
  for (size_t i = 0; i < 2; ++i) {
    add(vehicle.axles[i].name + " axle in roll", inertias.axle[i], inertias.axle_guessed[i],
        "assumed: half its mass in the wheels");
  }
  return table;
}

std::vector<Column> LoadColumns() {
  return {{"load", "load", kNumber, "", "name of the load"},
          {"total_mass", "total mass", kMass, "", "of the whole vehicle"},
          {"front_ride_frequency", "front", kFrequency, "", "ride frequency of the front axle"},
          {"rear_ride_frequency", "rear", kFrequency, "", "ride frequency of the rear axle"},
          {"rear_over_front", "rear over front", kNumber, "", "ratio of the two"},
          {"bounce", "bounce", kFrequency, "", "of the two-degree body, as `settle` has it"},
          {"pitch", "pitch", kFrequency, "", "the same"},
          {"body_rise_front", "front rise", kLength, "",
           "of the body over the front axle against the measured stance"},
          {"body_rise_rear", "rear rise", kLength, "", "the same over the rear axle"}};
}

DataTable LoadTable(const std::vector<LoadedRide>& rides, UnitSystem units) {
  DataTable table{.units = units, .columns = LoadColumns(), .rows = {}};
  for (const LoadedRide& ride : rides) {
    std::vector<Cell> row{ride.name};
    row.resize(table.columns.size());
    if (ride.stance) {
      const StanceReport& r = *ride.stance;
      const std::optional<double> front = r.axles[0].ride_frequency;
      const std::optional<double> rear = r.axles[1].ride_frequency;
      row[1] = r.total_mass;
      row[2] = Cell(front);
      row[3] = Cell(rear);
      if (front && rear) row[4] = *rear / *front;
      if (r.modes) row[5] = r.modes->bounce;
      if (r.modes) row[6] = r.modes->pitch;
      row[7] = r.axles[0].body_rise;
      row[8] = r.axles[1].body_rise;
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

DataTable PlaceTable(const RideStudy& study, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {{"load", "on top of load", kNumber, "", "the load it is put on top of"},
                   {"x", "x", kLength, "", "of its centre, chassis axes; + forward of the datum"},
                   {"y", "y", kLength, "", "the same, + left"},
                   {"z", "z", kLength, "", "the same, + up"},
                   {"from", "from", kNumber, "", "asked for, or where it is put unless asked for"}};
  const Eigen::Vector3d& at = study.payload_at;
  table.rows.push_back(
      {study.load, at.x(), at.y(), at.z(),
       std::string(study.payload_placed ? "asked for" : "over rear axle, at sprung centre")});
  return table;
}

// Rows of a payload are told apart by it, since their load is the same.
DataTable PayloadTable(const std::vector<LoadedRide>& rides, UnitSystem units) {
  DataTable table = LoadTable(rides, units);
  table.columns[0] = {"payload", "payload", kMass, "", "put on beyond the load's own items"};
  for (size_t i = 0; i < rides.size(); ++i) table.rows[i][0] = rides[i].payload;
  return table;
}

}  // namespace

std::string ModeName(MotionPart part) {
  switch (part) {
    case kBodyHeave:
      return "bounce";
    case kBodyPitch:
      return "pitch";
    case kBodyRoll:
      return "roll";
    case kBodySway:
      return "sway";
    case kBodyYaw:
      return "yaw";
    case kFrontHop:
      return "front hop";
    case kFrontTramp:
      return "front tramp";
    case kRearHop:
      return "rear hop";
    case kRearTramp:
      return "rear tramp";
  }
  return {};
}

std::vector<NamedTable> RideTables(const Vehicle& vehicle, const RideStudy& study,
                                   UnitSystem units) {
  return {{"axles", AxleTable(vehicle, study, units)},
          {"body", BodyTable(study, units)},
          {"modes", ModeTable(study, units)},
          {"modes by textbook", TextbookTable(study, units)},
          {"inertias", InertiaTable(vehicle, study, units)},
          {"loads", LoadTable(study.loads, units)},
          {"payload place", PlaceTable(study, units)},
          {"payload", PayloadTable(study.payload, units)}};
}

}  // namespace linkwright
