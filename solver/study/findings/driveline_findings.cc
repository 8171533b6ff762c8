// SPDX-License-Identifier: MIT
#include "solver/study/findings/driveline_findings.h"

#include <algorithm>
#include <cmath>

#include "solver/geometry/driveshaft.h"

namespace linkwright {
namespace {

// One shaft, and where its findings go.
struct Judge {
  const Driveshaft& shaft;
  const ShaftReport& report;
  std::vector<Finding>& to;

  void Tell(Finding finding) const {
    finding.member = shaft.name, finding.part = {"driveshafts", shaft.name};
    to.push_back(std::move(finding));
  }
  void Tell(FindingKind kind, double value, std::optional<double> aim,
            std::vector<double> more = {}) const {
    Finding finding = Judged(kind, std::nullopt, value, aim);
    finding.more = std::move(more);
    Tell(std::move(finding));
  }
  // Of one joint, only what is past its aim.
  void AddJoint(FindingKind kind, double angle, std::optional<double> aim, const std::string& joint,
                std::vector<double> more = {}) const {
    Finding finding = Judged(kind, std::nullopt, angle, aim);
    finding.twins = shaft.name + " " + joint, finding.detail = joint;
    finding.more = std::move(more);
    if (finding.past) Tell(std::move(finding));
  }
};

// The pinion's single joint behind a constant-velocity one is meant to run straight.
bool MeantStraight(const Driveshaft& shaft, size_t joint, size_t joints) {
  return joint + 1 == joints && joints == 2 && shaft.output_joint == JointKind::kDouble;
}

void JudgeJoints(const Judge& judge) {
  const ShaftAims& aims = judge.shaft.aims;
  const std::vector<JointParts>& joints = AtRest(judge.report).joints;
  const size_t n = joints.size();
  for (size_t j = 0; j < n; ++j) {
    const double angle = joints[j].angle;
    const std::string name = JointName(j, n);
    if (KindOf(judge.shaft, j, n) == JointKind::kDouble) {
      judge.AddJoint(FindingKind::kDoubleJointWorksHard, angle, aims.double_most, name);
      continue;
    }
    judge.AddJoint(FindingKind::kJointWorksHard, angle, aims.joint_most, name);
    if (!MeantStraight(judge.shaft, j, n)) {
      judge.AddJoint(FindingKind::kJointIdle, angle, aims.joint_least, name);
    }
    judge.AddJoint(FindingKind::kJointAtSpeed, angle, judge.report.angle_allowed, name,
                   {judge.report.speed.value_or(0.0)});
  }
  if (n == 2 && judge.shaft.output_joint == JointKind::kSingle &&
      judge.shaft.axle_joint == JointKind::kSingle) {
    judge.Tell(FindingKind::kJointsDiffer, std::abs(joints[0].angle - joints[1].angle),
               aims.pair_differ);
  }
}

// A turn that a finder does not show is none.
void JudgePinion(const Judge& judge) {
  const std::optional<PinionOrder>& aim = judge.report.aim;
  if (!aim) return;
  const std::optional<double>& most = judge.shaft.aims.pair_differ;
  const double now = AtRest(judge.report).net_angle;
  if (Shows(*aim, judge.shaft.pinion_low, now))
    judge.Tell(FindingKind::kPinionOffAim, aim->turn, most, {aim->net_angle, now});
  if (aim->least > kFinder) judge.Tell(FindingKind::kUneven, aim->least, most);
}

// At its least wherever that is: arms may make a shaft longest at rest.
void JudgeSlip(const Vehicle& vehicle, const Judge& judge) {
  if (!judge.shaft.slip) return;
  judge.Tell(FindingKind::kSlipBottoms, LeastOver(judge.report, &ShaftPlace::to_bottom),
             AimBeforeBottoming(vehicle, judge.report.shaft));
  judge.Tell(FindingKind::kSlipParts, LeastOver(judge.report, &ShaftPlace::to_part),
             AimBeforeParting(vehicle, judge.report.shaft));
}

void JudgeSpeed(const Judge& judge) {
  if (!judge.report.speed) return;
  const ShaftPlace& rest = AtRest(judge.report);
  const ShaftAims& aims = judge.shaft.aims;
  judge.Tell(FindingKind::kTorsional, *rest.torsional, aims.torsional, {*judge.report.speed});
  judge.Tell(FindingKind::kInertial, *rest.inertial, aims.inertial, {*judge.report.speed});
}

}  // namespace

double AimBeforeBottoming(const Vehicle& vehicle, size_t shaft) {
  return vehicle.driveshafts[shaft].aims.bottom_least.value_or(vehicle.aims.slip_at_bump);
}

double AimBeforeParting(const Vehicle& vehicle, size_t shaft) {
  return vehicle.driveshafts[shaft].aims.part_least.value_or(vehicle.aims.slip_at_droop);
}

double LeastOver(const ShaftReport& report, std::optional<double> ShaftPlace::*what) {
  const std::vector<ShaftPlace> places = AllPlaces(report);
  double least = *(places.front().*what);
  for (const ShaftPlace& place : places) least = std::min(least, *(place.*what));
  return least;
}

std::vector<Finding> DrivelineFindings(const Vehicle& vehicle,
                                       const std::vector<ShaftReport>& reports) {
  std::vector<Finding> found;
  for (const ShaftReport& report : reports) {
    const Judge judge{.shaft = vehicle.driveshafts[report.shaft], .report = report, .to = found};
    JudgeJoints(judge);
    JudgePinion(judge);
    JudgeSlip(vehicle, judge);
    JudgeSpeed(judge);
    if (report.torque && !report.under_torque) {
      judge.Tell({.kind = FindingKind::kNoBalance,
                  .value = *report.torque,
                  .detail = report.settled ? "" : "no masses"});
    }
  }
  return found;
}

}  // namespace linkwright
