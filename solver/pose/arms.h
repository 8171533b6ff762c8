// SPDX-License-Identifier: MIT
// What stands in the equations for arms and cranks: legs, couplings, a crank's residual.
#pragma once

#include "solver/pose/axle_frame.h"

namespace linkwright {

// A plain link, or a leg of an arm.
//   length   its own, eye to eye [m]
//   errors   ModelError where its two ends are at one point
void AddLeg(AxleFrame& frame, const Span& span, double length, double rate, const std::string& name,
            const std::vector<std::string>& part);

// An A-arm is two legs from its eyes to its point: exact, since it is rigid. A radius arm is two
// legs from its chassis eye to its housing eyes, coupled by the bushing they share. errors:
// ModelError where a leg has no length or the eyes stand in a row. docs/theory.md (100) to (102)
void AddArms(const Axle& axle, AxleFrame& frame);

// errors: ModelError where a crank has no arm, its axis no direction, or its first link stands in
// line with its arm, so that it cannot turn it. docs/theory.md (103), (104)
void AddCranks(const Axle& axle, AxleFrame& frame);

// Force in what the links and legs of a frame stand for.
struct MemberForce {
  std::string name;  // "track bar", "radius arm left first leg", "radius arm left first eye"
  double force;      // tension +; of an eye, its size [N]
};

// Forces in every plain link, then in each A-arm's legs, each radius arm's legs and its chassis
// eye, and both links of each crank.
//   tension   of AxleFrame::links [N]
[[nodiscard]] std::vector<MemberForce> MemberForces(const AxleFrame& frame, const Pose& pose,
                                                    const std::vector<double>& tension);

// Along each arm of ArmsOf (solver/model/arms_kept.h), tension + [N]: of a radius arm at its
// chassis eye along it, without what bends it.
[[nodiscard]] std::vector<double> AxialForces(const AxleFrame& frame, const Pose& pose,
                                              const std::vector<double>& tension);

// Names of those that follow the plain links, in the same order.
[[nodiscard]] std::vector<std::string> ArmMemberNames(const Axle& axle);

// The greatest of them [N]; 0 where there is no tension at all.
[[nodiscard]] double GreatestMemberForce(const AxleFrame& frame, const Pose& pose,
                                         const std::vector<double>& tension);

}  // namespace linkwright
