// SPDX-License-Identifier: MIT
#include "solver/rest/weighed.h"

#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/pose/freedom.h"
#include "solver/pose/motion.h"

namespace linkwright {
namespace {

// With m = -d length / d travel of each coil: sum of k (L0 - L) m = load.
void Resolve(Axle& axle, const HousingMotion& motion, const AxleFrame& frame, double load) {
  double demand = load, gain = 0.0;  // [N], [N/m]
  for (const Spring& spring : axle.springs) {
    if (!spring.weighed) continue;
    const Taylor length = LengthOf(frame, motion, spring.span);
    demand += spring.law.rate * length.v * -length.z;
    gain += spring.law.rate * -length.z;
  }
  if (!(gain > 0.0)) {
    throw ModelError({"axles", axle.name, "springs"},
                     "free_length: weighed needs coils that shorten as the axle rises");
  }
  for (Spring& spring : axle.springs) {
    if (spring.weighed) spring.law.free_length = demand / gain;
  }
}

}  // namespace

void ResolveWeighedLengths(Vehicle& vehicle) {
  for (size_t i = 0; i < 2; ++i) {
    Axle& axle = vehicle.axles[i];
    bool any = false;
    for (const Spring& spring : axle.springs) any = any || spring.weighed;
    if (!any) continue;
    if (!vehicle.ledger || !axle.unsprung) {
      throw ModelError({"axles", axle.name, "springs"},
                       "free_length: weighed needs the ledger's weights and the unsprung mass");
    }
    const AxleFrame frame = PrepareAxle(axle);
    if (!AnalyseFreedom(frame).free.empty()) continue;
    const double carried =
        vehicle.ledger->weighed[2 * i] + vehicle.ledger->weighed[2 * i + 1] - axle.unsprung->mass;
    Resolve(axle, EvaluateMotion(frame, frame.measured), frame, carried * kStandardGravity);
  }
}

}  // namespace linkwright
