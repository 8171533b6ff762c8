// SPDX-License-Identifier: MIT
// What cannot be although every value by itself could: an axle seat above its chassis seat, a
// damper shorter than its shortest. Runs on a document that Validate has been over, and keeps
// silent about values that were refused there.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>

#include "io/read/document.h"
#include "io/read/report.h"
#include "io/read/values.h"

namespace linkwright {

// All of the checks below.
void CheckVehicle(const Node& root, Report& report);

// Links, springs, bump stops, dampers, straps and the steering rods of one axle.
//   vehicle   the whole document
//   axle      "axles.front" or "axles.rear"
void CheckMembers(const Part& vehicle, const Part& axle, Report& report);

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

// An error at the value under `key` of a part, or at the part itself where the key is absent.
void AddErrorAt(Report& report, const Part& part, std::string_view key, std::string message);

// Refuses a right point where the left one of a pair should be given.
void CheckPairSide(const Part& part, std::initializer_list<std::string_view> keys, Report& report);

// Refuses a length that is not more than another one.
//   text   how the other is called, with a place for its value: "the solid length, {}"
void CheckMore(const Part& part, std::string_view key, std::string_view than, std::string_view text,
               Report& report);

// A length in the units that a node of the file is in.
[[nodiscard]] std::string Show(double length, const Node& node);

}  // namespace linkwright
