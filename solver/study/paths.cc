// SPDX-License-Identifier: MIT
#include "solver/study/paths.h"

namespace linkwright {

double DiagonalTravel(const Rig& rig, const std::array<Pose, 2>& pose) {
  const Travels front = TravelsOf(rig.axles[0].frame, pose[0]);
  const Travels rear = TravelsOf(rig.axles[1].frame, pose[1]);
  return 0.5 * (front.right + rear.left) - 0.5 * (front.left + rear.right);
}

std::array<double, 2> StartOf(const Rig& rig, const Stance* stance) {
  std::array<double, 2> start{0.0, 0.0};
  for (size_t i = 0; i < 2 && stance != nullptr; ++i) {
    start[i] = stance->motion[i].pose.z - rig.axles[i].frame.measured.z;
  }
  return start;
}

AxlePath BouncePath(const Rig& rig, const std::array<double, 2>& start) {
  return {.place =
              [&rig, start](double travel, size_t axle) {
                const Pose& measured = rig.axles[axle].frame.measured;
                return AxlePlace{.z = measured.z + start[axle] + travel, .roll = measured.roll};
              },
          .refuse = {}};
}

}  // namespace linkwright
