// SPDX-License-Identifier: MIT
#include "io/write/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace linkwright {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void Fail(const std::string& path, const std::string& why) {
  throw WriteError("cannot write " + path + ": " + why);
}

// All bytes to an open file; errno tells why not.
bool WriteAll(int file, const std::string& content) {
  size_t done = 0;
  while (done < content.size()) {
    const ssize_t n = ::write(file, content.data() + done, content.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    done += static_cast<size_t>(n);
  }
  return true;
}

void WriteStraight(const std::string& path, const std::string& content) {
  const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
  if (file < 0) Fail(path, std::strerror(errno));
  const bool good = WriteAll(file, content);
  const int error = errno;
  if (::close(file) != 0 || !good) Fail(path, std::strerror(good ? errno : error));
}

void RefuseInputs(const std::string& path, const std::vector<std::string>& inputs) {
  for (const std::string& input : inputs) {
    std::error_code ignored;
    if (fs::equivalent(path, input, ignored)) {
      Fail(path, "it is one of the files this result was read from; name another");
    }
  }
}

// The file that a chain of links names, whether it is there yet or not, so that the links stay.
fs::path Followed(fs::path path) {
  constexpr int kMostLinks = 40;  // as the kernel's own limit
  std::error_code error;
  for (int link = 0; link < kMostLinks && fs::is_symlink(path, error); ++link) {
    const fs::path next = fs::read_symlink(path, error);
    path = next.is_absolute() ? next : path.parent_path() / next;
  }
  return path;
}

// What the user's mask leaves of reading and writing for all. There is no way to ask without
// setting.
fs::perms UsualPermissions() {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return static_cast<fs::perms>(0666 & ~mask);
}

}  // namespace

void WriteWhole(const std::string& path, const std::string& content,
                const std::vector<std::string>& inputs) {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (fs::is_directory(status)) Fail(path, "it is a directory; name a file");
  RefuseInputs(path, inputs);
  if (fs::exists(status) && !fs::is_regular_file(status)) return WriteStraight(path, content);

  const fs::path target = Followed(path);
  std::string temporary = target.string() + ".part-XXXXXX";
  const int file = ::mkostemp(temporary.data(), O_CLOEXEC);
  if (file < 0) Fail(path, std::strerror(errno));
  const auto give_up = [&](int why) {
    ::unlink(temporary.c_str());
    Fail(path, std::strerror(why));
  };
  if (!WriteAll(file, content) || ::fsync(file) != 0) {
    const int why = errno;
    ::close(file);
    give_up(why);
  }
  if (::close(file) != 0) give_up(errno);
  fs::permissions(temporary, fs::exists(status) ? status.permissions() : UsualPermissions(), error);
  if (std::rename(temporary.c_str(), target.c_str()) != 0) give_up(errno);
}

}  // namespace linkwright
