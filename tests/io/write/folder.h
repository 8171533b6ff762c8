// SPDX-License-Identifier: MIT
// Files and folders of a test: made for it, gone after it.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace linkwright::check {

// A new empty folder, removed with all in it at the end of the scope.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::filesystem::path path() const { return path_; }
  [[nodiscard]] std::string Path(const std::string& name) const { return (path_ / name).string(); }

  // Writes a file in it and gives its path.
  std::string Write(const std::string& name, const std::string& content) const;

  // The names in it, sorted.
  [[nodiscard]] std::vector<std::string> Names() const;

 private:
  std::filesystem::path path_;
};

// The working directory of a scope.
class WorkingFolder {
 public:
  explicit WorkingFolder(const std::filesystem::path& path)
      : before_(std::filesystem::current_path()) {
    std::filesystem::current_path(path);
  }
  ~WorkingFolder() { std::filesystem::current_path(before_); }
  WorkingFolder(const WorkingFolder&) = delete;
  WorkingFolder& operator=(const WorkingFolder&) = delete;

 private:
  std::filesystem::path before_;
};

// A file's bytes. errors: std::runtime_error where it cannot be read
[[nodiscard]] std::string ReadBytes(const std::string& path);

}  // namespace linkwright::check
