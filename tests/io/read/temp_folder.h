// SPDX-License-Identifier: MIT
// Files that a test makes, and what the reader says about them.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "io/read/vehicle_file.h"

namespace linkwright {

// A folder of its own for one test, gone afterwards.
class TempFolder {
 public:
  TempFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "reader-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~TempFolder() { std::filesystem::remove_all(path_); }
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  [[nodiscard]] std::string Path(std::string_view name) const { return (path_ / name).string(); }

  // Writes a file and gives back its path.
  std::string Write(std::string_view name, std::string_view text) const {
    std::ofstream(Path(name), std::ios::binary) << text;
    return Path(name);
  }

 private:
  std::filesystem::path path_;
};

// What reading a file complains about: "file.yaml:12:5 path: message", folders taken off.
inline std::vector<std::string> ErrorsOf(const std::string& path) {
  std::vector<std::string> texts;
  try {
    static_cast<void>(ReadVehicleFile(path));
  } catch (const InputErrors& errors) {
    for (const InputError& error : errors.errors) {
      texts.push_back(fmt::format("{}:{}:{} {}",
                                  std::filesystem::path(error.place.file).filename().string(),
                                  error.place.line, error.place.column, ErrorText(error)));
    }
  }
  return texts;
}

// A vehicle of two axles with three arms and a track bar each; geometry only, 15 lines.
inline constexpr std::string_view kBench = R"(title: Bench truck
units: metric
axles:
  front:
    wheel_center: [0, 745, 359]
    links:
      lower arm: {pair: true, frame: [-610, 410, 425], axle: [-40, 452, 300]}
      upper arm: {frame: [-480, -140, 545], axle: [15, -150, 480]}
      track bar: {frame: [60, 440, 490], axle: [80, -470, 440]}
  rear:
    wheel_center: [-2540, 745, 363]
    links:
      lower arm: {pair: true, frame: [-1905, 430, 395], axle: [-2500, 465, 300]}
      upper arm: {frame: [-2040, -140, 545], axle: [-2520, -150, 515]}
      track bar: {frame: [-2650, 455, 505], axle: [-2660, -440, 440]}
)";

// kBench with more under its rear axle: lines indented by four.
inline std::string BenchWith(std::string_view more) { return std::string(kBench).append(more); }

}  // namespace linkwright
