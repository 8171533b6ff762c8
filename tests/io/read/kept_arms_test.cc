// SPDX-License-Identifier: MIT
// Arms of every kind, and steering rods, through a variant that moves a hole: where the housing
// then stands each is as long as it was, measured between its points by hand; and the housing
// stands where an independent formulation puts it.
#include <ceres/autodiff_cost_function.h>
#include <ceres/problem.h>
#include <ceres/solver.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include "io/read/vehicle_file.h"
#include "solver/geometry/steering.h"
#include "solver/model/arms_kept.h"
#include "solver/model/error.h"
#include "solver/pose/fit_links.h"
#include "solver/rest/rig.h"
#include "solver/study/file/differences.h"
#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

using Eigen::Vector3d;

constexpr double kKept = 1e-9;  // [m] what is promised of a length
constexpr double kInch = 0.0254;

const std::string kFolder = std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/";

struct KeptArms : testing::Test {
  TempFolder folder;

  static Vehicle Read(const std::string& name) {
    return ReadVehicleFile(kFolder + name + ".yaml").vehicle;
  }
  Vehicle Variant(const std::string& base, const std::string& text) const {
    return ReadVehicleFile(folder.Write("v.yaml", "base: " + kFolder + base + ".yaml\n" + text))
        .vehicle;
  }
  // A variant of a file written before as `name`.
  Vehicle Of(const std::string& name, const std::string& text) const {
    return ReadVehicleFile(folder.Write("of.yaml", "base: " + name + "\n" + text)).vehicle;
  }
};

// The housing where the arms hold it at its measured height.
struct Held {
  AxleFrame frame;
  Pose pose;
  Eigen::Isometry3d X;  // of a point of the housing, from where it was measured to where it is

  explicit Held(const Axle& axle) : frame(PrepareAxle(axle)) {
    const FittedPose fitted = MeasuredPose(axle, frame);
    EXPECT_TRUE(fitted.pose);
    pose = fitted.pose.value_or(frame.measured);
    X = Transform(pose) * frame.X_CA.inverse(Eigen::Isometry);
  }
  [[nodiscard]] double Apart(const Vector3d& on_chassis, const Vector3d& on_housing) const {
    return (X * on_housing - on_chassis).norm();
  }
  void ExpectLinksKept(const Axle& was, const Axle& is) const {
    ASSERT_EQ(was.links.size(), is.links.size());
    for (size_t i = 0; i < is.links.size(); ++i) {
      EXPECT_NEAR(Apart(is.links[i].span.p_CP, is.links[i].span.p_CQ),
                  MeasuredLength(was.links[i].span), kKept)
          << DisplayName(is.links[i].name);
    }
  }
};

double LegOf(const AArm& arm, size_t i) { return (arm.p_CP[i] - arm.p_CQ).norm(); }

// Four distances hold this axle: with all of them kept the housing has no other place to be.
TEST_F(KeptArms, AnAArmKeepsBothItsLegs) {
  const Axle was = Read("moorland_wagon").axles[kRear];
  const Axle is = Variant("moorland_wagon",
                          "change:\n  axles.rear.a_arms.upper arm.first_eye: [-2097, 311, 556]\n")
                      .axles[kRear];
  const Held held(is);
  const AArm& arm = is.a_arms[0];
  EXPECT_GT(std::abs(LegOf(arm, 0) - LegOf(was.a_arms[0], 0)), 5e-3);  // its holes are elsewhere
  for (size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(held.Apart(arm.p_CP[i], arm.p_CQ), LegOf(was.a_arms[0], i), kKept);
  }
  held.ExpectLinksKept(was, is);
  EXPECT_GT(std::abs(held.pose.pitch), 0.01);
}

TEST_F(KeptArms, ALegOfAnAArmTakesALengthOfItsOwn) {
  const Axle was = Read("moorland_wagon").axles[kRear];
  folder.Write("leg.yaml", "base: " + kFolder +
                               "moorland_wagon.yaml\n"
                               "change:\n  axles.rear.a_arms.upper arm.second_length: 550\n");
  const Axle is = Of("leg.yaml", "title: A leg made anew\n").axles[kRear];
  const AArm& arm = is.a_arms[0];
  EXPECT_EQ(arm.p_CP[1], was.a_arms[0].p_CP[1]);  // the holes stay
  const Held held(is);
  EXPECT_NEAR(held.Apart(arm.p_CP[0], arm.p_CQ), LegOf(was.a_arms[0], 0), kKept);
  EXPECT_NEAR(held.Apart(arm.p_CP[1], arm.p_CQ), 0.550, kKept);
  held.ExpectLinksKept(was, is);
  EXPECT_GT(std::abs(held.pose.y), 1e-3);
  // Kept by a later variant, until it is made to fit again.
  const std::string eye = "change:\n  axles.rear.a_arms.upper arm.first_eye: [-2090, 318, 548]\n";
  const Axle later = Of("leg.yaml", eye).axles[kRear];
  EXPECT_NEAR(Held(later).Apart(later.a_arms[0].p_CP[1], later.a_arms[0].p_CQ), 0.550, kKept);
  const Axle fit =
      Of("leg.yaml", eye + "  axles.rear.a_arms.upper arm.second_length: fit\n").axles[kRear];
  const Held again(fit);
  EXPECT_NEAR(again.Apart(fit.a_arms[0].p_CP[1], fit.a_arms[0].p_CQ), LegOf(fit.a_arms[0], 1),
              kKept);
  EXPECT_NEAR(again.Apart(fit.a_arms[0].p_CP[0], fit.a_arms[0].p_CQ), LegOf(was.a_arms[0], 0),
              kKept);
}

// Symmetrical, so planar: ahead and pitch from two distances, by Newton's method on paper.
TEST_F(KeptArms, AnAArmInTheMiddleTurnsTheAxleAsTwoDistancesSay) {
  folder.Write("middle.yaml", "base: " + kFolder +
                                  "moorland_wagon.yaml\n"
                                  "change:\n"
                                  "  axles.rear.a_arms.upper arm.axle: [-2520, 0, 532]\n"
                                  "  axles.rear.a_arms.upper arm.length: fit\n");
  const Axle is =
      Of("middle.yaml", "change:\n  axles.rear.a_arms.upper arm.first_eye: [-2085, 318, 563]\n")
          .axles[kRear];
  struct Arm {
    Vector3d frame, axle;
    double length;
  };
  const Vector3d hub(-2.540, 0.0, 0.368);
  const std::array arms{Arm{{-1.690, 0.432, 0.430},
                            {-2.490, 0.462, 0.318},
                            std::sqrt(0.8 * 0.8 + 0.03 * 0.03 + 0.112 * 0.112)},
                        Arm{{-2.085, 0.318, 0.563},
                            {-2.520, 0.0, 0.532},
                            std::sqrt(0.435 * 0.435 + 0.318 * 0.318 + 0.016 * 0.016)}};
  const auto missed = [&](const Arm& arm, double ahead, double pitch) {
    const Vector3d a = arm.axle - hub;
    const Vector3d at = hub + Vector3d(ahead + a.x() * std::cos(pitch) - a.z() * std::sin(pitch),
                                       a.y(), a.x() * std::sin(pitch) + a.z() * std::cos(pitch));
    return (at - arm.frame).norm() - arm.length;
  };
  Eigen::Vector2d q = Eigen::Vector2d::Zero();
  for (int n = 0; n < 20; ++n) {
    constexpr double h = 1e-6;
    Eigen::Vector2d r;
    Eigen::Matrix2d J;
    for (int i = 0; i < 2; ++i) {
      const Arm& arm = arms[static_cast<size_t>(i)];
      r[i] = missed(arm, q[0], q[1]);
      J(i, 0) = (missed(arm, q[0] + h, q[1]) - missed(arm, q[0] - h, q[1])) / (2.0 * h);
      J(i, 1) = (missed(arm, q[0], q[1] + h) - missed(arm, q[0], q[1] - h)) / (2.0 * h);
    }
    q -= J.inverse() * r;
  }
  const Held held(is);
  EXPECT_GT(std::abs(q[1]), 1e-3);
  EXPECT_NEAR(held.pose.x - hub.x(), q[0], kKept);
  EXPECT_NEAR(held.pose.pitch, q[1], kKept);
  EXPECT_NEAR(held.pose.y, 0.0, kKept);
  EXPECT_NEAR(held.pose.steer, 0.0, kKept);
}

// Links and radius arms as springs between two bodies, each radius arm with a place of its own: its
// plane's two coordinates and a turn. docs/theory.md (101), (102), (108), written anew: seen from
// the middle of its two eyes on the housing, bolts along y, and as far aside as it was made.
//   was   the axle that the arms fitted; only places on the chassis differ from it in `is`
template <int kLinks, int kArms>
struct Sprung {
  const Axle &was, &is;

  static constexpr int kGaps = kLinks + 6 * kArms;
  [[nodiscard]] Vector3d Hub() const { return 0.5 * (was.p_CW_l + was.p_CW_r); }

  //   q       ahead, left, steer, pitch;  place   ahead, up, turn of each arm
  template <typename T>
  bool operator()(const T* q, const T* place, T* gap) const {
    using std::cos;
    using std::sin;
    using std::sqrt;
    using Vector = Eigen::Matrix<T, 3, 1>;
    const T cs = cos(q[2]), ss = sin(q[2]), cp = cos(q[3]), sp = sin(q[3]);
    for (int i = 0; i < kLinks; ++i) {
      const Link& link = is.links[static_cast<size_t>(i)];
      const Vector a = (link.span.p_CQ - Hub()).template cast<T>();
      const Vector pitched(a[0] * cp - a[2] * sp, a[1], a[0] * sp + a[2] * cp);
      const Vector at(pitched[0] * cs - pitched[1] * ss + Hub().x() + q[0],
                      pitched[0] * ss + pitched[1] * cs + Hub().y() + q[1], pitched[2] + Hub().z());
      const Vector reach = at - link.span.p_CP.template cast<T>();
      const double length = MeasuredLength(was.links[static_cast<size_t>(i)].span);
      *gap++ = std::sqrt(link.rate) * (sqrt(reach.squaredNorm()) - length);
    }
    for (int i = 0; i < kArms; ++i, place += 3) {
      const RadiusArm &own = was.radius_arms[static_cast<size_t>(i)],
                      &arm = is.radius_arms[static_cast<size_t>(i)];
      const Vector3d middle = 0.5 * (own.p_CQ[0] + own.p_CQ[1]);
      const Vector3d made = own.p_CP - middle;  // aside is y
      // The chassis eye in the housing's axes, from the middle.
      const Vector to =
          arm.p_CP.template cast<T>() - Hub().template cast<T>() - Vector(q[0], q[1], T(0.0));
      const Vector unsteered(to[0] * cs + to[1] * ss, to[1] * cs - to[0] * ss, to[2]);
      const Vector eye = Vector(unsteered[0] * cp + unsteered[2] * sp, unsteered[1],
                                unsteered[2] * cp - unsteered[0] * sp) -
                         (middle - Hub()).template cast<T>();
      const T flat = eye[0] * eye[0] + eye[2] * eye[2];
      const T swing = sqrt((flat + eye[1] * eye[1] - made.y() * made.y()) / flat);
      const T ct = cos(place[2]), st = sin(place[2]);
      const auto bush = [&](double rate, const Vector3d& point, const T& x, const T& z) {
        *gap++ = std::sqrt(rate) * (x - place[0] - point.x() * ct + point.z() * st);
        *gap++ = std::sqrt(rate) * (z - place[1] - point.x() * st - point.z() * ct);
      };
      bush(arm.frame_rate, made, eye[0] * swing, eye[2] * swing);
      for (size_t k = 0; k < 2; ++k) {
        const Vector3d at = own.p_CQ[k] - middle;
        bush(arm.axle_rate, at, T(at.x()), T(at.z()));
      }
    }
    return true;
  }
};

// The least of what all springs hold, by a general solver.
template <int kLinks, int kArms>
std::array<double, 4> LeastStrain(const Axle& was, const Axle& is, double& energy) {
  using Springs = Sprung<kLinks, kArms>;
  std::array<double, 4> q{};
  std::array<double, 3 * kArms> place{};
  ceres::Problem problem;
  problem.AddResidualBlock(
      new ceres::AutoDiffCostFunction<Springs, Springs::kGaps, 4, 3 * kArms>(new Springs{was, is}),
      nullptr, q.data(), place.data());
  ceres::Solver::Options options;
  options.linear_solver_type = ceres::DENSE_QR;
  options.initial_trust_region_radius = 1e12;  // Gauss and Newton's own steps
  options.function_tolerance = options.gradient_tolerance = 1e-20;
  options.parameter_tolerance = 1e-16;
  options.max_num_iterations = 200;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &problem, &summary);
  energy = summary.final_cost;
  return q;
}

constexpr double kSearched = 1e-7;  // [m, rad] what the search leaves

void ExpectPose(const Held& held, const std::array<double, 4>& q) {
  EXPECT_NEAR(held.pose.x - held.frame.measured.x, q[0], kSearched);
  EXPECT_NEAR(held.pose.y - held.frame.measured.y, q[1], kSearched);
  EXPECT_NEAR(held.pose.steer - held.frame.measured.steer, q[2], kSearched);
  EXPECT_NEAR(held.pose.pitch, q[3], kSearched);
}

// Four holds, one arm: all of it is met, and the arm keeps its length.
TEST_F(KeptArms, ATorqueArmStandsWhereItsRigidBodyPutsTheAxle) {
  const Axle was = Read("coast_taxi").axles[kFront];
  const Axle is =
      Variant("coast_taxi",
              "change:\n  axles.front.radius_arms.torque arm.frame: [-37 1/4, 10 1/2, 15 3/8]\n")
          .axles[kFront];
  const Held held(is);
  double energy = 0.0;
  const std::array<double, 4> q = LeastStrain<2, 1>(was, is, energy);
  EXPECT_LT(energy, 1e-12);
  EXPECT_GT(std::abs(q[3]), 0.01);
  ExpectPose(held, q);
  held.ExpectLinksKept(was, is);
  const auto middle = [](const RadiusArm& arm) -> Vector3d {
    return 0.5 * (arm.p_CQ[0] + arm.p_CQ[1]);
  };
  const RadiusArm &before = was.radius_arms[0], &after = is.radius_arms[0];
  EXPECT_NEAR(held.Apart(after.p_CP, middle(after)), (before.p_CP - middle(before)).norm(), kKept);
  // The line of its eyes on the housing stands to it as it was made, in its plane.
  const auto angle = [](const Vector3d& line, const Vector3d& reach) {
    return std::atan2(line.x() * reach.z() - line.z() * reach.x(),
                      line.x() * reach.x() + line.z() * reach.z());
  };
  const Vector3d in_housing = held.X.inverse(Eigen::Isometry) * after.p_CP - middle(after);
  EXPECT_NEAR(angle(after.p_CQ[1] - after.p_CQ[0], in_housing),
              angle(before.p_CQ[1] - before.p_CQ[0], before.p_CP - middle(before)), kKept);
}

// Five holds: a pair of radius arms and a bar, one hole moved, fight over where the axle stands.
TEST_F(KeptArms, APairOfRadiusArmsSettlesWhereItsBushingsHoldLeast) {
  const Axle was = Read("moorland_wagon").axles[kFront];
  const Axle is =
      Variant("moorland_wagon",
              "change:\n  axles.front.radius_arms.radius arm left.frame: [-909, 407, 461]\n")
          .axles[kFront];
  EXPECT_EQ(is.radius_arms[1].p_CP, was.radius_arms[1].p_CP);
  const Held held(is);
  double energy = 0.0;
  const std::array<double, 4> q = LeastStrain<1, 2>(was, is, energy);
  EXPECT_GT(energy, 0.5);  // [J] they fight: here with 0.9
  EXPECT_GT(std::abs(q[3]), 1e-3);
  ExpectPose(held, q);
}

// The crank as a body of its own on its pivot: turned so that its first link has its length, its
// second has its own.
void ExpectCrank(const Held& held, const WattsLink& is, const CrankShape& made, double first,
                 double second) {
  ASSERT_TRUE(is.on_housing);
  const Vector3d pivot = held.X * is.pivot, axis = (held.X.linear() * is.axis).normalized();
  const auto length = [&](size_t i, double turn) {
    const Vector3d arm = held.X.linear() * (made.end[i] - made.pivot);
    const Vector3d turned = arm * std::cos(turn) + axis.cross(arm) * std::sin(turn) +
                            axis * axis.dot(arm) * (1.0 - std::cos(turn));
    return (pivot + turned - is.far[i]).norm();
  };
  double turn = 0.0;
  for (int n = 0; n < 50; ++n) {
    const double slope = (length(0, turn + 1e-6) - length(0, turn - 1e-6)) / 2e-6;
    turn -= (length(0, turn) - first) / slope;
  }
  EXPECT_NEAR(length(0, turn), first, kKept);
  EXPECT_NEAR(length(1, turn), second, kKept);
  EXPECT_LT(std::abs(turn), 0.5);  // the same side of its dead centre
}

struct KeptCrank : KeptArms {
  // Three arms and the crank: four holds.
  KeptCrank() {
    folder.Write("three.yaml", "base: " + kFolder +
                                   "coast_taxi.yaml\nremove: [axles.rear.links.upper arm left]\n");
    was = Of("three.yaml", "title: Three arms\n").axles[kRear];
    const WattsLink& watt = was.watts_links[0];
    points = {watt.pivot, watt.end, watt.far};
    for (size_t i = 0; i < 2; ++i) own[i] = (watt.end[i] - watt.far[i]).norm();
  }
  Axle Changed(const std::string& changes) const {
    std::string text = "change:\n";
    std::istringstream lines(changes);
    for (std::string line; std::getline(lines, line);) {
      text += "  axles.rear.watts_links.Watt's link." + line + "\n";
    }
    return Of("three.yaml", text).axles[kRear];
  }
  Axle was;
  CrankShape points;
  std::array<double, 2> own{};
};

TEST_F(KeptCrank, KeepsBothLinksAndItsEndsAboutItsPivot) {
  for (const char* change : {"first_far: [-114, 17, 17 1/4]", "second_far: [-114, -17, 11 1/2]",
                             "pivot: [-114, 1/4, 14 1/4]"}) {
    const Axle is = Changed(change);
    const Held held(is);
    EXPECT_GT(std::abs(held.pose.y), 1e-3) << change;
    ExpectCrank(held, is.watts_links[0], points, own[0], own[1]);
    held.ExpectLinksKept(was, is);
  }
}

TEST_F(KeptCrank, TakesALengthOfOneLinkAndLeavesTheOther) {
  const Axle is = Changed("first_length: 17 5/8");
  const Held held(is);
  EXPECT_EQ(is.watts_links[0].far[0], was.watts_links[0].far[0]);  // the holes stay
  EXPECT_GT(std::abs(held.pose.y), 3e-3);
  ExpectCrank(held, is.watts_links[0], points, 17.625 * kInch, own[1]);
  held.ExpectLinksKept(was, is);
}

TEST_F(KeptCrank, OneLinkMadeToFitIsAsLongAsItsEndsAreApart) {
  const Axle is = Changed("first_far: [-114, 17, 17 1/4]\nfirst_length: fit");
  const Held held(is);
  const Vector3d moved(-114.0 * kInch, 17.0 * kInch, 17.25 * kInch);
  EXPECT_NEAR(held.pose.y, 0.0, kKept);
  ExpectCrank(held, is.watts_links[0], points, (points.end[0] - moved).norm(), own[1]);
  // Made once, a later variant keeps it.
  folder.Write("fit.yaml",
               "base: three.yaml\nchange:\n"
               "  axles.rear.watts_links.Watt's link.first_far: [-114, 17, 17 1/4]\n"
               "  axles.rear.watts_links.Watt's link.first_length: fit\n");
  const Axle later =
      Of("fit.yaml", "change:\n  axles.rear.watts_links.Watt's link.first_far[2]: 16 3/4\n")
          .axles[kRear];
  ExpectCrank(Held(later), later.watts_links[0], points, (points.end[0] - moved).norm(), own[1]);
}

// A link so short that no turn of its crank meets it is named, not an axle that nothing holds.
TEST_F(KeptCrank, ALinkThatReachesNowhereIsNamed) {
  const Vehicle vehicle =
      Of("three.yaml", "change:\n  axles.rear.watts_links.Watt's link.first_length: 5\n");
  try {
    (void)PrepareRig(vehicle);
    FAIL() << "an error is wanted";
  } catch (const ModelError& error) {
    EXPECT_EQ(error.part,
              (std::vector<std::string>{"axles", "rear", "watts_links", "Watt's link"}));
    EXPECT_NE(std::string(error.what()).find("Watt's link does not reach"), std::string::npos)
        << error.what();
    EXPECT_FALSE(error.length);
  }
}

// In the file that measures the length corrects both ends of its link, half each.
TEST_F(KeptCrank, ALengthInTheMeasurementCorrectsBothEndsAndIsKept) {
  std::ifstream in(kFolder + "coast_taxi.yaml");
  std::ostringstream read;
  read << in.rdbuf();
  std::string text = read.str();
  const std::string end = "second_far: [-114, -17 1/2, 11 1/4]";
  ASSERT_NE(text.find(end), std::string::npos);
  text.replace(text.find(end), end.size(), end + ", second_length: 17 1/4");
  const std::string path = folder.Write("taped.yaml", text);
  const WattsLink measured = ReadVehicleFile(path).vehicle.axles[kRear].watts_links[0];
  EXPECT_FALSE(measured.made);
  EXPECT_NEAR((measured.end[1] - measured.far[1]).norm(), 17.25 * kInch, 1e-12);
  EXPECT_NEAR((measured.end[1] + measured.far[1] - points.end[1] - points.far[1]).norm(), 0.0,
              1e-12);
  EXPECT_EQ(measured.far[0], points.far[0]);
  // A variant that moves the other link's end leaves both as corrected; one that moves an end of
  // this one has that end where it says.
  const WattsLink other =
      Of("taped.yaml", "change:\n  axles.rear.watts_links.Watt's link.first_far[2]: 17\n")
          .axles[kRear]
          .watts_links[0];
  EXPECT_EQ(other.end[1], measured.end[1]);
  EXPECT_EQ(other.far[1], measured.far[1]);
  const WattsLink own_end =
      Of("taped.yaml", "change:\n  axles.rear.watts_links.Watt's link.second_far[2]: -17\n")
          .axles[kRear]
          .watts_links[0];
  EXPECT_EQ(own_end.far[1], Vector3d(-114.0 * kInch, -17.0 * kInch, 11.25 * kInch));
  EXPECT_EQ(own_end.end[1], measured.end[1]);
  EXPECT_NEAR((ShapeOf(own_end).end[1] - ShapeOf(own_end).far[1]).norm(), 17.25 * kInch, 1e-12);
}

TEST_F(KeptArms, FitMakesEachKindAnew) {
  const Axle rear = Variant("moorland_wagon",
                            "change:\n"
                            "  axles.rear.a_arms.upper arm.first_eye: [-2097, 311, 556]\n"
                            "  axles.rear.a_arms.upper arm.length: fit\n")
                        .axles[kRear];
  const Axle front = Variant("moorland_wagon",
                             "change:\n"
                             "  axles.front.radius_arms.radius arm.frame: [-909, 407, 461]\n"
                             "  axles.front.radius_arms.radius arm.length: fit\n")
                         .axles[kFront];
  const Axle crank = Variant("coast_taxi",
                             "change:\n"
                             "  axles.rear.watts_links.Watt's link.pivot: [-114, 1/4, 14 1/4]\n"
                             "  axles.rear.watts_links.Watt's link.length: fit\n")
                         .axles[kRear];
  for (const Axle* axle : {&rear, &front, &crank}) {
    EXPECT_FALSE(HasKeptArms(*axle));
    const Held held(*axle);
    EXPECT_NEAR((held.X.matrix() - Eigen::Matrix4d::Identity()).norm(), 0.0, 1e-12);
  }
}

// `keep` says what is so without it.
TEST_F(KeptArms, KeepIsWhatIsSoUnlessGiven) {
  const std::string eye = "change:\n  axles.rear.a_arms.upper arm.first_eye: [-2097, 311, 556]\n";
  const Axle plain = Variant("moorland_wagon", eye).axles[kRear];
  const Axle said =
      Variant("moorland_wagon", eye + "  axles.rear.a_arms.upper arm.length: keep\n").axles[kRear];
  ASSERT_TRUE(said.a_arms[0].leg_length);
  EXPECT_EQ(*said.a_arms[0].leg_length, *plain.a_arms[0].leg_length);
}

// A ball on a knuckle turned about its kingpin, in the housing's axes of the measured stance.
Vector3d TurnedBall(const Kingpin& pin, double side, double turn, const Vector3d& ball) {
  const Vector3d axis =
      Vector3d(-std::tan(pin.caster), -side * std::tan(pin.inclination), 1.0).normalized();
  const Vector3d at(pin.p_CK->x(), side * pin.p_CK->y(), pin.p_CK->z());
  const Vector3d arm = ball - at;
  return at + arm * std::cos(turn) + axis.cross(arm) * std::sin(turn) +
         axis * axis.dot(arm) * (1.0 - std::cos(turn));
}

TEST_F(KeptArms, ADragLinkKeepsItsLengthAndTurnsItsKnuckle) {
  const Axle was = Read("harbour_van").axles[kFront];
  const Axle is =
      Variant("harbour_van", "change:\n  axles.front.steering.drag_link.frame: [180, 418, 478]\n")
          .axles[kFront];
  const Held held(is);
  const auto turns = TurnsHeld(is, held.frame, Transform(held.pose));
  ASSERT_TRUE(turns);
  EXPECT_GT(std::abs(turns->right), 0.01);  // it leads the right wheel
  const Vector3d ball = TurnedBall(*is.kingpin, -1.0, turns->right, is.steering->drag_link.p_CQ);
  EXPECT_NEAR(held.Apart(is.steering->drag_link.p_CP, ball),
              MeasuredLength(was.steering->drag_link), kKept);
}

TEST_F(KeptArms, ATieRodKeepsItsLengthAndToesTheWheels) {
  const Axle was = Read("front_axle_on_stands").axles[kFront];
  const Axle is = Variant("front_axle_on_stands",
                          "change:\n  axles.front.steering.tie_rod.left: [-5 1/2, 24 1/2, 14]\n")
                      .axles[kFront];
  const TieRod &rod = *is.steering->tie_rod, &own = *was.steering->tie_rod;
  EXPECT_NEAR((rod.p_CL - rod.p_CR).norm(), 49.0 * kInch, 1e-12);
  const Held held(is);
  const auto turns = TurnsHeld(is, held.frame, Transform(held.pose));
  ASSERT_TRUE(turns);
  EXPECT_GT(std::abs(turns->left - turns->right), 0.01);
  const Vector3d left = TurnedBall(*is.kingpin, 1.0, turns->left, rod.p_CL);
  const Vector3d right = TurnedBall(*is.kingpin, -1.0, turns->right, rod.p_CR);
  EXPECT_NEAR((left - right).norm(), (own.p_CL - own.p_CR).norm(), kKept);
}

// What compare lists between a file and its variant.
std::vector<std::string> Listed(const Vehicle& first, const Vehicle& second) {
  std::vector<std::string> what;
  for (const Difference& each : DifferencesOf(first, second).list) what.push_back(each.what);
  std::sort(what.begin(), what.end());
  return what;
}

TEST_F(KeptArms, CompareListsTheHoleThatMovedAndNoLengthThatIsKept) {
  const Vehicle van = Read("harbour_van");
  const Vehicle moved = Variant("harbour_van",
                                "change:\n"
                                "  axles.front.steering.drag_link.frame: [180, 418, 478]\n"
                                "  driveshafts.rear.output[1]: -1150\n");
  EXPECT_EQ(Listed(van, moved),
            (std::vector<std::string>{"front drag link, frame end", "rear shaft, output"}));
}

TEST_F(KeptArms, CompareListsTheLengthsOfNewRodsAndShafts) {
  const Vehicle van = Read("harbour_van");
  const Vehicle anew = Variant("harbour_van",
                               "change:\n"
                               "  axles.front.steering: {drag_link: {frame: [180, 418, 470], axle: "
                               "[140, -560, 415]}}\n"
                               "  driveshafts.rear.output[1]: -1150\n"
                               "add:\n  driveshafts.rear.slip_left: 20\n");
  EXPECT_EQ(Listed(van, anew),
            (std::vector<std::string>{"front drag link, eye to eye", "front drag link, frame end",
                                      "rear shaft, length", "rear shaft, output",
                                      "rear shaft, slip left"}));
  for (const Difference& each : DifferencesOf(van, anew).list) {
    if (each.what == "front drag link, eye to eye") {
      EXPECT_NEAR(each.first, std::sqrt(0.04 * 0.04 + 0.99 * 0.99 + 0.055 * 0.055), 1e-12);
      EXPECT_NEAR(each.second, std::sqrt(0.04 * 0.04 + 0.978 * 0.978 + 0.055 * 0.055), 1e-12);
    }
    if (each.what == "rear shaft, length") {
      EXPECT_NEAR(each.first, std::hypot(1.100, 0.075), 1e-12);
      EXPECT_NEAR(each.second, std::hypot(1.080, 0.075), 1e-12);
    }
  }
}

// Whatever point of the file is moved, compare says so.
TEST_F(KeptArms, CompareListsEveryKindOfPlaceAndSlope) {
  const Vehicle stands = Read("front_axle_on_stands");
  const Vehicle moved = Variant("front_axle_on_stands",
                                "change:\n"
                                "  axles.front.kingpin: {caster: 6, inclination: 8, at: [0.2, 26 "
                                "1/4, 14 3/4]}\n"
                                "  axles.front.steering.tie_rod.left: [-5 1/2, 24 1/2, 14]\n");
  EXPECT_EQ(Listed(stands, moved),
            (std::vector<std::string>{"front kingpin, caster", "front kingpin, point of its axis",
                                      "front tie rod, left end", "front tie rod, right end"}));
  const Vehicle rear = Read("rear_axle_on_stands");
  const Vehicle tank =
      Variant("rear_axle_on_stands", "change:\n  axles.rear.gaps.tank to housing.frame[3]: 480\n");
  EXPECT_EQ(Listed(rear, tank), (std::vector<std::string>{"rear tank to housing, frame end"}));
  const Vehicle taxi = Read("coast_taxi");
  const Vehicle pivot = Variant("coast_taxi",
                                "change:\n"
                                "  axles.rear.watts_links.Watt's link.pivot[2]: 0.1\n"
                                "  axles.front.radius_arms.torque arm.first_eye[3]: 15 3/8\n"
                                "  axles.front.radius_arms.torque arm.second_eye[3]: 10 5/8\n");
  EXPECT_EQ(Listed(taxi, pivot),
            (std::vector<std::string>{"front torque arm, first eye", "front torque arm, second eye",
                                      "rear Watt's link, pivot"}));
}

}  // namespace
}  // namespace linkwright
