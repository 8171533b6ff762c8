// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/amount.h"
#include "io/write/check_tables.h"

namespace linkwright {
namespace {

struct Writer {
  UnitSystem units;
  [[nodiscard]] std::string operator()(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Length(double si) const { return (*this)(si, Dimension::kLength); }
  [[nodiscard]] std::string Angle(double si) const { return (*this)(si, Dimension::kAngle); }
};

std::string Percent(double share) { return ShowNumber(100.0 * share, 1) + " %"; }

std::string OfEnds(const Warning& warning, const Writer& write) {
  switch (warning.kind) {
    case WarningKind::kCoilUnseats:
      return warning.value < 0.0
                 ? fmt::format("{} is off its seat by {} at full droop", warning.member,
                               write.Length(-warning.value))
                 : fmt::format(
                       "{} is squeezed {} at full droop, less than {}: it may leave its "
                       "seat",
                       warning.member, write.Length(warning.value), write.Length(warning.limit));
    case WarningKind::kCoilNearSolid:
      return fmt::format("{} has {} left at full bump before it is solid, less than {}",
                         warning.member, write.Length(warning.value), write.Length(warning.limit));
    case WarningKind::kDamperEndsDroop:
      return fmt::format("the damper is the stop in droop, at {}: {}; a strap spares it",
                         write.Length(warning.value), warning.member);
    case WarningKind::kDamperEndsBump:
      return fmt::format(
          "the damper is the stop in bump, at {}: {}; it breaks before a stop "
          "would",
          write.Length(warning.value), warning.member);
    case WarningKind::kNoStop:
      return "no bump stop is in the file, so what ends bump is taken as rigid";
    case WarningKind::kStopTakenRigid:
      return fmt::format(
          "the curve of {} ends at {} of its free length, less than {}: a foam "
          "stop of 70 mm crushes to 28; is it taken as rigid?",
          warning.member, Percent(warning.value), Percent(warning.limit));
    case WarningKind::kShortBump:
      return fmt::format("bump travel is {} at rest, less than {}: {}", write.Length(warning.value),
                         write.Length(warning.limit), warning.member);
    default:
      return fmt::format("{} comes as near as {} over the travel, less than {}", warning.member,
                         write.Length(warning.value), write.Length(warning.limit));
  }
}

std::string AtRest(const Warning& warning, const Writer& write) {
  switch (warning.kind) {
    case WarningKind::kMockUpHeight:
      return fmt::format(
          "even under '{}' its wheel rests {} from where it was measured in its opening, "
          "more than {}: set wheelbase and opening at loaded height, not at "
          "mock-up height",
          warning.load, write.Length(warning.value), write.Length(warning.limit));
    case WarningKind::kNominalTire:
      return fmt::format(
          "its tyre is flattened by {} of its radius as measured, less than {}: is "
          "the nominal radius taken for the loaded one?",
          Percent(warning.value), Percent(warning.limit));
    case WarningKind::kOverRating:
      return fmt::format("under '{}' it carries {}, above its rating of {}", warning.load,
                         write(warning.value, Dimension::kMass),
                         write(warning.limit, Dimension::kMass));
    case WarningKind::kRidesStiff:
      return fmt::format(
          "under '{}' its ride frequency is {}, above {}: a donor's springs under a "
          "lighter body?",
          warning.load, write(warning.value, Dimension::kFrequency),
          write(warning.limit, Dimension::kFrequency));
    case WarningKind::kStopRaisesRate:
      return fmt::format(
          "under '{}' a bump stop touches at rest: with its rate the ride frequency is {}, above "
          "{}; "
          "the coils alone are not to blame",
          warning.load, write(warning.value, Dimension::kFrequency),
          write(warning.limit, Dimension::kFrequency));
    default:
      return fmt::format(
          "under '{}' its {} wheel stands {} farther up than the other, more than "
          "{}",
          warning.load, warning.value > 0.0 ? "left" : "right",
          write.Length(std::abs(warning.value)), write.Length(warning.limit));
  }
}

std::string OfLinks(const Warning& warning, const Writer& write) {
  switch (warning.kind) {
    case WarningKind::kNarrowTriangle:
      return fmt::format(
          "{} left and right spread {} seen from above, less than {}: nothing else "
          "holds the axle sideways",
          warning.member, write.Angle(warning.value), write.Angle(warning.limit));
    case WarningKind::kCenterInsideOut:
      return fmt::format(
          "its instant centre turns inside out near {} of travel: anti-squat, "
          "anti-dive and pitch change sign in their trend there",
          write.Length(warning.value));
    case WarningKind::kPitches:
      return fmt::format("its housing turns {} over the travel, more than {}",
                         write.Angle(warning.value), write.Angle(warning.limit));
    case WarningKind::kLinkSlopes:
      return fmt::format("{} slopes {} from the side at rest, more than {}", warning.member,
                         write.Angle(std::abs(warning.value)), write.Angle(warning.limit));
    case WarningKind::kRollSteers:
      return fmt::format("it steers {} with roll at rest, more than {} either way",
                         write(warning.value, Dimension::kAngleRatio),
                         write(warning.limit, Dimension::kAngleRatio));
    default:
      return fmt::format(
          "at crossed extremes {} takes {} from links fighting one another, more "
          "than {}",
          warning.member, write(warning.value, Dimension::kForce),
          write(warning.limit, Dimension::kForce));
  }
}

std::string OfWatched(const Warning& warning, const Writer& write) {
  if (warning.kind == WarningKind::kJointEndsTravel) {
    return fmt::format(
        "{} is at its misalignment limit at {}, {}, before anything else ends it", warning.member,
        warning.where == "crossed" ? write.Angle(warning.value) : write.Length(warning.value),
        warning.where);
  }
  if (warning.kind == WarningKind::kJointNearLimit) {
    return warning.value < 0.0
               ? fmt::format("{} is past its misalignment limit by {} {}", warning.member,
                             write.Angle(-warning.value), warning.where)
               : fmt::format("{} has {} left to its misalignment limit {}, less than {}",
                             warning.member, write.Angle(warning.value), warning.where,
                             write.Angle(warning.limit));
  }
  return warning.value < 0.0
             ? fmt::format("a tyre is {} deep in its {} {}; openings says where",
                           write.Length(-warning.value), warning.member, warning.where)
             : fmt::format(
                   "a tyre comes as near as {} to its {} {}, less than {}; openings says "
                   "where",
                   write.Length(warning.value), warning.member, warning.where,
                   write.Length(warning.limit));
}

std::string Describe(const Warning& warning, const Writer& write) {
  switch (warning.kind) {
    case WarningKind::kMockUpHeight:
    case WarningKind::kNominalTire:
    case WarningKind::kOverRating:
    case WarningKind::kRidesStiff:
    case WarningKind::kStopRaisesRate:
    case WarningKind::kSitsAskew:
      return AtRest(warning, write);
    case WarningKind::kNarrowTriangle:
    case WarningKind::kCenterInsideOut:
    case WarningKind::kPitches:
    case WarningKind::kLinkSlopes:
    case WarningKind::kRollSteers:
    case WarningKind::kLinksFight:
      return OfLinks(warning, write);
    case WarningKind::kJointNearLimit:
    case WarningKind::kJointEndsTravel:
    case WarningKind::kTireNear:
      return OfWatched(warning, write);
    default:
      return OfEnds(warning, write);
  }
}

}  // namespace

std::string LeansInward(double arm, UnitSystem units) {
  return fmt::format(
      "the body's centre of mass lies {} below the roll axis, so that it would lean into a turn, "
      "as "
      "no truck does: look at the heights of the masses and of what holds the axles sideways",
      ShowAmount(-arm, Dimension::kLength, units));
}

DataTable GapTable(const Vehicle& vehicle, const WarningReport& report, UnitSystem units) {
  DataTable table{.units = units, .columns = {}, .rows = {}};
  table.columns = {
      {"gap", "gap", Dimension::kNumber, "", "axle and name"},
      {"rest", "at rest", Dimension::kLength, "", "between its two points"},
      {"least", "least", Dimension::kLength, "",
       "over bounce, and over roll of the housing at rest height, out to what ends each"},
      {"travel", "least at travel", Dimension::kLength, "",
       "of both wheels from rest; + bump; empty where it is nearest rolled"},
      {"roll", "least at roll", Dimension::kAngle, "",
       "of the housing against the body; + left wheel up; empty where it is nearest in bounce"},
      {"limit", "limit", Dimension::kLength, "", "its own, or aims.gap"}};
  for (const GapAtLeast& gap : report.gaps) {
    table.rows.push_back({vehicle.axles[gap.axle].name + " " + gap.name, gap.rest, gap.least,
                          gap.rolled ? Cell() : Cell(gap.at), gap.rolled ? Cell(gap.at) : Cell(),
                          gap.limit});
  }
  return table;
}

std::vector<Finding> WarningFindings(const Vehicle& vehicle, const WarningReport& report,
                                     UnitSystem units) {
  const Writer write{units};
  std::vector<Finding> findings;
  for (const NoRest& none : report.unrested) {
    findings.push_back({true, fmt::format("under '{}' it finds no resting position: {}", none.load,
                                          none.message)});
  }
  for (const Warning& warning : report.warnings) {
    if (warning.kind == WarningKind::kLeansInward) {
      findings.push_back(
          {true, fmt::format("under '{}' {}", warning.load, LeansInward(warning.value, units))});
      continue;
    }
    const Axle& axle = vehicle.axles[warning.axle];
    const bool assumed = warning.kind == WarningKind::kTireNear && warning.member == "lip" &&
                         axle.opening && !axle.opening->lip_y;
    findings.push_back(
        {true,
         fmt::format("the {} axle: {}{}", axle.name, Describe(warning, write),
                     assumed ? " (no lip_y: its lip is taken to reach across the tyre)" : "")});
  }
  for (const FightAtExtremes& fight : report.fights) {
    const Axle& axle = vehicle.axles[fight.axle];
    const std::string text = fmt::format(
        "the {} axle: crossed to {}, {} takes {} from the others; its joints twist up to {} and "
        "misalign up to {}: rod ends must take that, bushings give it",
        axle.name, write.Angle(fight.cross), fight.member, write(fight.force, Dimension::kForce),
        write.Angle(fight.twist), write.Angle(fight.misalignment));
    findings.push_back({false, text});
  }
  return findings;
}

}  // namespace linkwright
