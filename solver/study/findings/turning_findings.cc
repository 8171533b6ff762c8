// SPDX-License-Identifier: MIT
#include "solver/study/findings/turning_findings.h"

#include "solver/model/masses.h"

namespace linkwright {
namespace {

// Turning one way: what happens as it stands, for which a threshold would be no number, and what a
// turn brings before the tyres slide.
void AddTurn(const RollStudy& study, size_t side, double grip, std::vector<Finding>& to) {
  const PushEnds& ends = study.turns[side];
  const TippingPoint& block = study.tipping[side];
  const std::string turning = side == 0 ? "left" : "right";
  const auto add = [&](FindingKind kind, double value, const std::string& what = {},
                       std::optional<double> aim = {}) {
    to.push_back({.kind = kind,
                  .member = what,
                  .twins = "either way",
                  .value = value,
                  .aim = aim,
                  .detail = turning});
  };
  if (ends.over && !ends.lift) add(FindingKind::kLeansOver, *ends.over);
  if (ends.member && AtOnce(ends.member->share)) {
    add(FindingKind::kEndAtOnce, ends.member->share, ends.member->what);
  }
  if (ends.lift && AtOnce(ends.lift->share)) {
    add(FindingKind::kWheelCarriesNothing, ends.lift->share, std::to_string(ends.lift->wheel));
  }
  if (!block.lateral) add(FindingKind::kTipsAtOnce, block.height);
  if (ends.over && *ends.over <= grip) {
    add(FindingKind::kGoesOver, *ends.over, {}, grip);
  } else if (ends.lift && ends.lift->share <= grip) {
    add(FindingKind::kWheelLifts, ends.lift->share, {}, grip);
  }
}

}  // namespace

std::vector<Finding> TurningFindings(const Vehicle& vehicle, const RollStudy& study) {
  std::vector<Finding> found;
  AddIfPast(Judged(FindingKind::kLeansInward, std::nullopt, study.geometry.arm, 0.0), found);
  const Corner& corner = study.corner;
  if (corner.stance.status != StanceStatus::kRests) {
    found.push_back({.kind = FindingKind::kNoStandInTurn, .detail = corner.stance.message});
  } else if (corner.at_end) {
    found.push_back({.kind = FindingKind::kEndInTurn, .detail = *corner.at_end});
  }
  const double grip = vehicle.aims.tire_grip / kStandardGravity;
  for (size_t side = 0; side < 2; ++side) AddTurn(study, side, grip, found);
  KeepWorst(found);
  return found;
}

}  // namespace linkwright
