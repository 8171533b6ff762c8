// SPDX-License-Identifier: MIT
// Helical coils against printed spring sheets.
#include <gtest/gtest.h>

#include "solver/model/force_law.h"

namespace linkwright {
namespace {

constexpr double kMm = 1e-3;                          // [m]
constexpr double kInch = 0.0254;                      // [m] exact
constexpr double kPoundPerInch = 175.12683524647636;  // [N/m] NIST SP 811 B.8
constexpr double kPsi = 6894.757293168361;            // [Pa] NIST SP 811 B.8

double NewtonPerMm(double wire_mm, double mean_mm, double active, double shear_mpa) {
  return HelicalRate({wire_mm * kMm, mean_mm * kMm, active, shear_mpa * 1e6}) * kMm;
}

// A maker's sheet to EN 13906-1: d 5, De 39.60, n 9.5, G 81500, L0 105.8; R 16.181 N/mm, lengths at
// 280 and 620 N 88.5 and 67.5 mm (dsoftcon.be, HeliSpring verification sheet).
TEST(HelicalCoil, SheetToEn13906) {
  const double rate = NewtonPerMm(5.0, 34.60, 9.5, 81500.0);
  EXPECT_NEAR(rate, 16.181, 1e-3);  // printed to three decimals from a diameter printed to two
  EXPECT_NEAR(rate, 16.18064, 5e-6);
  const ForceLaw law{.free_length = 105.8 * kMm, .rate = rate / kMm, .curve = {}};
  EXPECT_NEAR(Evaluate(law, 88.4954 * kMm).force, 280.0, 2e-3);  // length to 0.05 um
  EXPECT_NEAR(Evaluate(law, 67.4826 * kMm).force, 620.0, 2e-3);
}

// Bhandari, Design of Machine Elements, example 10.1: d 7, D 42, N 8, G 81370: 41.2030 N/mm, so
// that 1250 N deflect it 30.33761 mm.
TEST(HelicalCoil, BhandariExample10_1) {
  const double rate = NewtonPerMm(7.0, 42.0, 8.0, 81370.0);
  EXPECT_NEAR(rate, 41.2030, 5e-5);
  EXPECT_NEAR(1250.0 / rate, 30.33761, 5e-6);
}

// Wentzell, Machine Design, examples 8.2 and 8.3, pp. 163 to 165: 0.105 in wire, 0.620 in
// mean, 10.79 active coils, G 11.85e6 psi: 70.00 lb/in.
TEST(HelicalCoil, WentzellExample8_2) {
  const double rate =
      HelicalRate({0.105 * kInch, 0.620 * kInch, 10.79226, 11.85e6 * kPsi}) / kPoundPerInch;
  EXPECT_NEAR(rate, 70.00, 5e-3);
  EXPECT_NEAR(rate, 70.000, 1e-3);
}

// Automotive size, derived: 0.62 in wire, 5 in mean, 7 coils, 11.2e6 psi: 236.4214 lb/in, 41.40373
// N/mm.
TEST(HelicalCoil, AutomotiveSize) {
  const double rate = HelicalRate({0.62 * kInch, 5.0 * kInch, 7.0, 11.2e6 * kPsi});
  EXPECT_NEAR(rate / kPoundPerInch, 236.4214, 5e-5);
  EXPECT_NEAR(rate * kMm, 41.40373, 5e-6);
}

}  // namespace
}  // namespace linkwright
