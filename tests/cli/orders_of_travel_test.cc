// SPDX-License-Identifier: MIT
// Every order of `limits` and every plan of `openings`, carried out by hand on every fixture
// vehicle: what was promised is so.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <memory>

#include "io/read/vehicle_file.h"
#include "solver/model/masses.h"
#include "solver/rest/settle.h"
#include "solver/study/openings/centring.h"
#include "solver/study/openings/openings.h"
#include "solver/study/travel/travel_parts.h"
#include "solver/study/walk/paths.h"
#include "tests/cli/program.h"

namespace linkwright::check {
namespace {

// A vehicle standing under a load, or as measured where the file has no masses.
struct Standing {
  Vehicle vehicle;
  Rig rig;
  std::optional<Stance> rest;
  Standing(const Vehicle& given, const Load* load) : vehicle(given), rig(PrepareRig(vehicle)) {
    if (load != nullptr) rest = Settle(rig, *load);
  }
  Standing(const Standing&) = delete;  // the rig refers to the vehicle here
  Standing& operator=(const Standing&) = delete;
  [[nodiscard]] const Stance* stance() const { return rest ? &*rest : nullptr; }
  [[nodiscard]] bool Rests() const { return !rest || rest->status == StanceStatus::kRests; }
};

// The loads to stand under: each of the file, or none where it has no masses.
std::vector<const Load*> LoadsOf(const Vehicle& vehicle) {
  if (IsGeometryOnly(vehicle)) return {nullptr};
  std::vector<const Load*> loads;
  for (const Load& load : vehicle.loads) loads.push_back(&load);
  return loads;
}

// A damper at hand that will do, where it is or on a tab elsewhere.
bool DoesAtHand(const PartsAdvice& advice) {
  return std::any_of(advice.dampers.begin(), advice.dampers.end(), [](const DamperAdvice& each) {
    return each.fit == DamperFit::kFits || each.fit == DamperFit::kMoveTab;
  });
}

class TravelOrders : public testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    const std::filesystem::path folder =
        std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "fixtures" / "vehicles";
    vehicle = ReadVehicleFile((folder / (GetParam() + ".yaml")).string()).vehicle;
  }
  Vehicle vehicle;
};

// How the dampers of the advice are had: ordered, or those at hand on a tab elsewhere.
enum class Dampers { kOrdered, kAtHand };

// The parts bought and fitted; a member that nothing is advised for stays.
Vehicle Fitted(const Vehicle& vehicle, const PartsAdvice& advice, Dampers dampers) {
  Vehicle fitted = vehicle;
  for (const StopAdvice& each : advice.stops) {
    for (Stop& stop : fitted.axles[each.axle].bump_stops) {
      if (DisplayName(stop.name) == each.member && each.height) {
        stop.law.free_length = *each.height;
      }
    }
  }
  for (const StrapAdvice& each : advice.straps) {
    Axle& axle = fitted.axles[each.axle];
    if (each.beside_damper) {
      axle.straps.push_back({{"new " + each.member, Side::kMiddle}, each.span, each.length});
    }
    for (Strap& strap : axle.straps) {
      if (DisplayName(strap.name) == each.member) strap.length = each.length;
    }
  }
  for (const DamperAdvice& each : advice.dampers) {
    for (Damper& damper : fitted.axles[each.axle].dampers) {
      if (DisplayName(damper.name) != each.member) continue;
      if (dampers == Dampers::kOrdered) {
        damper.shortest = each.closed, damper.longest = each.open;
      } else if (each.p_CP) {
        damper.span.p_CP = *each.p_CP;
      }
    }
  }
  return fitted;
}

// The soonest thing in the way of one travel.
const InTheWay* Soonest(const PartsAdvice& advice, size_t axle, LimitMotion motion) {
  const InTheWay* soonest = nullptr;
  for (const InTheWay& each : advice.in_the_way) {
    if (each.axle != axle || each.motion != motion) continue;
    if (soonest == nullptr || std::abs(each.at) < std::abs(soonest->at)) soonest = &each;
  }
  return soonest;
}

// The parts end both wheels' travel where it was wanted, or what was named ends it before.
void ExpectTravel(const PartsAdvice& advice, const LimitsReport& then, size_t axle, size_t way,
                  bool has_part) {
  const auto& wanted = way == 0 ? advice.wanted[axle].bump : advice.wanted[axle].droop;
  if (!wanted) return;
  const AxleLimit& limit = then.bounce[axle][way];
  const InTheWay* before =
      Soonest(advice, axle, way == 0 ? LimitMotion::kBump : LimitMotion::kDroop);
  constexpr double kThere = 2e-6;  // [m] what is in the way by less than 1e-6 is not told
  const double promised = before ? std::abs(before->at) : *wanted;
  const bool past_seat = way == 0 && std::any_of(advice.stops.begin(), advice.stops.end(),
                                                 [axle](const StopAdvice& stop) {
                                                   return stop.axle == axle && stop.solid <= 0.0;
                                                 });
  if (past_seat) return;  // told: no stop is short enough
  SCOPED_TRACE(testing::Message() << "axle " << axle << (way == 0 ? " bump" : " droop"));
  if (!before && !has_part) {
    if (limit.ended_by) {
      EXPECT_GE(std::abs(limit.parameter), promised - kThere);
    }
    return;
  }
  ASSERT_TRUE(limit.ended_by);
  EXPECT_NEAR(std::abs(limit.parameter), promised, kThere)
      << limit.hits[*limit.ended_by].limit.name;
  // Dampers are ordered where both ends are wanted; else the one there is as it was.
  const bool ordered = std::any_of(advice.dampers.begin(), advice.dampers.end(),
                                   [axle](const DamperAdvice& each) { return each.axle == axle; });
  if (!ordered) return;
  const LimitKind end = limit.hits[*limit.ended_by].limit.id.kind;
  EXPECT_TRUE(end != LimitKind::kDamperClosed && end != LimitKind::kDamperOpen);
}

bool IsDamper(LimitKind end) {
  return end == LimitKind::kDamperClosed || end == LimitKind::kDamperOpen;
}

// A damper fitted keeps its reserve at both ends and crossed either way.
void ExpectReserve(const AxleLimit& limit, const std::string& member, double reserve) {
  constexpr double kEdges = 3e-5;  // [m] lengths along an edge between corners, theory (72)
  for (const LimitHit& hit : limit.hits) {
    if (!IsDamper(hit.limit.id.kind) || hit.limit.name != member || !hit.left) continue;
    EXPECT_GE(*hit.left, reserve - kEdges) << member;
  }
}

void ExpectReserves(const PartsAdvice& advice, const LimitsReport& then, double reserve,
                    Dampers dampers) {
  for (const DamperAdvice& each : advice.dampers) {
    const bool promised = dampers == Dampers::kOrdered || each.fit == DamperFit::kFits ||
                          each.fit == DamperFit::kMoveTab;
    if (!promised) continue;
    SCOPED_TRACE(testing::Message() << "axle " << each.axle);
    for (const AxleLimit& limit : then.bounce[each.axle]) {
      ExpectReserve(limit, each.member, reserve);
    }
    for (const CrossedLimit& crossed : then.crossed) {
      ExpectReserve(crossed.axles[each.axle], each.member, reserve);
    }
  }
}

// Told that no stops give the travel from the rest they make: none is ordered then.
bool NoHeightIsFound(const PartsAdvice& advice) {
  return std::any_of(advice.stops.begin(), advice.stops.end(),
                     [](const StopAdvice& stop) { return stop.rest_squeeze && !stop.height; });
}

bool RestsAlike(const Standing& one, const Standing& other) {
  if (!one.rest) return true;
  for (size_t i = 0; i < 2; ++i) {
    const Pose &a = one.rest->motion[i].pose, &b = other.rest->motion[i].pose;
    if (std::abs(a.z - b.z) > 1e-9 || std::abs(a.roll - b.roll) > 1e-9) return false;
  }
  return true;
}

// Where the wheels stand with the parts fitted is what was told.
void ExpectRest(const Standing& before, const Standing& after, const PartsAdvice& advice) {
  if (!advice.rest_moves) return;
  const std::array<double, 2> from = StartOf(before.rig, before.stance()),
                              to = StartOf(after.rig, after.stance());
  for (size_t i = 0; i < 2; ++i) EXPECT_NEAR(to[i] - from[i], (*advice.rest_moves)[i], 1e-7);
}

TEST_P(TravelOrders, OfLimitsGiveTheTravelThatWasPromised) {
  const double reserve = vehicle.aims.damper_reserve;
  int carried_out = 0, no_height = 0;
  std::vector<const Load*> loads = LoadsOf(vehicle);
  if (loads.size() > 2) loads = {loads.front(), loads.back()};
  for (const Load* load : loads) {
    const Standing before(vehicle, load);
    if (!before.Rests()) continue;
    const LimitsReport found = FindLimits({before.rig, before.stance()});
    // Under the last load, often the heaviest, the travel as found alone: each run walks both
    // axles.
    std::vector<TravelWish> wishes{{}};
    if (load == loads.front()) wishes.insert(wishes.end(), {{0.6, {}, {}}, {{}, 0.070, 0.080}});
    for (const TravelWish& wish : wishes) {
      SCOPED_TRACE(testing::Message()
                   << (load ? load->name : "as measured") << ", split " << wish.split.value_or(0)
                   << ", bump " << wish.bump.value_or(0));
      const PartsAdvice advice =
          AdviseParts(before.rig, load, before.stance(), found, wish, reserve);
      for (const Dampers dampers : {Dampers::kOrdered, Dampers::kAtHand}) {
        if (dampers == Dampers::kAtHand && !DoesAtHand(advice)) continue;
        const Standing after(Fitted(vehicle, advice, dampers), load);
        ASSERT_TRUE(after.Rests());
        const LimitsReport then = FindLimits({after.rig, after.stance()});
        ++carried_out;
        EXPECT_EQ(RestsAlike(before, after), !advice.rest_moves);
        ExpectRest(before, after, advice);
        // Once an advice: the dampers at hand do for the same one.
        if (dampers == Dampers::kOrdered) no_height += NoHeightIsFound(advice);
        for (const size_t axle : AxlesOf(vehicle)) {
          if (!advice.reached[axle] || NoHeightIsFound(advice)) continue;
          const auto of_axle = [axle](const auto& each) { return each.axle == axle; };
          if (dampers == Dampers::kAtHand) continue;  // one too short ends travel, as is said
          ExpectTravel(advice, then, axle, 0,
                       std::any_of(advice.stops.begin(), advice.stops.end(),
                                   [&](const auto& s) { return of_axle(s) && s.height; }));
          ExpectTravel(advice, then, axle, 1,
                       std::any_of(advice.straps.begin(), advice.straps.end(), of_axle));
        }
        ExpectReserves(advice, then, reserve, dampers);
      }
    }
  }
  EXPECT_GT(carried_out, 0);
  // One vehicle alone stands so low on its foam that 60 percent of its travel cannot be bump.
  EXPECT_EQ(no_height, GetParam() == "fire_patrol" ? 1 : 0);
}

bool IsOfAdvice(LimitKind end) {
  return end == LimitKind::kStopSolid || end == LimitKind::kStrapTaut || IsDamper(end);
}

// What is had over what was wanted, both wheels together, where the parts end it.
std::optional<double> MoreThanWanted(const AxleLimit& limit, const WantedTravel& wanted) {
  const bool bump = limit.motion == LimitMotion::kBump;
  const std::optional<double>& length = bump ? wanted.bump : wanted.droop;
  if (!length || !limit.ended_by) return std::nullopt;
  if (!IsOfAdvice(limit.hits[*limit.ended_by].limit.id.kind)) return std::nullopt;
  return std::abs(limit.parameter) - *length;
}

TEST_P(TravelOrders, OfAllLoadsHoldUnderEveryOne) {
  if (IsGeometryOnly(vehicle)) GTEST_SKIP() << "no loads";
  constexpr double kThere = 2e-6;  // [m] as for one load
  const double reserve = vehicle.aims.damper_reserve;
  std::vector<std::unique_ptr<Standing>> before;
  std::vector<LimitsReport> found;
  std::vector<const Load*> loads;
  for (const Load& load : vehicle.loads) {
    auto standing = std::make_unique<Standing>(vehicle, &load);
    if (!standing->Rests()) continue;
    found.push_back(FindLimits({standing->rig, standing->stance()}));
    before.push_back(std::move(standing));
    loads.push_back(&load);
  }
  std::vector<TravelCase> cases;
  for (size_t c = 0; c < loads.size(); ++c) {
    cases.push_back({.load = loads[c], .stance = before[c]->stance(), .found = &found[c]});
  }
  const Rig& rig = before.front()->rig;
  int carried_out = 0;
  for (const TravelWish& wish : std::vector<TravelWish>{{}, {{}, 0.050, 0.060}}) {
    SCOPED_TRACE(testing::Message() << "bump " << wish.bump.value_or(0));
    const PartsAdvice advice = AdviseParts(rig, cases, wish, reserve);
    ASSERT_EQ(advice.under.size(), loads.size());
    if (NoHeightIsFound(advice)) continue;
    ++carried_out;
    std::array<std::array<std::vector<double>, 2>, 2> more;  // by axle and way, of each load
    for (size_t c = 0; c < loads.size(); ++c) {
      SCOPED_TRACE(loads[c]->name);
      const Standing after(Fitted(vehicle, advice, Dampers::kOrdered), loads[c]);
      ASSERT_TRUE(after.Rests());
      const LimitsReport then = FindLimits({after.rig, after.stance()});
      if (advice.under[c].rest_moves) {
        const std::array<double, 2> from = StartOf(before[c]->rig, before[c]->stance()),
                                    to = StartOf(after.rig, after.stance());
        for (size_t i = 0; i < 2; ++i) {
          EXPECT_NEAR(to[i] - from[i], (*advice.under[c].rest_moves)[i], 1e-7);
        }
      } else {
        EXPECT_TRUE(RestsAlike(*before[c], after));
      }
      ExpectReserves(advice, then, reserve, Dampers::kOrdered);
      for (const size_t axle : AxlesOf(vehicle)) {
        if (!advice.reached[axle]) continue;
        for (size_t way = 0; way < 2; ++way) {
          const AxleLimit& limit = then.bounce[axle][way];
          const auto over = MoreThanWanted(limit, advice.under[c].wanted[axle]);
          if (!over) continue;
          EXPECT_GE(*over, -kThere) << "axle " << axle << (way == 0 ? " bump" : " droop");
          const bool ordered =
              std::any_of(advice.dampers.begin(), advice.dampers.end(),
                          [axle](const DamperAdvice& each) { return each.axle == axle; });
          if (ordered) {
            EXPECT_FALSE(IsDamper(limit.hits[*limit.ended_by].limit.id.kind));
          }
          more[axle][way].push_back(*over);
        }
      }
    }
    // Under the load that decides there is no more than was wanted.
    for (const auto& axle : more) {
      for (const std::vector<double>& way : axle) {
        if (way.size() < loads.size()) continue;
        EXPECT_NEAR(*std::min_element(way.begin(), way.end()), 0.0, kThere);
      }
    }
  }
  EXPECT_GT(carried_out, 0);
}

// The body's way as a person would work it out: its front opening goes ahead and up, its rear one
// up, and how far one is from the other stays.
struct BodyMoved {
  Eigen::Vector2d from, to;  // of the front opening's centre, x and z [m]
  double turn = 0.0;         // + lowers what lies ahead of it [rad]
  [[nodiscard]] Eigen::Vector3d operator()(const Eigen::Vector3d& p) const {
    const double x = p.x() - from.x(), z = p.z() - from.y();
    return {to.x() + std::cos(turn) * x + std::sin(turn) * z, p.y(),
            to.y() - std::sin(turn) * x + std::cos(turn) * z};
  }
};

BodyMoved WayOf(const Vehicle& vehicle, const BodyMove& move) {
  const Opening &front = *vehicle.axles[0].opening, &rear = *vehicle.axles[1].opening;
  BodyMoved body{{front.x, front.z}, {front.x + move.ahead, front.z + move.up_front}};
  const double back = front.x - rear.x, up = rear.z - front.z;
  const double up_then = up + move.up_rear - move.up_front;
  const double back_then = std::sqrt(back * back + up * up - up_then * up_then);
  body.turn = std::atan2(up_then, back_then) - std::atan2(up, back);
  return body;
}

void MoveMass(Mass& item, std::optional<FixedTo> fixed, const BodyMoved& body, double longer) {
  if (fixed == FixedTo::kBody) item.p_CM = body(item.p_CM);
  if (fixed == FixedTo::kRear) item.p_CM.x() -= longer;
}

// The rear axle with everything that holds it, back by a length.
void SetBack(Axle& axle, double by) {
  std::vector<Eigen::Vector3d*> points{&axle.p_CW_l, &axle.p_CW_r};
  const auto add = [&](auto&... each) { (points.push_back(&each), ...); };
  const auto spans = [&](auto& members) {
    for (auto& member : members) add(member.span.p_CP, member.span.p_CQ);
  };
  spans(axle.links), spans(axle.springs), spans(axle.bump_stops), spans(axle.dampers);
  spans(axle.straps);
  for (AArm& arm : axle.a_arms) add(arm.p_CP[0], arm.p_CP[1], arm.p_CQ);
  for (RadiusArm& arm : axle.radius_arms) add(arm.p_CP, arm.p_CQ[0], arm.p_CQ[1]);
  for (WattsLink& each : axle.watts_links) {
    add(each.pivot, each.end[0], each.end[1], each.far[0], each.far[1]);
  }
  if (axle.unsprung) add(axle.unsprung->p_CM);
  if (axle.pinion) add(axle.pinion->p_CY);
  if (axle.kingpin && axle.kingpin->p_CK) add(*axle.kingpin->p_CK);
  for (Eigen::Vector3d* point : points) point->x() -= by;
}

// The sprung mass by its items: what says where it belongs goes there, the rest by what it puts on
// each axle.
SprungMass SprungThen(const Vehicle& vehicle, const BodyMoved& body, double longer) {
  SprungMass sprung = FinishedSprungMass(vehicle);
  const auto hub = [&](size_t i) {
    return 0.5 * (vehicle.axles[i].p_CW_l + vehicle.axles[i].p_CW_r).x();
  };
  const double front = hub(0), rear = hub(1);
  Eigen::Vector3d moment = sprung.mass * sprung.p_CM;
  double loose = sprung.mass, loose_x = moment.x();
  for (const Mass& item : vehicle.ledger ? vehicle.ledger->added : std::vector<Mass>{}) {
    if (!item.fixed_to) continue;
    Mass moved = item;
    MoveMass(moved, item.fixed_to, body, longer);
    moment += item.mass * (moved.p_CM - item.p_CM);
    loose -= item.mass, loose_x -= item.mass * item.p_CM.x();
  }
  // On the rear axle as the scales would say, less what it has unsprung.
  double unsprung = 0.0;
  if (vehicle.ledger) {
    for (const Axle& axle : vehicle.axles) {
      loose += axle.unsprung->mass, loose_x += axle.unsprung->mass * axle.unsprung->p_CM.x();
    }
    unsprung = vehicle.axles[1].unsprung->mass;
  }
  const double on_rear = (front * loose - loose_x) / (front - rear) - unsprung;  // [kg]
  moment.x() -= on_rear * longer;
  sprung.p_CM = moment / sprung.mass;
  return sprung;
}

// A plan carried out; the load goes with it.
Vehicle CarriedOut(const Vehicle& vehicle, const BodyMove& move, Load* load) {
  Vehicle built = vehicle;
  const BodyMoved body = WayOf(vehicle, move);
  SetBack(built.axles[1], move.longer);
  for (Axle& axle : built.axles) {
    const Eigen::Vector3d to = body({axle.opening->x, 0.0, axle.opening->z});
    axle.opening->x = to.x(), axle.opening->z = to.z();
  }
  if (load == nullptr) return built;
  built.sprung = SprungThen(vehicle, body, move.longer);
  built.ledger.reset();
  for (Mass& item : load->items) {
    MoveMass(item, item.fixed_to.value_or(FixedTo::kBody), body, move.longer);
  }
  return built;
}

// Hubs against their openings where a vehicle stands, the mean of both wheels.
std::array<Offset, 2> OffsetsOf(const Standing& standing) {
  std::array<Offset, 2> offsets{};
  const AxlePath path =
      PathOf(standing.rig, StartOf(standing.rig, standing.stance()), MotionKind::kBounce);
  for (size_t i = 0; i < 2; ++i) {
    const Pose pose = StartMotion(standing.rig, i, path).pose;
    const Opening& opening = *standing.vehicle.axles[i].opening;
    offsets[i] = {pose.x - opening.x, pose.z - opening.z};
  }
  return offsets;
}

TEST_P(TravelOrders, OfOpeningsCentreTheWheelsAsPromised) {
  if (!vehicle.axles[0].opening || !vehicle.axles[1].opening) return;  // no plan is made
  constexpr double kThere = 1e-7;  // [m] the plan stops at 1e-9 of its own steps, as Settle does
  for (const Load* load : LoadsOf(vehicle)) {
    if (!Standing(vehicle, load).Rests()) continue;
    for (const double share : {1.0, 0.5, 0.0}) {
      SCOPED_TRACE(testing::Message() << (load ? load->name : "as measured") << ", " << share);
      const CentringPlan plan = Centre(vehicle, load, share);
      ASSERT_TRUE(plan.found) << plan.message;
      Load moved = load ? *load : Load{};
      const Standing after(CarriedOut(vehicle, plan.move, load ? &moved : nullptr),
                           load ? &moved : nullptr);
      ASSERT_TRUE(after.Rests());
      const std::array<Offset, 2> offsets = OffsetsOf(after);
      const double left = 0.5 * (1.0 - share) * (plan.before[1].ahead - plan.before[0].ahead);
      for (size_t i = 0; i < 2; ++i) {
        EXPECT_NEAR(offsets[i].up, 0.0, kThere);
        EXPECT_NEAR(offsets[i].ahead, plan.after[i].ahead, kThere);
        if (share == 1.0) {
          EXPECT_NEAR(offsets[i].ahead, 0.0, kThere);
        }
        if (share == 0.5) {
          EXPECT_NEAR(offsets[i].ahead, i == 0 ? -left : left, 1e-6);
        }
      }
      // What hangs on stands as it was told to lands centred.
      const std::vector<Hanging> told = HangAxles(vehicle, load, plan.move);
      ASSERT_EQ(told.size(), 2U);
      const std::vector<Hanging> hung = HangAxles({after.rig, after.stance()});
      ASSERT_EQ(hung.size(), 2U);
      for (size_t i = 0; i < 2; ++i) {
        EXPECT_NEAR(hung[i].in_opening->ahead, told[i].in_opening->ahead, kThere);
        EXPECT_NEAR(hung[i].in_opening->up, told[i].in_opening->up, kThere);
        EXPECT_NEAR(hung[i].pitch, told[i].pitch, kThere);
      }
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Fixtures, TravelOrders, testing::ValuesIn(UnlikeVehicles()),
                         [](const auto& file) { return file.param; });

}  // namespace
}  // namespace linkwright::check
