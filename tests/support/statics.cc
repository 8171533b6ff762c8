// SPDX-License-Identifier: MIT
#include "tests/support/statics.h"

#include <Eigen/QR>

#include "solver/model/force_law.h"
#include "solver/model/masses.h"
#include "tests/support/cone_by_hand.h"

namespace linkwright::check {
namespace {

using Wrench = Eigen::Matrix<double, 6, 1>;  // force [N], moment about Co [N m], in C

Wrench At(const Eigen::Vector3d& p_C, const Eigen::Vector3d& force) {
  Wrench wrench;
  wrench << force, p_C.cross(force);
  return wrench;
}

// Where a point of a housing has gone, in C.
Eigen::Vector3d Carried(const Rig& rig, const Stance& stance, size_t axle,
                        const Eigen::Vector3d& p_CQ) {
  return Transform(stance.motion[axle].pose) * (rig.axles[axle].frame.X_CA.inverse() * p_CQ);
}

Eigen::Vector3d WheelCentre(const Rig& rig, const Stance& stance, size_t wheel) {
  const Axle& axle = rig.vehicle->axles[wheel / 2];
  return Carried(rig, stance, wheel / 2, wheel % 2 == 0 ? axle.p_CW_l : axle.p_CW_r);
}

Wrench Push(const ForceLaw& law, const Eigen::Vector3d& p_P, const Eigen::Vector3d& p_Q) {
  const Eigen::Vector3d along = p_Q - p_P;
  return At(p_Q, Evaluate(law, along.norm()).force * along.normalized());
}

}  // namespace

Imbalance OfWholeVehicle(const Rig& rig, const Stance& stance) {
  Wrench sum = At(stance.sprung.p_CM, -stance.sprung.mass * kStandardGravity * stance.up_C);
  for (size_t i = 0; i < 2; ++i) {
    const Mass& unsprung = *rig.vehicle->axles[i].unsprung;
    sum +=
        At(Carried(rig, stance, i, unsprung.p_CM), -unsprung.mass * kStandardGravity * stance.up_C);
  }
  for (size_t wheel = 0; wheel < 4; ++wheel) {
    sum += At(WheelCentre(rig, stance, wheel), stance.wheel_load[wheel] * stance.up_C);
  }
  const Eigen::Vector3d x = (Eigen::Vector3d::UnitX() - stance.up_C.x() * stance.up_C).normalized();
  const Eigen::Vector3d y = stance.up_C.cross(x);
  return {sum.head<3>().dot(stance.up_C), sum.tail<3>().dot(x), sum.tail<3>().dot(y)};
}

double LeftOnHousing(const Rig& rig, const Stance& stance, size_t index) {
  const Axle& axle = rig.vehicle->axles[index];
  const auto carried = [&](const Eigen::Vector3d& p) { return Carried(rig, stance, index, p); };
  Wrench known =
      At(carried(axle.unsprung->p_CM), -axle.unsprung->mass * kStandardGravity * stance.up_C);
  for (const Spring& spring : axle.springs) {
    known += Push(spring.law, spring.span.p_CP, carried(spring.span.p_CQ));
  }
  for (const Stop& stop : axle.bump_stops) {
    const ConeByHand cone =
        ConeAt(stop, Transform(stance.motion[index].pose) * rig.axles[index].frame.X_CA.inverse());
    if (cone.on(stop)) known += At(cone.meets, Evaluate(stop.law, cone.length).force * cone.push);
  }
  for (size_t wheel = 2 * index; wheel < 2 * index + 2; ++wheel) {
    known += At(WheelCentre(rig, stance, wheel), stance.wheel_load[wheel] * stance.up_C);
  }
  // A bar whose energy counts housing roll acts about the line that roll turns about: level in C.
  const Pose& pose = stance.motion[index].pose;
  const Eigen::Vector3d level(std::cos(pose.steer), std::sin(pose.steer), 0.0);
  const double wound = pose.roll - rig.axles[index].frame.measured.roll;
  known.tail<3>() -= axle.bar_roll_rate.value_or(0.0) * wound * level;

  Eigen::Matrix<double, 6, 4> links;
  for (int i = 0; i < 4; ++i) {
    const Span& span = axle.links[static_cast<size_t>(i)].span;
    const Eigen::Vector3d p_Q = carried(span.p_CQ);
    links.col(i) = At(p_Q, (p_Q - span.p_CP).normalized());
  }
  const Eigen::Vector4d forces = links.colPivHouseholderQr().solve(-known);
  return (links * forces + known).cwiseAbs().maxCoeff();
}

}  // namespace linkwright::check
