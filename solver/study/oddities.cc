// SPDX-License-Identifier: MIT
#include "solver/study/oddities.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

constexpr double kShortest = 0.1;     // [m] no arm or bar on a road vehicle is as short
constexpr double kLongShare = 0.5;    // of the wheelbase
constexpr double kTrackRatio = 1.25;  // front against rear

// Distance in side view, where links reach from the chassis to the axle [m].
double FromAxleLine(const Eigen::Vector3d& p, const Eigen::Vector3d& hub) {
  return std::hypot(p.x() - hub.x(), p.z() - hub.z());
}

void AddBelowFloor(const Vehicle& vehicle, size_t axle, const MemberName& name, const Span& span,
                   std::vector<Oddity>& to) {
  const double lowest = std::min(span.p_CP.z(), span.p_CQ.z()) - vehicle.floor_z;
  if (lowest < 0.0) to.push_back({OddityKind::kBelowFloor, axle, DisplayName(name), lowest});
}

template <typename Member>
void AddAllBelowFloor(const Vehicle& vehicle, size_t axle, const std::vector<Member>& members,
                      std::vector<Oddity>& to) {
  for (const Member& member : members) AddBelowFloor(vehicle, axle, member.name, member.span, to);
}

void AddLinks(const Axle& axle, size_t index, double wheelbase, std::vector<Oddity>& to) {
  for (const Link& link : axle.links) {
    const double length = MeasuredLength(link.span);
    const std::string name = DisplayName(link.name);
    if (length < kShortest) to.push_back({OddityKind::kShortLink, index, name, length});
    if (length > kLongShare * wheelbase) to.push_back({OddityKind::kLongLink, index, name, length});
    const double frame = FromAxleLine(link.span.p_CP, axle.p_CW_l);
    const double housing = FromAxleLine(link.span.p_CQ, axle.p_CW_l);
    // A bar across the vehicle has both ends near the axle line: only a reach along it tells.
    if (housing > frame + 0.5 * length) {
      to.push_back({OddityKind::kEndsSwapped, index, name, housing});
    }
  }
}

void AddCoils(const Axle& axle, size_t index, std::vector<Oddity>& to) {
  for (const Spring& spring : axle.springs) {
    const double gap = MeasuredLength(spring.span) - spring.law.free_length;
    if (spring.law.free_length > 0.0 && gap > 0.0) {
      to.push_back({OddityKind::kLooseCoil, index, DisplayName(spring.name), gap});
    }
  }
}

void AddUnsprung(const Vehicle& vehicle, size_t index, std::vector<Oddity>& to) {
  const Axle& axle = vehicle.axles[index];
  if (!vehicle.ledger || !axle.unsprung) return;
  const std::array<double, 4>& scales = vehicle.ledger->weighed;
  const double weighed = scales[2 * index] + scales[2 * index + 1];
  if (axle.unsprung->mass >= weighed) {
    to.push_back({OddityKind::kHeavyUnsprung, index, "", axle.unsprung->mass});
  }
}

}  // namespace

std::vector<Oddity> FindOddities(const Vehicle& vehicle) {
  std::vector<Oddity> oddities;
  const std::array<Axle, 2>& axles = vehicle.axles;
  const double wheelbase = axles[0].p_CW_l.x() - axles[1].p_CW_l.x();
  for (size_t i = 0; i < 2; ++i) {
    AddAllBelowFloor(vehicle, i, axles[i].links, oddities);
    AddAllBelowFloor(vehicle, i, axles[i].springs, oddities);
    AddAllBelowFloor(vehicle, i, axles[i].dampers, oddities);
    AddAllBelowFloor(vehicle, i, axles[i].straps, oddities);
    AddLinks(axles[i], i, wheelbase, oddities);
    AddCoils(axles[i], i, oddities);
    AddUnsprung(vehicle, i, oddities);
  }
  const double front = (axles[0].p_CW_l - axles[0].p_CW_r).norm();
  const double rear = (axles[1].p_CW_l - axles[1].p_CW_r).norm();
  if (std::max(front, rear) > kTrackRatio * std::min(front, rear)) {
    oddities.push_back({OddityKind::kTracksDiffer, front > rear ? size_t{0} : size_t{1}, "",
                        std::max(front, rear)});
  }
  return oddities;
}

}  // namespace linkwright
