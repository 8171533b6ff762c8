// SPDX-License-Identifier: MIT
// The log: what the program did, on the error stream, for those who ask with --verbose.
#pragma once

#include <spdlog/logger.h>
#include <spdlog/sinks/ostream_sink.h>

#include <memory>
#include <ostream>

namespace linkwright {

// A logger that writes to `err`, which must outlive it. It says nothing below a warning until
// --verbose lowers its level.
inline spdlog::logger MakeLog(std::ostream& err) {
  spdlog::logger log("linkwright", std::make_shared<spdlog::sinks::ostream_sink_st>(err));
  log.set_pattern("linkwright: %v");
  log.set_level(spdlog::level::warn);
  return log;
}

}  // namespace linkwright
