// SPDX-License-Identifier: MIT
#include "io/write/text_table.h"

#include <algorithm>
#include <sstream>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/column_groups.h"
#include "io/write/table_of.h"
#include "io/write/wrap.h"

namespace linkwright {
namespace {

constexpr size_t kHeadWidth = 12;  // words of a head wrap beyond this
constexpr size_t kNarrow = 1;      // where that is too wide: each word by itself, parted at hyphens
constexpr size_t kGap = 2;         // blanks between columns

// A line of a printed table, cell by cell.
using PrintedLine = std::vector<std::string>;

// Each column as wide as its widest cell; the first `words` of them begin where their column does,
// the others end where it does.
std::vector<std::string> Aligned(const std::vector<PrintedLine>& lines, size_t words) {
  std::vector<size_t> widths(lines.empty() ? 0 : lines.front().size(), 0);
  for (const PrintedLine& cells : lines) {
    for (size_t c = 0; c < cells.size(); ++c) widths[c] = std::max(widths[c], TextWidth(cells[c]));
  }
  std::vector<std::string> texts;
  for (const PrintedLine& cells : lines) {
    std::string text;
    for (size_t c = 0; c < cells.size(); ++c) {
      const std::string fill(widths[c] - TextWidth(cells[c]), ' ');
      text += std::string(kGap, ' ') + (c < words ? cells[c] + fill : fill + cells[c]);
    }
    texts.push_back(text.substr(0, text.find_last_not_of(' ') + 1));
  }
  return texts;
}

std::string CellText(const Cell& cell, const Column& column, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return Shown(*text);
  const std::optional<double> number = NumberIn(cell, column.dimension, units);
  if (!number) return "-";
  if (column.dimension == Dimension::kLength && units == UnitSystem::kInch) {
    return FormatFraction(std::get<double>(cell));
  }
  return ShowNumber(*number, UnitOf(column.dimension, units).decimals);
}

std::vector<std::string> WrapHead(const Column& column, UnitSystem units, size_t width) {
  std::vector<std::string> lines;
  std::string head = Shown(column.head);
  for (size_t at = 0; width == kNarrow && (at = head.find('-', at)) != std::string::npos; at += 2) {
    if (at > 0 && at + 1 < head.size()) head.insert(at + 1, " ");
  }
  std::istringstream words(head);
  for (std::string word; words >> word;) {
    if (!lines.empty() && lines.back().size() + 1 + word.size() <= width) {
      lines.back() += ' ' + word;
    } else {
      lines.push_back(word);
    }
  }
  if (lines.empty()) lines.emplace_back();
  lines.emplace_back(UnitOf(column.dimension, units).name);
  return lines;
}

// The rows that have something in one of these columns, the first of them, which names the row,
// left out: an axle's table ends where the axle does.
std::vector<size_t> RowsWithin(const DataTable& table, const std::vector<size_t>& picked) {
  std::vector<size_t> rows;
  for (size_t r = 0; r < table.rows.size(); ++r) {
    const bool any = std::any_of(picked.begin() + 1, picked.end(), [&](size_t c) {
      return !std::holds_alternative<std::monostate>(table.rows[r][c]);
    });
    if (any) rows.push_back(r);
  }
  return rows;
}

// One printed table of some columns and rows of `table`.
std::string PrintColumns(const DataTable& table, const std::vector<size_t>& picked,
                         const std::vector<size_t>& rows, size_t head_width = kHeadWidth) {
  std::vector<std::vector<std::string>> heads;
  size_t head_lines = 0;
  for (const size_t i : picked) {
    heads.push_back(WrapHead(table.columns[i], table.units, head_width));
    head_lines = std::max(head_lines, heads.back().size());
  }
  std::vector<PrintedLine> lines(head_lines + rows.size(), PrintedLine(picked.size()));
  for (size_t c = 0; c < picked.size(); ++c) {
    const Column& column = table.columns[picked[c]];
    for (size_t h = 0; h < heads[c].size(); ++h) {
      lines[head_lines - heads[c].size() + h][c] = heads[c][h];
    }
    for (size_t r = 0; r < rows.size(); ++r) {
      lines[head_lines + r][c] = CellText(table.rows[rows[r]][picked[c]], column, table.units);
    }
  }
  std::string out;
  for (const std::string& line : Aligned(lines, 0)) out += line + "\n";
  return out;
}

// These columns under a title, those that do not fit in parts that each begin with the first.
std::string PrintInParts(const std::string& title, const DataTable& table,
                         const std::vector<size_t>& picked, const std::vector<size_t>& rows,
                         size_t width) {
  std::string text;
  for (size_t next = 1; next < picked.size();) {
    std::vector<size_t> part{picked[0], picked[next++]};
    while (next < picked.size()) {
      part.push_back(picked[next]);
      if (WidestLine(PrintColumns(table, part, rows)) > width) {
        part.pop_back();
        break;
      }
      ++next;
    }
    text += (text.empty() ? title : "\n" + title + ", continued") + "\n" +
            PrintColumns(table, part, rows);
  }
  return text;
}

// Each group of columns under its own name.
std::string PrintGroups(const DataTable& table, size_t width) {
  std::string text;
  for (const auto& [name, picked] : GroupsOf(table)) {
    text += (text.empty() ? "" : "\n") +
            PrintInParts(name, table, picked, RowsWithin(table, picked), width);
  }
  return text;
}

// One line a column and one column a row, groups as headings between the lines.
std::string PrintTurned(const DataTable& table, const std::vector<size_t>& rows) {
  std::vector<PrintedLine> lines;  // label, unit, one a row
  lines.reserve(table.columns.size());
  for (size_t i = 0; i < table.columns.size(); ++i) {
    const Column& column = table.columns[i];
    PrintedLine& line = lines.emplace_back(2 + rows.size());
    line[0] = Shown(column.head), line[1] = UnitName(column, table.units);
    for (size_t r = 0; r < rows.size(); ++r) {
      line[2 + r] = CellText(table.rows[rows[r]][i], column, table.units);
    }
  }
  const std::vector<std::string> texts = Aligned(lines, 2);
  std::string out, group;
  for (size_t i = 0; i < texts.size(); ++i) {
    if (table.columns[i].group != group) {
      group = table.columns[i].group;
      if (!out.empty()) out += '\n';
      out += group + "\n";
    }
    out += texts[i] + "\n";
  }
  return out;
}

// Turned, those of its rows that do not fit beside one another in parts.
std::string PrintTurnedInParts(const DataTable& table, size_t width) {
  std::string text;
  for (size_t next = 0; next < table.rows.size();) {
    std::vector<size_t> part{next++};
    while (next < table.rows.size()) {
      part.push_back(next);
      if (WidestLine(PrintTurned(table, part)) > width) {
        part.pop_back();
        break;
      }
      ++next;
    }
    text += (text.empty() ? "" : "\n") + PrintTurned(table, part);
  }
  return text;
}

bool IsTextAlone(const DataTable& table) {
  return std::all_of(table.rows.begin(), table.rows.end(), [](const std::vector<Cell>& row) {
    return std::all_of(row.begin(), row.end(),
                       [](const Cell& cell) { return std::holds_alternative<std::string>(cell); });
  });
}

// Words beside words that are too wide: each row as a sentence, wrapped.
std::string PrintSentences(const DataTable& table, size_t width) {
  std::string text;
  for (const std::vector<Cell>& row : table.rows) {
    text += Wrap(Shown(std::get<std::string>(row[0])) + ": " + Shown(std::get<std::string>(row[1])),
                 width, "  ", "    ");
  }
  return text;
}

}  // namespace

std::string ToText(const std::string& title, const DataTable& table, size_t width) {
  const std::vector<size_t> columns = Indices(table.columns.size());
  const std::vector<size_t> rows = Indices(table.rows.size());
  const std::string named = title.empty() ? title : title + "\n";
  if (columns.size() < 2 || rows.empty()) return named + PrintColumns(table, columns, rows);
  const std::vector<ColumnGroup> groups = GroupsOf(table);
  const bool is_plain = groups.size() == 1;
  for (const size_t head_width : {kHeadWidth, kNarrow}) {
    if (!is_plain) break;
    const std::string text = PrintColumns(table, columns, rows, head_width);
    if (WidestLine(text) <= width) return named + text;
  }
  if (is_plain && columns.size() == 2 && IsTextAlone(table)) {
    return named + PrintSentences(table, width);
  }
  if (rows.size() < columns.size()) {
    return (is_plain ? named : std::string()) + PrintTurnedInParts(table, width);
  }
  return is_plain ? PrintInParts(title, table, columns, rows, width) : PrintGroups(table, width);
}

}  // namespace linkwright
