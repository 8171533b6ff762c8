// SPDX-License-Identifier: MIT
#include "io/write/comparison.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

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

using Values = std::vector<ComparedValue>;

std::vector<Values> GroupedBy(
    const Values& values,
    const std::function<bool(const ComparedValue&, const ComparedValue&)>& same) {
  std::vector<Values> groups;
  for (const ComparedValue& value : values) {
    // From the last on: values of one column follow one another.
    const auto group = std::find_if(groups.rbegin(), groups.rend(),
                                    [&](const Values& each) { return same(each.front(), value); });
    (group == groups.rend() ? groups.emplace_back() : *group).push_back(value);
  }
  return groups;
}

// The three numbers of a value, as columns or as lines.
struct ShownNumber {
  const char* name;
  std::optional<double> ComparedValue::*member;
};
constexpr std::array kChanges{ShownNumber{"first", &ComparedValue::first},
                              ShownNumber{"second", &ComparedValue::second},
                              ShownNumber{"change", &ComparedValue::difference}};

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

std::vector<Values> ByRow(const Values& values) {
  return GroupedBy(values, [](auto& a, auto& b) { return a.row == b.row; });
}

std::vector<Values> ByColumn(const Values& values) {
  return GroupedBy(values, [](auto& a, auto& b) { return a.column.name == b.column.name; });
}

DataTable ChangesOfColumn(const Column& row_column, const Values& values, UnitSystem units) {
  TableOf<ComparedValue> columns{{row_column.name, row_column.head, row_column.dimension,
                                  row_column.definition, &ComparedValue::row, row_column.group}};
  for (const auto& [name, member] : kChanges) {
    columns.push_back({name, name, values.front().column.dimension, "", member});
  }
  return ToTable(columns, values, units);
}

DataTable ChangesOfRow(const std::string& what, const Values& values, UnitSystem units) {
  const std::string& name = std::get<std::string>(values.front().row);
  TableOf<ShownNumber> columns{{what, what + ": " + name, kNumber, "", &ShownNumber::name}};
  for (const ComparedValue& value : values) {
    const Column& column = value.column;
    columns.push_back({column.name, column.head, column.dimension, column.definition,
                       [&](auto& number) { return value.*number.member; }, column.group});
  }
  return ToTable(columns, kChanges, units);
}

DataTable SideBySide(const DataTable& first, const DataTable& second) {
  struct Pair {
    size_t first, second;
  };
  DataTable both{.units = first.units, .columns = {first.columns[0]}, .rows = {}};
  std::vector<Pair> pairs;
  for (size_t c = 1; c < first.columns.size(); ++c) {
    const Column& column = first.columns[c];
    const auto other = FindColumn(second, column.name);
    if (!other) continue;
    pairs.push_back({c, *other});
    for (const char* which : {"first", "second", "difference"}) {
      Column& added = both.columns.emplace_back(column);
      added.name += "_" + std::string(which), added.head += ", " + std::string(which);
      added.definition = which == std::string("difference")
                             ? "second less first"
                             : "of the " + std::string(which) + " file: " + column.definition;
    }
  }
  const auto number_in = [](const std::vector<Cell>* row, size_t c) {
    return row == nullptr ? std::nullopt : Number((*row)[c]);
  };
  const auto add = [&](const std::vector<Cell>* a, const std::vector<Cell>* b) {
    std::vector<Cell>& row = both.rows.emplace_back();
    row.push_back((a == nullptr ? b : a)->front());
    for (const Pair& pair : pairs) {
      const auto x = number_in(a, pair.first), y = number_in(b, pair.second);
      row.emplace_back(x), row.emplace_back(y), row.emplace_back(Less(y, x));
    }
  };
  for (const std::vector<Cell>& row : first.rows) {
    const std::vector<Cell>* twin = FindRow(second, row.front());
    if (twin != nullptr || Number(row.front())) add(&row, twin);
  }
  for (const std::vector<Cell>& row : second.rows) {
    if (Number(row.front()) && FindRow(first, row.front()) == nullptr) add(nullptr, &row);
  }
  std::stable_sort(both.rows.begin(), both.rows.end(), [](const auto& a, const auto& b) {
    const auto x = Number(a.front()), y = Number(b.front());
    return x && y && *x < *y;
  });
  return both;
}

std::vector<CurveEnds> CompareEnds(const DataTable& first, const DataTable& second) {
  const auto ends = [](const DataTable& table, size_t c) {
    std::array<std::optional<double>, 3> at;
    for (const std::vector<Cell>& row : table.rows) {
      const auto value = Number(row[c]), parameter = Number(row.front());
      if (!value || !parameter) continue;
      if (*parameter < 0.0 && !at[0]) at[0] = value;
      if (*parameter == 0.0) at[1] = value;
      if (*parameter > 0.0) at[2] = value;
    }
    return at;
  };
  std::vector<CurveEnds> all;
  for (size_t c = 1; c < first.columns.size(); ++c) {
    const auto other = FindColumn(second, first.columns[c].name);
    if (other) all.push_back({first.columns[c], ends(first, c), ends(second, *other)});
  }
  return all;
}

}  // namespace linkwright
