// SPDX-License-Identifier: MIT
// The readings of a leaf-sprung original weighed against each other: where its axles sat when new
// and how surely, which reading disagrees, which nothing checks.
#pragma once

#include "solver/numeric/adjustment.h"
#include "solver/study/file/leaf_readings.h"

namespace linkwright {

constexpr double kDisagrees = 3.0;  // normalised: one sound reading in 370 is farther off by chance

// A measurement that could still be taken.
struct NextReading {
  LeafReadingKind kind;
  std::optional<int> axle;
  double checks;  // redundancy number that it gives to what nothing checks now
};

struct WeighedReading {
  LeafReading reading;
  double adjusted = 0.0;  // by all that were kept [m] or [rad]
  double checked = 0.0;   // redundancy number; of one left out, that of its last weighing
  double normalised =
      0.0;  // read less what the rest says, over what it usually is; 0 where unchecked
  std::optional<double> from_rest = {};   // what the others say it should be; absent: they do not
  std::optional<double> least_slip = {};  // a smaller one would not show, four times in five
  bool left_out = false;
  std::optional<NextReading> next = {};  // of one that nothing checks, where one would
};

// Readings of which one is off, and nothing tells which: a slip of any one would explain it, the
// least likely less than twenty times less so than the likeliest.
struct LeafDoubt {
  std::vector<size_t> which;  // into WeighedOriginal::readings, the smallest slip for its sigma
                              // first
};

enum class LeafPlaceKind {
  kDesignWheelbase,  // hub to hub; along the frame where one axle has no spring
  kWheelbaseNow,
  kWheelX,   // when new, in D
  kWheelZ,   // the same
  kMovedX,   // of the wheel centre since
  kMovedZ,   // the same
  kInBodyX,  // when new, ahead of its opening's centre
  kInBodyZ,  // the same, above
};

struct WeighedPlace {
  LeafPlaceKind kind;
  std::optional<int> axle;
  double value;  // [m]
  double sigma;  // [m]
  // Of what nothing checks, the reading with the greatest part in sigma, and that part of its
  // square; absent: all that has a part is checked.
  std::optional<size_t> rests_on;
  double share = 0.0;
};

struct WeighedOriginal {
  AdjustStatus status = AdjustStatus::kUndetermined;  // the rest is empty unless it converged
  std::vector<WeighedReading> readings = {};          // in the order of the survey
  std::vector<size_t> slips = {};                     // left out, the first found first
  std::optional<LeafDoubt> doubt = {};
  std::vector<WeighedPlace> places = {};
  int spare = 0;         // readings kept more than needed
  double widened = 1.0;  // each sigma by so much where a doubt stays, so that it covers it
};

// Weighs the readings. The worst above the limit is left out and the rest weighed again, as long
// as the rest can tell which one it is.
//   limit    of a normalised residual; infinite: all are kept
//   errors   ModelError as ReportOriginal
//   source   docs/theory.md (119a) to (119f)
[[nodiscard]] WeighedOriginal WeighOriginal(const Vehicle& vehicle, double limit = kDisagrees);

[[nodiscard]] const WeighedPlace* FindPlace(const WeighedOriginal& weighed, LeafPlaceKind kind,
                                            std::optional<int> axle = {});

}  // namespace linkwright
