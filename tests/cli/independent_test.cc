// SPDX-License-Identifier: MIT
// Our results beside those of an independent formulation: fixtures/reference/independent/README.md
// says how they were computed and lists the command of each file.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <filesystem>
#include <optional>
#include <ostream>

#include "tests/cli/program.h"
#include "tests/cli/tolerances.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

const std::string kFolder = std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/reference/independent/";

struct Reference {
  std::string file;     // "harbour_van.settle.csv"
  std::string command;  // "settle harbour_van.yaml"
};

// How a failure names the case.
std::ostream& operator<<(std::ostream& out, const Reference& reference) {
  return out << reference.command;
}

// The table of the page: | `file` | `command` |
std::vector<Reference> ListReferences() {
  std::vector<Reference> references;
  for (const std::string& line : Lines(ReadBytes(kFolder + "README.md"))) {
    if (!line.starts_with("| `")) continue;
    const size_t middle = line.find("` | `");
    const size_t end = line.rfind("` |");
    references.push_back({line.substr(3, middle - 3), line.substr(middle + 5, end - middle - 5)});
  }
  return references;
}

std::string NameOf(const ::testing::TestParamInfo<Reference>& info) {
  std::string name = info.param.file.substr(0, info.param.file.rfind('.'));
  for (char& c : name) c = std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '_';
  return name;
}

Sheet RunCommand(const std::string& command) {
  std::vector<std::string> words = SplitWords(command);
  words.at(1) = std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/" + words.at(1);
  return RunToSheet(words);
}

// The same of the vehicle with its stops taken as two points, as the other formulation took them;
// absent where no such file is there, and no stop of the vehicle touches in any of its references.
std::optional<Sheet> RunWithTwoPoints(const std::string& command) {
  std::vector<std::string> words = SplitWords(command);
  words.at(1) = kFolder + words.at(1).substr(0, words.at(1).rfind('.')) + "_two_points.yaml";
  if (!std::filesystem::exists(words.at(1))) return std::nullopt;
  return RunToSheet(words);
}

double AllowedAt(const std::string& column, double wanted) {
  const Tolerance tolerance = ToleranceOf(column);
  return std::max(tolerance.absolute, tolerance.relative * std::abs(wanted));
}

bool IsSameField(const std::string& column, const std::string& a, const std::string& b) {
  if (a == b) return true;
  if (a.empty() || b.empty() || column == "load") return false;
  return std::abs(ToNumber(a) - ToNumber(b)) <= AllowedAt(column, ToNumber(b));
}

void ExpectSameField(const std::string& column, const std::string& row, const std::string& actual,
                     const std::string& expected) {
  if (actual.empty() || expected.empty()) {
    EXPECT_EQ(actual, expected) << column << " at " << row;
    return;
  }
  const double wanted = ToNumber(expected);
  EXPECT_NEAR(ToNumber(actual), wanted, AllowedAt(column, wanted)) << column << " at " << row;
}

// The rows that the references have: their formulation ends rows where the first axle ends, and has
// no row at an end between two steps. Ours beside those have an axle past its end, or one at it.
std::vector<const CsvRecord*> RowsAsTheirs(const Sheet& actual, const Sheet& expected) {
  const auto same = [](const std::string& a, const std::string& b) {
    return a == b || (a.find_first_not_of("-.0123456789e") == std::string::npos &&
                      std::abs(ToNumber(a) - ToNumber(b)) < 1e-7);
  };
  std::vector<const CsvRecord*> rows;
  for (size_t r = 0; r < actual.rows.size(); ++r) {
    const CsvRecord& row = actual.rows[r];
    const bool theirs = std::any_of(expected.rows.begin(), expected.rows.end(),
                                    [&](const CsvRecord& each) { return same(row[0], each[0]); });
    if (theirs) rows.push_back(&row);
    const auto empty = [&](const CsvRecord& record) {
      return std::count(record.begin(), record.end(), "");
    };
    const bool end = r + 1 == actual.rows.size() || r == 0 ||
                     empty(actual.rows[r + 1]) != empty(row) ||
                     empty(actual.rows[r - 1]) != empty(row);
    EXPECT_TRUE(theirs || end || empty(row) > empty(expected.rows.front())) << row[0];
  }
  return rows;
}

// Length and force of the coils, which those that stand for stops would be counted among.
bool IsOfCoils(const std::string& column) {
  return column.find("_spring_length") != std::string::npos ||
         column.find("_spring_force") != std::string::npos;
}

// What a stop that touches changes without moving anything.
bool IsOfForces(const std::string& column) {
  return column.find("_rate_") != std::string::npos ||
         column.find("frequency") != std::string::npos || column.starts_with("link_force");
}

// One row as the file has it, as two points have it, and as the other formulation has it: two
// points are what that has throughout, the file wherever no stop touches, that is, wherever the two
// agree.
void ExpectSameButStops(const Sheet& actual, const CsvRecord& row, const Sheet& points,
                        const CsvRecord& point_row, const Sheet& expected,
                        const CsvRecord& wanted) {
  bool moved = false;
  for (const std::string& column : expected.header) {
    if (IsOfCoils(column) || IsOfForces(column)) continue;
    moved = moved || !IsSameField(column, row[actual.Find(column)], point_row[points.Find(column)]);
  }
  for (size_t c = 0; c < expected.header.size(); ++c) {
    const std::string& column = expected.header[c];
    if (column == "load") continue;
    const std::string& ours = row[actual.Find(column)];
    const std::string& of_points = point_row[points.Find(column)];
    const bool coils = IsOfCoils(column);
    if (!coils) {
      SCOPED_TRACE("with two points");
      ExpectSameField(column, wanted[0], of_points, wanted[c]);
    }
    if (coils ? !moved : IsSameField(column, ours, of_points)) {
      ExpectSameField(column, wanted[0], ours, wanted[c]);
    }
  }
}

class Independent : public ::testing::TestWithParam<Reference> {};

TEST_P(Independent, EveryColumnIsWhatTheOtherFormulationGives) {
  const Sheet expected = ReadSheet(ReadBytes(kFolder + GetParam().file));
  const Sheet actual = RunCommand(GetParam().command);
  CsvRecord ours = actual.header, theirs = expected.header;
  std::sort(ours.begin(), ours.end());
  std::sort(theirs.begin(), theirs.end());
  if (GetParam().command.find("--motion") == std::string::npos) {
    EXPECT_EQ(ours, theirs);
  } else {  // ours has the joints and forces of each link besides
    EXPECT_TRUE(std::includes(ours.begin(), ours.end(), theirs.begin(), theirs.end()));
  }
  const std::vector<const CsvRecord*> rows = RowsAsTheirs(actual, expected);
  ASSERT_EQ(rows.size(), expected.rows.size()) << "rows end at another travel";
  if (const std::optional<Sheet> points = RunWithTwoPoints(GetParam().command)) {
    const std::vector<const CsvRecord*> point_rows = RowsAsTheirs(*points, expected);
    ASSERT_EQ(point_rows.size(), expected.rows.size()) << "rows of two points end elsewhere";
    for (size_t row = 0; row < expected.rows.size(); ++row) {
      ExpectSameButStops(actual, *rows[row], *points, *point_rows[row], expected,
                         expected.rows[row]);
    }
    return;
  }
  for (size_t row = 0; row < expected.rows.size(); ++row) {
    const std::string& name = expected.rows[row][0];
    for (size_t c = 0; c < expected.header.size(); ++c) {
      const std::string& column = expected.header[c];
      ASSERT_TRUE(actual.Has(column)) << column;
      const std::string& field = (*rows[row])[actual.Find(column)];
      if (column == "load") {
        EXPECT_EQ(field, name);
      } else {
        ExpectSameField(column, name, field, expected.rows[row][c]);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Reference, Independent, ::testing::ValuesIn(ListReferences()), NameOf);

TEST(IndependentReferences, EveryFileHasItsCommand) {
  std::vector<std::string> listed, there;
  for (const Reference& reference : ListReferences()) listed.push_back(reference.file);
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) {
    if (entry.path().extension() == ".csv") there.push_back(entry.path().filename().string());
  }
  std::sort(listed.begin(), listed.end());
  std::sort(there.begin(), there.end());
  EXPECT_EQ(listed, there);
  EXPECT_GE(there.size(), 17U);
}

TEST(ToleranceOf, KnowsAUnitByItsLongestSuffix) {
  EXPECT_EQ(ToleranceOf("front_wheel_rate_n_per_mm").absolute, 0.0);
  EXPECT_EQ(ToleranceOf("rear_roll_steer_deg_per_deg").absolute, 5e-6);
  EXPECT_EQ(ToleranceOf("front_caster_deg").absolute, 5e-5);
  EXPECT_EQ(ToleranceOf("height sill_mm").absolute, 2e-4);
  EXPECT_THROW((void)ToleranceOf("front_furlongs"), std::runtime_error);
}

}  // namespace
}  // namespace linkwright::check
