// SPDX-License-Identifier: MIT
#include "io/write/comparison.h"

#include <cmath>

#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

constexpr double kSameTravel = 1e-6;  // [m] far below a step, far above rounding

bool SameRow(const Cell& a, const Cell& b) {
  const auto* x = std::get_if<double>(&a);
  const auto* y = std::get_if<double>(&b);
  if (x != nullptr && y != nullptr) return std::abs(*x - *y) < kSameTravel;
  return a == b;
}

std::optional<double> Number(const Cell& cell) {
  const auto* number = std::get_if<double>(&cell);
  return number == nullptr ? std::nullopt : std::optional<double>(*number);
}

const std::vector<Cell>* FindRow(const DataTable& table, const Cell& key) {
  for (const std::vector<Cell>& row : table.rows) {
    if (SameRow(row.front(), key)) return &row;
  }
  return nullptr;
}

std::optional<size_t> FindColumn(const DataTable& table, const std::string& name) {
  for (size_t i = 0; i < table.columns.size(); ++i) {
    if (table.columns[i].name == name) return i;
  }
  return std::nullopt;
}

}  // namespace

std::vector<ComparedValue> CompareTables(const DataTable& first, const DataTable& second) {
  std::vector<ComparedValue> values;
  for (size_t i = 1; i < first.columns.size(); ++i) {
    const auto other = FindColumn(second, first.columns[i].name);
    if (!other) continue;
    for (const std::vector<Cell>& row : first.rows) {
      const std::vector<Cell>* twin = FindRow(second, row.front());
      if (twin == nullptr) continue;
      ComparedValue value{.row = row.front(),
                          .column = first.columns[i],
                          .first = Number(row[i]),
                          .second = Number((*twin)[*other]),
                          .difference = std::nullopt};
      if (value.first && value.second) value.difference = *value.second - *value.first;
      values.push_back(std::move(value));
    }
  }
  return values;
}

DataTable ToComparisonTable(const std::string& part, const Column& row_column,
                            const std::vector<ComparedValue>& values, UnitSystem units) {
  const auto in_unit = [units](std::optional<double> ComparedValue::*member) {
    return [=](const ComparedValue& value) {
      return InUnits(value.*member, value.column.dimension, units);
    };
  };
  const TableOf<ComparedValue> columns{
      {"part", "part", kNumber, "", [&](auto&) { return part; }},
      {"row", "row", kNumber, "",
       [&](auto& value) { return InUnits(value.row, row_column.dimension, units); }},
      {"quantity", "quantity", kNumber, "", [](auto& value) { return value.column.name; }},
      {"unit", "unit", kNumber, "", [&](auto& value) { return UnitName(value.column, units); }},
      {"first", "first", kNumber, "", in_unit(&ComparedValue::first)},
      {"second", "second", kNumber, "", in_unit(&ComparedValue::second)},
      {"difference", "difference", kNumber, "", in_unit(&ComparedValue::difference)}};
  return ToTable(columns, values, units);
}

}  // namespace linkwright
