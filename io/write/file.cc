// SPDX-License-Identifier: MIT
#include "io/write/file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>

namespace linkwright {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPart = ".part-";
constexpr size_t kLetters = 6;  // that mkostemp puts behind it

[[noreturn]] void Fail(const std::string& path, const std::string& why) {
  throw WriteError("cannot write " + path + ": " + why);
}

// An open file, closed with its scope, which also gives its lock back.
class Descriptor {
 public:
  explicit Descriptor(int file) : file_(file) {}
  Descriptor(Descriptor&& other) noexcept : file_(std::exchange(other.file_, -1)) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  Descriptor& operator=(Descriptor&& other) noexcept {
    std::swap(file_, other.file_);
    return *this;
  }
  ~Descriptor() {
    if (file_ >= 0) ::close(file_);
  }
  [[nodiscard]] int get() const { return file_; }
  // 0, or why the last bytes did not arrive.
  int Close() { return ::close(std::exchange(file_, -1)) == 0 ? 0 : errno; }

 private:
  int file_;
};

// All bytes to an open file; 0, or why not.
int WriteAll(int file, const std::string& content) {
  size_t done = 0;
  while (done < content.size()) {
    const ssize_t n = ::write(file, content.data() + done, content.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return n < 0 ? errno : EIO;
    done += static_cast<size_t>(n);
  }
  return 0;
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

// The folder as the disk knows it, and the name in it.
fs::path Canonical(const fs::path& target) {
  std::error_code error;
  const fs::path parent = target.has_parent_path() ? target.parent_path() : fs::path(".");
  const fs::path folder = fs::canonical(parent, error);
  return error ? target : folder / target.filename();
}

// An output whose place is known and fit to be written.
struct Place {
  const OutputFile* output;
  fs::path target;                 // links followed, folders canonical
  std::optional<struct stat> old;  // what is there
  [[nodiscard]] bool straight() const { return old && !S_ISREG(old->st_mode); }
  [[nodiscard]] bool in_place() const {
    return old && (old->st_nlink > 1 || old->st_uid != ::geteuid());
  }
};

bool Same(const struct stat& a, const struct stat& b) {
  return a.st_dev == b.st_dev && a.st_ino == b.st_ino;
}

bool IsSameFile(const Place& a, const Place& b) {
  return a.old && b.old ? Same(*a.old, *b.old) : a.target == b.target;
}

void RefuseInputs(const Place& place, const std::vector<std::string>& inputs) {
  for (const std::string& input : inputs) {
    struct stat read {};
    if (place.old && ::stat(input.c_str(), &read) == 0 && Same(*place.old, read)) {
      Fail(place.output->path, "it is one of the files this result was read from; name another");
    }
  }
}

// What may not be written is asked of its permissions too: the superuser may write what its owner
// has locked away, and should not.
void RefuseLocked(const Place& place) {
  constexpr mode_t kAnyWriter = S_IWUSR | S_IWGRP | S_IWOTH;
  if (!place.old || place.straight()) return;
  if ((place.old->st_mode & kAnyWriter) == 0 ||
      ::faccessat(AT_FDCWD, place.target.c_str(), W_OK, AT_EACCESS) != 0) {
    Fail(place.output->path,
         "a file of that name is there and may not be written; name another, or allow writing");
  }
}

// The tables themselves may already go there, by the shell's `>`.
void RefuseStandardOutput(const Place& place) {
  struct stat standard {};
  if (!place.old || place.straight() || ::fstat(STDOUT_FILENO, &standard) != 0) return;
  if (Same(*place.old, standard)) {
    Fail(place.output->path, "standard output goes to that file already; name another");
  }
}

Place FindPlace(const OutputFile& output, const std::vector<std::string>& inputs) {
  Place place{.output = &output, .target = Canonical(Followed(output.path)), .old = std::nullopt};
  struct stat there {};
  if (::stat(output.path.c_str(), &there) == 0) {
    place.old = there;
  } else if (errno == ELOOP) {
    Fail(output.path, "its symbolic links lead in a circle; name a file");
  } else if (errno != ENOENT) {
    Fail(output.path, std::strerror(errno));
  }
  if (place.old && S_ISDIR(place.old->st_mode)) Fail(output.path, "it is a directory; name a file");
  RefuseInputs(place, inputs);
  RefuseLocked(place);
  RefuseStandardOutput(place);
  return place;
}

std::vector<Place> FindPlaces(const std::vector<OutputFile>& outputs,
                              const std::vector<std::string>& inputs) {
  std::vector<Place> places;
  for (const OutputFile& output : outputs) {
    Place place = FindPlace(output, inputs);
    for (const Place& other : places) {
      if (IsSameFile(place, other)) {
        Fail(output.path, "it is the same file as " + other.output->path +
                              ", which is to be written too; give each its own");
      }
    }
    places.push_back(std::move(place));
  }
  return places;
}

// A part of `target` by its name: NAME.part- and the letters of mkostemp.
bool IsPartOf(const fs::path& target, const fs::path& name) {
  const std::string start = target.filename().string() + kPart, whole = name.string();
  return whole.size() == start.size() + kLetters && whole.starts_with(start) &&
         std::all_of(whole.end() - kLetters, whole.end(),
                     [](unsigned char c) { return std::isalnum(c) != 0; });
}

// Removes what killed runs have left of this output: parts of our own that no one holds locked.
void RemoveLeftParts(const Place& place) {
  std::error_code error;
  std::vector<fs::path> parts;
  for (fs::directory_iterator entry(place.target.parent_path(), error), end; !error && entry != end;
       entry.increment(error)) {
    if (IsPartOf(place.target, entry->path().filename())) parts.push_back(entry->path());
  }
  for (const fs::path& part : parts) {
    const Descriptor file(::open(part.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    struct stat left {};
    if (file.get() < 0 || ::fstat(file.get(), &left) != 0) continue;
    if (!S_ISREG(left.st_mode) || left.st_uid != ::geteuid()) continue;
    if (::flock(file.get(), LOCK_EX | LOCK_NB) == 0) ::unlink(part.c_str());
  }
}

// What the user's mask leaves of reading and writing for all. There is no way to ask without
// setting.
mode_t UsualPermissions() {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666 & ~mask;
}

// The new content beside its place, removed with its scope where it has not been renamed.
struct Part {
  Descriptor file;
  std::string path;
  Part(Descriptor opened, std::string at) : file(std::move(opened)), path(std::move(at)) {}
  Part(Part&& other) noexcept
      : file(std::move(other.file)), path(std::exchange(other.path, std::string())) {}
  Part(const Part&) = delete;
  Part& operator=(const Part&) = delete;
  Part& operator=(Part&&) = delete;
  ~Part() {
    if (!path.empty()) ::unlink(path.c_str());
  }
};

// An empty part, locked. Another run may take it for a left one between its making and its locking:
// then it has no name any more and another is made.
Part MakePart(const Place& place) {
  for (;;) {
    std::string path = place.target.string() + kPart + std::string(kLetters, 'X');
    Descriptor file(::mkostemp(path.data(), O_CLOEXEC));
    if (file.get() < 0) Fail(place.output->path, std::strerror(errno));
    struct stat made {};
    const bool locked = ::flock(file.get(), LOCK_EX) == 0;
    if (!locked || ::fstat(file.get(), &made) != 0 || made.st_nlink > 0) {
      return {std::move(file), path};  // a disk without locks has no one to mind them either
    }
  }
}

Part Stage(const Place& place) {
  Part part = MakePart(place);
  int why = WriteAll(part.file.get(), place.output->content);
  if (why == 0 && ::fsync(part.file.get()) != 0) why = errno;
  if (why == 0 &&
      ::fchmod(part.file.get(), place.old ? place.old->st_mode & 07777 : UsualPermissions()) != 0) {
    why = errno;
  }
  if (why != 0) Fail(place.output->path, std::strerror(why));
  return part;
}

void WriteStraight(const Place& place) {
  Descriptor file(::open(place.output->path.c_str(), O_WRONLY | O_CLOEXEC));
  if (file.get() < 0) Fail(place.output->path, std::strerror(errno));
  int why = WriteAll(file.get(), place.output->content);
  const int closed = file.Close();
  if (why == 0) why = closed;
  if (why != 0) Fail(place.output->path, std::strerror(why));
}

// Bytes over those of an open file, which is cut to their length last, so that the room it had
// stays its own. 0, or why not.
int Overwrite(int file, const std::string& content) {
  if (::lseek(file, 0, SEEK_SET) < 0) return errno;
  if (const int why = WriteAll(file, content); why != 0) return why;
  if (::ftruncate(file, static_cast<off_t>(content.size())) != 0) return errno;
  return ::fsync(file) == 0 ? 0 : errno;
}

std::optional<std::string> ReadAll(int file) {
  std::string bytes;
  char chunk[65536];
  for (;;) {
    const ssize_t n = ::read(file, chunk, sizeof chunk);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return std::nullopt;
    if (n == 0) return bytes;
    bytes.append(chunk, static_cast<size_t>(n));
  }
}

// How to put an old file back.
struct Undo {
  const Place* place;
  Descriptor file{-1};  // of one written in place
  std::string bytes;    // and what it held
  std::string kept;     // where one that was replaced is; empty: nowhere
};

void PutBack(const Undo& undo) {
  if (undo.file.get() >= 0) {
    Overwrite(undo.file.get(), undo.bytes);
  } else if (!undo.kept.empty()) {
    std::rename(undo.kept.c_str(), undo.place->target.c_str());
  } else if (!undo.place->old) {
    ::unlink(undo.place->target.c_str());
  }
}

// Both change places at once where the disk knows how, so that the old file is at hand until all
// are written; else the part takes the place for good. 0, or why not.
int Replace(const Place& place, Part& part, Undo& undo) {
  const char* target = place.target.c_str();
  if (place.old) {
    if (::renameat2(AT_FDCWD, part.path.c_str(), AT_FDCWD, target, RENAME_EXCHANGE) == 0) {
      undo.kept = std::exchange(part.path, std::string());
      return 0;
    }
    if (errno != EINVAL && errno != ENOSYS) return errno;
  }
  if (std::rename(part.path.c_str(), target) != 0) return errno;
  part.path.clear();
  return 0;
}

int WriteInPlace(const Place& place, Undo& undo) {
  Descriptor file(::open(place.target.c_str(), O_RDWR | O_CLOEXEC));
  if (file.get() < 0) return errno;
  std::optional<std::string> bytes = ReadAll(file.get());
  if (!bytes) return errno;
  const int why = Overwrite(file.get(), place.output->content);
  if (why != 0) {
    Overwrite(file.get(), *bytes);
    return why;
  }
  undo = {.place = &place, .file = std::move(file), .bytes = std::move(*bytes), .kept = {}};
  return 0;
}

}  // namespace

void WriteTogether(const std::vector<OutputFile>& outputs, const std::vector<std::string>& inputs) {
  const std::vector<Place> places = FindPlaces(outputs, inputs);
  std::vector<std::pair<const Place*, Part>> parts;
  for (const Place& place : places) {
    if (place.straight()) continue;
    RemoveLeftParts(place);
    parts.emplace_back(&place, Stage(place));
  }
  for (const Place& place : places) {
    if (place.straight()) WriteStraight(place);
  }
  std::vector<Undo> done;
  for (auto& [place, part] : parts) {
    Undo undo{.place = place, .file = Descriptor(-1), .bytes = {}, .kept = {}};
    const int why = place->in_place() ? WriteInPlace(*place, undo) : Replace(*place, part, undo);
    if (why == 0) {
      done.push_back(std::move(undo));
      continue;
    }
    std::for_each(done.rbegin(), done.rend(), PutBack);
    Fail(place->output->path, std::strerror(why));
  }
  for (const Undo& undo : done) {
    if (!undo.kept.empty()) ::unlink(undo.kept.c_str());
  }
}

void WriteWhole(const std::string& path, const std::string& content,
                const std::vector<std::string>& inputs) {
  WriteTogether({{path, content}}, inputs);
}

bool IsFolder(const std::string& path) {
  std::error_code none;
  return fs::is_directory(path, none);
}

void MakeFolder(const std::string& path) {
  std::error_code why;
  fs::create_directories(path, why);
  if (why) Fail(path, why.message());
}

}  // namespace linkwright
