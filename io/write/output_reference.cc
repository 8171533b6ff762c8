// SPDX-License-Identifier: MIT
#include "io/write/output_reference.h"

#include <fmt/format.h>

#include <array>

namespace linkwright {
namespace {

// What results are measured in; the rest of enum Dimension stands in files only.
constexpr std::array kOfResults{
    Dimension::kLength,       Dimension::kMass,    Dimension::kForce,
    Dimension::kRate,         Dimension::kAngle,   Dimension::kRollRate,
    Dimension::kFrequency,    Dimension::kPercent, Dimension::kAngleRatio,
    Dimension::kRollGradient, Dimension::kTorque,  Dimension::kAcceleration,
    Dimension::kAngleRate,    Dimension::kLateral, Dimension::kDamping,
    Dimension::kInertia};

// A bar would end the cell.
std::string CellText(const std::string& text) {
  std::string safe;
  for (const char c : text) safe += c == '|' ? std::string("\\|") : std::string(1, c);
  return safe;
}

std::string InInch(const Column& column) {
  const std::string inch = NameWithUnit(column, UnitSystem::kInch);
  return inch == NameWithUnit(column, UnitSystem::kMetric) ? "the same" : fmt::format("`{}`", inch);
}

}  // namespace

std::string ColumnReference(const std::vector<Column>& columns) {
  std::string table = "| metric | inch | what it is |\n| --- | --- | --- |\n";
  for (const Column& column : columns) {
    table += fmt::format("| `{}` | {} | {} |\n", NameWithUnit(column, UnitSystem::kMetric),
                         InInch(column), CellText(column.definition));
  }
  return table;
}

std::string UnitReference() {
  std::string table =
      "| quantity | metric name ends | unit | inch name ends | unit |\n"
      "| --- | --- | --- | --- | --- |\n";
  for (const Dimension dimension : kOfResults) {
    const Unit& metric = UnitOf(dimension, UnitSystem::kMetric);
    const Unit& inch = UnitOf(dimension, UnitSystem::kInch);
    table += fmt::format("| {} | `{}` | {} | `{}` | {} |\n", DimensionName(dimension),
                         metric.suffix, metric.name, inch.suffix, inch.name);
  }
  return table;
}

}  // namespace linkwright
