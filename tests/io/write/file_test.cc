// SPDX-License-Identifier: MIT
#include "io/write/file.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>

#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

namespace fs = std::filesystem;
using Names = std::vector<std::string>;

// The message of the error that writing gives; empty where it succeeds.
std::string Complaint(const std::string& path, const std::string& content,
                      const Names& inputs = {}) {
  try {
    WriteWhole(path, content, inputs);
  } catch (const WriteError& error) {
    return error.what();
  }
  return "";
}

TEST(WriteWhole, MakesAFileOfExactlyTheContent) {
  const Folder folder;
  const std::string content("a\r\nb\0c\xFF", 7);
  WriteWhole(folder.Path("new.csv"), content, {});
  EXPECT_EQ(ReadBytes(folder.Path("new.csv")), content);
  EXPECT_EQ(folder.Names(), Names{"new.csv"});
}

TEST(WriteWhole, ReplacesAnOldFileAndKeepsItsPermissions) {
  const Folder folder;
  const std::string path = folder.Write("old.csv", "much longer than what comes");
  fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  WriteWhole(path, "new", {});
  EXPECT_EQ(ReadBytes(path), "new");
  EXPECT_EQ(fs::status(path).permissions(), fs::perms::owner_read | fs::perms::owner_write);
}

TEST(WriteWhole, ANewFileHasThePermissionsTheUserAsksOfNewFiles) {
  const Folder folder;
  const mode_t before = ::umask(077);
  WriteWhole(folder.Path("private.csv"), "x", {});
  ::umask(022);
  WriteWhole(folder.Path("usual.csv"), "x", {});
  ::umask(before);
  EXPECT_EQ(fs::status(folder.Path("private.csv")).permissions(), fs::perms(0600));
  EXPECT_EQ(fs::status(folder.Path("usual.csv")).permissions(), fs::perms(0644));
}

TEST(WriteWhole, NeverWritesOverAnInputHoweverItsPathIsSpelt) {
  const Folder folder;
  const std::string input = folder.Write("van.yaml", "the only copy");
  fs::create_directory(folder.path() / "sub");
  fs::create_symlink("van.yaml", folder.path() / "link.csv");
  fs::create_symlink("link.csv", folder.path() / "link-to-link.csv");
  fs::create_directory_symlink(".", folder.path() / "here");
  fs::create_hard_link(input, folder.path() / "hard.csv");
  for (const char* name : {"van.yaml", "./van.yaml", "sub/../van.yaml", "here/van.yaml", "link.csv",
                           "link-to-link.csv", "hard.csv"}) {
    const std::string path = folder.path().string() + "/" + name;
    EXPECT_EQ(Complaint(path, "rows", {folder.Path("other.yaml"), input}),
              "cannot write " + path +
                  ": it is one of the files this result was read from; name another");
    EXPECT_EQ(ReadBytes(input), "the only copy") << name;
  }
}

TEST(WriteWhole, NeverWritesOverAnInputThatWasReadThroughALinkOrARelativePath) {
  const Folder folder;
  const std::string input = folder.Write("van.yaml", "the only copy");
  fs::create_symlink("van.yaml", folder.path() / "link.yaml");
  const WorkingFolder here(folder.path());
  EXPECT_NE(Complaint(input, "rows", {"link.yaml"}), "");
  EXPECT_NE(Complaint("van.yaml", "rows", {input}), "");
  EXPECT_EQ(ReadBytes(input), "the only copy");
}

TEST(WriteWhole, RefusesAFolder) {
  const Folder folder;
  const std::string path = folder.path().string();
  EXPECT_EQ(Complaint(path, "x"), "cannot write " + path + ": it is a directory; name a file");
  EXPECT_EQ(folder.Names(), Names{});
}

TEST(WriteWhole, RefusesAFolderThatIsNotThere) {
  const Folder folder;
  const std::string path = folder.Path("nowhere") + "/rows.csv";
  EXPECT_EQ(Complaint(path, "x"), "cannot write " + path + ": No such file or directory");
  EXPECT_EQ(folder.Names(), Names{});
}

// Root may write into any folder of a disk, but no one may make a file in the kernel's.
TEST(WriteWhole, SaysSoWhereTheFolderCannotBeWritten) {
  EXPECT_EQ(Complaint("/proc/linkwright.csv", "x"),
            "cannot write /proc/linkwright.csv: No such file or directory");
  if (::geteuid() == 0) return;
  const Folder folder;
  fs::permissions(folder.path(), fs::perms::owner_read | fs::perms::owner_exec);
  const std::string path = folder.Path("rows.csv");
  EXPECT_EQ(Complaint(path, "x"), "cannot write " + path + ": Permission denied");
  EXPECT_EQ(folder.Names(), Names{});
  fs::permissions(folder.path(), fs::perms::owner_all);
}

// Lets no file grow beyond some bytes in a scope: a disk that is full.
class FullDisk {
 public:
  explicit FullDisk(rlim_t bytes) : signal_(std::signal(SIGXFSZ, SIG_IGN)) {
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit low{.rlim_cur = bytes, .rlim_max = before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &low);
  }
  ~FullDisk() {
    ::setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, signal_);
  }
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;

 private:
  rlimit before_{};
  void (*signal_)(int);
};

TEST(WriteWhole, AWriteThatFailsHalfWayLeavesTheOldFileAndNothingElse) {
  const Folder folder;
  const std::string path = folder.Write("rows.csv", "old");
  std::string complaint;
  {
    const FullDisk full(1000);
    complaint = Complaint(path, std::string(5000, 'x'));
  }
  EXPECT_EQ(complaint, "cannot write " + path + ": File too large");
  EXPECT_EQ(ReadBytes(path), "old");
  EXPECT_EQ(folder.Names(), Names{"rows.csv"}) << "no part of the new file stays behind";
}

TEST(WriteWhole, FollowsALinkToTheFileItNamesAndKeepsTheLink) {
  const Folder folder;
  const std::string target = folder.Write("target.csv", "old");
  const std::string link = folder.Path("link.csv");
  fs::create_symlink("target.csv", link);
  WriteWhole(link, "new", {});
  EXPECT_TRUE(fs::is_symlink(link));
  EXPECT_EQ(ReadBytes(target), "new");
  EXPECT_EQ(folder.Names(), (Names{"link.csv", "target.csv"}));
}

TEST(WriteWhole, KeepsALinkThatNamesAFileNotYetThereAndMakesThatFile) {
  const Folder folder;
  const std::string link = folder.Path("link.csv");
  fs::create_symlink("target.csv", link);
  WriteWhole(link, "new", {});
  EXPECT_TRUE(fs::is_symlink(link));
  EXPECT_EQ(folder.Names(), (Names{"link.csv", "target.csv"}));
}

TEST(WriteWhole, WritesStraightToADevice) {
  EXPECT_EQ(Complaint("/dev/null", "x"), "");
  EXPECT_TRUE(fs::is_character_file("/dev/null")) << "it must never be replaced by a file";
  EXPECT_EQ(Complaint("/dev/full", "x"), "cannot write /dev/full: No space left on device");
}

}  // namespace
}  // namespace linkwright::check
