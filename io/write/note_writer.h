// SPDX-License-Identifier: MIT
// Collects sentences about one vehicle that are told and not judged, amounts in the reader's units.
#pragma once

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "io/write/amount.h"
#include "solver/model/vehicle.h"

namespace linkwright {

struct NoteWriter {
  const Vehicle* vehicle;
  UnitSystem units;
  std::vector<std::string>* to;
  std::string about = {};  // stands before each sentence: "the rear shaft: "

  [[nodiscard]] std::string Amount(double si, Dimension dimension) const {
    return ShowAmount(si, dimension, units);
  }
  [[nodiscard]] std::string Length(double si) const { return Amount(si, Dimension::kLength); }
  [[nodiscard]] std::string Fine(double si) const { return ShowFine(si, units); }
  [[nodiscard]] std::string Angle(double si) const { return Amount(si, Dimension::kAngle); }
  // "25.3 mm back": the way in words, not by a sign.
  [[nodiscard]] std::string Way(double length, const char* plus, const char* minus) const {
    return Length(std::abs(length)) + " " + (length < 0.0 ? minus : plus);
  }
  // The same for sentences about one thing.
  [[nodiscard]] NoteWriter About(std::string whom) const {
    return {vehicle, units, to, std::move(whom)};
  }
  void Say(const std::string& text) const { to->push_back(about + text); }
  template <typename First, typename... More>
  void Say(fmt::format_string<First, More...> text, First&& first, More&&... more) const {
    Say(fmt::format(text, std::forward<First>(first), std::forward<More>(more)...));
  }
};

// That the edge of an opening is taken to run straight down from its arc, where it has one; by a
// writer about the axle.
void SayLipLegs(const NoteWriter& writer, const Axle& axle);

}  // namespace linkwright
