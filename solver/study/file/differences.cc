// SPDX-License-Identifier: MIT
#include "solver/study/file/differences.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/geometry/driveshaft.h"
#include "solver/model/arms_kept.h"
#include "solver/model/places.h"
#include "solver/pose/fit_links.h"

namespace linkwright {
namespace {

constexpr double kSame = 1e-9;  // [m, N/m of 1, kg, rad] rounding of units

// What a vehicle has, by name: places and numbers.
struct Inventory {
  std::map<std::string, Eigen::Vector3d> places;
  std::map<std::string, std::pair<DifferenceKind, double>> numbers;

  void Add(const std::string& what, DifferenceKind kind, const std::optional<double>& value) {
    if (value) numbers[what] = {kind, *value};
  }
  void Add(const std::string& member, const ForceLaw& law) {
    Add(member + ", free length", DifferenceKind::kLength, law.free_length);
    if (law.curve.empty()) Add(member + ", rate", DifferenceKind::kRate, law.rate);
  }
};

// Places of the axle and of what is on it; its own numbers, member by member.
void AddAxle(const Axle& axle, Inventory& to) {
  using enum DifferenceKind;
  const auto add = [&](const std::string& what, DifferenceKind kind,
                       const std::optional<double>& value) {
    to.Add(axle.name + " " + what, kind, value);
  };
  Axle visited = axle;  // a visit may move places; this one only asks
  VisitPlaces(visited, [&](const std::string& name, Body, const Eigen::Vector3d& place) {
    to.places[axle.name + " " + name] = place;
  });
  for (const ArmFit& arm : ArmsOf(axle)) add(arm.name + ", eye to eye", kLength, arm.length);
  for (const Spring& spring : axle.springs) {
    to.Add(axle.name + " " + DisplayName(spring.name), spring.law);
  }
  for (const Stop& stop : axle.bump_stops) {
    to.Add(axle.name + " " + DisplayName(stop.name), stop.law);
  }
  for (const Damper& damper : axle.dampers) {
    add(DisplayName(damper.name) + ", shortest", kLength, damper.shortest);
    add(DisplayName(damper.name) + ", longest", kLength, damper.longest);
  }
  for (const Strap& strap : axle.straps) {
    add(DisplayName(strap.name) + ", length", kLength, strap.length);
  }
  for (const Gap& gap : axle.gaps) add(gap.name + ", least", kLength, gap.least);
  if (axle.tire.radius) {
    add("left tyre, unloaded radius", kLength, FreeRadius(axle.tire, 0));
    add("right tyre, unloaded radius", kLength, FreeRadius(axle.tire, 1));
  }
  add("tyres, rate", kRate, axle.tire.rate);
  if (axle.unsprung) add("unsprung mass", kMass, axle.unsprung->mass);
  if (axle.pinion) add("pinion, slope", kAngle, axle.pinion->angle);
  if (axle.kingpin) {
    add("kingpin, caster", kAngle, axle.kingpin->caster);
    add("kingpin, inclination", kAngle, axle.kingpin->inclination);
  }
  if (axle.steering) {
    add("drag link, eye to eye", kLength, DragLinkLength(*axle.steering));
    if (axle.steering->tie_rod) {
      add("tie rod, ball to ball", kLength, LengthOf(*axle.steering->tie_rod));
    }
  }
  if (axle.opening) {
    to.places[axle.name + " opening, centre"] = {axle.opening->x, 0.0, axle.opening->z};
  }
}

void AddShaft(const Driveshaft& shaft, const Axle& axle, Inventory& to) {
  using enum DifferenceKind;
  const std::string name = shaft.name + " shaft, ";
  to.places[name + "output"] = shaft.p_CO;
  if (shaft.center_bearing) to.places[name + "centre bearing"] = shaft.center_bearing->p_CB;
  to.Add(name + "slope of its output", kAngle, shaft.output_angle);
  // Of what slides: how long it was where its slip was counted.
  if (axle.pinion) to.Add(name + "length", kLength, MadeLength(shaft, axle, PrepareAxle(axle)));
  to.Add(name + "slip", kLength, shaft.slip);
  to.Add(name + "slip left", kLength, shaft.slip_left);
}

Inventory InventoryOf(const Vehicle& vehicle) {
  using enum DifferenceKind;
  Inventory all;
  for (const size_t i : AxlesOf(vehicle)) AddAxle(vehicle.axles[i], all);
  for (const Driveshaft& shaft : vehicle.driveshafts) {
    AddShaft(shaft, vehicle.axles[static_cast<size_t>(shaft.axle)], all);
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
