// SPDX-License-Identifier: MIT
#include "cli/window.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <string_view>

namespace linkwright {
namespace {

std::string_view Environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view() : value;
}

}  // namespace

size_t WindowWidth() {
  constexpr int kLeast = 40, kMost = 1000;
  const char* columns = std::getenv("COLUMNS");
  int width = columns == nullptr ? 0 : std::atoi(columns);
  winsize size{};
  if (width <= 0 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0) width = size.ws_col;
  if (width <= 0) return kUsualWidth;
  return static_cast<size_t>(std::clamp(width, kLeast, kMost));
}

Window FindWindow() {
  return {.width = WindowWidth(),
          .color = ::isatty(STDOUT_FILENO) == 1 && Environment("NO_COLOR").empty() &&
                   Environment("TERM") != "dumb",
          .progress = ::isatty(STDERR_FILENO) == 1};
}

}  // namespace linkwright
