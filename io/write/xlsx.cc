// SPDX-License-Identifier: MIT
#include "io/write/xlsx.h"

#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "io/shown.h"
#include "io/write/column_groups.h"
#include "io/write/file.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

constexpr lxw_row_t kHeadRow = 0;
constexpr size_t kLongestName = 31;                        // of a sheet (ECMA-376)
constexpr double kWideColumn = 60.0, kUsualColumn = 14.0;  // [characters]
constexpr lxw_row_t kChartRows = 16;                       // that a chart covers

// A folder for one file, gone with its scope.
class Scratch {
 public:
  Scratch() {
    std::string name = (std::filesystem::temp_directory_path() / "linkwright-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) {
      throw WriteError("cannot make a temporary folder beside " + name);
    }
    folder_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code gone;
    std::filesystem::remove_all(folder_, gone);
  }
  [[nodiscard]] std::string Path() const { return (folder_ / "book.xlsx").string(); }

 private:
  std::filesystem::path folder_;
};

struct Book {
  lxw_workbook* book;
  lxw_format* head;
  lxw_format* wrapped;
  std::set<std::string> names;  // of its sheets, in small letters: two may not differ by case alone
};

// A sheet's name of a table's or a group's: without what no name may hold, cut, and its own.
std::string SheetName(Book& to, const std::string& title) {
  std::string name = Shown(title);
  for (char& c : name) {
    if (std::string_view("[]:*?/\\'").find(c) != std::string_view::npos || c < ' ') c = ' ';
  }
  const auto cut = [](std::string text, size_t length) {
    while (text.size() > length || (!text.empty() && text.back() == ' ')) text.pop_back();
    return text;
  };
  const auto small = [](std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
  };
  std::string own = cut(name, kLongestName);
  if (own.empty()) own = "table";
  for (int i = 2; !to.names.insert(small(own)).second; ++i) {
    const std::string number = " " + std::to_string(i);
    own = cut(name, kLongestName - number.size()) + number;
  }
  return own;
}

lxw_col_t ColumnNumber(size_t i) { return static_cast<lxw_col_t>(i); }

// The number that the CSV shows, as the double nearest to it.
std::optional<double> NumberOf(const Cell& cell, const Column& column, UnitSystem units) {
  if (!NumberIn(cell, column.dimension, units)) return std::nullopt;
  const std::string text = PlainText(cell, column.dimension, units);
  double number = 0.0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

void AddAnswer(const Document& document, Book& to) {
  lxw_worksheet* sheet = workbook_add_worksheet(to.book, SheetName(to, "answer").c_str());
  worksheet_set_column(sheet, 0, 0, 2.0 * kWideColumn, nullptr);
  lxw_row_t row = 0;
  const auto say = [&](const std::string& text, lxw_format* format) {
    worksheet_write_string(sheet, row++, 0, Shown(text).c_str(), format);
  };
  say(document.title, to.head);
  say(document.file, nullptr);
  ++row;
  for (const std::string& sentence : document.answer) say(sentence, to.wrapped);
  if (document.notes.empty()) return;
  ++row;
  for (const std::string& note : document.notes) say(note, to.wrapped);
}

// "housing pitch [deg]"
std::string HeadOf(const Column& column, UnitSystem units) {
  const std::string unit = UnitName(column, units);
  const std::string& words = column.head.empty() ? column.name : column.head;
  return Shown(unit.empty() ? words : words + " [" + unit + "]");
}

// The curves of one unit over the sheet's first column.
struct ChartOf {
  std::string unit;
  std::vector<lxw_col_t> columns;
};

std::vector<ChartOf> ChartsOf(const DataTable& table, const std::vector<size_t>& picked) {
  std::vector<ChartOf> charts;
  for (size_t c = 1; c < picked.size(); ++c) {
    const Column& column = table.columns[picked[c]];
    const bool any = std::any_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
      return NumberIn(row[picked[c]], column.dimension, table.units).has_value();
    });
    if (!any) continue;
    const std::string unit = UnitName(column, table.units);
    auto chart = std::find_if(charts.begin(), charts.end(),
                              [&](const ChartOf& each) { return each.unit == unit; });
    if (chart == charts.end()) chart = charts.insert(charts.end(), {unit, {}});
    chart->columns.push_back(ColumnNumber(c));
  }
  return charts;
}

void AddCharts(const DataTable& table, const std::vector<size_t>& picked, const std::string& name,
               lxw_worksheet* sheet, Book& to) {
  const auto last = static_cast<lxw_row_t>(table.rows.size());
  lxw_row_t at = kHeadRow + 1;
  for (const ChartOf& of : ChartsOf(table, picked)) {
    lxw_chart* chart = workbook_add_chart(to.book, LXW_CHART_SCATTER_STRAIGHT);
    for (const lxw_col_t column : of.columns) {
      lxw_chart_series* series = chart_add_series(chart, nullptr, nullptr);
      chart_series_set_categories(series, name.c_str(), kHeadRow + 1, 0, last, 0);
      chart_series_set_values(series, name.c_str(), kHeadRow + 1, column, last, column);
      chart_series_set_name_range(series, name.c_str(), kHeadRow, column);
    }
    chart_axis_set_name(chart->x_axis, HeadOf(table.columns[picked[0]], table.units).c_str());
    chart_axis_set_name(chart->y_axis, of.unit.c_str());
    worksheet_insert_chart(sheet, at, ColumnNumber(picked.size() + 1), chart);
    at += kChartRows;
  }
}

// These columns of a table as a sheet.
void AddSheet(const std::string& title, const DataTable& table, const std::vector<size_t>& picked,
              Book& to) {
  const std::string name = SheetName(to, title);
  lxw_worksheet* sheet = workbook_add_worksheet(to.book, name.c_str());
  bool has_curves = table.rows.size() >= 3;
  for (size_t c = 0; c < picked.size(); ++c) {
    const Column& column = table.columns[picked[c]];
    worksheet_write_string(sheet, kHeadRow, ColumnNumber(c), HeadOf(column, table.units).c_str(),
                           to.head);
    bool words = false;
    for (size_t r = 0; r < table.rows.size(); ++r) {
      const Cell& cell = table.rows[r][picked[c]];
      const auto row = static_cast<lxw_row_t>(r + 1);
      if (const auto* text = std::get_if<std::string>(&cell)) {
        words = words || text->size() > static_cast<size_t>(kUsualColumn);
        worksheet_write_string(sheet, row, ColumnNumber(c), Shown(*text).c_str(), nullptr);
      } else if (const auto number = NumberOf(cell, column, table.units)) {
        worksheet_write_number(sheet, row, ColumnNumber(c), *number, nullptr);
      }
      if (c == 0) has_curves = has_curves && NumberIn(cell, column.dimension, table.units);
    }
    worksheet_set_column(sheet, ColumnNumber(c), ColumnNumber(c),
                         words ? 2.0 * kUsualColumn : kUsualColumn, nullptr);
  }
  worksheet_freeze_panes(sheet, kHeadRow + 1, 1);
  if (has_curves) AddCharts(table, picked, name, sheet, to);
}

// A table, or each group of its columns behind the first of them.
void AddTable(const NamedTable& named, Book& to) {
  const DataTable& table = named.table;
  const std::vector<ColumnGroup> groups = GroupsOf(table);
  if (groups.size() < 2) {
    AddSheet(named.name, table, Indices(table.columns.size()), to);
    return;
  }
  for (const auto& [name, picked] : groups) {
    AddSheet(name.empty() ? named.name : name, table, picked, to);
  }
}

}  // namespace

std::string ToXlsx(const Document& document) {
  const Scratch scratch;
  const std::string path = scratch.Path();
  Book to{.book = workbook_new(path.c_str()), .head = nullptr, .wrapped = nullptr, .names = {}};
  if (to.book == nullptr) throw WriteError("cannot make a workbook in " + path);
  to.head = workbook_add_format(to.book);
  format_set_bold(to.head);
  format_set_text_wrap(to.head);
  to.wrapped = workbook_add_format(to.book);
  format_set_text_wrap(to.wrapped);
  lxw_doc_properties properties{};
  std::string title = document.title, program = "linkwright " + document.command;
  properties.title = title.data(), properties.comments = program.data();
  properties.created = 315532800;  // 1980-01-01: the same answer gives the same bytes
  workbook_set_properties(to.book, &properties);
  AddAnswer(document, to);
  for (const NamedTable& named : document.tables) AddTable(named, to);
  if (const lxw_error error = workbook_close(to.book); error != LXW_NO_ERROR) {
    throw WriteError(std::string("cannot make a workbook: ") + lxw_strerror(error));
  }
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace linkwright
