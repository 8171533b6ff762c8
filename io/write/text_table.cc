// SPDX-License-Identifier: MIT
#include "io/write/text_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

constexpr size_t kHeadWidth = 12;  // words of a head wrap beyond this
constexpr size_t kGap = 2;         // blanks between columns

// Columns as a reader counts them: UTF-8 continuation bytes take no place.
size_t Width(const std::string& text) {
  return static_cast<size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

// A line of a printed table, cell by cell.
using PrintedLine = std::vector<std::string>;

// Each column as wide as its widest cell; the first `words` of them begin where their column does,
// the others end where it does.
std::vector<std::string> Aligned(const std::vector<PrintedLine>& lines, size_t words) {
  std::vector<size_t> widths(lines.empty() ? 0 : lines.front().size(), 0);
  for (const PrintedLine& cells : lines) {
    for (size_t c = 0; c < cells.size(); ++c) widths[c] = std::max(widths[c], Width(cells[c]));
  }
  std::vector<std::string> texts;
  for (const PrintedLine& cells : lines) {
    std::string text;
    for (size_t c = 0; c < cells.size(); ++c) {
      const std::string fill(widths[c] - Width(cells[c]), ' ');
      text += std::string(kGap, ' ') + (c < words ? cells[c] + fill : fill + cells[c]);
    }
    texts.push_back(text.substr(0, text.find_last_not_of(' ') + 1));
  }
  return texts;
}

// Lengths in inches show the nearest 1/16 beside the decimal.
bool IsTaped(const Column& column, UnitSystem units) {
  return column.dimension == Dimension::kLength && units == UnitSystem::kInch;
}

std::string CellText(const Cell& cell, const Column& column, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return Shown(*text);
  const std::optional<double> number = NumberIn(cell, column.dimension, units);
  if (!number) return "-";
  const std::string decimal = ShowNumber(*number, UnitOf(column.dimension, units).decimals);
  if (!IsTaped(column, units)) return decimal;
  return fmt::format("{} ({})", decimal, FormatSixteenths(std::get<double>(cell)));
}

// Pads the sixteenths of cells that stand under one another to one width, so that the decimals
// before them align.
void AlignSixteenths(const std::vector<std::string*>& taped) {
  size_t width = 0;
  for (const std::string* text : taped) {
    const size_t at = text->find(" (");
    if (at != std::string::npos && text->back() == ')') width = std::max(width, text->size() - at);
  }
  for (std::string* text : taped) {
    const size_t at = text->find(" (");
    if (at == std::string::npos || text->back() != ')') continue;
    text->insert(at, std::string(width - (text->size() - at), ' '));
  }
}

std::vector<std::string> WrapHead(const Column& column, UnitSystem units) {
  std::vector<std::string> lines;
  std::istringstream words(Shown(column.head));
  for (std::string word; words >> word;) {
    if (!lines.empty() && lines.back().size() + 1 + word.size() <= kHeadWidth) {
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
                         const std::vector<size_t>& rows) {
  std::vector<std::vector<std::string>> heads;
  size_t head_lines = 0;
  for (const size_t i : picked) {
    heads.push_back(WrapHead(table.columns[i], table.units));
    head_lines = std::max(head_lines, heads.back().size());
  }
  std::vector<PrintedLine> lines(head_lines + rows.size(), PrintedLine(picked.size()));
  for (size_t c = 0; c < picked.size(); ++c) {
    const Column& column = table.columns[picked[c]];
    for (size_t h = 0; h < heads[c].size(); ++h) {
      lines[head_lines - heads[c].size() + h][c] = heads[c][h];
    }
    std::vector<std::string*> taped;
    for (size_t r = 0; r < rows.size(); ++r) {
      std::string& text = lines[head_lines + r][c];
      text = CellText(table.rows[rows[r]][picked[c]], column, table.units);
      if (IsTaped(column, table.units)) taped.push_back(&text);
    }
    AlignSixteenths(taped);
  }
  std::string out;
  for (const std::string& line : Aligned(lines, 0)) out += line + "\n";
  return out;
}

size_t WidestLine(const std::string& text) {
  size_t widest = 0;
  for (size_t at = 0; at < text.size();) {
    const size_t end = std::min(text.find('\n', at), text.size());
    widest = std::max(widest, Width(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

std::vector<std::string> GroupsOf(const DataTable& table) {
  std::vector<std::string> groups;
  for (size_t i = 1; i < table.columns.size(); ++i) {
    const std::string& group = table.columns[i].group;
    if (std::find(groups.begin(), groups.end(), group) == groups.end()) groups.push_back(group);
  }
  return groups;
}

}  // namespace

std::string ToGroupedText(const DataTable& table) {
  std::string out;
  for (const std::string& group : GroupsOf(table)) {
    std::vector<size_t> picked{0};
    for (size_t i = 1; i < table.columns.size(); ++i) {
      if (table.columns[i].group == group) picked.push_back(i);
    }
    if (!out.empty()) out += '\n';
    out += group + "\n" + PrintColumns(table, picked, RowsWithin(table, picked));
  }
  return out;
}

std::string ToTitledText(const std::string& title, const DataTable& table) {
  return title + "\n" +
         PrintColumns(table, Indices(table.columns.size()), Indices(table.rows.size()));
}

std::string ToFittingText(const std::string& title, const DataTable& table) {
  std::string text = ToTitledText(title, table);
  if (WidestLine(text) <= kPageWidth) return text;
  const std::string turned = title + "\n" + ToTurnedText(table);
  if (WidestLine(turned) <= kPageWidth) return turned;
  text.clear();
  const std::vector<size_t> rows = Indices(table.rows.size());
  for (size_t next = 1; next < table.columns.size();) {
    std::vector<size_t> picked{0, next++};
    while (next < table.columns.size()) {
      picked.push_back(next);
      if (WidestLine(PrintColumns(table, picked, rows)) > kPageWidth) {
        picked.pop_back();
        break;
      }
      ++next;
    }
    text += (text.empty() ? title : "\n" + title + ", continued") + "\n" +
            PrintColumns(table, picked, rows);
  }
  return text;
}

std::string ToTurnedText(const DataTable& table) {
  std::vector<PrintedLine> lines;  // label, unit, one a row
  std::vector<std::vector<std::string*>> taped(table.rows.size());
  lines.reserve(table.columns.size());
  for (size_t i = 0; i < table.columns.size(); ++i) {
    const Column& column = table.columns[i];
    PrintedLine& line = lines.emplace_back(2 + table.rows.size());
    line[0] = Shown(column.head), line[1] = UnitName(column, table.units);
    for (size_t r = 0; r < table.rows.size(); ++r) {
      line[2 + r] = CellText(table.rows[r][i], column, table.units);
      if (IsTaped(column, table.units)) taped[r].push_back(&line[2 + r]);
    }
  }
  for (const std::vector<std::string*>& of_row : taped) AlignSixteenths(of_row);
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

}  // namespace linkwright
