// SPDX-License-Identifier: MIT
#include "io/write/file.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/file.h>
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

// The message of writing two outputs together; empty where it succeeds.
std::string ComplaintOfBoth(const std::string& one, const std::string& other) {
  try {
    WriteTogether({{one, "one"}, {other, "other"}}, {});
  } catch (const WriteError& error) {
    return error.what();
  }
  return "";
}

TEST(WriteTogether, WritesEach) {
  const Folder folder;
  EXPECT_EQ(ComplaintOfBoth(folder.Path("a.csv"), folder.Write("a.json", "old")), "");
  EXPECT_EQ(ReadBytes(folder.Path("a.csv")), "one");
  EXPECT_EQ(ReadBytes(folder.Path("a.json")), "other");
  EXPECT_EQ(folder.Names(), (Names{"a.csv", "a.json"}));
}

TEST(WriteTogether, KnowsOneFileHoweverItIsSpelt) {
  for (const bool there : {false, true}) {
    const Folder folder;
    const std::string path = folder.Path("a.csv");
    if (there) fs::create_hard_link(folder.Write("a.csv", "old"), folder.path() / "hard.csv");
    fs::create_directory(folder.path() / "sub");
    fs::create_symlink("a.csv", folder.path() / "link.csv");
    fs::create_symlink("link.csv", folder.path() / "link-to-link.csv");
    fs::create_directory_symlink(".", folder.path() / "here");
    const Names before = folder.Names();
    Names same{"./a.csv", "sub/../a.csv", "here/a.csv", "link.csv", "link-to-link.csv"};
    if (there) same.emplace_back("hard.csv");
    for (const std::string& name : same) {
      const std::string other = folder.path().string() + "/" + name;
      EXPECT_EQ(ComplaintOfBoth(path, other),
                "cannot write " + other + ": it is the same file as " + path +
                    ", which is to be written too; give each its own");
      EXPECT_EQ(folder.Names(), before) << name;
      if (!there) continue;
      EXPECT_EQ(ReadBytes(path), "old") << name;
    }
  }
}

TEST(WriteTogether, WritesNoneWhereOneCannotBeWritten) {
  const Folder folder;
  const std::string old = folder.Write("old.csv", "old");
  for (const std::string& bad : {folder.Path("nowhere") + "/a.json", folder.path().string(),
                                 std::string("/dev/full"), std::string("/proc/linkwright.json")}) {
    for (const std::string& good : {old, folder.Path("new.csv")}) {
      EXPECT_NE(ComplaintOfBoth(good, bad), "") << bad;
      EXPECT_NE(ComplaintOfBoth(bad, good), "") << bad;
      EXPECT_EQ(ReadBytes(old), "old") << bad;
      EXPECT_EQ(folder.Names(), Names{"old.csv"}) << bad;
    }
  }
}

TEST(WriteTogether, PutsTheFirstBackWhereTheDiskFillsAtTheSecond) {
  const Folder folder;
  const std::string old = folder.Write("old.csv", "old"), hard = folder.Path("hard.csv");
  fs::create_hard_link(old, hard);
  std::string complaint;
  {
    const FullDisk full(1000);
    try {
      WriteTogether({{old, "new"}, {folder.Path("b.json"), std::string(5000, 'x')}}, {});
    } catch (const WriteError& error) {
      complaint = error.what();
    }
  }
  EXPECT_EQ(complaint, "cannot write " + folder.Path("b.json") + ": File too large");
  EXPECT_EQ(ReadBytes(old), "old");
  EXPECT_EQ(folder.Names(), (Names{"hard.csv", "old.csv"}));
}

TEST(WriteWhole, RefusesAFileThatMayNotBeWritten) {
  const Folder folder;
  const std::string path = folder.Write("locked.csv", "old");
  fs::permissions(path, fs::perms(0444));
  fs::create_symlink("locked.csv", folder.path() / "link.csv");
  for (const std::string& name : {path, folder.Path("link.csv")}) {
    EXPECT_EQ(Complaint(name, "new"),
              "cannot write " + name +
                  ": a file of that name is there and may not be written; name another, or allow "
                  "writing");
  }
  EXPECT_EQ(ReadBytes(path), "old");
  EXPECT_EQ(folder.Names(), (Names{"link.csv", "locked.csv"}));
}

TEST(WriteWhole, KeepsAHardLinkOneFile) {
  const Folder folder;
  const std::string path = folder.Write("a.csv", "old and longer"), other = folder.Path("b.csv");
  fs::create_hard_link(path, other);
  WriteWhole(path, "new", {});
  EXPECT_TRUE(fs::equivalent(path, other));
  EXPECT_EQ(ReadBytes(other), "new");
  EXPECT_EQ(folder.Names(), (Names{"a.csv", "b.csv"}));
}

TEST(WriteWhole, RefusesLinksThatLeadInACircle) {
  const Folder folder;
  fs::create_symlink("b.csv", folder.path() / "a.csv");
  fs::create_symlink("a.csv", folder.path() / "b.csv");
  const std::string path = folder.Path("a.csv");
  EXPECT_EQ(Complaint(path, "x"),
            "cannot write " + path + ": its symbolic links lead in a circle; name a file");
  EXPECT_TRUE(fs::is_symlink(fs::symlink_status(path)));
  EXPECT_EQ(folder.Names(), (Names{"a.csv", "b.csv"}));
}

TEST(WriteWhole, RemovesWhatAKilledRunLeftAndNothingElse) {
  const Folder folder;
  const std::string left = folder.Write("a.csv.part-x7Gh2k", "half");
  const std::string living = folder.Write("a.csv.part-Living", "of a run that is writing");
  const int held = ::open(living.c_str(), O_RDWR | O_CLOEXEC);
  ASSERT_EQ(::flock(held, LOCK_EX), 0);
  const Names others{"a.csv.part-longer-than-ours", "b.csv.part-x7Gh2k"};
  for (const std::string& other : others) folder.Write(other, "someone's own");
  WriteWhole(folder.Path("a.csv"), "rows", {});
  EXPECT_EQ(folder.Names(), (Names{"a.csv", "a.csv.part-Living", "a.csv.part-longer-than-ours",
                                   "b.csv.part-x7Gh2k"}));
  ::close(held);
  WriteWhole(folder.Path("a.csv"), "rows", {});
  EXPECT_EQ(folder.Names(), (Names{"a.csv", "a.csv.part-longer-than-ours", "b.csv.part-x7Gh2k"}));
}

// As after the shell's `>`.
TEST(WriteWhole, RefusesTheFileThatStandardOutputGoesTo) {
  const Folder folder;
  const std::string path = folder.Write("tables.txt", "tables");
  const int file = ::open(path.c_str(), O_WRONLY | O_APPEND | O_CLOEXEC);
  const int before = ::dup(STDOUT_FILENO);
  ::dup2(file, STDOUT_FILENO);
  const std::string named = Complaint(path, "rows"), device = Complaint("/dev/stdout", "rows");
  ::dup2(before, STDOUT_FILENO);
  ::close(before);
  ::close(file);
  EXPECT_EQ(named,
            "cannot write " + path + ": standard output goes to that file already; name another");
  EXPECT_EQ(device,
            "cannot write /dev/stdout: standard output goes to that file already; name another");
  EXPECT_EQ(ReadBytes(path), "tables");
}

}  // namespace
}  // namespace linkwright::check
