// SPDX-License-Identifier: MIT
// --units shows the same results in the other system, and never changes what options mean.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>

#include "tests/cli/program.h"

namespace linkwright::check {
namespace {

struct Pair {
  std::string metric, inch;  // suffixes of a column
  double factor;             // one of the inch unit in the metric one
};

// Exact: NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 lbf =
// 4.4482216152605 N, 1 ft = 0.3048 m. Longer suffixes before those they end in.
const std::vector<Pair> kPairs{{"_n_m_per_deg", "_lbf_ft_per_deg", 4.4482216152605 * 0.3048},
                               {"_n_per_mm", "_lbf_per_in", 4.4482216152605 / 25.4},
                               {"_mm", "_in", 25.4},
                               {"_kg", "_lb", 0.45359237},
                               {"_n", "_lbf", 4.4482216152605}};

// Twelve digits are written, so each of two numbers is off by at most 5e-12 of itself.
constexpr double kRounding = 1.1e-11;

// The inch column of a metric one, and its factor.
std::pair<std::string, double> InchTwin(const std::string& metric) {
  for (const Pair& pair : kPairs) {
    if (metric.ends_with(pair.metric)) {
      return {metric.substr(0, metric.size() - pair.metric.size()) + pair.inch, pair.factor};
    }
  }
  return {metric, 1.0};
}

void ExpectSameResults(const Sheet& metric, const Sheet& inch) {
  ASSERT_EQ(metric.header.size(), inch.header.size());
  ASSERT_EQ(metric.rows.size(), inch.rows.size());
  for (size_t c = 0; c < metric.header.size(); ++c) {
    const auto [twin, factor] = InchTwin(metric.header[c]);
    EXPECT_EQ(inch.header[c], twin);
    for (size_t r = 0; r < metric.rows.size(); ++r) {
      const std::string& a = metric.rows[r][c];
      const std::string& b = inch.rows[r][c];
      if (a.empty() || metric.header[c] == "load") {
        EXPECT_EQ(a, b);
        continue;
      }
      const double expected = ToNumber(a);
      EXPECT_NEAR(ToNumber(b) * factor, expected, kRounding * std::abs(expected))
          << metric.header[c] << ", row " << r;
    }
  }
}

TEST(Units, ChangeNothingButTheNumbersOfASettle) {
  const std::vector<std::string> command{"settle", VehiclePath("harbour_van"), "--units"};
  ExpectSameResults(RunToSheet({command[0], command[1], command[2], "metric"}),
                    RunToSheet({command[0], command[1], command[2], "inch"}));
}

TEST(Units, ChangeNothingButTheNumbersOfASweepWhoseTravelsStayInTheFilesUnit) {
  const auto sweep = [](const char* vehicle, const char* units) {
    return RunToSheet({"sweep", VehiclePath(vehicle), "--from", "-1.5", "--to", "1", "--step",
                       "0.5", "--units", units});
  };
  const Sheet metric = sweep("harbour_van", "metric");
  ExpectSameResults(metric, sweep("harbour_van", "inch"));
  EXPECT_EQ(metric.Numbers("travel_mm"), (std::vector<double>{-1.5, -1, -0.5, 0, 0.5, 1}));
  const Sheet inch = sweep("orchard_tractor_truck", "inch");
  ExpectSameResults(sweep("orchard_tractor_truck", "metric"), inch);
  EXPECT_EQ(inch.Numbers("travel_in"), (std::vector<double>{-1.5, -1, -0.5, 0, 0.5, 1}));
}

TEST(Units, DefaultToThoseOfTheFile) {
  EXPECT_EQ(RunToSheet({"settle", VehiclePath("orchard_tractor_truck")}).header[1],
            "total_mass_lb");
  EXPECT_EQ(RunToSheet({"settle", VehiclePath("quarry_pickup")}).header[1], "total_mass_kg");
}

TEST(Units, StandInTheHeadsOfThePrintedTablesToo) {
  const Outcome outcome =
      RunProgram({"sweep", VehiclePath("harbour_van"), "--units", "inch", "--full"});
  EXPECT_NE(outcome.out.find("lbf/in"), std::string::npos);
  EXPECT_EQ(outcome.out.find(" mm"), std::string::npos) << "no millimetre is left, notes included";
  EXPECT_EQ(outcome.out.find("N/mm"), std::string::npos);
}

TEST(Units, ReachTheNotesOfASettle) {
  ::setenv("COLUMNS", "1000", 1);  // nothing is wrapped
  const Outcome outcome =
      RunProgram({"settle", VehiclePath("harbour_van"), "--units", "inch", "--full"});
  ::unsetenv("COLUMNS");
  EXPECT_NE(outcome.out.find(" lbf; rear cone right touches"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find(" mm"), std::string::npos);
}

}  // namespace
}  // namespace linkwright::check
