// SPDX-License-Identifier: MIT
#include "cli/progress.h"

#include <fmt/format.h>

#include <condition_variable>
#include <mutex>
#include <stop_token>

#include "cli/shown_buffer.h"

namespace linkwright {
namespace {

// Waits unless asked to stop before; whether it was.
bool IsStoppedWithin(const std::stop_token& stop, std::chrono::milliseconds time) {
  std::mutex alone;
  std::condition_variable_any asked;
  std::unique_lock lock(alone);
  asked.wait_for(lock, stop, time, [&] { return stop.stop_requested(); });
  return stop.stop_requested();
}

void SayUntil(const std::stop_token& stop, const std::string& what, std::ostream& to,
              std::chrono::milliseconds after) {
  const auto begin = std::chrono::steady_clock::now();
  std::string line;
  for (auto wait = after; !IsStoppedWithin(stop, wait); wait = std::chrono::seconds(1)) {
    const auto lasted = std::chrono::steady_clock::now() - begin;
    line = fmt::format("linkwright: {} is being worked out, {} s", what,
                       std::chrono::duration_cast<std::chrono::seconds>(lasted).count());
    PassOn(to, "\r" + line);
  }
  if (!line.empty()) PassOn(to, "\r" + std::string(line.size(), ' ') + "\r");
}

}  // namespace

Progress::Progress(std::string what, std::ostream* to, std::chrono::milliseconds after) {
  if (to == nullptr) return;
  says_ = std::jthread([what = std::move(what), to, after](const std::stop_token& stop) {
    SayUntil(stop, what, *to, after);
  });
}

}  // namespace linkwright
