// SPDX-License-Identifier: MIT
// How long a pose, a row and a settle take, as ratios from one run: times differ between machines,
// ratios hardly. Not good for comparing machines, nor for the first call after start-up.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <map>
#include <string>

#include "solver/pose/solve.h"
#include "solver/rest/settle.h"
#include "solver/study/curves/sweep_row.h"
#include "tests/bench/newton.h"
#include "tests/multibody/multibody.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

constexpr int kRepetitions = 5;  // the least counts: other work only adds
constexpr int kRows = 41;        // poses of a sweep: 10 mm apart, there and back
constexpr double kStep = 0.004;  // [m]

// The travels of a sweep walked up and down again, so that every pose starts from its neighbour.
double TravelOf(int i) {
  const int at = i % (2 * kRows);
  return kStep * ((at < kRows ? at : 2 * kRows - 1 - at) - kRows / 2);
}

// Warm-started from the neighbour, through the solver's own walk (second-order prediction, checks
// of the branch and all).
void WalkedPose(benchmark::State& state) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  HousingMotion here = EvaluateMotion(frame, frame.measured);
  int i = kRows / 2;
  for (auto _ : state) {
    here = EvaluateMotion(frame, MovePose(frame, here, frame.measured.z + TravelOf(++i), 0.0).pose);
    benchmark::DoNotOptimize(here);
  }
}
BENCHMARK(WalkedPose)->Repetitions(kRepetitions);

// The solve alone, from the neighbour's pose.
void SolvedPose(benchmark::State& state) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  Pose pose = frame.measured;
  int i = kRows / 2;
  for (auto _ : state) {
    pose.z = frame.measured.z + TravelOf(++i);
    pose = SolvePose(frame, pose).pose;
    benchmark::DoNotOptimize(pose);
  }
}
BENCHMARK(SolvedPose)->Repetitions(kRepetitions);

void NewtonByHand(benchmark::State& state) {
  const AxleFrame frame = PrepareAxle(sample::ThreeLinkTrackBar());
  Pose pose = frame.measured;
  int i = kRows / 2;
  for (auto _ : state) {
    pose.z = frame.measured.z + TravelOf(++i);
    pose = bench::SolveByNewton(frame, pose);
    benchmark::DoNotOptimize(pose);
  }
}
BENCHMARK(NewtonByHand)->Repetitions(kRepetitions);

void MultibodyProjection(benchmark::State& state) {
  const Axle axle = sample::ThreeLinkTrackBar();
  const AxleFrame frame = PrepareAxle(axle);
  std::vector<multibody::Rod> rods;
  for (const FrameLink& link : frame.links) rods.push_back({link.p_CP, link.p_AQ, link.length});
  multibody::Housing housing(rods, 0.5 * frame.track, frame.X_CA);
  int i = kRows / 2;
  for (auto _ : state) {
    const double travel = TravelOf(++i);
    const Eigen::Isometry3d X_CA =
        housing.MoveTo(axle.p_CW_l.z() + travel, axle.p_CW_r.z() + travel, 1e-11);
    benchmark::DoNotOptimize(X_CA);
  }
}
BENCHMARK(MultibodyProjection)->Repetitions(kRepetitions);

// Both axles moved and every column of the row; links four an axle, driveshaft, steering, stops.
Vehicle FourLinkVan() {
  Vehicle van = sample::HarbourVan();
  for (Axle& axle : van.axles) axle.links.erase(axle.links.begin() + 3);  // one upper arm
  return van;
}

void BounceRow(benchmark::State& state) {
  const Vehicle van = FourLinkVan();
  const Rig rig = PrepareRig(van);
  const Stance stance = Settle(rig, van.loads[0]);
  const SweepBasis basis = PrepareSweep(rig, &stance);
  std::array<HousingMotion, 2> motion = stance.motion;
  int i = kRows / 2;
  for (auto _ : state) {
    const double travel = TravelOf(++i);
    for (size_t k = 0; k < 2; ++k) {
      const AxleFrame& frame = rig.axles[k].frame;
      const double z = frame.measured.z + basis.start[k] + travel;
      motion[k] = EvaluateMotion(frame, MovePose(frame, motion[k], z, frame.measured.roll).pose);
    }
    const SweepRow row =
        EvaluateRow(basis, travel,
                    std::array{RowPlace{.motion = motion[0], .past = false, .folded = false},
                               RowPlace{.motion = motion[1], .past = false, .folded = false}});
    benchmark::DoNotOptimize(row);
  }
}
BENCHMARK(BounceRow)->Repetitions(kRepetitions);

void SettleOneLoad(benchmark::State& state, const Vehicle& van) {
  const Rig rig = PrepareRig(van);
  for (auto _ : state) {
    const Stance stance = Settle(rig, van.loads[2]);
    benchmark::DoNotOptimize(stance);
  }
}
void SettleFourLinks(benchmark::State& state) { SettleOneLoad(state, FourLinkVan()); }
void SettleFiveLinks(benchmark::State& state) { SettleOneLoad(state, sample::HarbourVan()); }
BENCHMARK(SettleFourLinks)->Repetitions(kRepetitions);
BENCHMARK(SettleFiveLinks)->Repetitions(kRepetitions);

// Keeps the least time of each for the table of ratios.
class Keeper : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs) {
      if (run.run_type != Run::RT_Iteration) continue;
      double& least = nanoseconds[run.run_name.function_name];
      const double took = run.GetAdjustedCPUTime();
      if (least == 0.0 || took < least) least = took;
    }
    ConsoleReporter::ReportRuns(runs);
  }
  std::map<std::string, double> nanoseconds;
};

struct Goal {
  const char* work;
  const char* unit;
  double bar;  // ratio
  bool at_most;
};

// The goals of the project, each a ratio of two times of this run.
constexpr Goal kGoals[] = {
    {"SolvedPose", "NewtonByHand", 1.5, true},  // warm-started pose, against a hand-written Newton
    {"MultibodyProjection", "SolvedPose", 60.0, false},  // the library's projection, against a pose
    {"BounceRow", "SolvedPose", 10.0, true},             // both axles, every column
    {"SettleFourLinks", "SolvedPose", 300.0, true},      // one load
    {"SettleFiveLinks", "SolvedPose", 300.0, true},      // one load, reference vehicle
};

void PrintRatios(const std::map<std::string, double>& time) {
  fmt::print("\n{:<42} {:>8}   goal\n", "ratio", "");
  if (time.count("WalkedPose") &&
      time.count("SolvedPose")) {  // what prediction and derivatives cost
    fmt::print("{:<42} {:>8.2f}   none\n", "WalkedPose / SolvedPose",
               time.at("WalkedPose") / time.at("SolvedPose"));
  }
  for (const Goal& goal : kGoals) {
    if (!time.count(goal.work) || !time.count(goal.unit)) continue;
    const double ratio = time.at(goal.work) / time.at(goal.unit);
    const bool met = goal.at_most ? ratio <= goal.bar : ratio >= goal.bar;
    fmt::print("{:<42} {:>8.2f}   {} {} {}\n", fmt::format("{} / {}", goal.work, goal.unit), ratio,
               goal.at_most ? "<=" : ">=", goal.bar, met ? "met" : "MISSED");
  }
}

}  // namespace
}  // namespace linkwright

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  linkwright::Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  linkwright::PrintRatios(keeper.nanoseconds);
}
