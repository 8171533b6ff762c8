// SPDX-License-Identifier: MIT
// Leaf springs as circular arcs, against tables worked out apart and a book's example.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "solver/geometry/leaf.h"

namespace linkwright {
namespace {

// Equal halves, eyes in line, nothing clamped: one arc.
LeafSpring Arc(double length) {
  LeafSpring spring;
  spring.arc_fixed = length / 2.0;
  spring.arc_shackled = length / 2.0;
  return spring;
}

// Derived, chord = 2R sin(s/2R), h = R(1 - cos(s/2R)): a leaf 52 in long, shortening by camber.
// Lengths are in inches throughout; the functions take any unit of length.
TEST(LeafArc, ShorteningByCamber) {
  constexpr std::array<std::array<double, 2>, 7> kTable{
      {{8, 3.4417}, {6, 1.8945}, {5, 1.3050}, {4, 0.8298}, {3, 0.4644}, {2, 0.2057}, {1, 0.0513}}};
  constexpr double kTableTol = 1e-4;  // [in] printed to four decimals
  const LeafSpring spring = Arc(52.0);
  for (const auto& [camber, shortening] : kTable) {
    const LeafShape shape = BendLeaf(spring, CurvatureFor(spring, camber).value());
    EXPECT_NEAR(52.0 - (shape.p_BF - shape.p_BE).norm(), shortening, kTableTol) << camber;
  }
}

// The same for small camber, 8 h^2/3 s: the next term is of order h^4/s^3.
TEST(LeafArc, SmallCamberIsTheHandbooksParabola) {
  const LeafSpring spring = Arc(52.0);
  for (const double camber : {0.25, 0.5, 1.0, 2.0}) {
    const LeafShape shape = BendLeaf(spring, CurvatureFor(spring, camber).value());
    const double parabola = 8.0 * camber * camber / (3.0 * 52.0);
    EXPECT_NEAR(52.0 - (shape.p_BF - shape.p_BE).norm(), parabola,
                10.0 * std::pow(camber, 4) / std::pow(52.0, 3));
  }
}

// B. K. Sarkar, Strength of Materials, chapter 8, leaf spring example, seen as recomputed by
// others: R = L^2/8y, L 750 mm, y 20 mm: 3.5156 m. With L along the arc the exact R is less by y/6
// (series in y/L).
TEST(LeafArc, RadiusOfTheBookExample) {
  const LeafSpring spring = Arc(0.750);
  const double radius = 1.0 / CurvatureFor(spring, 0.020).value();
  EXPECT_NEAR(radius + 0.020 / 6.0, 3.5156, 1e-4);  // [m] printed to four decimals
}

// Derived: a half leaf of 26 in whose end rises 1, 2, 4, 6 in comes in as the table says, and so
// does the end of a link of 3/4 its length.
TEST(LeafArc, ThreeQuarterLink) {
  constexpr std::array<std::array<double, 3>, 4> kTable{
      {{1, 0.02566, 0.02566}, {2, 0.10285, 0.10284}, {4, 0.41489, 0.41467}, {6, 0.94725, 0.94602}}};
  constexpr double kTableTol = 6e-6;  // [in] half a unit of the fifth decimal, and rounding
  const LeafSpring spring = Arc(52.0);
  for (const auto& [rise, by_arc, by_link] : kTable) {
    const double curvature =
        CurvatureFor(spring, rise).value();  // equal halves: camber is the rise
    EXPECT_NEAR(26.0 - BendLeaf(spring, curvature).p_BF.x(), by_arc, kTableTol) << rise;
    EXPECT_NEAR(LinkRule(spring, 0.0, curvature).value(), by_link, kTableTol) << rise;
  }
}

}  // namespace
}  // namespace linkwright
