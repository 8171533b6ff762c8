// SPDX-License-Identifier: MIT
#include "solver/study/file/check.h"

#include <cmath>

#include "solver/model/arms_kept.h"
#include "solver/model/masses.h"
#include "solver/model/twins.h"
#include "solver/pose/fit_links.h"

namespace linkwright {
namespace {

void AddMismatch(std::vector<Mismatch>& to, size_t axle, const std::string& what,
                 const Eigen::Vector3d& left, const Eigen::Vector3d& right, double most) {
  const double distance = ApartMirrored(left, right);
  if (distance > most) to.push_back({axle, what, distance});
}

// Members given one by one whose names differ in "left" and "right" only are meant as twins.
template <typename Member>
void AddTwins(std::vector<Mismatch>& to, size_t axle, const std::vector<Member>& members,
              double most) {
  for (size_t i = 0; i < members.size(); ++i) {
    const std::optional<size_t> twin = TwinOf(members, i);
    if (!twin) continue;
    const Span &left = members[i].span, &right = members[*twin].span;
    const std::string name = DisplayName(members[i].name) + " and right, ";
    AddMismatch(to, axle, name + "frame end", left.p_CP, right.p_CP, most);
    AddMismatch(to, axle, name + "axle end", left.p_CQ, right.p_CQ, most);
  }
}

void AddMismatches(const Vehicle& vehicle, std::vector<Mismatch>& to) {
  const double most = vehicle.aims.mirror;
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    AddMismatch(to, i, "wheel centres", axle.p_CW_l, axle.p_CW_r, most);
    AddTwins(to, i, axle.links, most);
    AddTwins(to, i, axle.springs, most);
    AddTwins(to, i, axle.bump_stops, most);
    AddTwins(to, i, axle.dampers, most);
    AddTwins(to, i, axle.straps, most);
  }
}

//   X_CA   where the arms hold the housing at its measured height
void AddCoils(const Axle& axle, size_t index, const AxleFrame& frame, const Eigen::Isometry3d& X_CA,
              std::vector<CoilCheck>& to) {
  for (const Spring& spring : axle.springs) {
    // A weighed free length that could not be worked out: the links leave the axle free.
    const bool law_unknown = spring.weighed && spring.law.free_length == 0.0;
    const double length = LengthAt(spring.span, frame, X_CA);
    const LawState law = Evaluate(spring.law, length);
    CoilCheck coil{.axle = index,
                   .member = DisplayName(spring.name),
                   .length = length,
                   .free_length = spring.law.free_length,
                   .force = law.force,
                   .rate = law_unknown ? spring.law.rate : law.rate,
                   .to_solid = std::nullopt};
    if (law_unknown) coil.free_length = coil.force = std::nullopt;
    const std::optional<double> bound = BoundLength(spring);
    if (bound) coil.to_solid = length - *bound;
    to.push_back(coil);
  }
}

// By virtual work in bounce, so that inclined coils and turning housings count as they should.
WeightCheck CheckWeight(const Vehicle& vehicle, size_t index, const AxleFrame& frame,
                        const Pose& at) {
  const Axle& axle = vehicle.axles[index];
  const HousingMotion motion = EvaluateMotion(frame, at);
  const AxleEnergy energy = StoredEnergy(axle, frame, PreparePushers(axle, frame), motion);
  const double unsprung = axle.unsprung ? axle.unsprung->mass : 0.0;
  WeightCheck check{.by_coils = energy.springs.z / kStandardGravity + unsprung,
                    .by_scales = std::nullopt,
                    .tire_height = std::nullopt,
                    .measured_height = frame.measured.z - vehicle.floor_z};
  if (vehicle.ledger) {
    check.by_scales = vehicle.ledger->weighed[2 * index] + vehicle.ledger->weighed[2 * index + 1];
  }
  if (axle.tire.rate && axle.tire.radius) {
    const double mass = check.by_scales.value_or(check.by_coils);
    check.tire_height = *axle.tire.radius - 0.5 * mass * kStandardGravity / *axle.tire.rate;
  }
  return check;
}

}  // namespace

CheckReport CheckVehicle(const Vehicle& vehicle) {
  CheckReport report;
  for (const size_t i : AxlesOf(vehicle)) {
    const Axle& axle = vehicle.axles[i];
    AxleFrame frame = PrepareAxle(axle);
    report.axles[i].links = frame.links.size();
    const FittedPose fitted = MeasuredPose(axle, frame);
    if (!fitted.pose) frame = PrepareAxle(WithArmsAsPoints(axle));  // arms as their holes have them
    const Pose at = fitted.pose.value_or(frame.measured);
    report.axles[i].freedom = AnalyseFreedom(frame, at);
    report.axles[i].moved = {.x = at.x - frame.measured.x,
                             .y = at.y - frame.measured.y,
                             .steer = at.steer - frame.measured.steer,
                             .pitch = at.pitch - frame.measured.pitch,
                             .z = 0.0,
                             .roll = 0.0};
    for (ArmAt& arm : ArmsAt(axle, frame, at)) report.arms.push_back({i, std::move(arm)});
    AddCoils(axle, i, frame, Transform(at), report.coils);
    const bool located = report.axles[i].freedom.free.empty();
    if (!IsGeometryOnly(vehicle) && located && !axle.springs.empty()) {
      report.axles[i].weight = CheckWeight(vehicle, i, frame, at);
    }
  }
  AddMismatches(vehicle, report.mismatches);
  return report;
}

}  // namespace linkwright
