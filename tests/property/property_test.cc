// SPDX-License-Identifier: MIT
// Properties over random vehicles: links, masses and loads anywhere a shop might put them.
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>

#include "solver/model/masses.h"
#include "solver/rest/ride.h"
#include "solver/rest/settle.h"
#include "solver/study/curves/sweep.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr double kHeightTol =
    1e-8;  // [m, rad] a rest is found to 1e-12 m on 1e5 N/m; times a condition
constexpr double kForceTol = 1e-4;  // [N] 1e-9 m on 1e5 N/m
constexpr double kHertzTol = 1e-8;  // [Hz]

// A length within +-limit in tenths of a millimetre [m].
double Length(double limit) {
  return 1e-4 *
         *rc::gen::inRange(static_cast<int>(-1e4 * limit), static_cast<int>(1e4 * limit) + 1);
}

Eigen::Vector3d Nudge(double limit) { return {Length(limit), Length(limit), Length(limit)}; }

// A truck whose every link end, seat and mass is somewhere else; the rear axle has four links or
// five.
Vehicle AnyTruck() {
  Vehicle truck = sample::LevelTruck();
  if (*rc::gen::inRange(0, 2) == 1) {
    truck.axles[kRear].links = sample::FourArmsTrackBar(4e5).links;
    for (Link& link : truck.axles[kRear].links) {
      link.span.p_CP.x() -= 2.6;
      link.span.p_CQ.x() -= 2.6;
    }
  }
  for (Axle& axle : truck.axles) {
    for (Link& link : axle.links) link.span.p_CP += Nudge(0.015), link.span.p_CQ += Nudge(0.015);
    for (Spring& spring : axle.springs) {
      spring.span.p_CP += Nudge(0.01);
      spring.law.free_length += MeasuredLength(spring.span) - 0.30;
    }
    axle.unsprung->p_CM += Nudge(0.02);
    axle.bar_roll_rate = 100.0 * *rc::gen::inRange(0, 200);
  }
  truck.sprung->p_CM += Nudge(0.1);
  truck.sprung->pitch_inertia = 1500.0;
  return truck;
}

Load AnyLoad() {
  Load load{"load", {}};
  const int items = *rc::gen::inRange(0, 4);
  for (int i = 0; i < items; ++i) {
    const double mass = 1.0 * *rc::gen::inRange(5, 80);
    load.items.push_back(
        {"item", mass,
         Eigen::Vector3d(-1.3, 0.0, 0.9) + Eigen::Vector3d(Length(1.0), Length(0.4), Length(0.3))});
  }
  return load;
}

struct Rested {
  Rig rig;
  Stance stance;
  Rested(const Vehicle& vehicle, const Load& load)
      : rig(PrepareRig(vehicle)), stance(Settle(rig, load)) {
    RC_ASSERT(stance.status == StanceStatus::kRests);
  }
  [[nodiscard]] double Travel(size_t wheel) const {
    const Travels t = TravelsOf(rig.axles[wheel / 2].frame, stance.motion[wheel / 2].pose);
    return wheel % 2 == 0 ? t.left : t.right;
  }
};

void Close(double a, double b, double tolerance) { RC_ASSERT(std::abs(a - b) <= tolerance); }

// Heave aside, which counts from the datum.
void ExpectSameRest(const Rested& a, const Rested& b, double force_scale = 1.0) {
  Close(Rake(a.stance), Rake(b.stance), kHeightTol);
  Close(Roll(a.stance), Roll(b.stance), kHeightTol);
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    Close(a.Travel(wheel), b.Travel(wheel), kHeightTol);
    Close(force_scale * a.stance.wheel_load[wheel], b.stance.wheel_load[wheel],
          force_scale * kForceTol);
  }
}

void ExpectSameRow(const SweepRow& a, const SweepRow& b) {
  constexpr double kRowTol = 1e-7;  // [m, rad, -] ratios of the heights above, at a metre
  Close(*a.wheelbase, *b.wheelbase, kHeightTol);
  for (size_t i = 0; i < 2; ++i) {
    Close(a.axles[i]->lateral_shift, b.axles[i]->lateral_shift, kHeightTol);
    Close(a.axles[i]->axle_steer, b.axles[i]->axle_steer, kHeightTol);
    Close(a.axles[i]->housing_pitch, b.axles[i]->housing_pitch, kHeightTol);
    Close(*a.axles[i]->roll_center_height, *b.axles[i]->roll_center_height, kRowTol);
    Close(*a.axles[i]->roll_steer, *b.axles[i]->roll_steer, kRowTol);
    Close(*a.axles[i]->anti_drive, *b.axles[i]->anti_drive, kRowTol);
    Close(*a.axles[i]->ride_frequency, *b.axles[i]->ride_frequency, kRowTol);
    Close(*a.axles[i]->rest_frequency, *b.axles[i]->rest_frequency, kRowTol);
  }
}

const SweepOptions kSweep{.from = -0.03, .to = 0.03, .step = 0.015};

void Check(const std::string& what, const std::function<void()>& property) {
  EXPECT_TRUE(rc::check(what, property));
}

TEST(Property, MovingTheDatumMovesNothingElse) {
  Check("moving the datum", [] {
    const Vehicle truck = AnyTruck();
    const Load load = AnyLoad();
    const Eigen::Vector3d shift = Nudge(3.0);
    Vehicle moved = sample::FromAnotherDatum(truck, shift);
    Load moved_load = load;
    for (Mass& item : moved_load.items) item.p_CM += shift;
    const Rested a(truck, load), b(moved, moved_load);
    ExpectSameRest(a, b);
    const Sweep one = SweepBounce({a.rig, &a.stance}, kSweep),
                other = SweepBounce({b.rig, &b.stance}, kSweep);
    RC_ASSERT(one.rows.size() == other.rows.size());
    for (size_t i = 0; i < one.rows.size(); ++i) ExpectSameRow(one.rows[i], other.rows[i]);
  });
}

TEST(Property, MirrorImageRestsAsTheMirrorImage) {
  Check("mirroring left to right", [] {
    const Vehicle truck = AnyTruck();
    const Load load = AnyLoad();
    Load mirrored = load;
    for (Mass& item : mirrored.items) item.p_CM = sample::Mirrored(item.p_CM);
    const Vehicle image = sample::MirrorImage(truck);
    const Rested a(truck, load), b(image, mirrored);
    Close(Rake(a.stance), Rake(b.stance), kHeightTol);
    Close(Roll(a.stance), -Roll(b.stance), kHeightTol);
    for (size_t wheel = 0; wheel < 4; ++wheel) {
      const size_t twin = wheel ^ 1u;
      Close(a.Travel(wheel), b.Travel(twin), kHeightTol);
      Close(a.stance.wheel_load[wheel], b.stance.wheel_load[twin], kForceTol);
    }
    const Sweep one = SweepBounce({a.rig, &a.stance}, kSweep),
                other = SweepBounce({b.rig, &b.stance}, kSweep);
    RC_ASSERT(one.rows.size() == other.rows.size());
    for (size_t i = 0; i < one.rows.size(); ++i) {
      for (size_t k = 0; k < 2; ++k) {
        Close(one.rows[i].axles[k]->lateral_shift, -other.rows[i].axles[k]->lateral_shift,
              kHeightTol);
        Close(one.rows[i].axles[k]->axle_steer, -other.rows[i].axles[k]->axle_steer, kHeightTol);
        Close(one.rows[i].axles[k]->housing_pitch, other.rows[i].axles[k]->housing_pitch,
              kHeightTol);
        Close(*one.rows[i].axles[k]->roll_steer, *other.rows[i].axles[k]->roll_steer, 1e-7);
      }
    }
  });
}

TEST(Property, TwiceTheItemsAreTwiceTheMasses) {
  Check("doubling a load", [] {
    const Vehicle truck = AnyTruck();
    const Load load = AnyLoad();
    Load twice = load, heavy = load;
    twice.items.insert(twice.items.end(), load.items.begin(), load.items.end());
    for (Mass& item : heavy.items) item.mass *= 2.0;
    const Rested a(truck, twice), b(truck, heavy);
    ExpectSameRest(a, b);
    Close(*a.stance.sprung.pitch_inertia, *b.stance.sprung.pitch_inertia, 1e-8);
  });
}

TEST(Property, OrderOfMembersDoesNotMatter) {
  Check("reordering members", [] {
    const Vehicle truck = AnyTruck();
    const Load load = AnyLoad();
    Vehicle other = truck;
    for (Axle& axle : other.axles) {
      const auto turn =
          static_cast<std::ptrdiff_t>(*rc::gen::inRange<size_t>(0, axle.links.size()));
      std::rotate(axle.links.begin(), axle.links.begin() + turn, axle.links.end());
      std::swap(axle.links[0], axle.links[*rc::gen::inRange<size_t>(0, axle.links.size())]);
      std::reverse(axle.springs.begin(), axle.springs.end());
    }
    const Rested a(truck, load), b(other, load);
    ExpectSameRest(a, b);
    Close(a.stance.heave, b.stance.heave, kHeightTol);
  });
}

TEST(Property, TwiceEveryMassOnTwiceEveryRateStandsAndRidesTheSame) {
  Check("doubling masses and rates", [] {
    const Vehicle truck = AnyTruck();
    const Load load = AnyLoad();
    Vehicle stout = truck;
    Load heavy = load;
    stout.sprung->mass *= 2.0;
    *stout.sprung->pitch_inertia *= 2.0;
    for (Mass& item : heavy.items) item.mass *= 2.0;
    for (Axle& axle : stout.axles) {
      axle.unsprung->mass *= 2.0;
      *axle.tire.rate *= 2.0;
      *axle.bar_roll_rate *= 2.0;
      for (Link& link : axle.links) link.rate *= 2.0;
      for (Spring& spring : axle.springs) spring.law.rate *= 2.0;
    }
    const Rested a(truck, load), b(stout, heavy);
    ExpectSameRest(a, b, 2.0);
    const Sweep one = SweepBounce({a.rig, &a.stance}, kSweep),
                other = SweepBounce({b.rig, &b.stance}, kSweep);
    for (size_t i = 0; i < one.rows.size(); ++i) {
      for (size_t k = 0; k < 2; ++k) {
        Close(*one.rows[i].axles[k]->ride_frequency, *other.rows[i].axles[k]->ride_frequency,
              kHertzTol);
        Close(*one.rows[i].axles[k]->rest_frequency, *other.rows[i].axles[k]->rest_frequency,
              kHertzTol);
      }
    }
  });
}

// Halves of a sweep are the whole, and a walk back is the walk there read backward.
TEST(Property, ReversingASweepGivesTheSameRows) {
  Check("reversing a sweep", [] {
    const Vehicle truck = AnyTruck();
    const Rested a(truck, AnyLoad());
    const Sweep whole = SweepBounce({a.rig, &a.stance}, kSweep);
    const Sweep lower = SweepBounce({a.rig, &a.stance}, {.from = -0.03, .to = 0.0, .step = 0.015});
    const Sweep upper = SweepBounce({a.rig, &a.stance}, {.from = 0.0, .to = 0.03, .step = 0.015});
    RC_ASSERT(whole.rows.size() == 5u);
    for (size_t i = 0; i < 3; ++i) {
      ExpectSameRow(whole.rows[i], lower.rows[i]);
      ExpectSameRow(whole.rows[i + 2], upper.rows[i]);
    }
    for (size_t k = 0; k < 2; ++k) {
      const AxleFrame& frame = a.rig.axles[k].frame;
      HousingMotion here = a.rig.axles[k].measured;
      std::vector<Pose> there;
      for (const double t : {-0.05, 0.0, 0.05, 0.10}) {
        here = EvaluateMotion(frame, MovePose(frame, here, frame.measured.z + t, 0.02).pose);
        there.push_back(here.pose);
      }
      for (auto pose = there.rbegin(); pose != there.rend(); ++pose) {
        here = EvaluateMotion(frame, MovePose(frame, here, pose->z, pose->roll).pose);
        Close(here.pose.x, pose->x, 1e-11);
        Close(here.pose.y, pose->y, 1e-11);
        Close(here.pose.steer, pose->steer, 1e-11);
        Close(here.pose.pitch, pose->pitch, 1e-11);
      }
    }
  });
}

}  // namespace
}  // namespace linkwright
