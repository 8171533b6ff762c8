// SPDX-License-Identifier: MIT
#include "solver/study/findings/file_findings.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/model/twins.h"
#include "solver/rest/weighed.h"

namespace linkwright {
namespace {

constexpr double kShortest = 0.1;     // [m] no arm or bar on a road vehicle is as short
constexpr double kLongShare = 0.5;    // of the wheelbase
constexpr double kTrackRatio = 1.25;  // front against rear

void Tell(FindingKind kind, size_t axle, const Axle& it, const char* group, const MemberName& name,
          double value, std::vector<Finding>& to) {
  to.push_back({.kind = kind,
                .axle = axle,
                .member = DisplayName(name),
                .twins = name.key,
                .part = {"axles", it.name, group, name.key},
                .value = value});
}

// Distance in side view, where links reach from the chassis to the axle [m].
double FromAxleLine(const Eigen::Vector3d& p, const Eigen::Vector3d& hub) {
  return std::hypot(p.x() - hub.x(), p.z() - hub.z());
}

template <typename Member>
void AddBelowFloor(const Vehicle& vehicle, size_t axle, const char* group,
                   const std::vector<Member>& members, std::vector<Finding>& to) {
  for (const Member& member : members) {
    const Span& span = member.span;
    const double lowest = std::min(span.p_CP.z(), span.p_CQ.z()) - vehicle.floor_z;
    if (lowest > -kTapeShows) continue;
    Tell(FindingKind::kBelowFloor, axle, vehicle.axles[axle], group, member.name, lowest, to);
  }
}

//   wheelbase   absent: one axle alone is there
void AddLinks(const Axle& axle, size_t index, std::optional<double> wheelbase,
              std::vector<Finding>& to) {
  for (const Link& link : axle.links) {
    const double length = LengthOf(link);
    const auto tell = [&](FindingKind kind, double value) {
      Tell(kind, index, axle, "links", link.name, value, to);
    };
    if (length < kShortest) tell(FindingKind::kShortLink, length);
    if (wheelbase && length > kLongShare * *wheelbase) tell(FindingKind::kLongLink, length);
    const double frame = FromAxleLine(link.span.p_CP, axle.p_CW_l);
    const double housing = FromAxleLine(link.span.p_CQ, axle.p_CW_l);
    // A bar across the vehicle has both ends near the axle line: only a reach along it tells.
    if (housing > frame + 0.5 * length) tell(FindingKind::kEndsSwapped, housing);
  }
}

// Between its seats where the arms hold the housing.
void AddLooseCoils(const Axle& axle, size_t index, const std::vector<CoilCheck>& coils,
                   std::vector<Finding>& to) {
  for (const Spring& spring : axle.springs) {
    for (const CoilCheck& coil : coils) {
      if (coil.axle != index || coil.member != DisplayName(spring.name)) continue;
      const double gap = coil.length - coil.free_length.value_or(coil.length);
      if (gap >= kTapeShows)
        Tell(FindingKind::kLooseCoil, index, axle, "springs", spring.name, gap, to);
    }
  }
}

void AddUnsprung(const Vehicle& vehicle, size_t index, std::vector<Finding>& to) {
  const Axle& axle = vehicle.axles[index];
  if (!vehicle.ledger || !axle.unsprung) return;
  const std::array<double, 4>& scales = vehicle.ledger->weighed;
  const double weighed = scales[2 * index] + scales[2 * index + 1];
  if (axle.unsprung->mass < weighed) return;
  to.push_back({.kind = FindingKind::kHeavyUnsprung,
                .axle = index,
                .part = {"axles", axle.name, "unsprung"},
                .value = axle.unsprung->mass});
}

void AddFreedom(const Axle& axle, size_t index, const Freedom& freedom, std::vector<Finding>& to) {
  const std::vector<std::string> part{"axles", axle.name, "links"};
  for (const FreeMotion& motion : freedom.free) {
    to.push_back({.kind = FindingKind::kAxleFree,
                  .axle = index,
                  .twins = motion.words,
                  .part = part,
                  .detail = motion.words});
  }
  for (const FreeMotion& motion : freedom.weak) {
    to.push_back({.kind = FindingKind::kAxleNearlyFree,
                  .axle = index,
                  .twins = motion.words,
                  .part = part,
                  .value = 1.0 / motion.held,
                  .detail = motion.words});
  }
}

// Of both that were weighed each by its own scale; one scale an axle makes them alike.
void AddWeighedPairs(const Vehicle& vehicle, size_t index, std::vector<Finding>& to) {
  const Axle& axle = vehicle.axles[index];
  for (size_t left = 0; left < axle.springs.size(); ++left) {
    const std::optional<size_t> right = TwinOf(axle.springs, left);
    if (!right || !axle.springs[left].weighed || !axle.springs[*right].weighed) continue;
    Finding differ =
        Judged(FindingKind::kCoilsDiffer, index,
               axle.springs[left].law.free_length - axle.springs[*right].law.free_length,
               vehicle.aims.weighed_pair);
    const size_t longer = differ.value > 0.0 ? left : *right;
    const size_t shorter = differ.value > 0.0 ? *right : left;
    differ.member = DisplayName(axle.springs[longer].name);
    differ.detail = DisplayName(axle.springs[shorter].name);
    differ.twins = axle.springs[left].name.key;
    differ.part = {"axles", axle.name, "springs", axle.springs[left].name.key};
    AddIfPast(std::move(differ), to);
  }
}

// The arm that fits its holes worst.
void AddMisfit(const Vehicle& vehicle, size_t index, const std::vector<ArmCheck>& arms,
               std::vector<Finding>& to) {
  constexpr double kAlike = 1e-9;  // [m] of a pair alike the left one is named
  const ArmAt* worst = nullptr;
  std::optional<double> pull;
  for (const ArmCheck& it : arms) {
    if (it.axle != index) continue;
    if (it.arm.strain_force) {
      pull = std::max(pull.value_or(0.0), std::abs(*it.arm.strain_force));
    }
    if (worst == nullptr || std::abs(it.arm.longer) > std::abs(worst->longer) + kAlike) {
      worst = &it.arm;
    }
  }
  if (worst == nullptr) return;
  Finding misfit = Judged(FindingKind::kArmMisfit, index, worst->longer, vehicle.aims.arm_misfit);
  misfit.member = worst->name, misfit.part = worst->part;
  if (worst->part[2] == "links") misfit.detail = "length: fit";
  if (pull) misfit.more = {*pull};
  AddIfPast(std::move(misfit), to);
}

// What arms that do not fit do to the housing's pitch.
void AddArmsPitch(const Vehicle& vehicle, size_t index, double pitch, std::vector<Finding>& to) {
  const Axle& axle = vehicle.axles[index];
  Finding pitched = Judged(FindingKind::kArmsPitch, index, pitch, vehicle.aims.arm_pitch);
  pitched.part = {"axles", axle.name};
  if (axle.pinion) {
    const bool ahead = axle.pinion->p_CY.x() > 0.5 * (axle.p_CW_l.x() + axle.p_CW_r.x());
    pitched.detail = (pitch > 0.0) == ahead ? "up" : "down";
  }
  AddIfPast(std::move(pitched), to);
}

// A given radius against the scales, of the wheel where it is worst; whether it is past its aim.
bool AddRadius(const Vehicle& vehicle, size_t index, std::vector<Finding>& to) {
  const Tire& tire = vehicle.axles[index].tire;
  // A right one of its own is none that was given: the scales made both.
  if (!vehicle.ledger || !tire.rate || !tire.radius || tire.right_radius) return false;
  const std::array<double, 2> radii = RadiiByScales(vehicle, index);
  const std::array<double, 2> over{*tire.radius - radii[0], *tire.radius - radii[1]};
  const size_t side = std::abs(over[1]) > std::abs(over[0]) ? 1 : 0;
  Finding radius = Judged(FindingKind::kTireRadius, index, over[side], vehicle.aims.tire_radius);
  radius.member = side == 0 ? "tyre left" : "tyre right";
  radius.part = {"axles", vehicle.axles[index].name, "tire", "radius"};
  radius.more = {*tire.radius, radii[side]};
  const bool past = radius.past;
  AddIfPast(std::move(radius), to);
  return past;
}

void AddScales(const Vehicle& vehicle, size_t index, const WeightCheck& weight,
               std::vector<Finding>& to) {
  if (weight.by_scales) {
    Finding scales = Judged(FindingKind::kScalesDisagree, index,
                            weight.by_coils / *weight.by_scales - 1.0, vehicle.aims.scales);
    scales.part = {"ledger", "weighed"};
    scales.more = {weight.by_coils, *weight.by_scales};
    to.push_back(std::move(scales));
  }
}

// A wheel measured well above where its tyre would hold it: on stands, or at mock-up height.
void AddHubHeight(const Vehicle& vehicle, size_t index, const WeightCheck& weight,
                  std::vector<Finding>& to) {
  if (!weight.tire_height) return;
  Finding hub = Judged(FindingKind::kHubHeight, index, weight.measured_height - *weight.tire_height,
                       vehicle.aims.hub_height);
  hub.part = {"axles", vehicle.axles[index].name, "wheel_center"};
  hub.more = {weight.measured_height, *weight.tire_height};
  AddIfPast(std::move(hub), to);
}

void AddSquash(const Vehicle& vehicle, size_t index, std::vector<Finding>& to) {
  const Axle& axle = vehicle.axles[index];
  if (!axle.tire.radius) return;
  const double hub = 0.5 * (axle.p_CW_l.z() + axle.p_CW_r.z()) - vehicle.floor_z;
  Finding squash = Judged(FindingKind::kNominalTire, index,
                          (*axle.tire.radius - hub) / *axle.tire.radius, vehicle.aims.tire_squash);
  squash.part = {"axles", axle.name, "tire", "radius"};
  AddIfPast(std::move(squash), to);
}

// Whether the tyres are what was measured. What the scales tell of a radius stands for all of it.
void AddTires(const Vehicle& vehicle, size_t index, const std::optional<WeightCheck>& weight,
              std::vector<Finding>& to) {
  if (vehicle.axles[index].tire.changed || AddRadius(vehicle, index, to)) return;
  if (weight) AddHubHeight(vehicle, index, *weight, to);
  AddSquash(vehicle, index, to);
}

void AddStops(const Vehicle& vehicle, size_t index, std::vector<Finding>& to) {
  const Axle& axle = vehicle.axles[index];
  for (const Stop& stop : axle.bump_stops) {
    if (stop.law.curve.empty()) continue;
    Finding crush =
        Judged(FindingKind::kStopTakenRigid, index,
               stop.law.curve.back().deflection / stop.law.free_length, vehicle.aims.stop_crush);
    crush.member = DisplayName(stop.name), crush.twins = stop.name.key;
    crush.part = {"axles", axle.name, "bump_stops", stop.name.key};
    AddIfPast(std::move(crush), to);
  }
}

// Direction of a link seen from above, of no length where it stands upright.
Eigen::Vector2d FromAbove(const Link& link) { return (link.span.p_CQ - link.span.p_CP).head<2>(); }

bool LiesAcross(const Link& link) {
  const Eigen::Vector2d d = FromAbove(link);
  return std::abs(d.y()) > std::abs(d.x());
}

// Where nothing lies across and no arm or crank holds it sideways, the widest-splayed pair does.
void AddTriangle(const Axle& axle, size_t index, double least, std::vector<Finding>& to) {
  if (!axle.watts_links.empty() || !axle.a_arms.empty() || axle.links.size() < 4) return;
  if (std::any_of(axle.links.begin(), axle.links.end(), LiesAcross)) return;
  double widest = 0.0;
  std::string name;
  for (const Link& left : axle.links) {
    for (const Link& right : axle.links) {
      if (left.name.key != right.name.key || left.name.side != Side::kLeft ||
          right.name.side != Side::kRight) {
        continue;
      }
      const Eigen::Vector2d a = FromAbove(left), b = FromAbove(right);
      const double angle = std::abs(std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b)));
      if (angle > widest) widest = angle, name = left.name.key;
    }
  }
  if (name.empty()) return;
  Finding narrow = Judged(FindingKind::kNarrowTriangle, index, widest, least);
  narrow.member = name, narrow.part = {"axles", axle.name, "links", name};
  AddIfPast(std::move(narrow), to);
}

}  // namespace

std::vector<Finding> FindOddities(const Vehicle& vehicle, const CheckReport& report) {
  std::vector<Finding> oddities;
  const std::array<Axle, 2>& axles = vehicle.axles;
  std::optional<double> wheelbase;
  if (!vehicle.only_axle) wheelbase = axles[0].p_CW_l.x() - axles[1].p_CW_l.x();
  for (const size_t i : AxlesOf(vehicle)) {
    AddBelowFloor(vehicle, i, "links", axles[i].links, oddities);
    AddBelowFloor(vehicle, i, "springs", axles[i].springs, oddities);
    AddBelowFloor(vehicle, i, "dampers", axles[i].dampers, oddities);
    AddBelowFloor(vehicle, i, "straps", axles[i].straps, oddities);
    AddLinks(axles[i], i, wheelbase, oddities);
    AddLooseCoils(axles[i], i, report.coils, oddities);
    AddUnsprung(vehicle, i, oddities);
  }
  if (vehicle.only_axle) return oddities;
  const double front = (axles[0].p_CW_l - axles[0].p_CW_r).norm();
  const double rear = (axles[1].p_CW_l - axles[1].p_CW_r).norm();
  if (std::max(front, rear) > kTrackRatio * std::min(front, rear)) {
    const size_t wider = front > rear ? 0 : 1;
    oddities.push_back({.kind = FindingKind::kTracksDiffer,
                        .axle = wider,
                        .part = {"axles", axles[wider].name, "wheel_center"},
                        .value = std::max(front, rear)});
  }
  return oddities;
}

std::vector<Finding> FileFindings(const Vehicle& vehicle, const CheckReport& report) {
  std::vector<Finding> findings;
  for (const size_t i : AxlesOf(vehicle)) {
    AddFreedom(vehicle.axles[i], i, report.axles[i].freedom, findings);
    if (report.axles[i].weight) AddScales(vehicle, i, *report.axles[i].weight, findings);
    AddWeighedPairs(vehicle, i, findings);
    AddMisfit(vehicle, i, report.arms, findings);
    AddArmsPitch(vehicle, i, report.axles[i].moved.pitch, findings);
    AddTires(vehicle, i, report.axles[i].weight, findings);
  }
  const std::vector<Finding> oddities = FindOddities(vehicle, report);
  findings.insert(findings.end(), oddities.begin(), oddities.end());
  for (const Mismatch& mismatch : report.mismatches) {
    findings.push_back({.kind = FindingKind::kNotMirrored,
                        .axle = mismatch.axle,
                        .member = mismatch.what,
                        .part = {"axles", vehicle.axles[mismatch.axle].name},
                        .value = mismatch.distance,
                        .aim = vehicle.aims.mirror});
  }
  for (const size_t i : AxlesOf(vehicle)) {
    AddStops(vehicle, i, findings);
    AddTriangle(vehicle.axles[i], i, vehicle.aims.triangulation, findings);
  }
  return findings;
}

}  // namespace linkwright
