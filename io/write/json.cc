// SPDX-License-Identifier: MIT
#include "io/write/json.h"

#include <nlohmann/json.hpp>

namespace linkwright {
namespace {

using Json = nlohmann::ordered_json;

Json ToValue(const Cell& cell, Dimension dimension, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  if (const auto number = NumberIn(cell, dimension, units)) return *number;
  return nullptr;
}

Json ColumnsOf(const DataTable& table) {
  Json columns = Json::array();
  for (const Column& column : table.columns) {
    columns.push_back({{"name", NameWithUnit(column, table.units)},
                       {"quantity", column.name},
                       {"unit", UnitOf(column.dimension, table.units).name},
                       {"definition", column.definition}});
  }
  return columns;
}

Json RowsOf(const DataTable& table) {
  Json rows = Json::array();
  for (const std::vector<Cell>& row : table.rows) {
    Json object = Json::object();
    for (size_t i = 0; i < row.size(); ++i) {
      const Column& column = table.columns[i];
      object[NameWithUnit(column, table.units)] = ToValue(row[i], column.dimension, table.units);
    }
    rows.push_back(std::move(object));
  }
  return rows;
}

}  // namespace

std::string ToJson(const Document& document) {
  Json json;
  json["program"] = "linkwright";
  json["command"] = document.command;
  json["file"] = document.file;
  json["title"] = document.title;
  json["answer"] = document.answer;
  for (const NamedTable& named : document.tables) {
    json[named.name] = {{"units", UnitSystemName(named.table.units)},
                        {"columns", ColumnsOf(named.table)},
                        {"rows", RowsOf(named.table)}};
  }
  json["notes"] = document.notes;
  // Names from the file may hold bytes that are not UTF-8; they must not stop the writer.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace linkwright
