// SPDX-License-Identifier: MIT
#include "solver/study/findings/original_findings.h"

namespace linkwright {
namespace {

void AddReadings(size_t index, const LeafSpring& spring, const LeafAxle& leaf, const LeafAims& aims,
                 std::vector<Finding>& to) {
  if (spring.camber_now > spring.camber_new) {
    to.push_back({.kind = FindingKind::kCamberGrew,
                  .axle = index,
                  .value = spring.camber_now - spring.camber_new});
  }
  if (spring.eyes_now) {
    to.push_back(Judged(FindingKind::kEyesDisagree, index, leaf.now.eyes_apart - *spring.eyes_now,
                        aims.eyes_differ));
    to.back().more = {leaf.now.eyes_apart, *spring.eyes_now};
  }
  for (const LeafPose* pose : {&leaf.fresh, &leaf.now}) {
    Finding swing = Judged(FindingKind::kShackleInLine, index, pose->swing, aims.swing_least);
    swing.detail = pose == &leaf.now ? "now" : "when new";
    AddIfPast(std::move(swing), to);
  }
}

void AddOpening(size_t index, const LeafSpring& spring, const LeafAxle& leaf, const LeafAims& aims,
                std::vector<Finding>& to) {
  if (!leaf.off_opening) return;
  to.push_back(Judged(FindingKind::kOldWheelOff, index, leaf.off_opening->x(), aims.off_centre));
  to.back().more = {spring.camber_new};
  if (leaf.camber_centred) to.back().more.push_back(*leaf.camber_centred);
}

void AddWheelbase(const LeafOriginal& original, const OriginalReport& report,
                  std::vector<Finding>& to) {
  if (report.differs) {
    to.push_back(Judged(FindingKind::kWheelbaseDiffers, std::nullopt, *report.differs,
                        original.aims.wheelbase_differ));
    to.back().part = {"leaf_original", "wheelbase_now"};
    to.back().more = {*report.now.centers, *original.wheelbase_now};
  }
  const std::optional<double> design = DesignWheelbase(report);
  if (!report.spacing || !design) return;
  to.push_back(Judged(FindingKind::kSpacingDiffers, std::nullopt,
                      *report.spacing - report.fresh.along.value_or(*design),
                      original.aims.spacing));
  to.back().part = {"openings"};
  to.back().more = {*report.spacing};
}

}  // namespace

std::vector<Finding> OriginalFindings(const Vehicle& vehicle, const OriginalReport& report) {
  const LeafOriginal& original = vehicle.leaf_original.value();
  std::vector<Finding> found;
  for (const LeafAxle& leaf : report.axles) {
    const auto index = static_cast<size_t>(leaf.axle);
    const LeafSpring& spring = original.axles[index].value();
    std::vector<Finding> of_axle{
        Judged(FindingKind::kOldAxleMoved, index, leaf.moved.x(), original.aims.off_centre)};
    of_axle.back().more = {leaf.moved.y()};
    AddReadings(index, spring, leaf, original.aims, of_axle);
    AddOpening(index, spring, leaf, original.aims, of_axle);
    for (Finding& finding : of_axle) {
      finding.part = {"leaf_original", vehicle.axles[index].name};
      found.push_back(std::move(finding));
    }
  }
  AddWheelbase(original, report, found);
  if (!original.p_CD) return found;
  for (const LeafAxle& leaf : report.axles) {
    const Axle& axle = vehicle.axles[static_cast<size_t>(leaf.axle)];
    if (!axle.opening) continue;
    found.push_back(Judged(FindingKind::kOpeningOffOld, static_cast<size_t>(leaf.axle),
                           axle.opening->x - original.p_CD->x() - leaf.fresh.p_DW.x(),
                           original.aims.off_centre));
    found.back().part = {"openings", axle.name};
  }
  return found;
}

}  // namespace linkwright
