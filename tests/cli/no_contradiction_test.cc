// SPDX-License-Identifier: MIT
// What two commands both tell of one vehicle is the same: ends of travel, the rest, angles,
// lengths, loads.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

using Json = nlohmann::json;

constexpr double kSame = 1e-6;   // of mm, deg, N, Hz: beyond the digits of a JSON document
constexpr double kAtEnd = 1e-5;  // [mm, deg] where a search has closed in

// Everything that the commands tell of one vehicle; each command runs once. Null: it refuses it.
class NoContradiction : public testing::TestWithParam<std::string> {
 protected:
  const Json& Of(const std::string& command) {
    const auto [at, is_new] = said_.try_emplace(command);
    if (!is_new) return at->second;
    const Folder folder;
    std::vector<std::string> words = SplitWords(command);
    words.insert(words.begin() + 1, {VehiclePath(GetParam()), "--units", "metric", "--json",
                                     folder.Path("said.json")});
    if (RunProgram(words).exit == 0) {
      at->second = Json::parse(ReadBytes(folder.Path("said.json")));
    }
    return at->second;
  }

  // The row of a table whose first cell is `name`; null where there is none.
  const Json* Row(const std::string& command, const std::string& table, const std::string& name) {
    const Json& said = Of(command);
    if (said.is_null() || !said.contains(table)) return nullptr;
    const std::string key = said[table]["columns"][0]["name"];
    for (const Json& row : said[table]["rows"]) {
      if (row[key] == name) return &row;
    }
    return nullptr;
  }

  // The row of a sweep's table at a parameter of 0.
  const Json* AtRest(const std::string& command, const std::string& table) {
    const Json& said = Of(command);
    if (said.is_null() || !said.contains(table)) return nullptr;
    const std::string key = said[table]["columns"][0]["name"];
    for (const Json& row : said[table]["rows"]) {
      if (row[key] == 0.0) return &row;
    }
    return nullptr;
  }

  // Two cells that are the same thing; where either is missing nothing is compared.
  void Same(const Json* a, const std::string& a_key, const Json* b, const std::string& b_key,
            double within = kSame) {
    if (a == nullptr || b == nullptr || !a->contains(a_key) || !b->contains(b_key)) return;
    const Json &x = (*a)[a_key], &y = (*b)[b_key];
    if (x.is_null() || y.is_null()) return;
    ++compared_;
    EXPECT_NEAR(x.get<double>(), y.get<double>(), within) << a_key << " and " << b_key;
  }

  // The file has one axle only: its travel's table lacks the other.
  bool OneAxle() {
    return Row("limits", "travel", "front bump") == nullptr ||
           Row("limits", "travel", "rear bump") == nullptr;
  }

  // The note that begins so, the beginning left off; empty where there is none.
  std::string Note(const std::string& command, const std::string& beginning) {
    const Json& said = Of(command);
    for (const Json& note : said.is_null() ? Json::array() : said["notes"]) {
      const std::string text = note;
      if (text.starts_with(beginning)) return text.substr(beginning.size());
    }
    return {};
  }

  // The lines of a command's findings of one kind that begin so, the beginning left off.
  std::vector<std::string> Told(const std::string& command, const std::string& slug,
                                const std::string& beginning) {
    std::vector<std::string> lines;
    const Json& said = Of(command);
    if (said.is_null() || !said.contains("findings")) return lines;
    for (const Json& row : said["findings"]["rows"]) {
      const std::string line = row["line"];
      if (row["finding"] != slug || !line.starts_with(beginning)) continue;
      lines.push_back(line.substr(beginning.size()));
    }
    return lines;
  }

  void InWhereTravelEnds();
  void InThePage();
  void InACrossing();
  void InTheRest();
  void InTheShafts();
  void InTheTyres();

  int compared_ = 0;

 private:
  std::map<std::string, Json> said_;
};

// As a finding tells it.
std::string Millimetres(double mm) { return std::to_string(std::lround(mm)) + " mm"; }

void NoContradiction::InWhereTravelEnds() {
  for (const std::string axle : {"front", "rear"}) {
    // Hung on stands an axle droops as far as its droop goes.
    Same(Row("limits", "travel", axle + " droop"), "travel_mm",
         Row("openings", "on stands", axle + ", as it is"), "travel_mm", kAtEnd);
    // The bump that check finds short is the one that limits tells.
    const Json* bump = Row("limits", "travel", axle + " bump");
    for (const std::string& left : Told("check", "short-bump", axle + " axle: ")) {
      ASSERT_TRUE(bump != nullptr && !(*bump)["travel_mm"].is_null());
      EXPECT_TRUE(left.starts_with(Millimetres((*bump)["travel_mm"]) + " of bump left")) << left;
      ++compared_;
    }
    // A sweep's rows and a shaft's places end alike, by the same member.
    for (const std::string way : {"droop", "bump"}) {
      const std::string rows = Note("sweep", axle + " axle, " + way + ": travel ends at ");
      const std::string shaft =
          Note("driveline", "the " + axle + " shaft: full " + way + " is at ");
      if (rows.empty() || shaft.empty()) continue;
      EXPECT_EQ(rows, shaft);
      ++compared_;
    }
  }
  // steering has the rows of a sweep, from one end to the other.
  for (const auto& [motion, command, parameter] : std::vector<std::array<std::string, 3>>{
           {"travel", "sweep", "travel_mm"}, {"roll", "sweep --motion roll", "body_roll_deg"}}) {
    const Json &steering = Of("steering"), &sweep = Of(command);
    if (steering.is_null() || sweep.is_null() || !steering.contains("front " + motion)) continue;
    const Json& a = steering["front " + motion]["rows"];
    std::vector<Json> b;  // the rows that the front axle reaches
    for (const Json& row : sweep["rows"]["rows"]) {
      if (!row["front_axle_steer_deg"].is_null()) b.push_back(row);
    }
    Same(&a.front(), parameter, &b.front(), parameter, kAtEnd);
    Same(&a.back(), parameter, &b.back(), parameter, kAtEnd);
  }
}

// A crossing ends where the first axle does, and a sweep's rows no sooner.
void NoContradiction::InACrossing() {
  const Json &limits = Of("limits"), &sweep = Of("sweep --motion crossed");
  ASSERT_FALSE(limits.is_null() || sweep.is_null());
  for (const std::string way : {"crossed +", "crossed -"}) {
    const Json* both = Row("limits", "crossed", way);
    ASSERT_EQ(both == nullptr, OneAxle());
    if (both != nullptr && (*both)["cross_deg"].is_null()) continue;
    double first = 1e3;
    for (const std::string axle : {"front", "rear"}) {
      const Json* alone = Row("limits", "crossed alone", axle + " " + way);
      if (alone == nullptr && OneAxle()) continue;
      if (!(*alone)["cross_deg"].is_null()) {
        first = std::min(first, std::abs((*alone)["cross_deg"].get<double>()));
      }
    }
    const double told = both == nullptr ? first : std::abs((*both)["cross_deg"].get<double>());
    EXPECT_NEAR(told, first, kAtEnd);
    const Json& rows = sweep["rows"]["rows"];
    const double last = (way == "crossed +" ? rows.back() : rows.front())["cross_deg"];
    EXPECT_GE(std::abs(last), told - kAtEnd);
    ++compared_;
    if (both == nullptr) continue;
    // Half the tracks' sum times its sine, whichever way (71).
    EXPECT_NEAR(std::abs((*both)["diagonal_travel_mm"].get<double>()),
                (*both)["front_wheel_travel_mm"].get<double>() +
                    (*both)["rear_wheel_travel_mm"].get<double>(),
                kAtEnd);
  }
}

void NoContradiction::InTheRest() {
  const Json* row = AtRest("sweep", "rows");
  ASSERT_NE(row, nullptr);
  const std::string load = Of("sweep")["standing"]["rows"][0].value("load", "");
  const Json* stance = Row("settle", "stances", load);
  const Json* axis = Row("roll", "roll axis", load);
  const Json* vehicle = Row("roll", "vehicle", load);
  const Json* heights = Row("ride", "loads", load);
  Same(stance, "total_mass_kg", vehicle, "total_mass_kg");
  Same(stance, "cg_height_mm", vehicle, "cg_height_mm");
  Same(stance, "roll_gradient_deg_per_g", axis, "roll_gradient_deg_per_g");
  Same(stance, "bounce_hz", heights, "bounce_hz");
  Same(stance, "pitch_hz", heights, "pitch_hz");
  Same(row, "roll_axis_height_mm", axis, "roll_axis_height_mm");
  Same(row, "roll_axis_slope_deg", axis, "roll_axis_slope_deg");
  for (const std::string axle : {"front", "rear"}) {
    Same(stance, axle + "_ride_frequency_hz", heights, axle + "_ride_frequency_hz");
    Same(stance, axle + "_ride_frequency_hz", Row("ride", "axles", axle), "ride_frequency_hz");
    Same(stance, "body_rise_" + axle + "_mm", heights, "body_rise_" + axle + "_mm");
    Same(stance, axle + "_roll_stiffness_n_m_per_deg", Row("roll", "roll stiffness", axle),
         "suspension_n_m_per_deg");
    Same(row, axle + "_roll_center_height_mm", axis, axle + "_roll_center_height_mm");
    Same(row, axle + "_roll_steer_deg_per_deg", axis, axle + "_roll_steer_deg_per_deg");
    Same(row, axle + "_caster_deg", AtRest("steering", axle + " travel"), "caster_deg");
    Same(row, axle + "_lateral_shift_mm", AtRest("steering", axle + " travel"), "lateral_shift_mm");
    for (const std::string side : {"left", "right"}) {
      Same(stance, "wheel_load_" + axle + "_" + side + "_n",
           Row("roll", "wheels", axle + " " + side), "load_at_rest_n");
    }
    const Json* left = Row("openings", "in their openings at rest", axle + " left");
    const Json* right = Row("openings", "in their openings at rest", axle + " right");
    if (left == nullptr || right == nullptr) continue;
    for (const std::string which : {"ahead", "up"}) {
      const double mean =
          0.5 * ((*left)[which + "_mm"].get<double>() + (*right)[which + "_mm"].get<double>());
      EXPECT_NEAR(mean, (*row)[axle + "_opening_" + which + "_mm"].get<double>(), kSame);
    }
  }
}

// The page has the travel left of limits, at rest the curves of the sweep's row at 0, and every
// load as settle has it.
void NoContradiction::InThePage() {
  const Json& page = Of("page");
  ASSERT_FALSE(page.is_null());
  const Json &ways = page["travel"]["rows"], &rows = Of("limits")["travel"]["rows"];
  ASSERT_EQ(ways.size(), rows.size());
  for (size_t i = 0; i < ways.size(); ++i) {
    EXPECT_EQ(ways[i]["axle"].get<std::string>() + " " + ways[i]["way"].get<std::string>(),
              rows[i]["way"]);
    EXPECT_EQ(ways[i]["travel_mm"], rows[i]["travel_mm"]) << rows[i].dump();
  }
  const Json* rest = AtRest("sweep", "rows");
  ASSERT_NE(rest, nullptr);
  int curves = 0;
  for (const Json& row : page["over the travel"]["rows"]) {
    if (row["at"] != "rest") continue;
    for (const auto& [name, value] : row.items()) {
      const std::string swept = row["axle"].get<std::string>() + "_" + name;
      if (!value.is_number() || !rest->contains(swept) || (*rest)[swept].is_null()) continue;
      EXPECT_NEAR(value.get<double>(), (*rest)[swept].get<double>(), kSame) << swept;
      ++curves;
    }
  }
  EXPECT_GE(curves, 3);
  if (!page.contains("stances")) {
    EXPECT_NE(page["answer"][0].get<std::string>().find("no masses"), std::string::npos);
    return;
  }
  const Json &stances = page["stances"]["rows"], &settled = Of("settle")["stances"]["rows"];
  ASSERT_EQ(stances.size(), settled.size());
  for (size_t i = 0; i < stances.size(); ++i) {
    for (const auto& [name, value] : stances[i].items()) {
      if (!settled[i].contains(name)) continue;
      EXPECT_EQ(value, settled[i][name]) << name;
    }
    EXPECT_TRUE(stances[i].contains("rake_deg"));
  }
}

void NoContradiction::InTheShafts() {
  const Json* row = AtRest("sweep", "rows");
  for (const std::string shaft : {"front", "rear"}) {
    const Json* rest = Row("driveline", shaft + " travel", "rest");
    if (row == nullptr || rest == nullptr) continue;
    const bool several = row->contains(shaft + "_driveshaft_length_mm");
    const std::string key = (several ? shaft + "_" : std::string()) + "driveshaft_";
    Same(row, key + "length_mm", rest, "length_mm");
    Same(row, key + "speed_ripple_pct", rest, "speed_ripple_pct");
  }
}

// The deepest tyre that check tells of is the one that openings tells of.
void NoContradiction::InTheTyres() {
  for (const std::string axle : {"front", "rear"}) {
    for (const std::string surface : {"lip", "panel"}) {
      double least = 1e9;
      for (const std::string side : {"left", "right"}) {
        const Json* gap =
            Row("openings", "least clearance",
                axle + " " + side + " to " + (surface == "lip" ? "lip" : "inner panel"));
        if (gap != nullptr) least = std::min(least, (*gap)["gap_mm"].get<double>());
      }
      for (const std::string side : {"left", "right"}) {
        for (const std::string& line :
             Told("check", "tire-clearance", axle + " " + side + " tyre: ")) {
          const std::string where = surface == "lip" ? " into its lip" : " into its inner ";
          if (line.find(where) == std::string::npos) continue;
          EXPECT_TRUE(line.starts_with(Millimetres(-least) + where)) << line;
          ++compared_;
        }
      }
    }
  }
}

TEST_P(NoContradiction, BetweenTwoCommands) {
  InWhereTravelEnds();
  InThePage();
  InACrossing();
  InTheRest();
  InTheShafts();
  InTheTyres();
  EXPECT_GT(compared_, OneAxle() ? 5 : 10) << "hardly anything was compared";
}

INSTANTIATE_TEST_SUITE_P(Fixtures, NoContradiction, testing::ValuesIn(UnlikeVehicles()),
                         [](const auto& vehicle) { return vehicle.param; });

}  // namespace
}  // namespace linkwright::check
