// SPDX-License-Identifier: MIT
#include "io/read/options.h"

#include <algorithm>
#include <cassert>

#include "io/read/format_keys.h"

namespace linkwright {
namespace {

using D = Dimension;

constexpr double kMostTravel = 2.0;                 // [m] nothing is swept beyond
constexpr double kMostAngle = kRightAngle * 2 / 3;  // [rad] nor beyond this
constexpr double kMostLateral = 2.0 * 9.80665;      // [m/s2] kMostLateralInG of cornering.h
constexpr Range kTravel{.low = -kMostTravel, .high = kMostTravel};
constexpr Range kAngle{.low = -kMostAngle, .high = kMostAngle};
constexpr Range kTravelStep{.low = 0.0, .high = kMostTravel, .above_low = true};
constexpr Range kAngleStep{.low = 0.0, .high = kMostAngle, .above_low = true};

// An option that stands for a key of the file.
Key Like(std::string_view option, std::string_view group, std::string_view key) {
  Key same = FindKey(group, key);
  same.name = option;
  return same;
}

const std::vector<Key>& Options() {
  static const std::vector<Key> options{
      Number("--from", D::kLength, kTravel, "First travel of a sweep."),
      Number("--from", D::kAngle, kAngle, "First angle of a sweep."),
      Number("--to", D::kLength, kTravel, "Last travel of a sweep."),
      Number("--to", D::kAngle, kAngle, "Last angle of a sweep."),
      Number("--step", D::kLength, kTravelStep, "Travel between its rows."),
      Number("--step", D::kAngle, kAngleStep, "Angle between its rows."),
      Number("--bump", D::kLength, kTravelStep, "Bump that parts are advised for."),
      Number("--droop", D::kLength, kTravelStep, "Droop that parts are advised for."),
      Number("--split", D::kPercent, kShare, "Share of the travel that is bump."),
      Number("--centre-split", D::kPercent, kShare, "Share that the chassis takes."),
      Like("--lock", "steering", "lock"),
      Like("--speed", "driveshaft", "top_speed_rpm"),
      Number("--torque", D::kTorque, kAny, "In a shaft, or at an axle's wheels."),
      Number("--lateral", D::kLateral, {.low = -kMostLateral, .high = kMostLateral},
             "Sideways acceleration."),
      Like("--payload", "item", "mass"),
      Number("--at", D::kLength, kAny, "A coordinate of the payload's centre."),
  };
  return options;
}

}  // namespace

const Key& FindOption(std::string_view option, Dimension dimension) {
  const auto found = std::find_if(Options().begin(), Options().end(), [&](const Key& key) {
    return key.name == option && key.dimension == dimension;
  });
  assert(found != Options().end());
  return *found;
}

std::string WantedForOption(std::string_view option) {
  if (option == "FILE" || option == "FIRST" || option == "SECOND") return "a vehicle file";
  if (option == "--csv" || option == "--json") return "the name of a file to write";
  if (option == "--load") return "the name of a load";
  if (option == "--column") return "the name of a column";
  std::string wanted;
  for (const Key& key : Options()) {
    if (key.name == option) wanted += (wanted.empty() ? "" : ", or ") + WantedFor(key);
  }
  return wanted;
}

}  // namespace linkwright
