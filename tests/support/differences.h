// SPDX-License-Identifier: MIT
// Sixth-order central differences: what exact derivatives are held against. With f known to
// rounding (1e-16 of metres) and h of some millimetres the first derivative is good to about 1e-12
// and the second to about 1e-9 of the function's own scale.
#pragma once

#include <array>

namespace linkwright::check {

// df/ds at s = 0 for f returning a double or a fixed-size Eigen object.
template <typename F>
auto FirstDifference(const F& f, double h) {
  const auto one = (f(h) - f(-h)).eval(), two = (f(2.0 * h) - f(-2.0 * h)).eval(),
             three = (f(3.0 * h) - f(-3.0 * h)).eval();
  return ((45.0 * one - 9.0 * two + three) / (60.0 * h)).eval();
}

// d2f/ds2 at s = 0.
template <typename F>
auto SecondDifference(const F& f, double h) {
  const auto one = (f(h) + f(-h)).eval(), two = (f(2.0 * h) + f(-2.0 * h)).eval(),
             three = (f(3.0 * h) + f(-3.0 * h)).eval();
  return ((270.0 * one - 27.0 * two + 2.0 * three - 490.0 * f(0.0)) / (180.0 * h * h)).eval();
}

}  // namespace linkwright::check
