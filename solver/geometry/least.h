// SPDX-License-Identifier: MIT
// The least value of a function on an interval.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

namespace linkwright {

struct LeastPoint {
  double at, value;
};

// Samples the interval and closes in on each sampled low point by golden section.
//   samples   enough that no dip hides between two of them (3 or more)
//   precision   of `at`, as a share of the interval; at 1e-9 a smooth least value is good to
//               rounding
template <typename F>
LeastPoint LeastOnInterval(const F& f, double low, double high, int samples,
                           double precision = 1e-9) {
  const double spacing = (high - low) / (samples - 1);
  std::vector<double> value(static_cast<size_t>(samples));
  for (int i = 0; i < samples; ++i) value[static_cast<size_t>(i)] = f(low + i * spacing);
  LeastPoint least{low, value.front()};
  const auto keep = [&](double at, double v) {
    if (v < least.value) least = {at, v};
  };
  const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
  for (int i = 0; i < samples; ++i) {
    const auto here = static_cast<size_t>(i);
    keep(low + i * spacing, value[here]);
    if (i > 0 && value[here - 1] < value[here]) continue;
    if (i < samples - 1 && value[here + 1] < value[here]) continue;
    double a = low + std::max(i - 1, 0) * spacing, b = low + std::min(i + 1, samples - 1) * spacing;
    double c = b - golden * (b - a), d = a + golden * (b - a);
    double fc = f(c), fd = f(d);
    while (b - a > precision * (high - low)) {
      if (fc <= fd) {
        b = d, d = c, fd = fc, c = b - golden * (b - a), fc = f(c);
      } else {
        a = c, c = d, fc = fd, d = a + golden * (b - a), fd = f(d);
      }
    }
    keep(c, fc), keep(d, fd);
  }
  return least;
}

}  // namespace linkwright
