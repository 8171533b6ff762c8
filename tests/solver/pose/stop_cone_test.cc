// SPDX-License-Identifier: MIT
// Cones and pads against a line and a plane cut by hand, against closed forms, and against
// ceres::Jet.
#include "solver/pose/stop_cone.h"

#include <ceres/jet.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "solver/numeric/dual.h"
#include "tests/support/cone_by_hand.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kTol = 1e-12;  // [m] lengths of 0.1 to 1 m, a few hundred roundings

// The reference vehicle's left rear stop, its cone on either body.
Stop StopWith(bool on_axle) {
  Stop stop = sample::HarbourVan().axles[kRear].bump_stops[0];
  stop.cone_on_axle = on_axle;
  return stop;
}

AxleFrame RearFrame() { return PrepareAxle(sample::HarbourVan().axles[kRear]); }

// A housing put anywhere: no links hold it.
Pose Loose(std::mt19937& random, const AxleFrame& frame) {
  std::uniform_real_distribution<double> some(-1.0, 1.0);
  Pose pose = frame.measured;
  pose.x += 0.05 * some(random), pose.y += 0.05 * some(random), pose.z += 0.1 * some(random);
  pose.steer += 0.1 * some(random), pose.pitch += 0.3 * some(random);
  pose.roll += 0.3 * some(random);
  return pose;
}

TEST(StopCone, CutsItsPadWhereALineCutsAPlane) {
  std::mt19937 random(11);
  const AxleFrame frame = RearFrame();
  for (const bool on_axle : {false, true}) {
    const Stop stop = StopWith(on_axle);
    const StopCone cone = PrepareCone(stop, frame);
    double slid = 0.0;
    for (int i = 0; i < 2000; ++i) {
      const Eigen::Isometry3d X_CA = Transform(Loose(random, frame));
      const ConePlace<double> place = PlaceOf(cone, X_CA);
      const check::ConeByHand hand = check::ConeAt(stop, X_CA * frame.X_CA.inverse());
      EXPECT_NEAR(place.length, hand.length, kTol);
      EXPECT_NEAR(place.lean, hand.cosine, kTol);
      EXPECT_NEAR(OffPadPoint(place), hand.beside, kTol);
      EXPECT_LE((ValueOf(place.contact) - hand.meets).norm(), kTol);
      EXPECT_LE((ValueOf(place.normal) / place.lean - hand.push).norm(), kTol);
      slid = std::max(slid, hand.beside);
    }
    EXPECT_GT(slid, 0.1) << "[m] the poses lie close by: the test proves little";
  }
}

// The same with no algebra at all: the point of the axis that has come just to the plane, by
// halves.
TEST(StopCone, IsAsLongAsTheAxisHasToGrowToReachThePad) {
  std::mt19937 random(12);
  const AxleFrame frame = RearFrame();
  for (const bool on_axle : {false, true}) {
    const Stop stop = StopWith(on_axle);
    const StopCone cone = PrepareCone(stop, frame);
    for (int i = 0; i < 200; ++i) {
      const Eigen::Isometry3d gone = Transform(Loose(random, frame)) * frame.X_CA.inverse();
      // The cone's tip as its body sees it, carried into the pad's body, where the pad is as it was
      // measured: which side of the plane is it on?
      const Eigen::Vector3d seat = on_axle ? stop.span.p_CQ : stop.span.p_CP;
      const Eigen::Vector3d pad = on_axle ? stop.span.p_CP : stop.span.p_CQ;
      const Eigen::Isometry3d to_pad = on_axle ? gone : gone.inverse();
      const auto short_of = [&](double length) {
        const Eigen::Vector3d tip = to_pad * (seat + length * (pad - seat).normalized());
        return (pad - tip).dot(pad - seat);
      };
      double low = -1.0, high = 1.0;
      ASSERT_GT(short_of(low), 0.0);
      ASSERT_LT(short_of(high), 0.0);
      for (int halving = 0; halving < 60; ++halving) {
        const double middle = 0.5 * (low + high);
        (short_of(middle) > 0.0 ? low : high) = middle;
      }
      EXPECT_NEAR(PlaceOf(cone, gone * frame.X_CA).length, low, kTol);
    }
  }
}

// An upright cone 100 mm over its pad. The housing goes aside: two points would say it has grown
// longer and lets go, hypot(100, 40) mm; the cone is as long as it was.
TEST(StopCone, NeitherSlidesPastItsPadNorGrowsForIt) {
  const Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.35);
  const AxleFrame frame = PrepareAxle(axle);
  for (const bool on_axle : {false, true}) {
    Stop stop{.name = {"stop"}, .span = {{0.0, 0.4, 0.5}, {0.0, 0.4, 0.4}}, .law = {}};
    stop.cone_on_axle = on_axle;
    const StopCone cone = PrepareCone(stop, frame);
    Eigen::Isometry3d X_CA = frame.X_CA;
    X_CA.translation() += Eigen::Vector3d(0.03, 0.04, 0.02);
    ConePlace<double> place = PlaceOf(cone, X_CA);
    EXPECT_NEAR(place.length, 0.08, kTol);
    EXPECT_NEAR(OffPadPoint(place), 0.05, kTol);
    // Rolled about the pad's point by f, and the pad on the housing: the plane turns under a line
    // that still goes through its point. With the cone on the housing the line turns instead about
    // the seat's own place, sin f aside and cos f along: l = (1 - (1 - cos f)) / cos f shorter.
    const double f = 0.3;
    const Eigen::Vector3d about = stop.span.p_CQ;
    const Eigen::Isometry3d roll = Eigen::Translation3d(about) *
                                   Eigen::AngleAxisd(f, Eigen::Vector3d::UnitX()) *
                                   Eigen::Translation3d(-about);
    place = PlaceOf(cone, roll * frame.X_CA);
    EXPECT_NEAR(place.lean, std::cos(f), kTol);
    if (on_axle) {  // the seat stays, the pad is level 100 mm above it, the axis leans by f
      EXPECT_NEAR(place.length, 0.1 / std::cos(f), kTol);
      EXPECT_NEAR(OffPadPoint(place), 0.1 * std::tan(f), kTol);
    } else {
      EXPECT_NEAR(place.length, 0.1, kTol);
      EXPECT_NEAR(OffPadPoint(place), 0.0, kTol);
    }
  }
}

TEST(StopCone, MissesBeyondTheRimAndWhereItPointsAway) {
  const Axle axle = sample::BareAxle("rear", 0.0, 0.75, 0.35);
  const AxleFrame frame = PrepareAxle(axle);
  Stop stop{.name = {"stop"}, .span = {{0.0, 0.4, 0.5}, {0.0, 0.4, 0.4}}, .law = {}};
  stop.pad_radius = 0.03;
  const auto meets = [&](double aside) {
    const StopCone cone = PrepareCone(stop, frame);
    Eigen::Isometry3d X_CA = frame.X_CA;
    X_CA.translation().y() += aside;
    return MeetsPad(cone, PlaceOf(cone, X_CA));
  };
  EXPECT_TRUE(meets(0.0299));
  EXPECT_FALSE(meets(0.0301));
  stop.pad_radius.reset();
  EXPECT_TRUE(meets(10.0));
  const StopCone cone = PrepareCone(stop, frame);
  for (const double lean : {1.5, 1.6, 3.0}) {  // [rad] past a right angle from 1.5708
    Eigen::Isometry3d X_CA = frame.X_CA;
    X_CA.linear() = Eigen::AngleAxisd(lean, Eigen::Vector3d::UnitX()) * X_CA.linear();
    EXPECT_EQ(MeetsPad(cone, PlaceOf(cone, X_CA)), lean < M_PI / 2) << lean;
  }
}

// First derivatives by all six coordinates of a free housing, with another library's numbers.
TEST(StopCone, DerivativesAreThoseOfJets) {
  using Jet = ceres::Jet<double, 6>;
  std::mt19937 random(13);
  const AxleFrame frame = RearFrame();
  for (const bool on_axle : {false, true}) {
    const Stop stop = StopWith(on_axle);
    const StopCone cone = PrepareCone(stop, frame);
    for (int i = 0; i < 50; ++i) {
      const Pose pose = Loose(random, frame);
      const std::array<double, 6> at{pose.x, pose.y, pose.steer, pose.pitch, pose.z, pose.roll};
      const auto q = Variables(at);
      const Dual<double, 6> ours =
          PlaceOf<Dual<double, 6>>(cone, {q[0], q[1], q[4]}, HousingRotation(q[2], q[5], q[3]))
              .length;
      std::array<Jet, 6> j;
      for (int k = 0; k < 6; ++k) j[static_cast<size_t>(k)] = Jet(at[static_cast<size_t>(k)], k);
      // The plane's equation, straight from the words: (p_pad - p_seat).n / (d.n).
      const Rotation<Jet> R = HousingRotation(j[2], j[5], j[3]);
      const Vector3<Jet> p_Q = Rotate(R, cone.p_AQ) + Vector3<Jet>{j[0], j[1], j[4]};
      const Vector3<Jet> turned = Rotate(R, cone.u_A), fixed = ConstantVector<Jet>(cone.u_C);
      const Vector3<Jet> pad_less_seat = on_axle ? -(p_Q - cone.p_CP) : p_Q - cone.p_CP;
      const Vector3<Jet> d = on_axle ? -turned : fixed, n = on_axle ? -fixed : turned;
      const Jet length = Dot(pad_less_seat, n) / Dot(d, n);
      EXPECT_NEAR(ours.v, length.a, kTol);
      for (int k = 0; k < 6; ++k) {
        EXPECT_NEAR(ours.d[static_cast<size_t>(k)], length.v[k], 1e-11) << k;
      }
    }
  }
}

}  // namespace
}  // namespace linkwright
