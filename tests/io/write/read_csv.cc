// SPDX-License-Identifier: MIT
#include "tests/io/write/read_csv.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace linkwright::check {
namespace {

// Reads fields off a text, one after the other.
struct CsvText {
  const std::string& text;
  size_t at = 0;

  [[nodiscard]] bool AtEnd() const { return at == text.size(); }
  [[nodiscard]] bool Sees(char c) const { return !AtEnd() && text[at] == c; }

  std::string PlainField() {
    const size_t end = std::min(text.find_first_of(",\r\n\"", at), text.size());
    std::string field = text.substr(at, end - at);
    at = end;
    return field;
  }

  std::string QuotedField() {
    std::string field;
    ++at;
    for (;;) {
      const size_t quote = text.find('"', at);
      if (quote == std::string::npos) throw std::runtime_error("CSV: a quote is never closed");
      field += text.substr(at, quote - at);
      at = quote + 1;
      if (!Sees('"')) return field;
      field += '"';
      ++at;
    }
  }

  // The field, and whether the record goes on after it.
  bool ReadField(CsvRecord& record) {
    record.push_back(Sees('"') ? QuotedField() : PlainField());
    if (Sees(',')) {
      ++at;
      return true;
    }
    if (text.compare(at, 2, "\r\n") != 0) {
      throw std::runtime_error("CSV: neither a comma nor CR LF after '" + record.back() + "'");
    }
    at += 2;
    return false;
  }
};

}  // namespace

std::vector<CsvRecord> ReadCsv(const std::string& text) {
  std::vector<CsvRecord> records;
  CsvText reader{text};
  while (!reader.AtEnd()) {
    CsvRecord record;
    while (reader.ReadField(record)) {
    }
    if (!records.empty() && record.size() != records.front().size()) {
      throw std::runtime_error("CSV: records of unequal length");
    }
    records.push_back(std::move(record));
  }
  if (records.empty()) throw std::runtime_error("CSV: no header");
  return records;
}

bool Sheet::Has(const std::string& column) const {
  return std::find(header.begin(), header.end(), column) != header.end();
}

size_t Sheet::Find(const std::string& column) const {
  const auto found = std::find(header.begin(), header.end(), column);
  if (found != header.end()) return static_cast<size_t>(found - header.begin());
  ADD_FAILURE() << "no column '" << column << "'";
  return 0;
}

double Sheet::Number(size_t row, const std::string& column) const {
  return ToNumber(rows.at(row).at(Find(column)));
}

std::vector<double> Sheet::Numbers(const std::string& column) const {
  std::vector<double> numbers;
  for (size_t row = 0; row < rows.size(); ++row) numbers.push_back(Number(row, column));
  return numbers;
}

Sheet ReadSheet(const std::string& text) {
  std::vector<CsvRecord> records = ReadCsv(text);
  Sheet sheet{.header = records.front(), .rows = {}};
  sheet.rows.assign(records.begin() + 1, records.end());
  return sheet;
}

double ToNumber(const std::string& text) {
  double value = 0.0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc() || stop != end) {
    throw std::runtime_error("not a number: '" + text + "'");
  }
  return value;
}

}  // namespace linkwright::check
