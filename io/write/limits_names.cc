// SPDX-License-Identifier: MIT
// The words for ends and ways of travel.
#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

const char* EndWord(TravelEnd end) {
  switch (end) {
    case TravelEnd::kDamperClosed:
      return "closed";
    case TravelEnd::kDamperOpen:
      return "open";
    case TravelEnd::kCoilBound:
      return "bound";
    case TravelEnd::kStopSolid:
      return "solid";
    case TravelEnd::kLinksStraight:
      return "lined up";
    case TravelEnd::kDragLinkOutOfReach:
      return "out of reach";
    case TravelEnd::kStrapTaut:
      return "taut";
    case TravelEnd::kCoilUnseated:
      return "unseated";
    case TravelEnd::kJointAtLimit:
      return "at its limit";
    case TravelEnd::kShaftBottomed:
      return "bottomed";
    case TravelEnd::kShaftParted:
      return "parted";
    case TravelEnd::kTireOnLip:
      return "at the lip";
    case TravelEnd::kTireOnPanel:
      return "at the panel";
  }
  return "";
}

// A member's name without its side.
std::string WithoutSide(std::string member) {
  for (const std::string side : {"left", "right"}) {
    for (size_t at = member.find(side); at != std::string::npos; at = member.find(side)) {
      member.erase(at, side.size());
    }
  }
  return member;
}

}  // namespace

std::string NameOf(TravelEnd end, const std::string& member) {
  return (end == TravelEnd::kLinksStraight ? "links (" + member + ")" : member) + " " +
         EndWord(end);
}

std::string NameOf(const RunOut& run_out) { return NameOf(run_out.end, run_out.member); }

const char* NameOf(LimitMotion motion) {
  switch (motion) {
    case LimitMotion::kBump:
      return "bump";
    case LimitMotion::kDroop:
      return "droop";
    case LimitMotion::kCrossUp:
      return "crossed +";
    case LimitMotion::kCrossDown:
      break;
  }
  return "crossed -";
}

bool AreTwins(const RunOut& a, const RunOut& b) {
  return a.end == b.end && WithoutSide(a.member) == WithoutSide(b.member);
}

}  // namespace linkwright
