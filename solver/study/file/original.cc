// SPDX-License-Identifier: MIT
#include "solver/study/file/original.h"

#include <cmath>

#include "solver/model/error.h"
#include "solver/numeric/roots.h"

namespace linkwright {
namespace {

constexpr int kGuessesEitherWay = 3;

std::optional<LeafPose> PoseAtCamber(const LeafSpring& spring, double camber) {
  const std::optional<double> curvature = CurvatureFor(spring, camber);
  return curvature ? PoseLeaf(spring, *curvature) : std::nullopt;
}

// `key` is where the camber stands in the file.
LeafPose PoseOrThrow(const LeafSpring& spring, double camber, const std::string& axle,
                     const std::string& key) {
  const std::optional<double> curvature = CurvatureFor(spring, camber);
  if (!curvature) {
    throw ModelError({"leaf_original", axle, key},
                     "a leaf of that length cannot be bent so far; is it the height of the string "
                     "over the leaf at the centre bolt?");
  }
  const std::optional<LeafPose> pose = PoseLeaf(spring, *curvature);
  if (pose) return *pose;
  throw ModelError({"leaf_original", axle, key},
                   "with that camber the shackle cannot reach the leaf's eye; take both arcs, the "
                   "shackle's length and both bolts on the frame again");
}

// Camber when new that puts the wheel under x, searched between the ends of what the spring can
// take on either side of the present one.
std::optional<double> CamberFor(const LeafSpring& spring, double x) {
  const auto off = [&](double camber) -> std::optional<double> {
    const std::optional<LeafPose> pose = PoseAtCamber(spring, camber);
    return pose ? std::optional(pose->p_DW.x() - x) : std::nullopt;
  };
  constexpr double kStep = 0.002;  // [m] finer than any camber is read
  constexpr double kFar = 0.4;     // [m] no road spring has more
  constexpr double kMet = 1e-15;   // [m]
  for (int side : {1, -1}) {
    double low = spring.camber_now;
    std::optional<double> at_low = off(low);
    for (double camber = low + side * kStep; std::abs(camber) <= kFar; camber += side * kStep) {
      const std::optional<double> here = off(camber);
      if (!here || !at_low) break;
      if (*here * *at_low > 0.0) {
        low = camber;
        at_low = here;
        continue;
      }
      const double sign = std::copysign(1.0, *at_low);
      const auto signed_off = [&](double at) -> std::optional<double> {
        const std::optional<double> value = off(at);
        return value ? std::optional(sign * *value) : std::nullopt;
      };
      return CloseIn(signed_off, {low, sign * *at_low, camber, sign * *here}, kMet).below;
    }
  }
  return std::nullopt;
}

LeafAxle ReportAxle(const LeafSpring& spring, int axle, const std::string& name, double step) {
  LeafAxle result{.axle = axle,
                  .fresh = PoseOrThrow(spring, spring.camber_new, name, "camber_new"),
                  .now = PoseOrThrow(spring, spring.camber_now, name, "camber_now"),
                  .moved = {},
                  .link_moved = std::nullopt,
                  .guesses = {},
                  .off_opening = std::nullopt,
                  .camber_centred = std::nullopt};
  result.moved = result.now.p_DW - result.fresh.p_DW;
  result.link_moved = LinkRule(spring, result.fresh.curvature, result.now.curvature);
  for (int i = -kGuessesEitherWay; i <= kGuessesEitherWay; ++i) {
    const double camber = spring.camber_new + i * step;
    const std::optional<LeafPose> pose = PoseAtCamber(spring, camber);
    if (pose) result.guesses.push_back({camber, result.now.p_DW - pose->p_DW, pose->p_DW, {}});
  }
  if (spring.p_DB) {
    result.off_opening = result.fresh.p_DW - *spring.p_DB;
    result.camber_centred = CamberFor(spring, spring.p_DB->x());
  }
  return result;
}

LeafWheelbase Between(const Eigen::Vector2d& front, const Eigen::Vector2d& rear) {
  return {front.x() - rear.x(), (front - rear).norm()};
}

// The design wheelbase for each guess of one axle, the other axle as given.
void AddWheelbases(const LeafOriginal& original, OriginalReport& report) {
  for (LeafAxle& axle : report.axles) {
    for (CamberGuess& guess : axle.guesses) {
      if (report.axles.size() == 2) {
        const LeafAxle& other = report.axles[axle.axle == kFront ? 1 : 0];
        guess.wheelbase = (guess.p_DW - other.fresh.p_DW).norm();
      } else if (original.wheelbase_now) {
        const double moved = guess.moved.x();
        guess.wheelbase = *original.wheelbase_now - (axle.axle == kFront ? moved : -moved);
      }
    }
  }
}

}  // namespace

std::optional<double> DesignWheelbase(const OriginalReport& report) {
  return report.fresh.centers ? report.fresh.centers : report.from_measured;
}

OriginalReport ReportOriginal(const Vehicle& vehicle, double camber_step) {
  const LeafOriginal& original = vehicle.leaf_original.value();
  OriginalReport report{};
  for (int axle : {kFront, kRear}) {
    const std::optional<LeafSpring>& spring = original.axles[axle];
    if (!spring) continue;
    report.axles.push_back(ReportAxle(*spring, axle, vehicle.axles[axle].name, camber_step));
    const double moved = report.axles.back().moved.x();
    report.change += axle == kFront ? moved : -moved;
  }
  double hub_change = report.change;
  if (report.axles.size() == 2) {
    report.fresh = Between(report.axles[0].fresh.p_DW, report.axles[1].fresh.p_DW);
    report.now = Between(report.axles[0].now.p_DW, report.axles[1].now.p_DW);
    hub_change = *report.now.centers - *report.fresh.centers;
    if (original.wheelbase_now) report.differs = *report.now.centers - *original.wheelbase_now;
  }
  if (original.wheelbase_now) report.from_measured = *original.wheelbase_now - hub_change;
  AddWheelbases(original, report);
  const std::optional<Opening>& front = vehicle.axles[kFront].opening;
  const std::optional<Opening>& rear = vehicle.axles[kRear].opening;
  if (front && rear) report.spacing = front->x - rear->x;
  return report;
}

}  // namespace linkwright
