// SPDX-License-Identifier: MIT
#include "solver/model/masses.h"

#include <gtest/gtest.h>

#include "solver/model/error.h"
#include "tests/support/matchers.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

using check::Near;

constexpr double kMassTol = 1e-9;     // [kg] rounding of 1e3 kg, times 1e4
constexpr double kCentreTol = 1e-12;  // [m] rounding of metres, times 1e4

TEST(Masses, WithNeitherLedgerNorSprungTheFileIsGeometryOnly) {
  Vehicle vehicle = sample::LevelTruck();
  EXPECT_FALSE(IsGeometryOnly(vehicle));
  vehicle.sprung.reset();
  EXPECT_TRUE(IsGeometryOnly(vehicle));
  EXPECT_FALSE(IsGeometryOnly(sample::HarbourVan()));
  EXPECT_THROW((void)FinishedSprungMass(vehicle), ModelError);
}

// Balance about both axles' lines and the centre plane, by hand.
TEST(Masses, WeighedCentreBalancesTheScales) {
  const Vehicle van = sample::HarbourVan();
  const Mass total = WeighedTotal(van, *van.ledger);
  EXPECT_NEAR(total.mass, 446.0 + 439.0 + 352.0 + 345.0, kMassTol);
  EXPECT_NEAR(total.mass * total.p_CM.x(), -2.540 * (352.0 + 345.0), kMassTol);
  EXPECT_NEAR(total.mass * total.p_CM.y(), 0.745 * (446.0 - 439.0 + 352.0 - 345.0), kMassTol);
  EXPECT_NEAR(total.p_CM.z(), 0.655, kCentreTol);
}

TEST(Masses, CentreHeightOfTheLedgerCountsFromTheFloor) {
  Vehicle van = sample::HarbourVan();
  van.floor_z = -0.12;
  EXPECT_NEAR(WeighedTotal(van, *van.ledger).p_CM.z(), 0.655 - 0.12, kCentreTol);
}

// Forward: put a known body on known scales; back: the ledger must find that body again.
TEST(Masses, LedgerFindsTheBodyThatWasPutOnTheScales) {
  Vehicle vehicle = sample::LevelTruck();
  const SprungMass body{870.0, {-1.1, 0.03, 0.8}, std::nullopt};
  const Mass removed{"old", 300.0, {-1.5, 0.1, 1.0}}, added{"new", 410.0, {-1.2, -0.2, 1.1}};
  const double weighed_sprung = body.mass + removed.mass - added.mass;
  const Eigen::Vector3d moment =
      body.mass * body.p_CM + removed.mass * removed.p_CM - added.mass * added.p_CM;
  double total = weighed_sprung;
  Eigen::Vector3d sum = moment;
  for (const Axle& axle : vehicle.axles) {
    total += axle.unsprung->mass;
    sum += axle.unsprung->mass * axle.unsprung->p_CM;
  }
  // Scales: share by x between the axles, by y on the front axle alone (any split with that
  // moment).
  const double rear = sum.x() / vehicle.axles[1].p_CW_l.x();
  const double front = total - rear;
  const double offset = 0.5 * sum.y() / vehicle.axles[0].p_CW_l.y();
  vehicle.sprung.reset();
  vehicle.ledger =
      Ledger{.weighed = {0.5 * front + offset, 0.5 * front - offset, 0.5 * rear, 0.5 * rear},
             .cg_height = sum.z() / total,
             .removed = {removed},
             .added = {added},
             .pitch_inertia = std::nullopt};
  const SprungMass found = FinishedSprungMass(vehicle);
  EXPECT_NEAR(found.mass, body.mass, kMassTol);
  EXPECT_TRUE(Near(found.p_CM, body.p_CM, kCentreTol));
}

TEST(Masses, MoreTakenOffThanWeighedIsAnError) {
  Vehicle van = sample::HarbourVan();
  van.ledger->removed.push_back({"everything", 5000.0, {0.0, 0.0, 0.0}});
  try {
    (void)FinishedSprungMass(van);
    FAIL() << "no error";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part, std::vector<std::string>{"ledger"});
    EXPECT_STREQ(error.what(),
                 "more mass is taken off than was weighed: weighed less removed plus added less "
                 "both unsprung must be above zero");
  }
}

TEST(Masses, SprungAsGivenIsTakenAsGiven) {
  Vehicle van = sample::HarbourVan();
  van.sprung = SprungMass{900.0, {-1.0, 0.0, 0.8}, 1200.0};
  EXPECT_EQ(FinishedSprungMass(van).mass, 900.0);
}

// Two lumps about their common centre: I + mu d^2, mu = m1 m2 / (m1 + m2), d their distance in side
// view; what lies sideways of it does not count.
TEST(Masses, LoadAddsItsReducedMassTimesDistanceSquared) {
  const SprungMass body{1000.0, {-1.0, 0.0, 0.8}, 1500.0};
  const Load load{"crate", {{"crate", 250.0, {-2.2, 0.6, 1.3}}}};
  const SprungMass loaded = WithLoad(body, load);
  EXPECT_NEAR(loaded.mass, 1250.0, kMassTol);
  EXPECT_TRUE(Near(loaded.p_CM, Eigen::Vector3d(-1.24, 0.12, 0.9), kCentreTol));
  const double distance_squared = 1.2 * 1.2 + 0.5 * 0.5;
  EXPECT_TRUE(check::Holds(loaded.pitch_inertia, 1500.0 + 200.0 * distance_squared, kMassTol));
}

TEST(Masses, LoadWithoutPitchInertiaLeavesItUnknown) {
  const SprungMass body{1000.0, {-1.0, 0.0, 0.8}, std::nullopt};
  EXPECT_FALSE(WithLoad(body, {"crate", {{"crate", 1.0, {0.0, 0.0, 0.0}}}}).pitch_inertia);
}

TEST(Masses, ItemsMayComeInAnyOrder) {
  const SprungMass body{1000.0, {-1.0, 0.0, 0.8}, 1500.0};
  const Mass a{"a", 80.0, {-1.2, 0.4, 0.9}}, b{"b", 340.0, {-2.1, 0.0, 0.8}};
  const SprungMass one = WithLoad(body, {"", {a, b}}), other = WithLoad(body, {"", {b, a}});
  EXPECT_TRUE(Near(one.p_CM, other.p_CM, kCentreTol));
  EXPECT_NEAR(*one.pitch_inertia, *other.pitch_inertia, kMassTol);
}

}  // namespace
}  // namespace linkwright
