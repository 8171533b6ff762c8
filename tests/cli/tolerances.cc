// SPDX-License-Identifier: MIT
#include "tests/cli/tolerances.h"

#include <stdexcept>
#include <vector>

namespace linkwright::check {
namespace {

struct UnitTolerance {
  std::string suffix;
  Tolerance tolerance;
};

// The other side differentiates by central differences of solved poses: its noise is about 1e-8 of
// a derivative; values without one agree to the twelve digits written. Each tolerance is a
// hundredth of what tells the definitions apart (0.02 mm, 0.005 deg, 0.5 N, 0.5 %, 0.1 %-point,
// 0.002 Hz, 0.0005 deg/deg). Beside it stands the worst difference measured.
// Longer suffixes before those they end in.
const std::vector<UnitTolerance> kTolerances{
    {"_deg_per_deg", {5e-6, 0.0}},     // 1e-12
    {"_deg_per_g", {5e-5, 0.0}},       // 1e-10
    {"_n_m_per_deg", {0.0, 5e-5}},     // 4e-11: second differences of energy
    {"_lbf_ft_per_deg", {0.0, 5e-5}},  // the same stiffness
    {"_n_per_mm", {0.0, 5e-5}},        // 1e-7: second differences near a bend of a stop's curve
    {"_lbf_per_in", {0.0, 5e-5}},      // 2e-6, likewise
    {"_mm", {2e-4, 0.0}},              // 1e-9
    {"_in", {2e-4 / 25.4, 0.0}},       // the same length
    {"_deg", {5e-5, 0.0}},             // 4e-6: which axis of a crooked axle points forward
    {"_pct", {1e-3, 0.0}},             // 1e-9
    {"_hz", {2e-5, 0.0}},              // 8e-7: from the noise of its rate
    {"_n", {5e-3, 0.0}},               // 1e-8
    {"_lbf", {5e-3 / 4.4482216152605, 0.0}},  // the same force
    {"_kg", {1e-8, 0.0}},                     // 0: sums of given masses, twelve digits
    {"_lb", {1e-8, 0.0}},                     // the same mass
};

// A hundredth of what is asked. The instant centre is a quotient of two differenced rates over
// there: 1e-7 of itself at the worst.
constexpr double kInstantCenterRelative = 2e-6;
constexpr double kInstantCenterMillimetres = 0.002;

// Under load an arm gives once more on its bushings. Both sides take that give as small, but only
// one of them has the arm turned on its bushings when it does: 2.5e-5 apart at 12 kN.
constexpr double kLoadedEyeRelative = 5e-5;

}  // namespace

Tolerance ToleranceOf(const std::string& column) {
  if (column.find("instant_center") != std::string::npos) {
    const double unit = column.ends_with("_in") ? 25.4 : 1.0;
    return {kInstantCenterMillimetres / unit, kInstantCenterRelative};
  }
  const bool eye = column.starts_with("link_force ") && column.find(" eye_") != std::string::npos;
  for (const UnitTolerance& each : kTolerances) {
    if (!column.ends_with(each.suffix)) continue;
    return {each.tolerance.absolute, eye ? kLoadedEyeRelative : each.tolerance.relative};
  }
  throw std::runtime_error("no tolerance for " + column);
}

}  // namespace linkwright::check
