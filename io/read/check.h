// SPDX-License-Identifier: MIT
// What cannot be although every value by itself could: an axle seat above its chassis seat, a
// damper shorter than its shortest. Runs on a document that Validate has been over, and keeps
// silent about values that were refused there.
#pragma once

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/read/values.h"

namespace linkwright {

// How each axle's housing stands against where it was measured, its arms as they are (front, rear).
using HousingMoved = std::array<Eigen::Isometry3d, 2>;

// All of the checks below.
void CheckVehicle(const Node& root, const HousingMoved& moved, Report& report);

// Links, springs, bump stops, dampers, straps and the steering rods of one axle.
//   vehicle   the whole document
//   axle      "axles.front" or "axles.rear"
//   moved     its housing, against where it was measured
void CheckMembers(const Part& vehicle, const Part& axle, const Eigen::Isometry3d& moved,
                  Report& report);

// A-arms, radius arms and Watt's links of one axle.
void CheckArms(const Part& axle, Report& report);

// The leaf springs of the vehicle a body came from.
void CheckLeafOriginal(const Part& vehicle, Report& report);

// Ledger, sprung and unsprung masses and loads: that something is left to be sprung, and that no
// mass lies below the floor, nor the centre of what they come to.
//   floor   z of it in the file's datum [m]
void CheckMasses(const Part& vehicle, double floor, Report& report);

// What a spring with `free_length: weighed` lacks: a ledger, a rate, its pair, being the only
// spring of its axle, a load to carry. Says nothing about other springs. The length itself is the
// solver's (solver/rest/weighed.h).
void CheckWeighed(const Part& vehicle, const Part& axle, const Part& spring, Report& report);

constexpr double kSamePoint = 1e-3;  // [m] less than the play of any bolt hole

// A length in the units that a node of the file is in; of anything else, itself.
[[nodiscard]] std::string Show(double length, const Node& node);
template <typename Text>
const Text& Show(const Text& text, const Node&) {
  return text;
}

template <typename Value>
using ShownAs = std::conditional_t<std::is_same_v<Value, double>, std::string, Value>;

// An error at the value under `key` of a part, or at the part itself where the key is absent.
//   values   of the text's places; a number is a length [m], told in the units the part is in
void AddMessageAt(Report& report, const Part& part, std::string_view key, std::string message);
template <typename... Values>
void AddErrorAt(Report& report, const Part& part, std::string_view key,
                fmt::format_string<ShownAs<Values>...> text, const Values&... values) {
  AddMessageAt(report, part, key,
               fmt::vformat(text, fmt::make_format_args(Show(values, part.node)...)));
}

// Refuses a right point where the left one of a pair should be given.
void CheckPairSide(const Part& part, std::initializer_list<std::string_view> keys, Report& report);

// Refuses a point that is the same as another one.
//   what   the other: "the output"
void CheckApart(const Part& part, std::string_view key, const std::optional<Eigen::Vector3d>& other,
                std::string_view what, Report& report);

// Refuses a length that is not more than another one.
//   what    the other: "the solid length"
//   after   of the message
void CheckMore(const Part& part, std::string_view key, std::string_view than, std::string_view what,
               Report& report, std::string_view after = "");

}  // namespace linkwright
