// SPDX-License-Identifier: MIT
#include "io/write/settle_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/reading.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;

const Column kRise{"body_rise_front", "", kLength, "", ""};
const Column kRake{"rake", "", kAngle, "", ""};
const Column kAhead{"front_opening_ahead", "", kLength, "", ""};
const Column kAbove{"front_opening_up", "", kLength, "", ""};

std::string UnderLoad(const std::string& name) { return "'" + Shown(name) + "'"; }

// "8 mm up in front and 20 mm down at the rear"
std::string RiseWords(const StanceReport& report, UnitSystem units) {
  const std::string front = ReadOut(kRise, report.axles[kFront].body_rise, units);
  const std::string rear = ReadOut(kRise, report.axles[kRear].body_rise, units);
  const auto at = [](const std::string& rise, const char* where) {
    return (rise == "none" ? "as measured" : rise) + " " + where;
  };
  if (front == rear) return (front == "none" ? "as measured" : front) + " front and rear";
  return at(front, "in front") + " and " + at(rear, "at the rear");
}

std::string LevelWords(const StanceReport& report, UnitSystem units) {
  const std::string rake = ReadOut(kRake, report.rake, units);
  const std::string lean = ShowAmount(std::abs(report.roll), kAngle, units);
  const std::string level = rake == "none" ? "level fore and aft" : "rake " + rake;
  if (lean.find_first_of("123456789") == std::string::npos) return level + ", no lean";
  return fmt::format("{}, leaning {}, {} side down", level, lean,
                     report.roll > 0.0 ? "right" : "left");
}

// The loads that are told one by one: all of a few, else the first and those that stand lowest.
std::vector<const LoadTold*> ToldAlone(const std::vector<LoadTold>& loads) {
  constexpr size_t kFew = 4;
  std::vector<const LoadTold*> told;
  for (const LoadTold& load : loads) told.push_back(&load);
  if (loads.size() <= kFew) return told;
  const auto is_lower = [](size_t axle) {
    return [axle](const LoadTold* a, const LoadTold* b) {
      if (a->report == nullptr || b->report == nullptr) return a->report == nullptr;
      return a->report->axles[axle].body_rise < b->report->axles[axle].body_rise;
    };
  };
  std::vector<const LoadTold*> few{told.front()};
  for (const size_t axle : {kFront, kRear}) {
    const LoadTold* lowest = *std::min_element(told.begin(), told.end(), is_lower(axle));
    if (std::find(few.begin(), few.end(), lowest) == few.end()) few.push_back(lowest);
  }
  return few;
}

void SayStands(const std::vector<LoadTold>& loads, UnitSystem units, std::vector<std::string>& to) {
  const char *body = "the body stands ", *against = " against where it was measured";
  for (const LoadTold* load : ToldAlone(loads)) {
    if (load->report == nullptr) {
      to.push_back(fmt::format("Under {} it comes to no rest.", UnderLoad(load->name)));
      continue;
    }
    to.push_back(fmt::format("Under {} {}{}{}; {}.", UnderLoad(load->name), body,
                             RiseWords(*load->report, units), against,
                             LevelWords(*load->report, units)));
    body = "it stands ";
    against = "";
  }
}

// "10 mm back and 11 mm down", of one axle's wheels; empty without an opening.
std::string InOpening(const AxleReport& axle, UnitSystem units) {
  if (!axle.opening_ahead || !axle.opening_up) return {};
  const std::string ahead = ReadOut(kAhead, *axle.opening_ahead, units);
  const std::string up = ReadOut(kAbove, *axle.opening_up, units);
  if (ahead == "none" && up == "none") return "centred";
  if (ahead == "none" || up == "none") return ahead == "none" ? up : ahead;
  return ahead + " and " + up;
}

double OffCentre(const AxleReport& axle) {
  return axle.opening_ahead && axle.opening_up ? std::hypot(*axle.opening_ahead, *axle.opening_up)
                                               : 0.0;
}

void SayOpenings(const Vehicle& vehicle, const std::vector<const LoadTold*>& at_rest,
                 UnitSystem units, std::vector<std::string>& to) {
  const std::string& usual = DefaultLoad(vehicle).name;
  const LoadTold* load = at_rest.front();
  for (const LoadTold* each : at_rest) {
    if (each->name == usual) load = each;
  }
  std::string places;
  for (const size_t i : kBothAxles) {
    const std::string place = InOpening(load->report->axles[i], units);
    if (place.empty()) continue;
    places += (places.empty() ? "the " : ", the ") + vehicle.axles[i].name +
              (places.empty() ? " wheels stand " : " ones ") + place;
  }
  if (places.empty()) return;
  to.push_back(fmt::format("Against the centres of their openings {} under {}.", places,
                           UnderLoad(load->name)));
  const LoadTold* farthest = load;
  size_t axle = 0;
  double off = std::max(OffCentre(load->report->axles[0]), OffCentre(load->report->axles[1]));
  for (const LoadTold* each : at_rest) {
    for (const size_t i : kBothAxles) {
      if (OffCentre(each->report->axles[i]) < off + ReadsTo(kAhead, 0.0)) continue;
      farthest = each, axle = i, off = OffCentre(each->report->axles[i]);
    }
  }
  if (farthest == load) return;
  to.push_back(fmt::format("Farthest off are the {} wheels under {}: {}.", vehicle.axles[axle].name,
                           UnderLoad(farthest->name),
                           InOpening(farthest->report->axles[axle], units)));
}

bool HasLetGo(const Contact& contact) { return contact.kind != ContactKind::kStopTouches; }

// What has let go first, then the hardest pressed.
double Weight(const LoadTold& load) {
  double weight = 0.0;
  for (const Contact& contact : load.contacts) {
    weight = std::max(weight, HasLetGo(contact) ? 1e12 : 1.0 + contact.force);
  }
  return weight;
}

std::string Briefly(const Vehicle& vehicle, const Contact& contact, UnitSystem units) {
  const std::string who = vehicle.axles[contact.axle].name + " " + contact.member;
  const std::string length = ShowAmount(contact.deflection, kLength, units);
  switch (contact.kind) {
    case ContactKind::kStopTouches:
      return fmt::format("{} touches, squeezed {}", who, length);
    case ContactKind::kConeOffPad:
      return fmt::format("{} misses its pad by {}", who, length);
    case ContactKind::kCoilUnseated:
      return fmt::format("{} is off its seat by {}", who, length);
    case ContactKind::kWheelLifted:
      break;
  }
  return who + " is off the floor";
}

void SayContacts(const Vehicle& vehicle, const std::vector<const LoadTold*>& at_rest,
                 UnitSystem units, std::vector<std::string>& to) {
  constexpr size_t kTold = 2;
  const LoadTold* worst = *std::max_element(
      at_rest.begin(), at_rest.end(), [](auto* a, auto* b) { return Weight(*a) < Weight(*b); });
  if (worst->contacts.empty()) {
    to.push_back(fmt::format("No stop touches, every coil is seated and every wheel is down{}.",
                             at_rest.size() > 1 ? ", under each load" : ""));
    return;
  }
  std::vector<Contact> sorted = worst->contacts;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Contact& a, const Contact& b) {
    return HasLetGo(a) != HasLetGo(b) ? HasLetGo(a) : a.force > b.force;
  });
  std::string told;
  for (size_t i = 0; i < std::min(kTold, sorted.size()); ++i) {
    told += (i == 0 ? "" : ", ") + Briefly(vehicle, sorted[i], units);
  }
  if (sorted.size() > kTold) told += fmt::format(", and {} more", sorted.size() - kTold);
  const auto others = std::count_if(at_rest.begin(), at_rest.end(),
                                    [](auto* load) { return !load->contacts.empty(); });
  const char* also = others > 1 ? "; other loads too have something that touches or lets go"
                     : at_rest.size() > 1 ? "; under the others nothing touches or lets go"
                                          : "";
  to.push_back(fmt::format("Under {} {}{}.", UnderLoad(worst->name), told, also));
}

void SayWorst(const Vehicle& vehicle, const std::vector<const LoadTold*>& at_rest, UnitSystem units,
              std::vector<std::string>& to) {
  const LoadTold *lowest = nullptr, *heaviest = nullptr;
  size_t end = 0, wheel = 0;
  for (const LoadTold* load : at_rest) {
    for (const size_t i : kBothAxles) {
      if (lowest != nullptr &&
          load->report->axles[i].body_rise >= lowest->report->axles[end].body_rise) {
        continue;
      }
      lowest = load, end = i;
    }
    for (size_t w = 0; w < load->report->wheel_load.size(); ++w) {
      if (heaviest != nullptr &&
          load->report->wheel_load[w] <= heaviest->report->wheel_load[wheel]) {
        continue;
      }
      heaviest = load, wheel = w;
    }
  }
  const std::string most = ShowOnScale(heaviest->report->wheel_load[wheel], units);
  if (at_rest.size() == 1) {
    to.push_back(fmt::format("The most on one wheel is {}, {}.", most, WheelName(vehicle, wheel)));
    return;
  }
  const std::string rise = ReadOut(kRise, lowest->report->axles[end].body_rise, units);
  to.push_back(
      fmt::format("It stands lowest {} under {}, {}; the most on one wheel is {}, {}, {}.",
                  end == kFront ? "in front" : "at the rear", UnderLoad(lowest->name),
                  rise == "none" ? "as measured" : rise, most, WheelName(vehicle, wheel),
                  heaviest == lowest ? "under it too" : "under " + UnderLoad(heaviest->name)));
}

// A column of the glance: its name ends so, or begins so where it ends in a blank or a line.
struct AtAGlance {
  const char *name, *head;
};
constexpr std::array kGlance{AtAGlance{"body_rise_front", "body rise, front"},
                             AtAGlance{"body_rise_rear", "body rise, rear"},
                             AtAGlance{"rake", "rake"},
                             AtAGlance{"roll", "body roll"},
                             AtAGlance{"height ", ""},
                             AtAGlance{"front_opening_ahead", "front wheel in opening"},
                             AtAGlance{"front_opening_up", "front wheel in opening"},
                             AtAGlance{"rear_opening_ahead", "rear wheel in opening"},
                             AtAGlance{"rear_opening_up", "rear wheel in opening"},
                             AtAGlance{"wheelbase_left", "wheelbase, left"},
                             AtAGlance{"wheelbase_right", "wheelbase, right"},
                             AtAGlance{"wheel_load_", ""},
                             AtAGlance{"total_mass", "total weight"},
                             AtAGlance{"front_ride_frequency", "front ride frequency"},
                             AtAGlance{"rear_ride_frequency", "rear ride frequency"},
                             AtAGlance{"bounce", "bounce"},
                             AtAGlance{"pitch", "pitch"}};

bool IsOf(const AtAGlance& glance, const Column& column) {
  const std::string_view name = glance.name;
  const bool begins = name.ends_with(' ') || name.ends_with('_');
  return begins ? column.name.starts_with(name) : column.name == name;
}

}  // namespace

std::string ContactWords(const Vehicle& vehicle, const Contact& contact, UnitSystem units) {
  if (contact.kind == ContactKind::kStopTouches) {
    return fmt::format("{} {} touches: squeezed {}, pushing {}", vehicle.axles[contact.axle].name,
                       contact.member, ShowAmount(contact.deflection, kLength, units),
                       ShowAmount(contact.force, kForce, units));
  }
  if (contact.kind == ContactKind::kConeOffPad) {
    return fmt::format(
        "{} {} misses its pad: its cone points {} beside the pad's centre and carries nothing",
        vehicle.axles[contact.axle].name, contact.member,
        ShowAmount(contact.deflection, kLength, units));
  }
  return Briefly(vehicle, contact, units);
}

std::vector<std::string> SettleSentences(const Vehicle& vehicle, const std::vector<LoadTold>& loads,
                                         UnitSystem units) {
  std::vector<std::string> said;
  SayStands(loads, units, said);
  std::vector<const LoadTold*> at_rest;
  for (const LoadTold& load : loads) {
    if (load.report != nullptr) at_rest.push_back(&load);
  }
  if (at_rest.empty()) return said;
  SayOpenings(vehicle, at_rest, units, said);
  SayContacts(vehicle, at_rest, units, said);
  SayWorst(vehicle, at_rest, units, said);
  return said;
}

NamedTable SettleGlance(const DataTable& stances) {
  DataTable glance{.units = stances.units, .columns = {stances.columns.front()}, .rows = {}};
  glance.columns[0].group.clear();
  for (const std::vector<Cell>& row : stances.rows) glance.rows.push_back({row.front()});
  for (const AtAGlance& each : kGlance) {
    for (size_t c = 0; c < stances.columns.size(); ++c) {
      const Column& column = stances.columns[c];
      if (!IsOf(each, column)) continue;
      Column& shown = glance.columns.emplace_back(column);
      shown.group.clear(), shown.dimension = DimensionRead(column);
      if (*each.head != '\0') shown.head = each.head;
      for (size_t r = 0; r < stances.rows.size(); ++r) {
        const auto* number = std::get_if<double>(&stances.rows[r][c]);
        glance.rows[r].push_back(
            number == nullptr ? Cell() : Cell(ReadBare(column, *number, stances.units)));
      }
    }
  }
  return {"how it stands", glance};
}

}  // namespace linkwright
