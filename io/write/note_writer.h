// SPDX-License-Identifier: MIT
// Collects sentences about one vehicle that are told and not judged, amounts in the reader's units.
#pragma once

#include "io/write/amount.h"
#include "solver/model/vehicle.h"

namespace linkwright {

struct NoteWriter {
  const Vehicle* vehicle;
  UnitSystem units;
  std::vector<std::string>* to;

  [[nodiscard]] std::string Amount(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Length(double si) const { return Amount(si, Dimension::kLength); }
  [[nodiscard]] std::string Angle(double si) const { return Amount(si, Dimension::kAngle); }
  void Say(std::string text) const { to->push_back(std::move(text)); }
};

// That the edge of an opening is taken to run straight down from its arc, where it has one.
void SayLipLegs(const NoteWriter& writer, const Axle& axle);

}  // namespace linkwright
