// SPDX-License-Identifier: MIT
// The least gap lock to lock against a plain scan of steer, every hundredth of a degree, on front
// axles with radius arms, whose gap has more than one low place.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "io/read/vehicle_file.h"
#include "solver/geometry/steering.h"
#include "solver/rest/settle.h"
#include "solver/study/openings/openings.h"
#include "solver/study/openings/swept_motion.h"
#include "solver/study/walk/paths.h"

namespace linkwright::check {
namespace {

constexpr double kDegree = M_PI / 180.0;
constexpr double kPromised = 1e-5;  // [m] docs/theory.md (77)

Vehicle Moorland() {
  return ReadVehicleFile((std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "fixtures" / "vehicles" /
                          "moorland_wagon.yaml")
                             .string())
      .vehicle;
}

// One question with the gap at any pose and steer.
struct Asked {
  const Rig& rig;
  TireShape shape;
  Surface surface;
  size_t side;
  [[nodiscard]] double Gap(const Pose& pose, double steer) const {
    const Axle& front = rig.vehicle->axles[0];
    const Eigen::Isometry3d X_CA = Transform(pose);
    const auto turns = TurnInside(front, rig.axles[0].frame, X_CA, steer);
    if (!turns) return 1e3;
    const TireSolid tire = TireAt(front, rig.axles[0].frame, shape, X_CA, side,
                                  side == 0 ? turns->left : turns->right);
    const auto gap = surface == Surface::kLip ? GapToLip(tire, *front.opening, side)
                                              : GapToPanel(tire, *front.opening, side);
    return gap->distance;
  }
};

// The front axle's pose at a parameter, moved there from the stance in one go.
Pose PoseFromRest(const Rig& rig, const AxlePath& path, double s) {
  const AxlePlace place = path.place(s, kFront);
  return MovePose(rig.axles[kFront].frame, StartMotion(rig, kFront, path), place.z, place.roll)
      .pose;
}

struct Row {
  double parameter;
  Pose pose;
};

// Poses evenly from one parameter to another, each found from the stance on.
std::vector<Row> RowsOf(const Rig& rig, const AxlePath& path, double low, double high, int count) {
  std::vector<Row> rows;
  for (int i = 0; i < count; ++i) {
    const double s = count == 1 ? low : low + (high - low) * i / (count - 1);
    rows.push_back({s, PoseFromRest(rig, path, s)});
  }
  return rows;
}

// The least of a plain scan: a coarse one, and every twentieth of a degree about each of its low
// places. Never below the true least, nor above it by what a tyre's curve is over half that step:
// 1e-7 m.
double Scanned(const Asked& asked, const AxlePath& path, double low, double high, double lock) {
  const int rows = high > low ? 25 : 1;
  const int half = static_cast<int>(std::round(lock / (0.5 * kDegree)));
  const int columns = 2 * half + 1;
  const std::vector<Row> coarse = RowsOf(asked.rig, path, low, high, rows);
  const auto steer = [&](int k) { return lock * (k - half) / half; };
  std::vector<std::vector<double>> gap(coarse.size());
  double least = 1e3;
  for (size_t i = 0; i < coarse.size(); ++i) {
    for (int k = 0; k < columns; ++k) gap[i].push_back(asked.Gap(coarse[i].pose, steer(k)));
    least = std::min(least, *std::min_element(gap[i].begin(), gap[i].end()));
  }
  constexpr double kNear = 0.006;  // [m] over half a step a tyre's points move no more
  double best = least;
  for (int i = 0; i < rows; ++i) {
    for (int k = 0; k < columns; ++k) {
      const double here = gap[static_cast<size_t>(i)][static_cast<size_t>(k)];
      bool is_low = here < least + kNear;
      for (int a = std::max(i - 1, 0); a <= std::min(i + 1, rows - 1); ++a) {
        for (int b = std::max(k - 1, 0); b <= std::min(k + 1, columns - 1); ++b) {
          is_low = is_low && here <= gap[static_cast<size_t>(a)][static_cast<size_t>(b)];
        }
      }
      if (!is_low) continue;
      const Row& before = coarse[static_cast<size_t>(std::max(i - 1, 0))];
      const Row& after = coarse[static_cast<size_t>(std::min(i + 1, rows - 1))];
      const double from = steer(std::max(k - 1, 0)), to = steer(std::min(k + 1, columns - 1));
      const int fine = static_cast<int>(std::ceil((to - from) / (0.05 * kDegree)));
      for (const Row& row :
           RowsOf(asked.rig, path, before.parameter, after.parameter, rows == 1 ? 1 : 33)) {
        for (int n = 0; n <= fine; ++n) {
          best = std::min(best, asked.Gap(row.pose, from + (to - from) * n / fine));
        }
      }
    }
  }
  return best;
}

void ExpectNoScanFindsLess(const Vehicle& vehicle, double lock) {
  const Rig rig = PrepareRig(vehicle);
  const Stance stance = Settle(rig, vehicle.loads.front());
  ASSERT_EQ(stance.status, StanceStatus::kRests);
  const Walks walks(rig, &stance);
  const OpeningsReport report = SweepOpenings(walks, lock);
  int asked_of = 0;
  for (const TireClearance& clearance : report.clearances) {
    if (clearance.axle != 0) continue;
    const Asked asked{rig, report.tires[0], clearance.surface, clearance.side};
    for (size_t m = 0; m < kTireMotions.size(); ++m) {
      const SweptMotion swept = SweepTireMotion(walks, kTireMotions[m], clearance.side);
      SCOPED_TRACE(testing::Message() << "side " << clearance.side << ", motion " << m << ", "
                                      << (clearance.surface == Surface::kLip ? "lip" : "panel")
                                      << ", lock " << lock / kDegree);
      ASSERT_TRUE(clearance.turned[m]);
      const NearestTire& told = *clearance.turned[m];
      const double least = told.gap.distance;
      EXPECT_LE(least,
                Scanned(asked, swept.path, swept.range.low, swept.range.high, lock) + kPromised);
      // And it is had where it is said to be.
      const Pose pose = PoseFromRest(rig, swept.path, told.parameter);
      EXPECT_NEAR(asked.Gap(pose, *told.steer), least, 1e-8);
      ++asked_of;
    }
  }
  EXPECT_EQ(asked_of % 10, 0);
  EXPECT_GE(asked_of, 10);
}

TEST(OpeningsScan, OfAWagonWithRadiusArmsFindsNothingNearer) {
  ExpectNoScanFindsLess(Moorland(), 35.0 * kDegree);
}

TEST(OpeningsScan, OfTheSameWithALipAndAPanelFindsNothingNearer) {
  Vehicle wagon = Moorland();
  wagon.axles[0].opening->lip_y = 0.850;
  wagon.axles[0].opening->inner_panel_y = 0.560;
  ExpectNoScanFindsLess(wagon, 33.0 * kDegree);
}

// The front tyre and opening of a wagon otherwise as it is.
Vehicle Refitted(double radius, double width, const Opening& opening) {
  Vehicle wagon = Moorland();
  wagon.axles[0].tire.radius = radius;
  wagon.axles[0].tire.width = width;
  wagon.axles[0].opening = opening;
  return wagon;
}

// Two low places lie side by side here, and the one next to the lowest of samples 5 degrees apart
// is 0.26 mm higher than the other, rolled; or 0.98 mm, in bounce.
TEST(OpeningsScan, OfTwoLowPlacesSideBySideFindsNothingNearer) {
  ExpectNoScanFindsLess(Refitted(0.389, 0.194, {-0.001, 0.418, 0.429, 0.756, {}}), 28.0 * kDegree);
  ExpectNoScanFindsLess(Refitted(0.381, 0.259, {-0.020, 0.402, 0.405, 0.847, {}}), 28.0 * kDegree);
}

}  // namespace
}  // namespace linkwright::check
