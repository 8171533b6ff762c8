// SPDX-License-Identifier: MIT
// Reads CSV back for the tests, strictly after RFC 4180: what a careful spreadsheet would see.
#pragma once

#include <string>
#include <vector>

namespace linkwright::check {

using CsvRecord = std::vector<std::string>;

// The records of a text, the header first, quotes taken off.
//   errors   std::runtime_error where the text is not RFC 4180: a line end that is not CR LF, a
//   quote
//            inside an unquoted field, text after a closing quote, records of unequal length
[[nodiscard]] std::vector<CsvRecord> ReadCsv(const std::string& text);

// A table with its columns found by name.
struct Sheet {
  CsvRecord header;
  std::vector<CsvRecord> rows;

  // The column's place; fails the test and returns 0 where there is none.
  [[nodiscard]] size_t Find(const std::string& column) const;
  [[nodiscard]] bool Has(const std::string& column) const;

  // The number in a field. errors: std::runtime_error where the field is not a number, whole.
  [[nodiscard]] double Number(size_t row, const std::string& column) const;

  // A whole column of numbers.
  [[nodiscard]] std::vector<double> Numbers(const std::string& column) const;
};

[[nodiscard]] Sheet ReadSheet(const std::string& text);

// A number written with '.' decimals, whatever the locale. errors: std::runtime_error
[[nodiscard]] double ToNumber(const std::string& text);

}  // namespace linkwright::check
