// SPDX-License-Identifier: MIT
#include "io/write/roll_tables.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "solver/model/masses.h"

namespace linkwright {
namespace {

// The cell of a table's row under a column.
Cell CellOf(const std::vector<NamedTable>& tables, const std::string& name, size_t row,
            const std::string& column) {
  for (const NamedTable& table : tables) {
    if (table.name != name) continue;
    for (size_t i = 0; i < table.table.columns.size(); ++i) {
      if (table.table.columns[i].name == column) return table.table.rows.at(row).at(i);
    }
  }
  ADD_FAILURE() << name << ", " << column << " is not there";
  return {};
}

RollStudy Study(double share) {
  RollStudy study{};
  for (PushEnds& ends : study.turns) {
    ends.over = share;
    ends.lift = PushEnds::Lift{share, 0};
    ends.member = PushEnds::Member{share, "front damper left is fully open"};
  }
  study.torque = 100.0;
  study.torques.emplace_back();
  study.torques.back().stance.status = StanceStatus::kRests;
  study.torques.back().ends = study.turns[0];
  return study;
}

Vehicle Named() {
  Vehicle vehicle{};
  vehicle.axles[0].name = "front", vehicle.axles[1].name = "rear";
  return vehicle;
}

// What happens as the vehicle stands is no threshold: nothing is printed that reads 0.00 g.
TEST(RollTables, PrintNoThresholdAtOrBelowZero) {
  for (const double share : {0.0, -0.1, 0.004}) {
    const auto tables = RollTables(Named(), Study(share), UnitSystem::kMetric);
    for (const char* column : {"lift", "goes_over", "stiff_tipping_point", "member_at"}) {
      EXPECT_TRUE(std::holds_alternative<std::monostate>(CellOf(tables, "wheel lift", 0, column)))
          << column;
    }
    EXPECT_TRUE(
        std::holds_alternative<std::monostate>(CellOf(tables, "shaft torque", 0, "limit_torque")));
    EXPECT_NE(std::get<std::string>(CellOf(tables, "shaft torque", 0, "limit"))
                  .find("with hardly any torque"),
              std::string::npos);
  }
  const auto tables = RollTables(Named(), Study(0.7), UnitSystem::kMetric);
  for (const char* column : {"lift", "goes_over", "member_at"}) {
    EXPECT_EQ(std::get<double>(CellOf(tables, "wheel lift", 0, column)), 0.7 * kStandardGravity);
  }
}

}  // namespace
}  // namespace linkwright
