// SPDX-License-Identifier: MIT
#include "io/read/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "io/read/keys_of.h"
#include "solver/geometry/driveshaft.h"
#include "solver/model/arms_kept.h"
#include "solver/rest/weighed.h"

namespace linkwright {
namespace {

using Path = std::vector<std::string>;

bool Begins(const Path& path, const Path& with) {
  return with.size() <= path.size() && std::equal(with.begin(), with.end(), path.begin());
}

Path Under(Path path, const std::string& key) {
  path.push_back(key);
  return path;
}

// One stage seen by what it does to parts.
struct News {
  const Node* root;
  const Touched* touched;

  // A part that this file brings: it, or what it stands in, is added, or what it stands in is
  // replaced whole.
  [[nodiscard]] bool IsNew(const Path& part) const {
    const auto& added = touched->added;
    const auto& changed = touched->changed;
    return std::any_of(added.begin(), added.end(),
                       [&](const Path& path) { return Begins(part, path); }) ||
           std::any_of(changed.begin(), changed.end(), [&](const Path& path) {
             return path.size() < part.size() && Begins(part, path);
           });
  }

  // What this file says under one key of a part: by itself, or with the member replaced.
  [[nodiscard]] const Node* Given(const Path& part, const std::string& key) const {
    const Path path = Under(part, key);
    const auto names = [&](const Path& each) {
      return Begins(path, each) && each.size() >= part.size();
    };
    const bool touches = std::any_of(touched->changed.begin(), touched->changed.end(), names) ||
                         std::any_of(touched->added.begin(), touched->added.end(), names);
    return touches ? At(path) : nullptr;
  }

  // Whether this file says anything at or under a path, or replaces what it stands in.
  [[nodiscard]] bool Touches(const Path& path) const {
    const auto near = [&](const Path& each) { return Begins(path, each) || Begins(each, path); };
    return std::any_of(touched->changed.begin(), touched->changed.end(), near) ||
           std::any_of(touched->added.begin(), touched->added.end(), near);
  }

  [[nodiscard]] const Node* At(const Path& path) const {
    const Node* node = root;
    for (const std::string& key : path) {
      node = node == nullptr ? nullptr : Find(*node, key);
    }
    return node;
  }
};

std::string NameOf(const WattsLink& watt) { return watt.name; }

template <typename Member>
std::string NameOf(const Member& member) {
  return DisplayName(member.name);
}

template <typename Member>
const Member* FindLike(const std::vector<Member>& members, const Member& like) {
  const auto found = std::find_if(members.begin(), members.end(), [&](const Member& member) {
    return NameOf(member) == NameOf(like);
  });
  return found == members.end() ? nullptr : &*found;
}

constexpr std::array kLegKeys{"first_length", "second_length"};

// What the keys of a Watt's link's two links are called.
struct CrankLinkKeys {
  const char *length, *end, *far;
};
constexpr std::array<CrankLinkKeys, 2> kCrankLinks{
    {{"first_length", "first_crank", "first_far"},
     {"second_length", "second_crank", "second_far"}}};

void CorrectCranks(Axle& axle) {
  for (WattsLink& watt : axle.watts_links) {
    for (std::size_t i = 0; i < 2; ++i) {
      if (!watt.length[i]) continue;
      const Eigen::Vector3d reach = watt.end[i] - watt.far[i];
      const Eigen::Vector3d by = 0.5 * (*watt.length[i] - reach.norm()) * reach.normalized();
      watt.end_corrected[i] = by, watt.far_corrected[i] = -by;
      watt.end[i] += by, watt.far[i] -= by;
      watt.length[i].reset();
    }
  }
}

// A measurement with the length of a leg: both legs end at one point, and which of three it
// corrects is left open.
void RefuseLegs(const Node& root, const Axle& axle, Report& report) {
  const News measured{&root, nullptr};
  for (const AArm& arm : axle.a_arms) {
    if (arm.name.side == Side::kRight) continue;
    for (const char* key : kLegKeys) {
      const Node* given = measured.At({"axles", axle.name, "a_arms", arm.name.key, key});
      if (given == nullptr || !given->si) continue;
      AddError(report, given->place,
               fmt::format("axles.{}.a_arms.{}.{}", axle.name, arm.name.key, key),
               "in the file that measures it an A-arm is as its three points say, and a leg's "
               "length leaves open which of them is wrong: correct the point, or give the length "
               "in a variant, where the holes stay and the housing moves");
    }
  }
}

// In a measurement a length corrects the two points, half each along the arm.
void CorrectPoints(Axle& axle) {
  CorrectCranks(axle);
  for (Link& link : axle.links) {
    if (!link.length) continue;
    const Eigen::Vector3d along = (link.span.p_CQ - link.span.p_CP).normalized();
    const double by = *link.length - MeasuredLength(link.span);
    link.corrected = {-0.5 * by * along, 0.5 * by * along};
    link.span.p_CP += link.corrected[0], link.span.p_CQ += link.corrected[1];
    link.taped_short = by;
    link.length.reset();
  }
}

// The ends of a crank's links as the measurement corrected them.
void CorrectAgain(const News& news, const Axle& before, Axle& now) {
  for (WattsLink& watt : now.watts_links) {
    const Path part{"axles", now.name, "watts_links", watt.name};
    const WattsLink* old = FindLike(before.watts_links, watt);
    if (old == nullptr || news.IsNew(part)) continue;
    watt.end_corrected = old->end_corrected, watt.far_corrected = old->far_corrected;
    for (std::size_t i = 0; i < 2; ++i) {
      if (news.Touches(Under(part, kCrankLinks[i].end))) watt.end_corrected[i].setZero();
      if (news.Touches(Under(part, kCrankLinks[i].far))) watt.far_corrected[i].setZero();
      watt.end[i] += watt.end_corrected[i], watt.far[i] += watt.far_corrected[i];
    }
  }
}

// What this file says of the length of one rod of an arm, a number or fit; null where it leaves the
// rod as it is.
const Node* MadeAnew(const News& news, const Path& part, const char* key) {
  if (!news.IsNew(part)) return news.Given(part, key);
  const Node* given = news.At(Under(part, key));
  return given != nullptr && given->si ? given : nullptr;
}

void MakeLegs(const News& news, Axle& now) {
  for (AArm& arm : now.a_arms) {
    const Path part{"axles", now.name, "a_arms", arm.name.key};
    for (std::size_t i = 0; i < 2; ++i) {
      const Node* given = MadeAnew(news, part, kLegKeys[i]);
      if (given == nullptr) continue;
      std::array<double, 2> legs = LegLengths(arm);
      legs[i] = given->si.value_or((arm.p_CP[i] - arm.p_CQ).norm());
      arm.leg_length = legs;
    }
  }
}

void MakeCrankLinks(const News& news, Axle& now) {
  for (WattsLink& watt : now.watts_links) {
    const Path part{"axles", now.name, "watts_links", watt.name};
    for (std::size_t i = 0; i < 2; ++i) {
      if (const Node* given = MadeAnew(news, part, kCrankLinks[i].length)) {
        MakeLink(watt, i, given->si.value_or((watt.end[i] - watt.far[i]).norm()));
      }
      watt.length[i].reset();
    }
  }
}

void KeepLinks(const News& news, const Axle& before, Axle& now) {
  CorrectAgain(news, before, now);
  for (Link& link : now.links) {
    const Path part{"axles", now.name, "links", link.name.key};
    if (news.IsNew(part)) continue;
    const Node* given = news.Given(part, "length");
    if (given == nullptr || !given->si) link.length.reset();
    const Link* old = FindLike(before.links, link);
    if (old == nullptr) continue;
    link.taped_short = old->taped_short, link.corrected = old->corrected;
    if (news.Touches(Under(part, "frame"))) link.corrected[0].setZero();
    if (news.Touches(Under(part, "axle"))) link.corrected[1].setZero();
    link.span.p_CP += link.corrected[0], link.span.p_CQ += link.corrected[1];
  }
  KeepArms(
      before,
      [&](const std::string& kind, const std::string& key) {
        const Path part{"axles", now.name, kind, key};
        const Node* given = news.Given(part, "length");
        return !news.IsNew(part) && (given == nullptr || given->text == "keep");
      },
      now);
  MakeLegs(news, now);
  MakeCrankLinks(news, now);
}

// The weighed coil that a coil still is; null where it is another one, or weighed by this file.
//   kept   the stage before, or its measurement weighed anew
const Spring* KeptWeighed(const News& news, const Axle& kept, const Axle& now,
                          const Spring& spring) {
  const Path part{"axles", now.name, "springs", spring.name.key};
  const Spring* old = FindLike(kept.springs, spring);
  const bool is_kept = old != nullptr && old->weighed && !news.IsNew(part) &&
                       news.Given(part, "free_length") == nullptr;
  return is_kept ? old : nullptr;
}

void KeepCoils(const News& news, const Axle& kept, Axle& now, Report& report) {
  for (Spring& spring : now.springs) {
    const Spring* old = KeptWeighed(news, kept, now, spring);
    if (old == nullptr) continue;
    const Path part{"axles", now.name, "springs", spring.name.key};
    for (const char* key : {"rate", "wire", "curve"}) {
      const Node* given = news.Given(part, key);
      if (given == nullptr || spring.name.side == Side::kRight) continue;
      AddError(report, given->place, "axles." + now.name + ".springs." + spring.name.key,
               "another coil in the place of one that was weighed: give its own free_length too");
      break;
    }
    spring.law.free_length = old->law.free_length;
    spring.weighed = false;  // it is what it is: not weighed again here
  }
}

void MarkWeighed(const News& news, const Axle& kept, Axle& now) {
  for (Spring& spring : now.springs) {
    if (KeptWeighed(news, kept, now, spring) != nullptr) spring.weighed = true;
  }
}

void KeepTires(const News& news, const Axle& kept, Axle& now, Report& report) {
  const Path part{"axles", now.name, "tire"};
  const auto& changed = news.touched->changed;
  const bool replaced = std::find(changed.begin(), changed.end(), part) != changed.end();
  if (replaced && now.tire.rate && !now.tire.radius) {
    AddError(report, news.At(part)->place, "axles." + now.name + ".tire",
             "another tyre than the one that was weighed: give its own radius too");
  }
  const bool another = replaced || news.IsNew(part) || news.Given(part, "radius") != nullptr;
  now.tire.changed = another || news.Given(part, "rate") != nullptr || kept.tire.changed;
  if (another) return;
  now.tire.radius = kept.tire.radius, now.tire.right_radius = kept.tire.right_radius;
}

void KeepSteering(const News& news, const Axle& before, Axle& now) {
  if (!before.steering || !now.steering) return;
  const Path part{"axles", now.name, "steering"};
  const Steering& old = *before.steering;
  Steering& steering = *now.steering;
  const double length = DragLinkLength(old);
  if (!news.IsNew(Under(part, "drag_link")) && length != DragLinkLength(steering)) {
    steering.drag_link_length = length;
  }
  if (!old.tie_rod || !steering.tie_rod || news.IsNew(Under(part, "tie_rod"))) return;
  const double rod = LengthOf(*old.tie_rod);
  if (rod != LengthOf(*steering.tie_rod)) steering.tie_rod->length = rod;
}

void KeepShafts(const News& news, const Vehicle& before, Vehicle& now) {
  for (Driveshaft& shaft : now.driveshafts) {
    const Path part{"driveshafts", shaft.name};
    const auto old = std::find_if(before.driveshafts.begin(), before.driveshafts.end(),
                                  [&](const Driveshaft& each) { return each.name == shaft.name; });
    if (old == before.driveshafts.end() || news.IsNew(part)) continue;
    if (news.Given(part, "slip_left") != nullptr || news.Given(part, "slip") != nullptr) continue;
    const Axle& was = before.axles[static_cast<std::size_t>(old->axle)];
    const Axle& is = now.axles[static_cast<std::size_t>(shaft.axle)];
    if (!was.pinion || !is.pinion) continue;
    const double made = MadeLength(*old, was, PrepareAxle(was));
    if (made != MadeLength(shaft, is, PrepareAxle(is))) shaft.length = made;
  }
}

// The measurement with the scales of a later file, its coils and tyres made from them.
Vehicle WeighedAnew(Vehicle measured, const Ledger& ledger) {
  measured.ledger->weighed = ledger.weighed, measured.ledger->by_axle = ledger.by_axle;
  ResolveWeighedLengths(measured);
  ResolveTires(measured);
  return measured;
}

}  // namespace

Vehicle BuildFromStages(const std::vector<Stage>& stages, Report& report) {
  Vehicle measured = Build<Vehicle>(stages.front().root);  // coils and tyres not made yet
  for (const std::size_t i : AxlesOf(measured)) {
    RefuseLegs(stages.front().root, measured.axles[i], report);
    CorrectPoints(measured.axles[i]);
  }
  Vehicle before = measured;
  ResolveWeighedLengths(before);
  ResolveTires(before);
  for (std::size_t k = 1; k < stages.size(); ++k) {
    const News news{&stages[k].root, &stages[k].touched};
    Vehicle now = Build<Vehicle>(stages[k].root);
    const bool weighed_anew = measured.ledger && now.ledger && news.Touches({"ledger", "weighed"});
    const Vehicle kept = weighed_anew ? WeighedAnew(measured, *now.ledger) : before;
    for (const std::size_t i : AxlesOf(now)) {
      KeepLinks(news, before.axles[i], now.axles[i]);
      KeepCoils(news, kept.axles[i], now.axles[i], report);
      KeepTires(news, kept.axles[i], now.axles[i], report);
      KeepSteering(news, before.axles[i], now.axles[i]);
    }
    KeepShafts(news, before, now);
    ResolveWeighedLengths(now);
    ResolveTires(now);
    for (const std::size_t i : AxlesOf(now)) MarkWeighed(news, kept.axles[i], now.axles[i]);
    before = std::move(now);
  }
  return before;
}

}  // namespace linkwright
