// SPDX-License-Identifier: MIT
// A table declared once: one list of columns, each with its names, what it means and how a row
// fills it, so that no value can come to stand under another's head.
#pragma once

#include <algorithm>
#include <array>
#include <functional>

#include "io/write/data_table.h"
#include "solver/model/vehicle.h"

namespace linkwright {

template <typename Row>
struct ColumnOf {
  std::string name;  // these as in Column
  std::string head;
  Dimension dimension;
  std::string definition;
  std::function<Cell(const Row&)> value = {};  // a member of the row, or what follows from one [SI]
  std::string group = {};
  bool detail = false;
};

template <typename Row>
using TableOf = std::vector<ColumnOf<Row>>;

// Leaves these columns to --full, --table and files.
template <typename Row>
void LeaveToFull(TableOf<Row>& columns, const std::vector<std::string>& names) {
  for (ColumnOf<Row>& column : columns) {
    column.detail =
        column.detail || std::find(names.begin(), names.end(), column.name) != names.end();
  }
}

template <typename Row>
std::vector<Column> ColumnsOf(const TableOf<Row>& columns) {
  std::vector<Column> plain;
  for (const ColumnOf<Row>& c : columns) {
    plain.push_back({c.name, c.head, c.dimension, c.group, c.definition, c.detail});
  }
  return plain;
}

// One row of the table for each of `rows`; none: its columns alone.
template <typename Row, typename Rows = std::vector<Row>>
DataTable ToTable(const TableOf<Row>& columns, const Rows& rows = {},
                  UnitSystem units = UnitSystem::kMetric) {
  DataTable table{.units = units, .columns = ColumnsOf(columns), .rows = {}};
  for (const Row& row : rows) {
    std::vector<Cell>& cells = table.rows.emplace_back();
    for (const ColumnOf<Row>& column : columns) cells.push_back(column.value(row));
  }
  return table;
}

// A member of what may be absent: an optional or a pointer.
template <typename Whole, typename Member>
Cell Within(const Whole& whole, const Member& member) {
  return whole ? Cell(std::invoke(member, *whole)) : Cell();
}

// Adds columns of a part of each row: of an axle, a wheel, a shaft.
//   part_of   the part of a row: a member, or a function of the row that returns a reference; where
//             it is an optional that is absent, the columns are empty
//   group     of all of them
//   prefix    before each name: "front_"
template <typename Row, typename Part, typename PartOf>
void AddPart(TableOf<Row>& to, const TableOf<Part>& columns, const PartOf& part_of,
             const std::string& group = "", const std::string& prefix = "") {
  for (const ColumnOf<Part>& c : columns) {
    const auto value = [value_of = c.value, part_of](const Row& row) -> Cell {
      const auto& part = std::invoke(part_of, row);
      if constexpr (std::is_same_v<decltype(part), const std::optional<Part>&>) {
        return Within(part, value_of);
      } else {
        return value_of(part);
      }
    };
    to.push_back({prefix + c.name, c.head, c.dimension, c.definition, value, group, c.detail});
  }
}

// The rows of a table with one for each axle, and with one for each of `count`: 0, 1, ...
inline constexpr std::array<size_t, 2> kBothAxles{0, 1};
[[nodiscard]] std::vector<size_t> Indices(size_t count);

// The first column of a table with a row for each axle, or for something of one: its index, or a
// row that has one.
template <typename Row>
ColumnOf<Row> AxleColumn(const Vehicle& vehicle) {
  return {"axle", "axle", Dimension::kNumber, "front or rear", [&vehicle](const Row& row) {
            if constexpr (std::is_same_v<Row, size_t>)
              return Cell(vehicle.axles[row].name);
            else
              return Cell(vehicle.axles[static_cast<size_t>(row.axle)].name);
          }};
}

// x, y and z of a point, in C.
//   name, head   before each: "tab_", "tab "
[[nodiscard]] TableOf<Eigen::Vector3d> PointColumns(const std::string& name,
                                                    const std::string& head,
                                                    const std::string& definition);

// "front damper left": how a member of an axle is called in a table's first column.
[[nodiscard]] inline auto MemberNameIn(const Vehicle& vehicle) {
  return [&vehicle](const auto& row) { return vehicle.axles[row.axle].name + " " + row.member; };
}

// "Front axle: housing": the columns of one printed table of an axle.
[[nodiscard]] std::string AxleGroup(const std::string& axle, const std::string& part);

// Absent where either is.
[[nodiscard]] std::optional<double> Less(const std::optional<double>& value,
                                         const std::optional<double>& base);

}  // namespace linkwright
