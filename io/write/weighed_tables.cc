// SPDX-License-Identifier: MIT
#include "io/write/weighed_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "io/write/name_in.h"
#include "io/write/note_writer.h"
#include "io/write/table_of.h"

namespace linkwright {
namespace {

using enum Dimension;
using enum LeafPlaceKind;

// A sigma in words: 19 times in 20 nearer than twice of it.
constexpr double kGiveOrTake = 2.0;

// In the order of LeafPlaceKind; those of an axle stand after its name.
constexpr std::array kPlaceNames{
    "design wheelbase",    "wheelbase now",  "wheel x when new",       "wheel z when new",
    "wheel moved forward", "wheel moved up", "wheel ahead of opening", "wheel above opening"};

std::string NameOf(const WeighedPlace& place, const Vehicle& vehicle) {
  const std::string name = NameIn(kPlaceNames, place.kind);
  return place.axle ? vehicle.axles[static_cast<size_t>(*place.axle)].name + " " + name : name;
}

std::string NameOf(const NextReading& next, const Vehicle& vehicle) {
  return NameOf(LeafReading{next.kind, next.axle, 0.0, 0.0}, vehicle);
}

bool IsDoubted(const WeighedOriginal& weighed, size_t reading) {
  return weighed.doubt &&
         std::count(weighed.doubt->which.begin(), weighed.doubt->which.end(), reading) > 0;
}

const char* VerdictOn(const WeighedOriginal& weighed, size_t i) {
  const WeighedReading& it = weighed.readings[i];
  if (it.left_out) return "disagrees, left out";
  if (IsDoubted(weighed, i)) return "may be off";
  return it.checked < kChecked ? "nothing checks it" : "agrees";
}

TableOf<WeighedPlace> PlaceColumns(const Vehicle& vehicle, const WeighedOriginal& weighed) {
  const auto rests_on = [&](const WeighedPlace& place) {
    return place.rests_on ? Cell(NameOf(weighed.readings[*place.rests_on].reading, vehicle))
                          : Cell();
  };
  return {
      {"place", "", kNumber,
       "what all readings together tell: x and z in the old frame's axes; moved since new; against "
       "the opening's centre when new",
       [&vehicle](auto& place) { return NameOf(place, vehicle); }},
      {"value", "is", kLength, "by all readings that were kept, each weighed by its sigma",
       &WeighedPlace::value},
      {"sigma", "sigma", kLength, "one standard deviation of it", &WeighedPlace::sigma},
      {"give_or_take", "give or take", kLength, "two of them: 19 times in 20 it is nearer",
       [](auto& place) { return kGiveOrTake * place.sigma; }},
      {"rests_on", "rests on, unchecked", kNumber,
       "of the readings that nothing checks, the one with the greatest part in that; empty: "
       "none has a twentieth of it",
       rests_on},
      {"share", "its part", kPercent, "its part of the square of sigma",
       [](auto& place) { return CellIf(place.rests_on.has_value(), place.share); }}};
}

// `measures` is what the readings of the table are, all of them alike.
TableOf<size_t> ReadingColumns(const Vehicle& vehicle, const WeighedOriginal& weighed,
                               Dimension measures) {
  const auto of = [&weighed](auto member) {
    return [&weighed, member](size_t i) { return std::invoke(member, weighed.readings[i]); };
  };
  const auto name = [&](size_t i) { return NameOf(weighed.readings[i].reading, vehicle); };
  const auto verdict = [&](size_t i) { return std::string(VerdictOn(weighed, i)); };
  const auto next = [&](size_t i) -> Cell {
    const std::optional<NextReading>& could = weighed.readings[i].next;
    return could ? Cell(NameOf(*could, vehicle)) : Cell();
  };
  using Of = const WeighedReading&;
  return {{"reading", "reading", kNumber, "which, and what is assumed", name},
          {"read", "read", measures, "as in the file; what is assumed is 0",
           of([](Of it) { return it.reading.value; })},
          {"sigma", "sigma", measures, "how far such a reading is off, one standard deviation",
           of([](Of it) { return it.reading.sigma; })},
          {"from_rest", "rest says", measures,
           "what the other readings say it should be; empty where they do not tell it",
           of(&WeighedReading::from_rest)},
          {"off", "off by", measures, "read less that", of([](Of it) {
             return it.from_rest ? Cell(it.reading.value - *it.from_rest) : Cell();
           })},
          {"normalised", "in sigmas", kNumber,
           "the same over its own standard deviation; past 3 either way it disagrees",
           of([](Of it) { return CellIf(it.from_rest.has_value(), it.normalised); })},
          {"checked", "checked", kPercent,
           "its redundancy number: 0 where nothing checks it, 100 where the others tell it without "
           "doubt",
           of(&WeighedReading::checked)},
          {"least_slip", "hidden slip", measures,
           "a slip smaller than this would not show, four times in five; empty: none would",
           of(&WeighedReading::least_slip)},
          {"verdict", "verdict", kNumber,
           "agrees; disagrees, left out; may be off, it or another; nothing checks it", verdict},
          {"check_with", "check with", kNumber,
           "of what could still be measured, what would check it best, where nothing does", next}};
}

// Sentences of one answer.
struct HeadWriter {
  const Vehicle& vehicle;
  const WeighedOriginal& weighed;
  UnitSystem units;

  [[nodiscard]] std::string Show(double length) const { return ShowAmount(length, kLength, units); }
  [[nodiscard]] std::string Show(const WeighedReading& it, double amount) const {
    return ShowAmount(amount, it.reading.kind == LeafReadingKind::kLeanNow ? kAngle : kLength,
                      units);
  }
  [[nodiscard]] std::string GiveOrTake(const WeighedPlace& place) const {
    return Show(place.value) + ", give or take " + Show(kGiveOrTake * place.sigma);
  }
  [[nodiscard]] std::string Wheelbase() const;
  [[nodiscard]] std::string Slip(const WeighedReading& it) const;
  [[nodiscard]] std::string Agreement() const;
  [[nodiscard]] std::string Places() const;
  [[nodiscard]] std::string Unchecked() const;
  [[nodiscard]] std::string Assumed() const;
};

std::string HeadWriter::Wheelbase() const {
  const WeighedPlace* design = FindPlace(weighed, kDesignWheelbase);
  if (design == nullptr) {
    return "Nothing here tells the design wheelbase: give wheelbase_now, wheelbase_design or the "
           "other spring.";
  }
  return fmt::format("The design wheelbase is {} (two sigma).", GiveOrTake(*design));
}

std::string HeadWriter::Slip(const WeighedReading& it) const {
  const std::string name = "the " + NameOf(it.reading, vehicle);
  if (IsAssumed(it.reading.kind)) {
    return fmt::format("{} is assumed, and by the rest it was {} {}", name,
                       Show(std::abs(it.adjusted)), it.adjusted < 0.0 ? "behind" : "ahead");
  }
  const double off = it.reading.value - it.adjusted;
  return fmt::format("{} reads {}, {} {} than the {} that the rest says", name,
                     Show(it, it.reading.value), Show(it, std::abs(off)),
                     off < 0.0 ? "less" : "more", Show(it, it.adjusted));
}

std::string HeadWriter::Agreement() const {
  std::string text;
  if (!weighed.slips.empty()) {
    text = weighed.slips.size() == 1
               ? "One reading disagrees and is left out: "
               : fmt::format("{} readings disagree and are left out: ", weighed.slips.size());
    constexpr size_t kMost = 2;
    for (size_t i = 0; i < std::min(weighed.slips.size(), kMost); ++i) {
      text += (i == 0 ? "" : "; ") + Slip(weighed.readings[weighed.slips[i]]);
    }
    if (weighed.slips.size() > kMost) text += "; the table has the others";
    if (!weighed.doubt) return text + (weighed.spare > 0 ? "; the rest agrees." : ".");
    text += ". ";
  }
  if (weighed.doubt) {
    constexpr size_t kMost = 3;
    const std::vector<size_t>& which = weighed.doubt->which;
    std::string names;
    for (size_t i = 0; i < std::min(which.size(), kMost); ++i) {
      const WeighedReading& it = weighed.readings[which[i]];
      const double off = it.reading.value - it.from_rest.value_or(it.adjusted);
      names += fmt::format("{}the {} by {}", i == 0 ? "" : ", or ", NameOf(it.reading, vehicle),
                           Show(it, std::abs(off)));
    }
    if (which.size() > kMost) names += fmt::format(", or one of {} more", which.size() - kMost);
    return text + fmt::format(
                      "Readings disagree and nothing tells which is off: {}; until it is found the "
                      "doubt is told {} times wider.",
                      names, ShowNumber(weighed.widened, 1));
  }
  if (weighed.spare == 0) return "There is one road to everything here, so nothing checks it.";
  const auto farther = [](const WeighedReading& a, const WeighedReading& b) {
    return std::abs(a.normalised) < std::abs(b.normalised);
  };
  const WeighedReading& worst =
      *std::max_element(weighed.readings.begin(), weighed.readings.end(), farther);
  return fmt::format("No reading disagrees: worst fits the {}, {} times what is usual.",
                     NameOf(worst.reading, vehicle), ShowNumber(std::abs(worst.normalised), 1));
}

std::string HeadWriter::Places() const {
  std::string text;
  for (int axle : {kFront, kRear}) {
    const WeighedPlace* x = FindPlace(weighed, kWheelX, axle);
    if (x == nullptr) continue;
    text += fmt::format("{} the {} wheel stood at x {}", text.empty() ? "When new" : ";",
                        vehicle.axles[static_cast<size_t>(axle)].name, GiveOrTake(*x));
    if (const WeighedPlace* z = FindPlace(weighed, kWheelZ, axle)) {
      text += ", z " + GiveOrTake(*z);
    }
  }
  return text + ", in the old frame's axes.";
}

std::string HeadWriter::Unchecked() const {
  const WeighedPlace* on = nullptr;  // the first that does, the wheelbase before places
  for (const LeafPlaceKind kind : {kDesignWheelbase, kWheelX, kWheelZ}) {
    for (const WeighedPlace& place : weighed.places) {
      if (on == nullptr && place.kind == kind && place.rests_on) on = &place;
    }
  }
  if (on == nullptr) return {};
  const WeighedReading& it = weighed.readings[*on->rests_on];
  std::string text = fmt::format("Nothing checks the {}, and the {} rests on it",
                                 NameOf(it.reading, vehicle), NameOf(*on, vehicle));
  if (it.next) text += fmt::format("; the {} would check it best", NameOf(*it.next, vehicle));
  return text + ".";
}

std::string HeadWriter::Assumed() const {
  std::string text;
  const auto add = [&](LeafReadingKind kind, const char* what) {
    for (const WeighedReading& it : weighed.readings) {
      if (it.reading.kind != kind || it.left_out) continue;
      text += fmt::format("{}{} within {}", text.empty() ? "Assumed: " : ", ", what,
                          Show(it.reading.sigma));
      return;
    }
  };
  add(LeafReadingKind::kWasCentred, "a wheel stood centred fore and aft in its opening when new");
  add(LeafReadingKind::kUnmoved, "the axle without a spring has not moved");
  return text.empty() ? text : text + " (one sigma, common practice).";
}

}  // namespace

std::vector<std::string> WeighedAnswer(const Vehicle& vehicle, const WeighedOriginal& weighed,
                                       UnitSystem units) {
  if (weighed.status != AdjustStatus::kConverged) {
    return {
        "The readings could not be weighed against each other: they are too far apart, or a "
        "shackle lies in line with its eyes.",
        "The tables show what each tells by itself."};
  }
  const HeadWriter writer{vehicle, weighed, units};
  std::vector<std::string> said;
  for (const std::string& sentence : {writer.Wheelbase(), writer.Agreement(), writer.Places(),
                                      writer.Unchecked(), writer.Assumed()}) {
    if (!sentence.empty()) said.push_back(sentence);
  }
  return said;
}

std::vector<NamedTable> WeighedTables(const Vehicle& vehicle, const WeighedOriginal& weighed,
                                      UnitSystem units) {
  if (weighed.status != AdjustStatus::kConverged) return {};
  std::vector<size_t> lengths, angles;
  for (size_t i = 0; i < weighed.readings.size(); ++i) {
    const bool angle = weighed.readings[i].reading.kind == LeafReadingKind::kLeanNow;
    (angle ? angles : lengths).push_back(i);
  }
  std::vector<NamedTable> tables{
      {"design", ToTable(PlaceColumns(vehicle, weighed), weighed.places, units)},
      {"readings", ToTable(ReadingColumns(vehicle, weighed, kLength), lengths, units)}};
  if (angles.empty()) return tables;
  tables.push_back(
      {"angle readings", ToTable(ReadingColumns(vehicle, weighed, kAngle), angles, units)});
  return tables;
}

std::vector<NamedTable> AllWeighedTables(const Vehicle& any) {
  const WeighedOriginal none;
  return {{"design", ToTable(PlaceColumns(any, none))},
          {"readings", ToTable(ReadingColumns(any, none, kLength))},
          {"angle readings", ToTable(ReadingColumns(any, none, kAngle))}};
}

}  // namespace linkwright
