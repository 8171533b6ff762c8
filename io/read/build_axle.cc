// SPDX-License-Identifier: MIT
#include "io/read/build_vehicle.h"
#include "io/read/mirrored.h"
#include "io/read/values.h"
#include "solver/model/force_law.h"

namespace linkwright {

void Complete(const Node& map, Axle& axle) {
  if (Find(map, "wheel_center_right") == nullptr) axle.p_CW_r = Mirrored(axle.p_CW_l);
}

void Complete(const Node& map, AArm& arm) {
  if (Find(map, "second_eye") == nullptr) arm.p_CP[1] = Mirrored(arm.p_CP[0]);
}

void Complete(const Node& map, WattsLink& watt) {
  watt.axis = Eigen::Vector3d::UnitX();
  if (const auto bolt = PointAt(map, "bolt")) watt.axis = *bolt - watt.pivot;
}

// The free length of a weighed one is worked out once the whole vehicle is known
// (ResolveWeighedLengths).
void Complete(const Node& map, Spring& spring) {
  if (spring.wire) spring.law.rate = HelicalRate(*spring.wire);
  spring.weighed = TextAt(map, "free_length") == "weighed";
}

void Complete(const Node& map, TieRod& rod) {
  if (Find(map, "right") == nullptr) rod.p_CR = Mirrored(rod.p_CL);
}

}  // namespace linkwright
