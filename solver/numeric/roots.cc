// SPDX-License-Identifier: MIT
#include "solver/numeric/roots.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

struct Sample {
  double x, f;
};

// Where between a (the newest) and b the next place goes, as a share of the way from a; c is the
// place that went before.
double NextShare(const Sample& a, const Sample& b, const Sample& c) {
  const double xi = (a.x - b.x) / (c.x - b.x);
  const double phi = (a.f - b.f) / (c.f - b.f);
  if (!(phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi)) return 0.5;
  return a.f / (b.f - a.f) * c.f / (b.f - c.f) +
         (c.x - a.x) / (b.x - a.x) * a.f / (c.f - a.f) * b.f / (c.f - b.f);
}

}  // namespace

SignChange CloseIn(const MaybeFunction& f, const SignChange& wide, double met) {
  constexpr int kMost = 200;  // halving alone needs 52 from any interval of doubles to its rounding
  Sample a{wide.below, wide.f_below}, b{wide.above, wide.f_above}, c = a;
  double share = 0.5;
  for (int i = 0; i < kMost && std::abs(b.x - a.x) > met && a.f != 0.0; ++i) {
    double x = a.x + share * (b.x - a.x);
    const double above = a.f > 0.0 ? a.x : b.x;
    std::optional<double> value = f(x);
    while (!value && std::abs(x - above) > met) {
      x = 0.5 * (x + above);
      value = f(x);
    }
    if (!value) break;
    const bool same_side = (*value > 0.0) == (a.f > 0.0);
    c = same_side ? a : b;
    if (!same_side) b = a;
    a = {x, *value};
    const double least = std::min(0.5, 0.5 * met / std::abs(b.x - a.x));
    share = std::clamp(c.x == b.x ? 0.5 : NextShare(a, b, c), least, 1.0 - least);
  }
  if (a.f == 0.0) b = a;
  const Sample& above = a.f > 0.0 ? a : b;
  const Sample& below = a.f > 0.0 ? b : a;
  return {above.x, above.f, below.x, below.f};
}

double LastThatHolds(double in, double out, double met, const std::function<bool(double)>& holds) {
  while (std::abs(out - in) > met) {
    const double middle = 0.5 * (in + out);
    if (middle == in || middle == out) break;  // as fine as numbers are
    (holds(middle) ? in : out) = middle;
  }
  return in;
}

std::optional<double> SecantRoot(const MaybeFunction& f, const SecantSearch& search) {
  constexpr int kMost = 30;
  constexpr double kStill = 1e-12;  // a step no longer than rounding: as near as it gets
  double before = search.first, here = search.second;
  std::optional<double> f_before = f(before), f_here = f(here);
  for (int i = 0; i < kMost && f_before && f_here; ++i) {
    if (std::abs(*f_here) <= search.met) return here;
    const double slope = (*f_here - *f_before) / (here - before);
    const double step = std::clamp(-*f_here / slope, -search.longest, search.longest);
    if (!std::isfinite(step) || std::abs(step) < kStill) return std::nullopt;
    const double next = std::clamp(here + step, -search.most, search.most);
    if (next == here) return std::nullopt;
    before = here, f_before = f_here;
    here = next, f_here = f(next);
  }
  return std::nullopt;
}

std::optional<Eigen::VectorXd> BroydenRoot(const MaybeVectorFunction& f, Eigen::VectorXd x,
                                           double met) {
  constexpr int kMost = 40;
  const Eigen::Index n = x.size();
  Eigen::MatrixXd inverse = -Eigen::MatrixXd::Identity(n, n);
  Eigen::VectorXd step, before;
  for (int i = 0; i < kMost; ++i) {
    const std::optional<Eigen::VectorXd> off = f(x);
    if (!off) return std::nullopt;
    if (off->norm() < met) return x;
    if (i > 0) {
      const Eigen::VectorXd moved = inverse * (*off - before);
      const double along = step.dot(moved);
      if (std::abs(along) > 0.0) inverse += (step - moved) * (step.transpose() * inverse) / along;
    }
    before = *off;
    step = -inverse * *off;
    x += step;
  }
  return std::nullopt;
}

}  // namespace linkwright
