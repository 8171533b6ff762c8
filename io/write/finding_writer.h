// SPDX-License-Identifier: MIT
// Collects sentences about one vehicle, amounts in the reader's units.
#pragma once

#include "io/write/amount.h"
#include "io/write/check_tables.h"

namespace linkwright {

struct FindingWriter {
  const Vehicle* vehicle;
  UnitSystem units;
  std::vector<Finding>* to;

  [[nodiscard]] std::string Length(double si) const {
    return ShowAmount(si, Dimension::kLength, units);
  }
  [[nodiscard]] std::string Angle(double si) const {
    return ShowAmount(si, Dimension::kAngle, units);
  }
  void Warn(std::string text) const { to->push_back({true, std::move(text)}); }
  void Say(std::string text) const { to->push_back({false, std::move(text)}); }
};

// That the edge of an opening is taken to run straight down from its arc, where it has one.
void SayLipLegs(const FindingWriter& writer, const Axle& axle);

}  // namespace linkwright
