// SPDX-License-Identifier: MIT
// The words for ends and ways of travel.
#include "io/write/limits_tables.h"

namespace linkwright {
namespace {

const char* EndWord(LimitKind end) {
  switch (end) {
    case LimitKind::kDamperClosed:
      return "closed";
    case LimitKind::kDamperOpen:
      return "open";
    case LimitKind::kCoilBound:
      return "bound";
    case LimitKind::kStopSolid:
      return "solid";
    case LimitKind::kLinksStraight:
      return "lined up";
    case LimitKind::kDragLinkOutOfReach:
      return "out of reach";
    case LimitKind::kStrapTaut:
      return "taut";
    case LimitKind::kTieRodOutOfReach:
      return "out of reach";
    case LimitKind::kSteeringAtLock:
      return "at its lock";
    case LimitKind::kDragLinkOverCentre:
      return "over centre";
    case LimitKind::kCoilUnseated:
      return "unseated";
    case LimitKind::kJointAtLimit:
      return "at its limit";
    case LimitKind::kShaftBottomed:
      return "bottomed";
    case LimitKind::kShaftParted:
      return "parted";
    case LimitKind::kTireOnLip:
      return "at the lip";
    case LimitKind::kTireOnPanel:
      return "at the panel";
  }
  return "";
}

}  // namespace

std::string NameOf(const TravelLimit& limit) {
  const bool links = limit.id.kind == LimitKind::kLinksStraight;
  return (links ? "links (" + limit.name + ")" : limit.name) + " " + EndWord(limit.id.kind);
}

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

}  // namespace linkwright
