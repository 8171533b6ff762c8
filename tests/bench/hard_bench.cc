// SPDX-License-Identifier: MIT
// Commands on vehicles that take long searches, whole: each is to answer within a second of one
// processor. The name of a fixture begins with its command.
#include <benchmark/benchmark.h>

#include <filesystem>
#include <sstream>
#include <string>

#include "cli/run.h"

namespace linkwright {
namespace {

void Answers(benchmark::State& state, const std::string& command, const std::string& file) {
  for (auto _ : state) {
    std::ostringstream out, err;
    benchmark::DoNotOptimize(Run({command, file}, out, err));
  }
}

}  // namespace
}  // namespace linkwright

int main(int argc, char** argv) {
  const std::filesystem::path folder =
      std::filesystem::path(LINKWRIGHT_SOURCE_DIR) / "fixtures" / "hard";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string name = entry.path().stem().string(), file = entry.path().string();
    const std::string command = name.substr(0, name.find('_'));
    benchmark::RegisterBenchmark(name.c_str(), [command, file](benchmark::State& state) {
      linkwright::Answers(state, command, file);
    })->Unit(benchmark::kMillisecond);
  }
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
