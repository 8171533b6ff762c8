// SPDX-License-Identifier: MIT
#include "tests/support/vehicles.h"

namespace linkwright::sample {

Eigen::Vector3d Mirrored(const Eigen::Vector3d& p) { return {p.x(), -p.y(), p.z()}; }

void AddPair(std::vector<Link>& links, const std::string& key, const Eigen::Vector3d& p_CP,
             const Eigen::Vector3d& p_CQ, double rate) {
  links.push_back({{key, Side::kLeft}, {p_CP, p_CQ}, rate});
  links.push_back({{key, Side::kRight}, {Mirrored(p_CP), Mirrored(p_CQ)}, rate});
}

void AddSingle(std::vector<Link>& links, const std::string& key, const Eigen::Vector3d& p_CP,
               const Eigen::Vector3d& p_CQ, double rate) {
  links.push_back({{key, Side::kMiddle}, {p_CP, p_CQ}, rate});
}

Axle BareAxle(const std::string& name, double x, double half_track, double z) {
  Axle axle{};
  axle.name = name;
  axle.p_CW_l = {x, half_track, z};
  axle.p_CW_r = {x, -half_track, z};
  return axle;
}

Axle EqualParallelLinks(double a, double b) {
  Axle axle = BareAxle("rear", 0.0, 0.75, 0.35);
  AddPair(axle.links, "lower arm", {a, 0.45, 0.30}, {0.0, 0.45, 0.30});
  AddSingle(axle.links, "upper arm", {a, 0.10, 0.55}, {0.0, 0.10, 0.55});
  AddSingle(axle.links, "track bar", {-0.10, -0.5 * b, 0.40}, {-0.10, 0.5 * b, 0.40});
  return axle;
}

Axle TriangulatedRear() {
  Axle axle = BareAxle("rear", 0.0, 30.0 * kInch, 13.0 * kInch);
  AddPair(axle.links, "upper arm", kInch * Eigen::Vector3d(18.0, 16.0, 19.0),
          kInch * Eigen::Vector3d(0.0, 3.0, 20.0));
  AddPair(axle.links, "lower arm", kInch * Eigen::Vector3d(24.0, 18.0, 12.0),
          kInch * Eigen::Vector3d(0.0, 20.0, 10.0));
  return axle;
}

Axle ThreeLinkTrackBar() {
  Axle axle = BareAxle("rear", 0.0, 0.74, 0.36);
  AddSingle(axle.links, "lower arm left", {0.62, 0.43, 0.39}, {0.03, 0.46, 0.29});
  AddSingle(axle.links, "lower arm right", {0.60, -0.41, 0.40}, {0.02, -0.47, 0.30});
  AddSingle(axle.links, "upper arm", {0.47, 0.15, 0.53}, {-0.01, 0.18, 0.51});
  AddSingle(axle.links, "track bar", {-0.11, 0.45, 0.50}, {-0.12, -0.43, 0.43});
  return axle;
}

Axle FourArmsTrackBar(double bar_rate) {
  Axle axle = BareAxle("rear", 0.0, 0.745, 0.363);
  AddPair(axle.links, "lower arm", {0.635, 0.430, 0.395}, {0.04, 0.465, 0.300});
  AddPair(axle.links, "upper arm", {0.500, 0.345, 0.545}, {0.02, 0.330, 0.515});
  AddSingle(axle.links, "track bar", {-0.11, 0.455, 0.505}, {-0.12, -0.440, 0.440}, bar_rate);
  return axle;
}

}  // namespace linkwright::sample
