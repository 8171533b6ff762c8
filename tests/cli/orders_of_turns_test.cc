// SPDX-License-Identifier: MIT
// Every order and remedy of driveline and steering carried out on every fixture vehicle: what was
// promised is then so.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "io/read/vehicle_file.h"
#include "solver/geometry/steering.h"
#include "solver/model/masses.h"
#include "solver/numeric/decompositions.h"
#include "solver/study/driveline/driveline.h"
#include "solver/study/steering/track_bar.h"
#include "solver/study/travel/limits.h"
#include "tests/cli/program.h"

namespace linkwright::check {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kSame = 1e-6;  // [m, rad] a rest is found to 1e-9 m; net angles are steep near 0

Vehicle Read(const std::string& name) {
  return ReadVehicleFile(std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/" + name +
                         ".yaml")
      .vehicle;
}

// A vehicle and where it stands; the rig refers to the vehicle here.
struct Stood {
  Vehicle vehicle;
  Rig rig;
  Standing standing;
  explicit Stood(Vehicle given) : vehicle(std::move(given)), rig(PrepareRig(vehicle)) { Rest(); }
  Stood(const Stood&) = delete;
  Stood& operator=(const Stood&) = delete;

  [[nodiscard]] const Load* FirstLoad() const {
    return IsGeometryOnly(vehicle) ? nullptr : &vehicle.loads.front();
  }
  void Rest() { standing = Stand(rig, FirstLoad()).value(); }
  // Links turned by so much, by hand: the lengths alone are changed.
  void Turn(size_t axle, const std::vector<size_t>& members, double by) {
    RigAxle& prepared = rig.axles[axle];
    for (const size_t i : members) prepared.frame.links[i].length += by;
    const PoseSolution pose = SolvePose(prepared.frame, prepared.measured.pose);
    ASSERT_EQ(pose.status, SolveStatus::kConverged);
    prepared.measured = EvaluateMotion(prepared.frame, pose.pose);
    Rest();
  }
  [[nodiscard]] std::vector<ShaftReport> Shafts() const {
    DrivelineRequest request;
    request.load = FirstLoad();
    return ReportDriveline({rig, StanceOf(standing)}, standing, request);
  }
  [[nodiscard]] Eigen::Isometry3d At(size_t axle) const {
    return Transform(standing.level[axle].pose);
  }
  [[nodiscard]] DriveshaftLine Line(size_t shaft) const {
    const Driveshaft& part = vehicle.driveshafts[shaft];
    const auto axle = static_cast<size_t>(part.axle);
    return LineOf(part, vehicle.axles[axle], rig.axles[axle].frame, At(axle));
  }
};

// The other road to a net angle: the first shaft is turned by hand, pins carried over by cross
// products, and the speed of the last one read off.
double NetByTurning(const JointChain& chain) {
  constexpr int kSteps = 720;
  const auto across = [](const Eigen::Vector3d& d) { return d.unitOrthogonal(); };
  const Eigen::Vector3d u = across(chain.along.front()), v = chain.along.front().cross(u);
  const Eigen::Vector3d a = across(chain.along.back()), b = chain.along.back().cross(a);
  const auto driven = [&](double turn) {
    Eigen::Vector3d pin = std::cos(turn) * u + std::sin(turn) * v;
    for (size_t i = 0; i < chain.joints.size(); ++i) {
      const Eigen::Vector3d& to = chain.along[i + 1];
      if (chain.joints[i] == JointKind::kDouble) {
        pin = ShortestTurn(chain.along[i], to) * pin;
      } else {
        pin = to.cross(pin);
      }
      if (i + 2 < chain.along.size()) pin = Eigen::AngleAxisd(chain.phase[i], to) * pin;
    }
    return std::atan2(pin.dot(b), pin.dot(a));
  };
  constexpr double kHalf = 1e-4;  // [rad] of a difference
  double slowest = 1e9, fastest = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double turn = M_PI * i / kSteps;
    const double gone = std::remainder(driven(turn + kHalf) - driven(turn - kHalf), 2.0 * M_PI);
    slowest = std::min(slowest, gone), fastest = std::max(fastest, gone);
  }
  return std::acos(std::sqrt(slowest / fastest));
}

// With the pinion's yoke end up by so much in the file: its place stays. On a housing measured out
// of square the file's angle turns it about the vehicle's lateral axis, not its own.
double NetWithAngle(const Stood& stood, size_t shaft, double up) {
  Stood turned(stood.vehicle);
  turned.vehicle.axles[static_cast<size_t>(stood.vehicle.driveshafts[shaft].axle)].pinion->angle +=
      up;
  const JointChain chain = turned.Line(shaft).chain;
  return NetAngle(TurnMap(chain, chain.joints.size()));
}

class TurnOrders : public ::testing::TestWithParam<std::string> {};

// What the turn of the pinion promises, and that no turn leaves less.
void ExpectTheLeastNetAngle(const Stood& stood) {
  for (const ShaftReport& report : stood.Shafts()) {
    const Driveshaft& shaft = stood.vehicle.driveshafts[report.shaft];
    const double now = AtRest(report).net_angle;
    EXPECT_NEAR(now, NetByTurning(stood.Line(report.shaft).chain), 0.01 * kDegree);
    ASSERT_EQ(report.aim.has_value(), shaft.axle_joint == JointKind::kSingle);
    if (!report.aim) continue;
    const PinionOrder& aim = *report.aim;
    EXPECT_NEAR(NetWithAngle(stood, report.shaft, aim.turn), aim.net_angle, 0.02 * kDegree);
    EXPECT_NEAR(NetWithAngle(stood, report.shaft, aim.turn + shaft.pinion_low), aim.least,
                0.02 * kDegree);
    // Brute force over the whole turn, the pinion swung by hand about the housing's lateral axis.
    JointChain chain = stood.Line(report.shaft).chain;
    const Eigen::Vector3d pinion = chain.along.back();
    const Eigen::Vector3d lateral =
        stood.At(static_cast<size_t>(shaft.axle)).linear() * Eigen::Vector3d::UnitY();
    double least = 1e9;
    for (int i = -4500; i <= 4500; ++i) {
      chain.along.back() = Eigen::AngleAxisd(0.01 * i * kDegree, lateral) * pinion;
      least = std::min(least, NetAngle(TurnMap(chain, chain.joints.size())));
    }
    EXPECT_LE(aim.least, least + kFinder);
    EXPECT_LE(aim.least, now);
  }
}

// (64)
TEST_P(TurnOrders, ThePinionTurnedAsToldHasTheLeastNetAngle) {
  ExpectTheLeastNetAngle(Stood(Read(GetParam())));
}

// Each row of links to turn, and the vehicle asked again.
void ExpectRowsKeepTheirPromise(const Stood& before) {
  for (const ShaftReport& report : before.Shafts()) {
    const Driveshaft& shaft = before.vehicle.driveshafts[report.shaft];
    const auto axle = static_cast<size_t>(shaft.axle);
    const double raised = NetAngleTurned(before.Line(report.shaft), before.At(axle).linear().col(1),
                                         shaft.pinion_low);
    for (const LinkCure& cure : report.cures) {
      SCOPED_TRACE(shaft.name + ", " + cure.links.name);
      Stood after(before.vehicle);
      after.Turn(axle, cure.links.members, cure.by);
      const ShaftReport again = after.Shafts()[report.shaft];
      const ShaftPlace& rest = AtRest(again);
      EXPECT_NEAR(rest.net_angle, cure.after.net_angle, 1e-5);
      EXPECT_NEAR(rest.net_angle, NetByTurning(after.Line(report.shaft).chain), 0.01 * kDegree);
      EXPECT_NEAR(rest.length, cure.after.length, kSame);
      EXPECT_NEAR(after.standing.level[axle].pose.x - before.standing.level[axle].pose.x,
                  cure.moved, kSame);
      for (size_t j = 0; j < rest.joints.size(); ++j) {
        EXPECT_NEAR(rest.joints[j].angle, cure.after.joints[j].angle, kSame);
      }
      // It falls by what a finder shows, by a length that a shop can make, and nothing is left to
      // turn. Wanted low, all of that is so with the pinion raised by as much.
      const auto net = [&](double up) {
        return NetAngleTurned(after.Line(report.shaft), after.At(axle).linear().col(1),
                              shaft.pinion_low + up);
      };
      EXPECT_LT(net(0.0), raised - kFinder);
      if (shaft.pinion_low == 0.0) {
        EXPECT_LT(rest.net_angle, AtRest(report).net_angle - kFinder);
      }
      for (const double off : {-0.3, -0.03, 0.03, 0.3}) EXPECT_GT(net(off * kDegree), net(0.0));
      const double length =
          MeasuredLength(before.vehicle.axles[axle].links[cure.links.members.front()].span);
      EXPECT_LE(std::abs(cure.by), cure.links.thread ? 0.025 : 0.05 * length);
      ASSERT_TRUE(again.aim);
      EXPECT_TRUE(again.cures.empty());
      // A lower dip than its own is out of the shop's reach, and that is told.
      if (net(0.0) - again.aim->least > kFinder) {
        EXPECT_FALSE(again.no_cure.empty());
      }
    }
  }
}

// (65)
TEST_P(TurnOrders, LinksTurnedAsToldHaveThePromisedNetAngle) {
  ExpectRowsKeepTheirPromise(Stood(Read(GetParam())));
}

// (66b)
TEST_P(TurnOrders, YokesTurnedAsToldHaveThePromisedNetAngle) {
  const Stood before(Read(GetParam()));
  for (const ShaftReport& report : before.Shafts()) {
    if (!report.phase) continue;
    Vehicle turned = before.vehicle;
    turned.driveshafts[report.shaft].phase = report.phase->phase;
    const Stood after(turned);
    EXPECT_NEAR(AtRest(after.Shafts()[report.shaft]).net_angle, report.phase->net_angle, kSame);
    EXPECT_LE(report.phase->net_angle, AtRest(report).net_angle + kSame);
  }
}

// (65): the bar that centres an axle, and the drag link that follows.
TEST_P(TurnOrders, TheBarSoChangedCentresTheAxle) {
  const Stood before(Read(GetParam()));
  for (const size_t axle : AxlesOf(before.vehicle)) {
    const Axle& part = before.vehicle.axles[axle];
    const SidewaysCure cure = CentreAxle(before.rig, before.standing, before.FirstLoad(), axle);
    EXPECT_NEAR(cure.offset, before.standing.level[axle].pose.y, kSame);
    if (!cure.bar) continue;
    SCOPED_TRACE(part.name + ", " + cure.bar->name);
    const double length = MeasuredLength(part.links[cure.bar->members.front()].span);
    const double most = cure.bar->thread ? 0.025 : 0.05 * length;
    if (!cure.by) {
      // No length within what a shop can make: at both ends the axle is still on the same side.
      for (const double by : {-most, most}) {
        Stood end(before.vehicle);
        end.Turn(axle, cure.bar->members, by);
        EXPECT_GT(end.standing.level[axle].pose.y * cure.offset, 0.0);
      }
      continue;
    }
    EXPECT_LE(std::abs(*cure.by), most);
    Stood after(before.vehicle);
    after.Turn(axle, cure.bar->members, *cure.by);
    EXPECT_NEAR(after.standing.level[axle].pose.y, 0.0, kSame);
    ASSERT_EQ(cure.drag_link_by.has_value(), part.steering.has_value());
    if (!cure.drag_link_by) continue;
    Knuckle knuckle = PrepareKnuckle(part, after.rig.axles[axle].frame);
    knuckle.length += *cure.drag_link_by;
    const auto turn = KnuckleTurn(knuckle, after.At(axle));
    ASSERT_TRUE(turn);
    EXPECT_NEAR(*turn, 0.0, kSame / 0.1);  // [rad] on a steering arm of 0.1 m or more
  }
}

// (69): each place of a track bar, made in the file.
struct Greatest {
  double steer, lateral;  // no sign [rad, m]
};

// Walked in rows 10 mm apart to where `limits` says that this axle's rows end, or 100 mm.
Greatest GreatestOnOwnTravel(const Stood& stood, size_t axle) {
  const Stance* stance = stood.standing.stance ? &*stood.standing.stance : nullptr;
  const LimitsReport limits = FindLimits({stood.rig, stance});
  const AxleFrame& frame = stood.rig.axles[axle].frame;
  const Knuckle knuckle = PrepareKnuckle(stood.vehicle.axles[axle], frame);
  const HousingMotion& rest = stood.standing.level[axle];
  const double straight = *SpindleHeading(knuckle, Transform(rest.pose));
  Greatest greatest{0.0, 0.0};
  for (const AxleLimit& limit : limits.bounce[axle]) {
    const double sign = limit.motion == LimitMotion::kBump ? 1.0 : -1.0;
    double end = 0.1;
    for (const LimitHit& hit : limit.hits) {
      if (!hit.at || hit.limit.role != LimitRole::kEndsRows) continue;
      if (std::abs(*hit.at) < 0.3) end = std::abs(*hit.at);
      break;
    }
    HousingMotion here = rest;
    for (double at = 0.0; at < end;) {
      at = std::min(at + 0.01, end);
      const double z = rest.pose.z + sign * at;
      here = EvaluateMotion(frame, MovePose(frame, here, z, rest.pose.roll).pose);
      const double heading = *SpindleHeading(knuckle, Transform(here.pose));
      greatest.steer = std::max(greatest.steer, std::abs(heading - straight));
      greatest.lateral = std::max(greatest.lateral, std::abs(here.pose.y - rest.pose.y));
    }
  }
  return greatest;
}

TEST_P(TurnOrders, ATrackBarMovedAsToldDoesWhatItsRowSays) {
  const Stood before(Read(GetParam()));
  for (const size_t axle : AxlesOf(before.vehicle)) {
    const auto match = MatchBar(before.rig, before.standing, axle);
    if (!match) continue;
    const Pose& rest = before.standing.level[axle].pose;
    for (const BarMove& move :
         MoveBar(before.rig, before.standing, before.FirstLoad(), axle, match->link)) {
      SCOPED_TRACE(static_cast<int>(move.kind));
      Vehicle moved = before.vehicle;
      Span& span = moved.axles[axle].links[match->link].span;
      (move.kind == BarMoveKind::kAxleEndToMatch ? span.p_CQ : span.p_CP) = move.p_C;
      Stood after(moved);
      after.Turn(axle, {match->link}, move.length - MeasuredLength(span));
      EXPECT_NEAR(after.standing.level[axle].pose.y, rest.y, 1e-5);
      const Axle& part = after.vehicle.axles[axle];
      const AxleFrame& frame = after.rig.axles[axle].frame;
      const auto held =
          SteerOf(part, frame, PrepareKnuckle(part, frame), after.standing.level[axle]);
      ASSERT_TRUE(held);
      EXPECT_NEAR(held->per_height, move.steer_rate, 1e-5);
      if (move.kind == BarMoveKind::kFrameEndNoSteer) {
        EXPECT_NEAR(held->per_height, 0.0, 1e-5);
      }
      const auto [steer, lateral] = GreatestOnOwnTravel(after, axle);
      EXPECT_NEAR(steer, move.steer_most, 1e-5);
      EXPECT_NEAR(lateral, move.lateral_most, 1e-5);
      if (move.kind != BarMoveKind::kFrameEndToMatch && move.kind != BarMoveKind::kAxleEndToMatch) {
        continue;
      }
      const auto now = MatchBar(after.rig, after.standing, axle);
      ASSERT_TRUE(now);
      EXPECT_TRUE(now->same_hand);
      EXPECT_NEAR(now->bar_slope, now->drag_slope, 1e-4);  // [rad] the drag link moved by 1e-5 m
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Fixtures, TurnOrders, ::testing::ValuesIn(UnlikeVehicles()),
                         [](const auto& vehicle) { return vehicle.param; });

// The same over shafts to one side, out of angle, with turned yokes, double joints and a bearing.
TEST(ShaftOrders64And65, HoldOverManyShafts) {
  const Vehicle van = Read("harbour_van");
  size_t rows = 0, none = 0;
  const auto judge = [&](const Vehicle& vehicle) {
    const Stood stood(vehicle);
    ExpectTheLeastNetAngle(stood);
    ExpectRowsKeepTheirPromise(stood);
    const ShaftReport report = stood.Shafts().front();
    rows += report.cures.size();
    none += report.no_cure.size();
  };
  for (const double aside : {-0.08, 0.03}) {
    for (const double output : {-6.0, 3.0}) {
      for (const double pinion : {-2.0, 4.0, 9.0}) {
        SCOPED_TRACE(::testing::Message() << aside << " " << output << " " << pinion);
        Vehicle changed = van;
        Driveshaft& shaft = changed.driveshafts[0];
        shaft.p_CO.y() = aside;
        shaft.output_angle = output * kDegree;
        changed.axles[kRear].pinion->angle = pinion * kDegree;
        judge(changed);
        shaft.phase = aside > 0.0 ? 0.3 : 0.5 * M_PI;
        judge(changed);
        shaft.phase = 0.0;
        changed.axles[kRear].links[0].thread = changed.axles[kRear].links[1].thread = 0.002;
        if (aside > 0.0) {
          shaft.output_joint = JointKind::kDouble;
          shaft.pinion_low = 1.5 * kDegree;
        } else {
          shaft.center_bearing = CenterBearing{.p_CB = {-1.6, -0.03, 0.44}};
        }
        judge(changed);
      }
    }
  }
  EXPECT_GT(rows, 20U);
  EXPECT_GT(none, 10U);  // the shop's limits have a say
}

// By its closed form: joint vectors cancel where they are opposite or alike, and here the plan
// parts are opposite, so that the pinion has to come parallel to the output. That asks for more
// turn than the other way round, which leaves more than there was.
TEST(ShaftToOneSide, IsToldTheTurnThatLowersItsNetAngle) {
  const Stood stood(Read("harbour_van_shaft_offset"));
  const ShaftReport report = stood.Shafts().front();
  ASSERT_TRUE(report.aim);
  EXPECT_NEAR(AtRest(report).net_angle, 3.13 * kDegree, 0.01 * kDegree);
  EXPECT_NEAR(NetWithAngle(stood, 0, 0.69 * kDegree), 3.76 * kDegree, 0.01 * kDegree);
  EXPECT_NEAR(NetWithAngle(stood, 0, -1.31 * kDegree), 1.23 * kDegree, 0.01 * kDegree);
  EXPECT_LT(report.aim->turn, -1.31 * kDegree);
  EXPECT_LT(report.aim->least, 0.2 * kDegree);
  const DriveshaftLine line = stood.Line(0);
  const JointParts apart = PartsOf(line.chain.along.front(), line.chain.along.back());
  EXPECT_NEAR(report.aim->turn, apart.side, 0.02 * kDegree);  // parallel in side view
  EXPECT_EQ(report.cures.size(), 2U);
}

}  // namespace
}  // namespace linkwright::check
