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

// Closes in by golden section on the one low point between two places.
//   precision   of `at` [of what it is]; finer than numbers are there, it is as fine as they are
template <typename F>
LeastPoint LeastBetween(const F& f, double a, double b, double precision) {
  const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
  double c = b - golden * (b - a), d = a + golden * (b - a);
  double fc = f(c), fd = f(d);
  while (b - a > precision && a < c && c < d && d < b) {
    if (fc <= fd) {
      b = d, d = c, fd = fc, c = b - golden * (b - a), fc = f(c);
    } else {
      a = c, c = d, fc = fd, d = a + golden * (b - a), fd = f(d);
    }
  }
  return fc <= fd ? LeastPoint{c, fc} : LeastPoint{d, fd};
}

// Every low point inside an interval, ascending: its ends are none.
//   samples, precision   as below
template <typename F>
std::vector<LeastPoint> LowPoints(const F& f, double low, double high, int samples,
                                  double precision = 1e-9) {
  const double spacing = (high - low) / (samples - 1);
  std::vector<LeastPoint> found;
  double before = f(low), here = f(low + spacing);
  for (int i = 1; i < samples - 1; ++i) {
    const double next = f(low + (i + 1) * spacing);
    if (before > here && here <= next) {
      found.push_back(LeastBetween(f, low + (i - 1) * spacing, low + (i + 1) * spacing,
                                   precision * (high - low)));
    }
    before = here, here = next;
  }
  return found;
}

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
  for (int i = 0; i < samples; ++i) {
    const auto here = static_cast<size_t>(i);
    keep(low + i * spacing, value[here]);
    if (i > 0 && value[here - 1] < value[here]) continue;
    if (i < samples - 1 && value[here + 1] < value[here]) continue;
    const LeastPoint dip =
        LeastBetween(f, low + std::max(i - 1, 0) * spacing,
                     low + std::min(i + 1, samples - 1) * spacing, precision * (high - low));
    keep(dip.at, dip.value);
  }
  return least;
}

}  // namespace linkwright
