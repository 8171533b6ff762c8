// SPDX-License-Identifier: MIT
#include "solver/study/findings/original_findings.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

void AddReadings(size_t index, const LeafSpring& spring, const LeafAxle& leaf, const LeafAims& aims,
                 std::vector<Finding>& to) {
  if (spring.camber_now - spring.camber_new >= kTapeShows) {
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

std::vector<Finding> WeighedFindings(const Vehicle& vehicle, const WeighedOriginal& weighed) {
  std::vector<Finding> found;
  const auto path_and_axle = [&](const LeafReading& reading, Finding& to) {
    to.part = PathOf(reading, vehicle);
    if (reading.axle) to.axle = static_cast<size_t>(*reading.axle);
  };
  for (size_t slip : weighed.slips) {
    const WeighedReading& it = weighed.readings[slip];
    Finding& finding = found.emplace_back(Finding{
        .kind = it.reading.kind == LeafReadingKind::kLeanNow ? FindingKind::kLeafAngleDisagrees
                                                             : FindingKind::kLeafReadingDisagrees,
        .member = NameOf(it.reading, vehicle),
        .value = it.reading.value - it.adjusted,
        .detail = IsAssumed(it.reading.kind) ? "assumed" : "",
        .more = {it.adjusted, it.reading.value}});
    path_and_axle(it.reading, finding);
  }
  if (!weighed.doubt) return found;
  const std::vector<size_t>& which = weighed.doubt->which;
  std::string names;
  double worst = 0.0;
  for (size_t i : which) {
    const WeighedReading& it = weighed.readings[i];
    names += (names.empty() ? "" : ", ") + NameOf(it.reading, vehicle);
    worst = std::max(worst, std::abs(it.normalised));
  }
  Finding& doubt = found.emplace_back(
      Finding{.kind = FindingKind::kLeafReadingsDoubted, .value = worst, .detail = names});
  path_and_axle(weighed.readings[which.front()].reading, doubt);
  return found;
}

}  // namespace linkwright
