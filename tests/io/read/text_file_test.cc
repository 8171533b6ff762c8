// SPDX-License-Identifier: MIT
// Files that are no vehicle files at all, and some that mean harm.
#include "io/read/text_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <string>

#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

using testing::ElementsAre;

TEST(ReadTextFile, SaysThatAFileIsMissing) {
  EXPECT_THAT(ErrorsOf("no/such/truck.yaml"), ElementsAre("truck.yaml:0:0 no such file"));
}

TEST(ReadTextFile, SaysThatAPathThroughAFileLeadsNowhere) {
  const TempFolder folder;
  const std::string file = folder.Write("van.yaml", kBench);
  EXPECT_THAT(ErrorsOf(file + "/truck.yaml"), ElementsAre("truck.yaml:0:0 no such file"));
}

TEST(ReadTextFile, RefusesAFolder) {
  const TempFolder folder;
  EXPECT_THAT(ErrorsOf(folder.Path("")),
              ElementsAre(":0:0 this is a folder; a vehicle file is wanted"));
}

TEST(ReadTextFile, RefusesAPipeWithoutWaitingForIt) {
  const TempFolder folder;
  ASSERT_EQ(mkfifo(folder.Path("pipe").c_str(), 0600), 0);
  EXPECT_THAT(ErrorsOf(folder.Path("pipe")),
              ElementsAre("pipe:0:0 this is not an ordinary file; a vehicle file is wanted"));
}

TEST(ReadTextFile, RefusesAFileWithoutPermission) {
  const TempFolder folder;
  const std::string file = folder.Write("van.yaml", kBench);
  ASSERT_EQ(chmod(file.c_str(), 0), 0);
  // To root every file is open; take another user's place for the time of reading.
  const bool root = geteuid() == 0;
  if (root) {
    ASSERT_EQ(chmod(folder.Path("").c_str(), 0755), 0);
    ASSERT_EQ(seteuid(65534), 0);
  }
  const auto errors = ErrorsOf(file);
  if (root) {
    ASSERT_EQ(seteuid(0), 0);
  }
  EXPECT_THAT(errors, ElementsAre("van.yaml:0:0 the file cannot be read: Permission denied"));
}

TEST(ReadTextFile, RefusesAHugeFileUnread) {
  const TempFolder folder;
  const std::string file = folder.Write("van.yaml", kBench);
  ASSERT_EQ(truncate(file.c_str(), 100'000'000), 0);
  EXPECT_THAT(
      ErrorsOf(file),
      ElementsAre("van.yaml:0:0 the file has 100000000 bytes; a vehicle file has 1000000 at most"));
}

TEST(ReadTextFile, TakesTheLargestFileAndNoMore) {
  const TempFolder folder;
  std::string text(kBench);
  text += "#" + std::string(1'000'000 - text.size() - 1, '-');
  EXPECT_THAT(ErrorsOf(folder.Write("van.yaml", text)), ElementsAre());
  EXPECT_THAT(
      ErrorsOf(folder.Write("van.yaml", text + "-")),
      ElementsAre("van.yaml:0:0 the file has 1000001 bytes; a vehicle file has 1000000 at most"));
}

TEST(ReadTextFile, FindsTheByteThatIsNoText) {
  const TempFolder folder;
  const auto errors = [&](const std::string& text) {
    return ErrorsOf(folder.Write("van.yaml", text));
  };
  EXPECT_THAT(errors(std::string("title: a\nunits: \0", 17)),
              ElementsAre("van.yaml:2:8 character 0x00 is not text; save the file as UTF-8 text"));
  EXPECT_THAT(errors("title: \u00e9\x1b[2J\n"),
              ElementsAre("van.yaml:1:9 character 0x1b is not text; save the file as UTF-8 text"));
  EXPECT_THAT(errors("title: caf\xe9\n"),
              ElementsAre("van.yaml:1:11 byte 0xe9 is not UTF-8; save the file as UTF-8"));
}

TEST(ReadTextFile, HoldsUtf8ToTheStandard) {
  const TempFolder folder;
  // RFC 3629, section 3 and 10: overlong forms, surrogates, beyond U+10FFFF, cut short.
  for (const char* bytes : {"\xc0\xaf", "\xe0\x80\xaf", "\xf0\x80\x80\xaf", "\xed\xa0\x80",
                            "\xf4\x90\x80\x80", "\xf8\x88\x80\x80\x80", "\x80", "\xe2\x82"}) {
    const auto errors = ErrorsOf(folder.Write("van.yaml", std::string("title: ") + bytes));
    ASSERT_EQ(errors.size(), 1U);
    EXPECT_THAT(errors[0], testing::HasSubstr("van.yaml:1:8 byte 0x")) << bytes;
  }
}

TEST(ReadTextFile, TakesAByteOrderMarkAndOtherLineEnds) {
  const TempFolder folder;
  std::string text = "\xef\xbb\xbf";
  for (const char c : kBench) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
  EXPECT_THAT(ErrorsOf(folder.Write("van.yaml", text)), ElementsAre());
  EXPECT_THAT(ErrorsOf(folder.Write("van.yaml", text + "colour: green\r\n"))[0],
              testing::StartsWith("van.yaml:16:1 colour: unknown key"));
}

TEST(ReadTextFile, TakesUtf8InTitlesAndNames) {
  const TempFolder folder;
  std::string text(kBench);
  text.replace(text.find("Bench"), 5, "B\u00e9n\u2713\U0001F69A");
  EXPECT_EQ(ReadVehicleFile(folder.Write("van.yaml", text)).vehicle.title,
            "B\u00e9n\u2713\U0001F69A truck");
}

// Each of these once made a parser work for minutes, fill the memory or fall off its stack.
TEST(HostileFiles, AreRefusedSoonAndWithOneError) {
  const TempFolder folder;
  std::string bomb = "title: [x]\na: &a [1,1,1,1,1,1,1,1,1,1]\n";
  for (char c = 'b'; c <= 'l'; ++c) {
    bomb += fmt::format("{0}: &{0} [*{1},*{1},*{1},*{1},*{1},*{1},*{1},*{1}]\n", c,
                        static_cast<char>(c - 1));
  }
  std::string many_keys;
  for (int i = 0; i < 60'000; ++i) many_keys += fmt::format("k{}: {}\n", i, i);
  const std::vector<std::pair<std::string, std::string>> files = {
      {bomb, "grows beyond 100000 values here; its aliases ('*') repeat too much"},
      {std::string(900'000, '['), "stand more than 32 deep"},
      {std::string(900'000, '{'), "stand more than 32 deep"},
      {std::string(450'000, '-') + " ", ""},
      {std::string(900'000, ','), ""},
      {std::string(900'000, '"'), ""},
      {std::string(900'000, '&'), ""},
      {std::string(900'000, ' ') + "a", ""},
      {"[" + std::string(900'000, ':'), ""},
      {"a: [" + many_keys + "]", ""},
  };
  for (const auto& [text, wanted] : files) {
    const auto start = std::chrono::steady_clock::now();
    const auto errors = ErrorsOf(folder.Write("hostile.yaml", text));
    const std::chrono::duration<double> seconds = std::chrono::steady_clock::now() - start;
    ASSERT_FALSE(errors.empty()) << text.substr(0, 40);
    EXPECT_THAT(errors[0], testing::HasSubstr(wanted));
    EXPECT_LT(errors[0].size(), 600U) << text.substr(0, 40);
    EXPECT_LT(seconds.count(), 60.0) << text.substr(0, 40);  // minutes are the failure
  }
}

TEST(HostileFiles, WithThousandsOfWrongKeysAreReportedInFull) {
  const TempFolder folder;
  std::string text(kBench);
  for (int i = 0; i < 5'000; ++i) text += fmt::format("k{}: {}\n", i, i);
  EXPECT_EQ(ErrorsOf(folder.Write("van.yaml", text)).size(), 5'000U);
}

}  // namespace
}  // namespace linkwright
