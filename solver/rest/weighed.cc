// SPDX-License-Identifier: MIT
#include "solver/rest/weighed.h"

#include <Eigen/LU>

#include "solver/model/error.h"
#include "solver/model/masses.h"
#include "solver/pose/freedom.h"
#include "solver/pose/motion.h"
#include "solver/rest/axle_energy.h"

namespace linkwright {
namespace {

// What a value of the housing's motion grows by as a wheel rises and the other stays [1/m].
struct ByWheel {
  const AxleFrame* frame;
  double operator()(const Taylor& value, size_t side) const {
    const double roll = 1.0 / (frame->track * std::cos(frame->measured.roll));
    return 0.5 * value.z + (side == 0 ? roll : -roll) * value.r;
  }
};

// The coils' lengths, and what they are asked to carry in each wheel's travel.
struct Question {
  std::vector<size_t> coils;     // indices of those that were weighed
  std::vector<Taylor> length;    // of each [m]
  std::array<double, 2> demand;  // what they all have to carry [N]
};

Question AskOf(const Axle& axle, const AxleFrame& frame, const std::array<double, 2>& scale) {
  const HousingMotion motion = EvaluateMotion(frame, frame.measured);
  const ByWheel by_wheel{&frame};
  Question question{};
  Axle others = axle;  // what carries besides
  std::erase_if(others.springs, [](const Spring& spring) { return spring.weighed; });
  const Taylor stored = StoredEnergy(others, frame, PreparePushers(others, frame), motion).springs;
  const Taylor unsprung = MotionOf(motion, OnHousing(frame, axle.unsprung->p_CM))[2];
  for (size_t i = 0; i < axle.springs.size(); ++i) {
    const Span& span = axle.springs[i].span;
    if (!axle.springs[i].weighed) continue;
    question.coils.push_back(i);
    question.length.push_back(DistanceTo(motion, span.p_CP, OnHousing(frame, span.p_CQ)));
  }
  for (size_t side = 0; side < 2; ++side) {
    // The energy of what carries besides falls as the wheel goes down: it pushes by its slope.
    question.demand[side] =
        kStandardGravity * (scale[side] - axle.unsprung->mass * by_wheel(unsprung, side)) -
        by_wheel(stored, side);
  }
  return question;
}

// With m = -d length / d travel of each coil: sum of k (L0 - L) m = load, for the whole axle.
void ResolveAlike(Axle& axle, const Question& question) {
  double demand = question.demand[0] + question.demand[1], gain = 0.0;  // [N], [N/m]
  for (size_t i = 0; i < question.coils.size(); ++i) {
    const double rate = axle.springs[question.coils[i]].law.rate;
    const Taylor& length = question.length[i];
    demand += rate * length.v * -length.z;
    gain += rate * -length.z;
  }
  if (!(gain > 0.0)) {
    throw ModelError({"axles", axle.name, "springs"},
                     "free_length: weighed needs coils that shorten as the axle rises");
  }
  for (const size_t i : question.coils) axle.springs[i].law.free_length = demand / gain;
}

// The same in each wheel's travel: two coils, two scales.
void ResolveEach(Axle& axle, const AxleFrame& frame, const Question& question) {
  Eigen::Matrix2d gain;
  Eigen::Vector2d demand(question.demand[0], question.demand[1]);
  for (Eigen::Index side = 0; side < 2; ++side) {
    for (Eigen::Index i = 0; i < 2; ++i) {
      const auto coil = static_cast<size_t>(i);
      const Taylor& length = question.length[coil];
      const double shortens = -ByWheel{&frame}(length, static_cast<size_t>(side));
      gain(side, i) = axle.springs[question.coils[coil]].law.rate * shortens;
      demand[side] += gain(side, i) * length.v;
    }
  }
  const Eigen::FullPivLU<Eigen::Matrix2d> lu(gain);
  if (!lu.isInvertible() || !(gain.sum() > 0.0)) {
    throw ModelError({"axles", axle.name, "springs"},
                     "free_length: weighed needs one coil a side that shortens as its wheel rises");
  }
  const Eigen::Vector2d free_length = lu.solve(demand);
  for (Eigen::Index i = 0; i < 2; ++i) {
    axle.springs[question.coils[static_cast<size_t>(i)]].law.free_length = free_length[i];
  }
}

}  // namespace

void ResolveWeighedLengths(Vehicle& vehicle) {
  for (const size_t i : AxlesOf(vehicle)) {
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
    const std::array<double, 4>& weighed = vehicle.ledger->weighed;
    const Question question = AskOf(axle, frame, {weighed[2 * i], weighed[2 * i + 1]});
    if (vehicle.ledger->by_axle || question.coils.size() != 2) {
      ResolveAlike(axle, question);
    } else {
      ResolveEach(axle, frame, question);
    }
  }
}

std::array<double, 2> RadiiByScales(const Vehicle& vehicle, size_t axle) {
  const Axle& it = vehicle.axles[axle];
  const auto radius = [&](const Eigen::Vector3d& hub, size_t side) {
    const double load = vehicle.ledger->weighed[2 * axle + side] * kStandardGravity;
    return hub.z() - vehicle.floor_z + load / it.tire.rate.value();
  };
  return {radius(it.p_CW_l, 0), radius(it.p_CW_r, 1)};
}

void ResolveTires(Vehicle& vehicle) {
  for (const size_t i : AxlesOf(vehicle)) {
    Axle& axle = vehicle.axles[i];
    if (!axle.tire.rate || axle.tire.radius) continue;
    if (!vehicle.ledger) {
      throw ModelError({"axles", axle.name, "tire"},
                       "a tyre with a rate and no radius takes its radius from the scales it stood "
                       "on, and nothing was weighed: give its unloaded radius");
    }
    const std::array<double, 2> radii = RadiiByScales(vehicle, i);
    axle.tire.radius = radii[0];
    axle.tire.right_radius = radii[1];
  }
}

}  // namespace linkwright
