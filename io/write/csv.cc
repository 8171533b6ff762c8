// SPDX-License-Identifier: MIT
#include "io/write/csv.h"

namespace linkwright {
namespace {

// A field that begins with one of these is a formula to a spreadsheet.
constexpr std::string_view kFormulaStarts = "=+-@\t\r";

std::string TextField(const std::string& text) {
  std::string safe = text;
  if (!safe.empty() && kFormulaStarts.find(safe.front()) != std::string_view::npos) {
    safe.insert(safe.begin(), '\'');
  }
  if (safe.find_first_of(",\"\r\n") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char c : safe) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string Field(const Cell& cell, Dimension dimension, UnitSystem units) {
  const std::string plain = PlainText(cell, dimension, units);
  return std::holds_alternative<std::string>(cell) ? TextField(plain) : plain;
}

}  // namespace

std::string ToCsv(const DataTable& table) {
  std::string csv;
  for (size_t i = 0; i < table.columns.size(); ++i) {
    if (i > 0) csv += ',';
    csv += TextField(NameWithUnit(table.columns[i], table.units));
  }
  csv += "\r\n";
  for (const std::vector<Cell>& row : table.rows) {
    for (size_t i = 0; i < row.size(); ++i) {
      if (i > 0) csv += ',';
      csv += Field(row[i], table.columns[i].dimension, table.units);
    }
    csv += "\r\n";
  }
  return csv;
}

}  // namespace linkwright
