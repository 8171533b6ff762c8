// SPDX-License-Identifier: MIT
#include "solver/study/file/differences.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/model/arms_kept.h"
#include "solver/pose/fit_links.h"

namespace linkwright {
namespace {

constexpr double kSame = 1e-9;  // [m, N/m of 1, kg] rounding of units

// What a vehicle has, by name: places and numbers.
struct Inventory {
  std::map<std::string, Eigen::Vector3d> places;
  std::map<std::string, std::pair<DifferenceKind, double>> numbers;

  void Add(const std::string& what, DifferenceKind kind, const std::optional<double>& value) {
    if (value) numbers[what] = {kind, *value};
  }
  void Add(const std::string& member, const Span& span) {
    places[member + ", frame end"] = span.p_CP;
    places[member + ", axle end"] = span.p_CQ;
  }
  void Add(const std::string& member, const ForceLaw& law) {
    Add(member + ", free length", DifferenceKind::kLength, law.free_length);
    if (law.curve.empty()) Add(member + ", rate", DifferenceKind::kRate, law.rate);
  }
};

template <typename Members>
void AddSpans(const std::string& axle, const Members& members, Inventory& to) {
  for (const auto& member : members) to.Add(axle + " " + DisplayName(member.name), member.span);
}

void AddArms(const Axle& axle, Inventory& to) {
  for (const ArmFit& arm : ArmsOf(axle)) {
    to.Add(axle.name + " " + arm.name, arm.holes);
    to.Add(axle.name + " " + arm.name + ", eye to eye", DifferenceKind::kLength, arm.length);
  }
}

void AddAxle(const Axle& axle, Inventory& to) {
  using enum DifferenceKind;
  const auto name = [&](const auto& member) { return axle.name + " " + DisplayName(member.name); };
  to.places[axle.name + " left wheel centre"] = axle.p_CW_l;
  to.places[axle.name + " right wheel centre"] = axle.p_CW_r;
  AddArms(axle, to);
  AddSpans(axle.name, axle.springs, to);
  AddSpans(axle.name, axle.bump_stops, to);
  AddSpans(axle.name, axle.dampers, to);
  AddSpans(axle.name, axle.straps, to);
  for (const Spring& spring : axle.springs) to.Add(name(spring), spring.law);
  for (const Stop& stop : axle.bump_stops) to.Add(name(stop), stop.law);
  for (const Damper& damper : axle.dampers) {
    to.Add(name(damper) + ", shortest", kLength, damper.shortest);
    to.Add(name(damper) + ", longest", kLength, damper.longest);
  }
  for (const Strap& strap : axle.straps) to.Add(name(strap) + ", length", kLength, strap.length);
  to.Add(axle.name + " tyres, unloaded radius", kLength, axle.tire.radius);
  to.Add(axle.name + " tyres, rate", kRate, axle.tire.rate);
  if (axle.unsprung) to.Add(axle.name + " unsprung mass", kMass, axle.unsprung->mass);
  if (axle.pinion) to.places[axle.name + " pinion yoke"] = axle.pinion->p_CY;
  if (axle.steering) {
    to.Add(axle.name + " drag link", axle.steering->drag_link);
    to.Add(axle.name + " drag link, eye to eye", kLength,
           axle.steering->drag_link_length.value_or(MeasuredLength(axle.steering->drag_link)));
  }
  if (axle.opening) {
    to.places[axle.name + " opening, centre"] = {axle.opening->x, 0.0, axle.opening->z};
  }
}

Inventory InventoryOf(const Vehicle& vehicle) {
  using enum DifferenceKind;
  Inventory all;
  for (const size_t i : AxlesOf(vehicle)) AddAxle(vehicle.axles[i], all);
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    all.places[shaft.name + " shaft, output"] = shaft.p_CO;
  }
  for (const Mark& mark : vehicle.marks) all.places[mark.name] = mark.p_CB;
  if (vehicle.ledger) {
    for (const auto& [list, sign] : {std::pair(&vehicle.ledger->removed, "removed "),
                                     std::pair(&vehicle.ledger->added, "added ")}) {
      for (const Mass& item : *list) {
        all.Add(sign + item.item, kMass, item.mass);
        all.places[sign + item.item] = item.p_CM;
      }
    }
  }
  return all;
}

Pose HeldAt(const Axle& axle) {
  const AxleFrame frame = PrepareAxle(axle);
  return MeasuredPose(axle, frame).pose.value_or(frame.measured);
}

}  // namespace

Differences DifferencesOf(const Vehicle& first, const Vehicle& second) {
  const Inventory a = InventoryOf(first), b = InventoryOf(second);
  Differences differences{};
  std::vector<Difference>& list = differences.list;
  const auto one_sided = [&](const auto& these, const auto& those, DifferenceKind kind) {
    for (const auto& [what, value] : these) {
      if (!those.contains(what)) list.push_back({what, kind, Eigen::Vector3d::Zero(), 0.0, 0.0});
    }
  };
  for (const auto& [what, place] : a.places) {
    const auto other = b.places.find(what);
    if (other == b.places.end() || (other->second - place).norm() < kSame) continue;
    list.push_back({what, DifferenceKind::kPlace, other->second - place, 0.0, 0.0});
  }
  std::stable_sort(list.begin(), list.end(), [](const Difference& x, const Difference& y) {
    return x.moved.norm() > y.moved.norm();
  });
  for (const auto& [what, number] : a.numbers) {
    const auto other = b.numbers.find(what);
    const bool same =
        other == b.numbers.end() || std::abs(other->second.second - number.second) <
                                        kSame * std::max(1.0, std::abs(number.second));
    if (same) continue;
    list.push_back(
        {what, number.first, Eigen::Vector3d::Zero(), number.second, other->second.second});
  }
  one_sided(a.places, b.places, DifferenceKind::kGone);
  one_sided(b.places, a.places, DifferenceKind::kNew);
  for (const size_t i : AxlesOf(first)) {
    if (!IsThere(second, i)) continue;
    const Pose from = HeldAt(first.axles[i]), to = HeldAt(second.axles[i]);
    differences.axle_moved[i] = {.x = to.x - from.x,
                                 .y = to.y - from.y,
                                 .steer = to.steer - from.steer,
                                 .pitch = to.pitch - from.pitch,
                                 .z = 0.0,
                                 .roll = 0.0};
  }
  return differences;
}

}  // namespace linkwright
