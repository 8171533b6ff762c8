// SPDX-License-Identifier: MIT
#include "io/write/text_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "io/shown.h"

namespace linkwright {
namespace {

constexpr size_t kHeadWidth = 12;  // words of a head wrap beyond this
constexpr size_t kGap = 2;         // blanks between columns

// Columns as a reader counts them: UTF-8 continuation bytes take no place.
size_t Width(const std::string& text) {
  return static_cast<size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string PadLeft(const std::string& text, size_t width) {
  const size_t own = Width(text);
  return own >= width ? text : std::string(width - own, ' ') + text;
}

std::string PadRight(const std::string& text, size_t width) {
  const size_t own = Width(text);
  return own >= width ? text : text + std::string(width - own, ' ');
}

// A number with the decimals its unit asks for, never "-0.0".
std::string Rounded(double value, int decimals) {
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  return text.find_first_of("123456789") == std::string::npos && text.front() == '-'
             ? text.substr(1)
             : text;
}

// Lengths in inches show the nearest 1/16 beside the decimal.
bool IsTaped(const Column& column, UnitSystem units) {
  return column.dimension == Dimension::kLength && units == UnitSystem::kInch;
}

std::string CellText(const Cell& cell, Dimension dimension, UnitSystem units) {
  if (const auto* text = std::get_if<std::string>(&cell)) return Shown(*text);
  const std::optional<double> number = NumberIn(cell, dimension, units);
  if (!number) return "-";
  const std::string decimal = Rounded(*number, UnitOf(dimension, units).decimals);
  if (dimension != Dimension::kLength || units != UnitSystem::kInch) return decimal;
  return fmt::format("{} ({})", decimal, FormatSixteenths(std::get<double>(cell)));
}

// Pads the sixteenths of one column's cells to one width, so that the decimals before them align.
void AlignSixteenths(std::vector<std::string>& texts) {
  size_t width = 0;
  for (const std::string& text : texts) {
    const size_t at = text.find(" (");
    if (at != std::string::npos && text.back() == ')') width = std::max(width, text.size() - at);
  }
  for (std::string& text : texts) {
    const size_t at = text.find(" (");
    if (at == std::string::npos || text.back() != ')') continue;
    text.insert(at, std::string(width - (text.size() - at), ' '));
  }
}

std::vector<std::string> WrapHead(const Column& column, UnitSystem units) {
  std::vector<std::string> lines{""};
  std::string word;
  const auto flush = [&] {
    if (word.empty()) return;
    std::string& line = lines.back();
    if (!line.empty() && line.size() + 1 + word.size() > kHeadWidth) {
      lines.push_back(word);
    } else {
      if (!line.empty()) line += ' ';
      line += word;
    }
    word.clear();
  };
  for (const char c : Shown(column.head)) {
    if (c == ' ') {
      flush();
    } else {
      word += c;
    }
  }
  flush();
  lines.emplace_back(UnitOf(column.dimension, units).name);
  return lines;
}

// One printed table of some columns of `table`.
std::string PrintColumns(const DataTable& table, const std::vector<size_t>& picked) {
  std::vector<std::vector<std::string>> heads;
  std::vector<std::vector<std::string>> cells;
  std::vector<size_t> widths;
  size_t head_lines = 0;
  for (const size_t i : picked) {
    const Column& column = table.columns[i];
    heads.push_back(WrapHead(column, table.units));
    head_lines = std::max(head_lines, heads.back().size());
    std::vector<std::string> texts;
    for (const auto& row : table.rows) {
      texts.push_back(CellText(row[i], column.dimension, table.units));
    }
    if (IsTaped(column, table.units)) AlignSixteenths(texts);
    size_t width = 0;
    for (const std::string& line : heads.back()) width = std::max(width, Width(line));
    for (const std::string& text : texts) width = std::max(width, Width(text));
    widths.push_back(width);
    cells.push_back(std::move(texts));
  }
  std::string out;
  const auto line = [&](const auto& text_of) {
    std::string made;
    for (size_t c = 0; c < picked.size(); ++c) {
      made += std::string(kGap, ' ') + PadLeft(text_of(c), widths[c]);
    }
    out += made.substr(0, made.find_last_not_of(' ') + 1) + "\n";
  };
  for (size_t l = 0; l < head_lines; ++l) {
    line([&](size_t c) {
      const size_t missing = head_lines - heads[c].size();
      return l < missing ? std::string() : heads[c][l - missing];
    });
  }
  for (size_t r = 0; r < table.rows.size(); ++r) {
    line([&](size_t c) { return cells[c][r]; });
  }
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
    out += group + "\n" + PrintColumns(table, picked);
  }
  return out;
}

std::string ToTitledText(const std::string& title, const DataTable& table) {
  std::vector<size_t> all(table.columns.size());
  std::iota(all.begin(), all.end(), size_t{0});
  return title + "\n" + PrintColumns(table, all);
}

std::string ToFittingText(const std::string& title, const DataTable& table) {
  std::string text = ToTitledText(title, table);
  if (WidestLine(text) <= kPageWidth) return text;
  const std::string turned = title + "\n" + ToTurnedText(table);
  if (WidestLine(turned) <= kPageWidth) return turned;
  text.clear();
  for (size_t next = 1; next < table.columns.size();) {
    std::vector<size_t> picked{0, next++};
    while (next < table.columns.size()) {
      picked.push_back(next);
      if (WidestLine(PrintColumns(table, picked)) > kPageWidth) {
        picked.pop_back();
        break;
      }
      ++next;
    }
    text +=
        (text.empty() ? title : "\n" + title + ", continued") + "\n" + PrintColumns(table, picked);
  }
  return text;
}

std::string ToTurnedText(const DataTable& table) {
  std::vector<std::vector<std::string>> lines;  // label, unit, one a row
  for (size_t i = 0; i < table.columns.size(); ++i) {
    const Column& column = table.columns[i];
    std::vector<std::string> cells{Shown(column.head), UnitName(column, table.units)};
    for (const auto& row : table.rows) {
      cells.push_back(CellText(row[i], column.dimension, table.units));
    }
    lines.push_back(std::move(cells));
  }
  for (size_t r = 0; r < table.rows.size(); ++r) {
    std::vector<std::string> taped;
    for (size_t i = 0; i < lines.size(); ++i) {
      if (IsTaped(table.columns[i], table.units)) taped.push_back(lines[i][2 + r]);
    }
    AlignSixteenths(taped);
    for (size_t i = 0, t = 0; i < lines.size(); ++i) {
      if (IsTaped(table.columns[i], table.units)) lines[i][2 + r] = taped[t++];
    }
  }
  std::vector<size_t> widths(2 + table.rows.size(), 0);
  for (const auto& cells : lines) {
    for (size_t c = 0; c < cells.size(); ++c) widths[c] = std::max(widths[c], Width(cells[c]));
  }
  std::string out, group;
  for (size_t i = 0; i < lines.size(); ++i) {
    if (table.columns[i].group != group) {
      group = table.columns[i].group;
      if (!out.empty()) out += '\n';
      out += group + "\n";
    }
    std::string made =
        "  " + PadRight(lines[i][0], widths[0]) + "  " + PadRight(lines[i][1], widths[1]);
    for (size_t c = 2; c < lines[i].size(); ++c) {
      made += std::string(kGap, ' ') + PadLeft(lines[i][c], widths[c]);
    }
    out += made.substr(0, made.find_last_not_of(' ') + 1) + "\n";
  }
  return out;
}

}  // namespace linkwright
