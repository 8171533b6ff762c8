// SPDX-License-Identifier: MIT
// A locale with decimal commas and grouped thousands, made here so that no test depends on which
// locales a machine has.
#pragma once

#include <locale>

namespace linkwright::check {

struct CommaNumbers : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

// The program's locale in a scope.
class CommaLocale {
 public:
  CommaLocale() : before_(std::locale::global(std::locale(std::locale(), new CommaNumbers))) {}
  ~CommaLocale() { std::locale::global(before_); }
  CommaLocale(const CommaLocale&) = delete;
  CommaLocale& operator=(const CommaLocale&) = delete;

 private:
  std::locale before_;
};

}  // namespace linkwright::check
