// SPDX-License-Identifier: MIT
#include "io/write/sweep_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <set>
#include <utility>

#include "io/shown.h"
#include "io/write/amount.h"
#include "io/write/reading.h"
#include "io/write/wrap.h"

namespace linkwright {
namespace {

constexpr size_t kMostSentence = 240;  // characters that a reader takes in at once
constexpr size_t kFewRows = 17;        // of a printed table

std::optional<double> NumberAt(const DataTable& rows, size_t r, size_t c) {
  const auto* number = std::get_if<double>(&rows.rows[r][c]);
  return number == nullptr ? std::nullopt : std::optional(*number);
}

double ParameterAt(const DataTable& rows, size_t r) { return NumberAt(rows, r, 0).value_or(0.0); }

size_t RestRow(const DataTable& rows) {
  for (size_t r = 0; r < rows.rows.size(); ++r) {
    if (ParameterAt(rows, r) == 0.0) return r;
  }
  return 0;
}

// The rows that an axle has: it stands somewhere in each.
struct AxleRows {
  size_t low, rest, high;
};

AxleRows RowsOf(const DataTable& rows, const std::string& axle) {
  AxleRows of{RestRow(rows), RestRow(rows), RestRow(rows)};
  const auto c = FindColumn(rows, axle + "_axle_steer");
  for (size_t r = 0; c && r < rows.rows.size(); ++r) {
    if (NumberAt(rows, r, *c)) of.low = std::min(of.low, r), of.high = std::max(of.high, r);
  }
  return of;
}

// One axle in sentences.
class AxleTold {
 public:
  AxleTold(const SweptCurves& of, size_t axle)
      : of_(of), axle_(axle), name_(of.vehicle->axles[axle].name), at_(RowsOf(*of.rows, name_)) {}

  [[nodiscard]] const std::string& Name() const { return name_; }
  [[nodiscard]] const AxleRows& At() const { return at_; }

  [[nodiscard]] std::string Amount(double parameter) const {
    return ShowAmount(std::abs(parameter), of_.rows->columns[0].dimension, of_.rows->units);
  }

  // "78 mm of bump, until cone right is solid"; empty where none was asked for.
  [[nodiscard]] std::string Reach(bool high, bool brief) const {
    const RowsEnd& end = (high ? of_.high : of_.low)[axle_];
    const char* way = high ? of_.high_way : of_.low_way;
    const double last = ParameterAt(*of_.rows, high ? at_.high : at_.low);
    if (end.sooner) {
      std::string text = fmt::format("{} {}, until {}", Amount(*end.sooner->at), way,
                                     DescribeShort(end.sooner->limit));
      if (brief || !end.hit) return text;
      return text + fmt::format(" (the rows go on to {}, where {})", Amount(*end.hit->at),
                                DescribeShort(end.hit->limit));
    }
    if (end.hit) {
      return fmt::format("{} {}, until {}", Amount(*end.hit->at), way,
                         DescribeShort(end.hit->limit));
    }
    if (end.asked && last == 0.0) return {};
    if (end.asked) return fmt::format("the {} {} asked for", Amount(last), way);
    return fmt::format("{} {} in these rows, with nothing in the file to end it", Amount(last),
                       way);
  }

  // How its lower or upper end is called: "full droop", "at 20 mm of droop".
  [[nodiscard]] std::string EndName(bool high) const {
    const RowsEnd& end = (high ? of_.high : of_.low)[axle_];
    const char* full = high ? of_.high_end : of_.low_end;
    if (*full != '\0' && end.hit) return full;
    return Amount(ParameterAt(*of_.rows, high ? at_.high : at_.low)) + " " +
           (high ? of_.high_way : of_.low_way);
  }

  [[nodiscard]] std::optional<size_t> Find(const std::string& name) const {
    return FindColumn(*of_.rows, name);
  }
  [[nodiscard]] std::optional<size_t> FindOwn(const std::string& name) const {
    return Find(name_ + "_" + name);
  }
  // Of the road wheels with the steering wheel held.
  [[nodiscard]] std::optional<size_t> FindSteer() const {
    if (!of_.vehicle->axles[axle_].steering) return std::nullopt;
    const bool both = axle_ == kRear && of_.vehicle->axles[kFront].steering;
    return Find(both ? "rear_steer" : "steer");
  }

  // The places it is told at: its lower end, rest, its upper end.
  [[nodiscard]] std::vector<size_t> Places() const {
    std::vector<size_t> places{at_.rest};
    if (at_.low != at_.rest) places.insert(places.begin(), at_.low);
    if (at_.high != at_.rest) places.push_back(at_.high);
    return places;
  }
  [[nodiscard]] std::string PlaceNames() const {
    const bool low = at_.low != at_.rest, high = at_.high != at_.rest;
    if (low && high) return "From " + EndName(false) + " through rest to " + EndName(true);
    if (low) return "From " + EndName(false) + " to rest";
    return high ? "From rest to " + EndName(true) : "At rest";
  }

  // "7.4, 4.9 and 1.9 deg up"; empty where a place has none.
  [[nodiscard]] std::string Over(size_t c) const {
    const Column& column = of_.rows->columns[c];
    const UnitSystem units = of_.rows->units;
    std::vector<double> values;
    for (const size_t r : Places()) {
      const auto value = NumberAt(*of_.rows, r, c);
      if (!value) return {};
      values.push_back(*value);
    }
    const auto ways = WaysOf(column);
    const bool up = std::all_of(values.begin(), values.end(), [](double v) { return v >= 0.0; });
    const bool down = std::all_of(values.begin(), values.end(), [](double v) { return v <= 0.0; });
    const bool one_way = !ways || up || down;
    std::string text;
    for (size_t i = 0; i < values.size(); ++i) {
      text += i == 0 ? "" : i + 1 == values.size() ? " and " : ", ";
      const double size = ways ? std::abs(values[i]) : values[i];
      text += !one_way ? ReadOut(column, values[i], units)
              : ways   ? ShowBare(size, column.dimension, units)
                       : ReadBare(column, size, units);
    }
    if (!one_way) return text;
    text += " " + UnitName(column, units);
    return ways ? text + " " + (down && !up ? ways->second : ways->first) : text;
  }

  // "19 mm shorter at full droop and 11 mm longer at full bump"; empty where a tape shows nothing.
  [[nodiscard]] std::string AtEnds(size_t c) const {
    std::string text;
    for (const bool high : {false, true}) {
      const size_t r = high ? at_.high : at_.low;
      if (r == at_.rest) continue;
      const auto value = NumberAt(*of_.rows, r, c);
      const std::string shown =
          value ? ReadOut(of_.rows->columns[c], *value, of_.rows->units) : "none";
      if (shown == "none") continue;
      text += (text.empty() ? "" : " and ") + shown + " at " + EndName(high);
    }
    return text;
  }

 private:
  const SweptCurves& of_;
  size_t axle_;
  const std::string& name_;
  AxleRows at_;
};

void SayReach(const SweptCurves& of, const AxleTold& axle, std::vector<std::string>& to) {
  for (const bool brief : {false, true}) {
    const bool from_rest = of.bounce || !of.wheel.empty();
    const std::string first = axle.Reach(from_rest, brief), then = axle.Reach(!from_rest, brief);
    if (first.empty() && then.empty()) return;
    const std::string ways = first + (first.empty() || then.empty() ? "" : ", and ") + then;
    std::string who = of.wheel.empty() ? axle.Name() + " axle" : of.wheel + " wheel";
    std::replace(who.begin(), who.end(), '-', ' ');
    const std::string text = from_rest ? fmt::format("From rest the {} has {}.", who, ways)
                                       : fmt::format("The {} goes {}.", who, ways);
    if (!brief && TextWidth(text) > kMostSentence) continue;
    to.push_back(text);
    return;
  }
}

// Caster or pinion, and the wheelbase.
void SayAngles(const AxleTold& axle, std::vector<std::string>& to) {
  std::string text;
  const auto caster = axle.FindOwn("caster"), pinion = axle.FindOwn("pinion_angle"),
             pitch = axle.FindOwn("housing_pitch");
  if (caster) {
    text = fmt::format("the {} caster is {}", axle.Name(), axle.Over(*caster));
  } else if (pinion) {
    text = fmt::format("the {} pinion stands {}", axle.Name(), axle.Over(*pinion));
  } else if (pitch) {
    text = fmt::format("the {} housing is turned {}", axle.Name(), axle.Over(*pitch));
  }
  if (const auto change = axle.FindOwn("wheelbase_change")) {
    const std::string moved = axle.AtEnds(*change);
    text += (text.empty() ? "" : "; ") +
            (moved.empty() ? std::string("the axle leaves the wheelbase as it is")
                           : "the axle makes the wheelbase " + moved);
  }
  if (!text.empty()) to.push_back(axle.PlaceNames() + " " + text + ".");
}

void SaySideways(const std::vector<AxleTold>& axles, std::vector<std::string>& to) {
  std::string text;
  for (const AxleTold& axle : axles) {
    const auto shift = axle.FindOwn("lateral_shift");
    const std::string shifts = shift ? axle.AtEnds(*shift) : std::string();
    if (shifts.empty()) continue;
    text += (text.empty() ? "The " : "; the ") + axle.Name() + " axle shifts " + shifts;
  }
  if (text.empty())
    text = axles.size() > 1 ? "Neither axle shifts sideways"
                            : "The " + axles[0].Name() + " axle does not shift sideways";
  to.push_back(text + ".");
}

void SayBumpSteer(const std::vector<AxleTold>& axles, std::vector<std::string>& to) {
  for (const AxleTold& axle : axles) {
    const auto steer = axle.FindSteer();
    if (!steer) continue;
    const std::string steers = axle.AtEnds(*steer);
    to.push_back(fmt::format("With the steering wheel held the {} wheels {}.", axle.Name(),
                             steers.empty() ? "do not steer" : "steer " + steers));
  }
}

void SayAnti(const std::vector<AxleTold>& axles, std::vector<std::string>& to) {
  std::string text;
  for (const AxleTold& axle : axles) {
    for (const char* name : {"anti_dive", "anti_squat"}) {
      const auto anti = axle.FindOwn(name);
      const std::string over = anti ? axle.Over(*anti) : std::string();
      if (over.empty()) continue;
      const std::string called = name == std::string("anti_dive") ? "anti-dive" : "anti-squat";
      text += (text.empty() ? axle.PlaceNames() + " " : "; ") + called + " is " + over;
    }
  }
  if (!text.empty()) to.push_back(text + ".");
}

// Where the housing's turn per travel changes sign, its instant centre passes through infinity:
// between two rows, those nearest to rest.
std::optional<std::pair<size_t, size_t>> TurnsOver(const DataTable& rows, const AxleTold& axle) {
  const auto c = axle.FindOwn("instant_center_ahead");
  if (!c) return std::nullopt;
  std::optional<std::pair<size_t, size_t>> nearest;
  double least = 0.0;
  for (size_t r = axle.At().low + 1; r <= axle.At().high; ++r) {
    const auto before = NumberAt(rows, r - 1, *c), after = NumberAt(rows, r, *c);
    if (!before || !after || (*before > 0.0) == (*after > 0.0)) continue;
    // Through the hub instead of infinity: near it on both sides.
    if (std::abs(*before) + std::abs(*after) < 1.0) continue;
    const double off = std::min(std::abs(ParameterAt(rows, r - 1)), std::abs(ParameterAt(rows, r)));
    if (nearest && off >= least) continue;
    nearest = {r - 1, r}, least = off;
  }
  return nearest;
}

void SayTurnsOver(const SweptCurves& of, const std::vector<AxleTold>& axles,
                  std::vector<std::string>& to) {
  std::string text;
  const auto place = [&](const AxleTold& axle, double at) {
    if (at == 0.0) return std::string("rest");
    return axle.Amount(at) + " " + (at > 0.0 ? of.high_way : of.low_way);
  };
  for (const AxleTold& axle : axles) {
    const auto between = TurnsOver(*of.rows, axle);
    if (!between) continue;
    double near = ParameterAt(*of.rows, between->first);
    double far = ParameterAt(*of.rows, between->second);
    if (std::abs(far) < std::abs(near)) std::swap(near, far);
    text +=
        fmt::format("{}{} axle's between {} and {}", text.empty() ? "the " : ", the ", axle.Name(),
                    near * far > 0.0 ? axle.Amount(near) : place(axle, near), place(axle, far));
  }
  if (text.empty()) return;
  to.push_back("A side-view instant centre passes through infinity, " + text +
               ": there the housing begins to turn the other way.");
}

void SayFolds(const SweptCurves& of, const std::vector<AxleTold>& axles,
              std::vector<std::string>& to) {
  std::string text;
  for (size_t i = 0; i < axles.size(); ++i) {
    for (const bool high : {false, true}) {
      const RowsEnd& end = (high ? of.high : of.low)[of.axles[i]];
      if (!end.hit || end.hit->limit.id.kind != LimitKind::kLinksStraight) continue;
      text += (text.empty() ? "the " : ", the ") + axles[i].Name() + " ones at " +
              axles[i].EndName(high);
    }
  }
  if (text.empty()) return;
  to.push_back("Links line up, " + text +
               ": rows there have places and no slopes (roll centre, roll steer, anti-dive).");
}

// Of the motions beside bounce.
void SayMoves(const AxleTold& axle, std::vector<std::string>& to) {
  std::string text;
  const auto add = [&](const char* name, const char* does) {
    const auto c = axle.FindOwn(name);
    const std::string ends = c ? axle.AtEnds(*c) : std::string();
    if (ends.empty()) return;
    const std::string more = (text.empty() ? "" : "; it ") + std::string(does) + " " + ends;
    constexpr size_t kAround = 20;  // "The front axle " and the dot
    if (text.size() + more.size() + kAround <= kMostSentence) text += more;
  };
  add("right_road_steer", "turns its right wheel");
  add("axle_steer", "steers");
  add("lateral_shift", "shifts");
  add("wheelbase_change", "makes the wheelbase");
  if (!text.empty()) to.push_back(fmt::format("The {} axle {}.", axle.Name(), text));
}

// How hard links come to fight one another on the way.
void SayBind(const SweptCurves& of, const std::vector<AxleTold>& axles,
             std::vector<std::string>& to) {
  std::string text;
  for (const AxleTold& axle : axles) {
    const auto bind = axle.FindOwn("link_strain_force");
    if (!bind) continue;
    double most = 0.0;
    for (size_t r = 0; r < of.rows->rows.size(); ++r) {
      most = std::max(most, NumberAt(*of.rows, r, *bind).value_or(0.0));
    }
    const double rest = NumberAt(*of.rows, axle.At().rest, *bind).value_or(0.0);
    if (most < rest + ReadsTo(of.rows->columns[*bind], rest)) continue;
    text += fmt::format("{}{} axle by up to {}", text.empty() ? "the " : ", the ", axle.Name(),
                        ShowAmount(most, Dimension::kForce, of.rows->units));
  }
  if (!text.empty()) to.push_back("Links fight one another, those of " + text + ".");
}

// A column of the printed table: its name after the axle's, its head there.
struct Curve {
  const char *name, *head;
  bool by_load = true;  // also where each load has its rows
};
constexpr std::array kBounceCurves{Curve{"wheelbase_change", "wheelbase change"},
                                   Curve{"lateral_shift", "sideways", false},
                                   Curve{"caster", "caster"},
                                   Curve{"pinion_angle", "pinion"},
                                   Curve{"STEER", "steer", false},
                                   Curve{"anti_squat", "anti-squat"},
                                   Curve{"anti_dive", "anti-dive"},
                                   Curve{"roll_center_height", "roll centre"},
                                   Curve{"roll_steer", "roll steer"},
                                   Curve{"ride_frequency", "ride"}};
constexpr std::array kMotionCurves{
    Curve{"left_road_steer", "left wheel"},     Curve{"right_road_steer", "right wheel"},
    Curve{"pitman_travel", "pitman end"},       Curve{"axle_steer", "axle steer"},
    Curve{"lateral_shift", "sideways"},         Curve{"wheelbase_change", "wheelbase change"},
    Curve{"housing_pitch", "housing pitch"},    Curve{"left_spring_length", "left coil"},
    Curve{"right_spring_length", "right coil"}, Curve{"link_strain_force", "link bind"}};

struct PickedCurve {
  size_t index;
  const char* head;
};

std::vector<PickedCurve> PickCurves(const SweptCurves& of, const AxleTold& axle, bool by_load) {
  std::vector<PickedCurve> picked;
  const auto add = [&](const Curve& curve) {
    if (by_load && !curve.by_load) return;
    const std::string name = curve.name;
    if (name == "pinion_angle" && axle.FindOwn("caster")) return;  // they turn together
    const auto c = name == "STEER" ? axle.FindSteer() : axle.FindOwn(name);
    if (c) picked.push_back({*c, curve.head});
  };
  if (of.bounce) {
    for (const Curve& curve : kBounceCurves) add(curve);
  } else {
    for (const Curve& curve : kMotionCurves) add(curve);
  }
  return picked;
}

// Two sentences of one that is too long, parted where it was joined, while there are few enough.
void SplitLong(std::vector<std::string>& said) {
  constexpr size_t kMostSaid = 7;  // one more may follow
  for (size_t i = 0; i < said.size() && said.size() < kMostSaid; ++i) {
    const size_t joint = said[i].find("; ");
    if (TextWidth(said[i]) <= kMostSentence || joint == std::string::npos) continue;
    std::string rest = said[i].substr(joint + 2);
    rest[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(rest[0])));
    said[i] = said[i].substr(0, joint) + ".";
    said.insert(said.begin() + static_cast<std::ptrdiff_t>(i) + 1, rest);
  }
}

bool IsMultiple(double value, double base, double step) {
  const double count = (value - base) / step;
  return std::abs(count - std::round(count)) < 1e-6;
}

}  // namespace

std::vector<std::string> CurveSentences(const SweptCurves& of) {
  std::vector<AxleTold> axles;
  for (const size_t i : of.axles) axles.emplace_back(of, i);
  std::vector<std::string> said;
  if (axles.empty()) return said;
  for (const AxleTold& axle : axles) SayReach(of, axle, said);
  for (const AxleTold& axle : axles) {
    of.bounce ? SayAngles(axle, said) : SayMoves(axle, said);
  }
  if (of.bounce) {
    SaySideways(axles, said);
    SayBumpSteer(axles, said);
    SayAnti(axles, said);
    SayTurnsOver(of, axles, said);
  } else {
    SayBind(of, axles, said);
  }
  SayFolds(of, axles, said);
  SplitLong(said);
  if (of.vehicle->only_axle) {
    said.push_back(
        fmt::format("Rest is the measured stance, the chassis level: the file has the {} axle only "
                    "and gives no masses.",
                    of.vehicle->axles[*of.vehicle->only_axle].name));
  } else if (!of.has_mass) {
    said.emplace_back(
        "The file gives no masses, so rest is the measured stance; anti-squat, rates and "
        "frequencies are left out.");
  }
  return said;
}

std::string ReachSentence(const std::string& load, const SweptCurves& of) {
  std::string text;
  for (const size_t i : of.axles) {
    const AxleTold axle(of, i);
    const auto far = [&](bool high) {
      const RowsEnd& end = (high ? of.high : of.low)[i];
      const double rows_end = ParameterAt(*of.rows, high ? axle.At().high : axle.At().low);
      return axle.Amount(end.sooner ? *end.sooner->at : rows_end) + " " +
             (high ? of.high_way : of.low_way);
    };
    text += fmt::format("{}the {} axle has {} and {}", text.empty() ? "" : ", ", axle.Name(),
                        far(true), far(false));
  }
  return "Under '" + Shown(load) + "' " + text + ", to where the first part ends it.";
}

DataTable ColumnsOfRows(const DataTable& rows, const std::vector<size_t>& columns,
                        const RowsShown& shown) {
  std::vector<size_t> there;  // rows with anything in them
  std::set<size_t> always{RestRow(rows)};
  for (const size_t c : columns) {
    std::optional<size_t> first, last;
    for (size_t r = 0; r < rows.rows.size(); ++r) {
      if (std::holds_alternative<std::monostate>(rows.rows[r][c])) continue;
      if (!first) first = r;
      last = r;
    }
    if (first) always.insert({*first, *last});
  }
  for (size_t r = 0; r < rows.rows.size(); ++r) {
    const bool any = std::any_of(columns.begin(), columns.end(), [&](size_t c) {
      return !std::holds_alternative<std::monostate>(rows.rows[r][c]);
    });
    if (any) there.push_back(r);
  }
  std::vector<size_t> kept = there;
  for (const double step : shown.steps) {
    kept.clear();
    for (const size_t r : there) {
      const double at = ParameterAt(rows, r);
      // One that is nearly at an end tells no more than the end does.
      const bool near = std::any_of(always.begin(), always.end(), [&](size_t end) {
        return std::abs(ParameterAt(rows, end) - at) < 0.25 * step;
      });
      if (always.contains(r) || (!near && IsMultiple(at, shown.base, step))) kept.push_back(r);
    }
    if (kept.size() <= kFewRows) break;
  }
  DataTable picked{.units = rows.units, .columns = {rows.columns[0]}, .rows = {}};
  picked.columns[0].group.clear();
  for (const size_t c : columns) {
    Column& column = picked.columns.emplace_back(rows.columns[c]);
    column.head = FullName(column), column.group.clear();
  }
  for (const size_t r : kept) {
    std::vector<Cell>& cells = picked.rows.emplace_back();
    cells.push_back(rows.rows[r][0]);
    for (const size_t c : columns) cells.push_back(rows.rows[r][c]);
  }
  return picked;
}

std::vector<NamedTable> CurvesAtAGlance(const SweptCurves& of, const RowsShown& shown) {
  std::vector<NamedTable> tables;
  for (const size_t i : of.axles) {
    const AxleTold axle(of, i);
    std::vector<size_t> columns;
    const std::vector<PickedCurve> picked = PickCurves(of, axle, false);
    if (picked.empty()) continue;
    for (const PickedCurve& curve : picked) columns.push_back(curve.index);
    DataTable table = ColumnsOfRows(*of.rows, columns, shown);
    for (size_t c = 0; c < picked.size(); ++c) table.columns[c + 1].head = picked[c].head;
    tables.push_back({axle.Name() + " axle", std::move(table)});
  }
  return tables;
}

std::vector<NamedTable> CurvesByLoad(const SweptCurves& of, const std::vector<LoadRows>& loads) {
  std::vector<NamedTable> tables;
  for (const size_t i : of.axles) {
    const std::vector<PickedCurve> picked = PickCurves(of, AxleTold(of, i), true);
    DataTable table{.units = of.rows->units,
                    .columns = {{"load", "load", Dimension::kNumber, "", ""}, of.rows->columns[0]},
                    .rows = {}};
    table.columns[1].group.clear();
    for (const PickedCurve& curve : picked) {
      Column& column = table.columns.emplace_back(of.rows->columns[curve.index]);
      column.head = curve.head, column.group.clear();
    }
    for (const LoadRows& load : loads) {
      SweptCurves its = of;
      its.rows = load.rows;
      for (const size_t r : AxleTold(its, i).Places()) {
        std::vector<Cell>& cells = table.rows.emplace_back();
        cells.emplace_back(load.load);
        cells.push_back(load.rows->rows[r][0]);
        for (const PickedCurve& curve : picked) cells.push_back(load.rows->rows[r][curve.index]);
      }
    }
    tables.push_back({of.vehicle->axles[i].name + " axle", std::move(table)});
  }
  return tables;
}

DataTable RowsOfLoads(const std::vector<LoadRows>& loads) {
  DataTable all = *loads.front().rows;
  all.rows.clear();
  const Column load{"load", "load", Dimension::kNumber, "", "the load it stands under"};
  all.columns.insert(all.columns.begin() + 1, load);
  for (const LoadRows& each : loads) {
    for (std::vector<Cell> row : each.rows->rows) {
      row.insert(row.begin() + 1, Cell(each.load));
      all.rows.push_back(std::move(row));
    }
  }
  return all;
}

}  // namespace linkwright
