// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

std::string Text(const Sheet& sheet, const std::string& table, const std::string& row,
                 const std::string& quantity) {
  for (const CsvRecord& record : sheet.rows) {
    if (record[0] == table && record[1] == row && record[2] == quantity) return record[4];
  }
  ADD_FAILURE() << "no " << table << ", " << row << ", " << quantity;
  return "0";
}

double Value(const Sheet& sheet, const std::string& table, const std::string& row,
             const std::string& quantity) {
  return ToNumber(Text(sheet, table, row, quantity));
}

const std::vector<std::string> kVehicles{"harbour_van",   "orchard_tractor_truck",
                                         "quarry_pickup", "fire_patrol",
                                         "coast_taxi",    "moorland_wagon"};

TEST(RollCommand, AnswersForEveryVehicle) {
  for (const std::string& name : kVehicles) {
    const Outcome outcome = RunProgram({"roll", VehiclePath(name), "--lateral", "0.3", "--full"});
    EXPECT_EQ(outcome.exit, 0) << name << outcome.err;
    EXPECT_EQ(outcome.out.find("nan"), std::string::npos) << name;
    for (const char* table : {"roll stiffness", "load transfer", "wheel lift"}) {
      EXPECT_TRUE(HasLine(outcome.out, table)) << name << " " << table;
    }
  }
}

std::string Decimals(double value, int decimals) { return fmt::format("{:.{}f}", value, decimals); }

// Its sentences say what its tables hold.
TEST(RollCommand, SaysWhatItsTablesHold) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet sheet = RunToSheet({"roll", van});
  const std::string out = Flat(RunProgram({"roll", van}).out);
  const auto moved = [&](const char* wheel) { return Value(sheet, "wheels", wheel, "change"); };
  const double right = moved("front right") + moved("rear right");
  for (const std::string& words :
       {"Turning left at 0.50 g the body leans " +
            Decimals(Value(sheet, "turn", "0.5", "body_roll"), 1) + " deg, its left side up, and ",
        Decimals(right / 9.80665, 0) + " kg of load goes to the right wheels.",
        "First wheel to lift: turning left the " +
            Text(sheet, "wheel lift", "left", "first_wheel") + " at " +
            Decimals(Value(sheet, "wheel lift", "left", "lift"), 2) + " g, turning right",
        "Rollover threshold: turning left " +
            Decimals(Value(sheet, "wheel lift", "left", "goes_over"), 2) + " g",
        Decimals(Value(sheet, "roll axis", "empty", "roll_arm"), 0) + " mm above the roll axis"}) {
    EXPECT_NE(out.find(words), std::string::npos) << words << "\n" << out;
  }
  // The reference van's front axle turns into the turn as it leans, its rear one too.
  EXPECT_GT(Value(sheet, "roll axis", "empty", "front_roll_steer"), 0.0);
  EXPECT_NE(out.find("steers the front axle 0.17 deg into the turn (oversteer)"),
            std::string::npos);
  EXPECT_LT(Value(sheet, "roll axis", "empty", "rear_roll_steer"), 0.0);
  EXPECT_NE(out.find("the rear axle 0.09 deg out of the turn (oversteer)"), std::string::npos);
}

TEST(RideCommand, SaysWhatItsTablesHold) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet sheet = RunToSheet({"ride", van});
  const std::string out = Flat(RunProgram({"ride", van}).out);
  const std::string front = Decimals(Value(sheet, "axles", "front", "ride_frequency"), 2);
  const std::string rear = Decimals(Value(sheet, "axles", "rear", "ride_frequency"), 2);
  for (const std::string& words :
       {"it rides at " + front + " Hz in front and " + rear +
            " Hz at the rear: the rear 8 % quicker.",
        "The body bounces at " + Decimals(Value(sheet, "modes", "bounce", "frequency"), 2) +
            " Hz, damped " + Decimals(Value(sheet, "modes", "bounce", "damping"), 2),
        "The front axle hops at " + Decimals(Value(sheet, "modes", "front hop", "frequency"), 1) +
            " Hz"}) {
    EXPECT_NE(out.find(words), std::string::npos) << words << "\n" << out;
  }
  EXPECT_NE(Flat(RunProgram({"ride", van, "--load", "deliveries"}).out)
                .find("At the rear a bump stop touches at rest"),
            std::string::npos);
}

TEST(RollCommand, WheelLoadsInATurnCarryTheVehicle) {
  const Sheet sheet = RunToSheet({"roll", VehiclePath("harbour_van"), "--lateral", "0.6"});
  double before = 0.0, after = 0.0;
  for (const char* wheel : {"front left", "front right", "rear left", "rear right"}) {
    before += Value(sheet, "wheels", wheel, "load_at_rest");
    after += Value(sheet, "wheels", wheel, "load_in_turn");
  }
  EXPECT_NEAR(after, before, 1e-4) << "[N] the weight does not change";
}

// Limits found by an equilibrium of another formulation (six coordinates a housing, forces summed),
// with a margin for the digits it was told with; it took a stop as two points, as these files do.
TEST(RollCommand, EndsATorqueWhereAnotherFormulationDoes) {
  const struct {
    const char* vehicle;
    double least, most;  // [N m]
  } cases[] = {{"moorland_wagon", 6348.0, 6349.0}, {"harbour_van", 5520.55, 5520.7}};
  for (const auto& is : cases) {
    for (const char* torque : {"400", "500", "600", "800"}) {
      const std::string file = std::string(LINKWRIGHT_SOURCE_DIR) +
                               "/fixtures/reference/independent/" + is.vehicle + "_two_points.yaml";
      const Sheet sheet = RunToSheet({"roll", file, "--torque", torque});
      const double limit = Value(sheet, "shaft torque", "rear", "limit_torque");
      EXPECT_GE(limit, is.least) << is.vehicle << " " << torque;
      EXPECT_LE(limit, is.most) << is.vehicle << " " << torque;
    }
  }
}

TEST(RollCommand, TheGradientIsTheOneOfSettle) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet settled = RunToSheet({"settle", van});
  const Sheet rolled = RunToSheet({"roll", van});
  EXPECT_NEAR(Value(rolled, "roll axis", "empty", "roll_gradient"),
              settled.Number(0, "roll_gradient_deg_per_g"), 1e-9);
  EXPECT_NEAR(Value(rolled, "roll stiffness", "front", "suspension"),
              settled.Number(0, "front_roll_stiffness_n_m_per_deg"), 1e-8);
}

TEST(RollCommand, TorqueLiftsTheRightWheelOfTheDrivenAxle) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet sheet = RunToSheet({"roll", van, "--torque", "300 lbf*ft"});
  EXPECT_EQ(Text(sheet, "shaft torque", "rear", "lifted_wheel"), "right");
  EXPECT_NEAR(Value(sheet, "shaft torque", "rear", "torque"), 300.0 * 1.3558179483314004, 1e-8);
  EXPECT_GT(Value(sheet, "shaft torque", "rear", "moved"), 0.0);
  EXPECT_FALSE(HasLine(RunProgram({"roll", van, "--full"}).out, "shaft torque"));
}

TEST(RollCommand, RefusesWhatMakesNoSense) {
  const std::string van = VehiclePath("harbour_van");
  EXPECT_EQ(RunProgram({"roll", van, "--lateral", "0"}).exit, 2);
  EXPECT_EQ(RunProgram({"roll", van, "--lateral", "3"}).exit, 2);
  EXPECT_EQ(RunProgram({"roll", van, "--lateral", "5 mm"}).exit, 2);
  EXPECT_EQ(RunProgram({"roll", van, "--torque", "0"}).exit, 2);
  EXPECT_EQ(RunProgram({"roll", van, "--load", "sand"}).exit, 2);
  EXPECT_EQ(RunProgram({"roll", VehiclePath("bare_frame")}).exit, 2);
}

TEST(RollCommand, BeyondTheTippingPointTheAnswerIsNo) {
  const Outcome outcome = RunProgram({"roll", VehiclePath("harbour_van"), "--lateral", "1.9"});
  EXPECT_EQ(outcome.exit, 1);
  EXPECT_NE(outcome.out.find("Turning left at 1.90 g it does not stand."), std::string::npos)
      << outcome.out;
  EXPECT_NE(outcome.out.find("at that acceleration it does not stand"), std::string::npos);
}

TEST(RollCommand, ABodyBelowTheRollAxisIsSaidInWords) {
  const Folder folder;
  const std::string path =
      folder.Write("low.yaml", "base: " + VehiclePath("moorland_wagon") +
                                   "\nchange:\n  sprung.at: [-1180, 4, 330]\n");
  const Outcome roll = RunProgram({"roll", path, "--full"});
  EXPECT_NE(Flat(roll.out).find("the body's centre of mass lies "), std::string::npos) << roll.out;
  const Outcome check = RunProgram({"check", path, "--full"});
  EXPECT_NE(Flat(check.out).find("'empty' the body's centre of mass lies "), std::string::npos);
  EXPECT_EQ(Flat(RunProgram({"roll", VehiclePath("moorland_wagon"), "--full"}).out)
                .find("would lean into a turn"),
            std::string::npos);
}

TEST(RideCommand, AnswersForEveryVehicle) {
  for (const std::string& name : kVehicles) {
    const Outcome outcome = RunProgram({"ride", VehiclePath(name), "--full"});
    EXPECT_EQ(outcome.exit, 0) << name << outcome.err;
    EXPECT_EQ(outcome.out.find("nan"), std::string::npos) << name;
    for (const char* table : {"axles", "modes", "inertias", "loads", "payload"}) {
      EXPECT_TRUE(HasLine(outcome.out, table)) << name << " " << table;
    }
  }
}

TEST(RideCommand, ItsFrequenciesAreThoseOfSettle) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet settled = RunToSheet({"settle", van});
  const Sheet ride = RunToSheet({"ride", van});
  for (size_t row = 0; row < settled.rows.size(); ++row) {
    const std::string load = settled.rows[row][0];
    EXPECT_NEAR(Value(ride, "loads", load, "front_ride_frequency"),
                settled.Number(row, "front_ride_frequency_hz"), 1e-9);
    EXPECT_NEAR(Value(ride, "loads", load, "bounce"), settled.Number(row, "bounce_hz"), 1e-9);
  }
}

// A roll inertia four times as great slows the roll and leaves bounce alone.
TEST(RideCommand, TakesTheInertiasOfTheFile) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const auto file = [&](const char* name, const char* inertia) {
    return folder.Write(name, "base: " + van + "\nadd:\n  ledger.roll_inertia: " + inertia +
                                  "\n  axles.front.unsprung.roll_inertia: 50\n"
                                  "  axles.front.tire.lateral_rate: 120 N/mm\n");
  };
  const Sheet light = RunToSheet({"ride", file("light.yaml", "500")});
  const Sheet heavy = RunToSheet({"ride", file("heavy.yaml", "2000")});
  EXPECT_EQ(Text(light, "inertias", "body in roll", "from"), "the file");
  EXPECT_EQ(Value(heavy, "inertias", "body in roll", "value"), 2000.0);
  EXPECT_EQ(Text(heavy, "inertias", "front axle in roll", "from"), "the file");
  EXPECT_LT(Value(heavy, "modes", "roll", "frequency"),
            0.8 * Value(light, "modes", "roll", "frequency"));
  EXPECT_NEAR(Value(heavy, "modes", "bounce", "frequency"),
              Value(light, "modes", "bounce", "frequency"), 2e-3);
}

TEST(RideCommand, PutsThePayloadWhereItIsAskedFor) {
  const std::string van = VehiclePath("harbour_van");
  const Sheet rear = RunToSheet({"ride", van, "--payload", "200"});
  const Sheet front = RunToSheet({"ride", van, "--payload", "200", "--at", "0", "0", "800"});
  EXPECT_NEAR(
      Value(rear, "payload", "200", "total_mass") - Value(rear, "payload", "0", "total_mass"),
      200.0, 1e-8);
  EXPECT_LT(Value(rear, "payload", "200", "body_rise_rear"),
            Value(front, "payload", "200", "body_rise_rear"));
  EXPECT_EQ(RunProgram({"ride", van, "--payload", "-5"}).exit, 2);
}

TEST(RideCommand, WithoutDampersShowsNoDamping) {
  const Folder folder;
  const std::string file =
      folder.Write("soft.yaml", "base: " + VehiclePath("harbour_van") +
                                    "\nremove: [axles.front.dampers, axles.rear.dampers]\n");
  EXPECT_TRUE(HasLine(RunProgram({"ride", file, "--full"}).out,
                      "- no damper has a rate, so no damping is shown"));
  EXPECT_EQ(Text(RunToSheet({"ride", file}), "modes", "bounce", "damping"), "");
}

// The same motion has the same name and number in `settle`, in `loads` and by the textbook.
TEST(RideCommand, NamesBounceAndPitchAlikeEverywhere) {
  for (const std::string& name : kVehicles) {
    const Sheet settled = RunToSheet({"settle", VehiclePath(name)});
    for (size_t row = 0; row < settled.rows.size(); ++row) {
      const std::string load = settled.rows[row][0];
      const Sheet ride = RunToSheet({"ride", VehiclePath(name), "--load", load});
      for (const std::string mode : {"bounce", "pitch"}) {
        const double hertz = settled.Number(row, mode + "_hz");
        EXPECT_NEAR(Value(ride, "modes by textbook", mode, "textbook_frequency"), hertz, 1e-9)
            << name << " " << load;
        EXPECT_NEAR(Value(ride, "modes", mode, "frequency") / hertz, 1.0, 0.05)
            << name << " " << load << ": tyres and axles slow it by a little";
      }
    }
  }
}

// Under its deliveries the van's rear stands on its cones, whose rate makes its frequency.
TEST(RideCommand, BlamesTheStopThatTouchesAndNotTheCoils) {
  const std::string van = VehiclePath("harbour_van");
  const std::string out = Flat(RunProgram({"ride", van, "--load", "deliveries", "--full"}).out);
  EXPECT_NE(out.find("a bump stop touches at rest: with its rate"), std::string::npos);
  EXPECT_EQ(out.find("a donor's coils"), std::string::npos);
  EXPECT_EQ(
      Text(RunToSheet({"ride", van, "--load", "deliveries"}), "axles", "rear", "stop_touches"),
      "touches");
  const std::string checked = Flat(RunProgram({"check", van, "--full"}).out);
  EXPECT_NE(checked.find("under 'deliveries' a bump stop touches at rest"), std::string::npos);
}

// What is damped enough is the file's to say; it is held against the whole model's ratio.
TEST(RideCommand, HoldsTheModelsDampingAgainstTheLimitsOfTheFile) {
  const Folder folder;
  const std::string van = VehiclePath("harbour_van");
  const double roll = Value(RunToSheet({"ride", van}), "modes", "roll", "damping");
  for (const double off : {-0.001, 0.001}) {
    const std::string file = folder.Write(
        off < 0.0 ? "below.yaml" : "above.yaml",
        "base: " + van + "\nadd:\n  aims: {damping_least: " + std::to_string(roll + off) + "}\n");
    EXPECT_EQ(
        Flat(RunProgram({"ride", file}).out).find("- roll: damping ratio ") != std::string::npos,
        off > 0.0);
  }
}

TEST(RideCommand, ShowsTheDynamicIndexAndThePlaceOfThePayload) {
  const Sheet van = RunToSheet({"ride", VehiclePath("harbour_van")});
  EXPECT_EQ(Text(van, "body", "empty", "from"), "assumed");
  EXPECT_NEAR(Value(van, "body", "empty", "dynamic_index"), 1.0, 1e-12);
  const Sheet wagon =
      RunToSheet({"ride", VehiclePath("moorland_wagon"), "--at", "-2000", "10", "900"});
  EXPECT_EQ(Text(wagon, "body", "empty", "from"), "the file");
  const double b = Value(wagon, "body", "empty", "behind_front") / 1000.0;
  const double c = Value(wagon, "body", "empty", "ahead_of_rear") / 1000.0;
  EXPECT_NEAR(Value(wagon, "body", "empty", "dynamic_index"), 2350.0 / (1480.0 * b * c), 1e-9);
  EXPECT_NEAR(Value(wagon, "payload place", "empty", "x"), -2000.0, 1e-9);
  EXPECT_EQ(Text(wagon, "payload place", "empty", "from"), "asked for");
}

// Every vehicle goes over before a block of its measures would, and not before its first wheel
// lifts.
TEST(RollCommand, GoesOverBetweenTheFirstLiftAndTheBlock) {
  for (const std::string& name : kVehicles) {
    const Sheet sheet = RunToSheet({"roll", VehiclePath(name)});
    for (const std::string turn : {"left", "right"}) {
      const double lift = Value(sheet, "wheel lift", turn, "lift");
      const double over = Value(sheet, "wheel lift", turn, "goes_over");
      EXPECT_LE(lift, over) << name;
      EXPECT_LT(over, Value(sheet, "wheel lift", turn, "stiff_tipping_point")) << name;
      EXPECT_GT(lift, 0.5) << name;
    }
  }
}

}  // namespace
}  // namespace linkwright::check
