// SPDX-License-Identifier: MIT
// What only a terminal gets: colour beside the words, and a line while something lasts.
#include <gtest/gtest.h>

#include <chrono>
#include <regex>
#include <sstream>
#include <thread>

#include "cli/progress.h"
#include "cli/run.h"
#include "cli/shown_buffer.h"
#include "tests/cli/program.h"
#include "tests/io/write/folder.h"

namespace linkwright::check {
namespace {

std::string Printed(const std::vector<std::string>& arguments, const Window& window) {
  std::ostringstream out, err;
  EXPECT_EQ(linkwright::Run(arguments, out, err, window), 0) << err.str();
  return out.str();
}

TEST(Color, IsOnHeadingsOfHarmAloneAndBesideTheWords) {
  const std::string van = VehiclePath("harbour_van");
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{van}, std::vector<std::string>{"check", van, "--full"}}) {
    const std::string colored = Printed(arguments, {.color = true});
    const std::string plain = Printed(arguments, {});
    EXPECT_NE(colored.find("\x1b[1;31mCan hurt someone\x1b[0m\n"), std::string::npos) << colored;
    EXPECT_EQ(plain.find('\x1b'), std::string::npos);
    EXPECT_EQ(std::regex_replace(colored, std::regex("\x1b\\[[0-9;]*m"), ""), plain);
  }
}

TEST(Color, OpensNoWayForThatOfAFile) {
  const Folder folder;
  const std::string file =
      folder.Write("\x1b[31mred.yaml", "base: " + VehiclePath("harbour_van") + "\n");
  const std::string out = Printed({file}, {.color = true});
  EXPECT_TRUE(Lines(out).at(1).ends_with("/\\x1b[31mred.yaml")) << out;
}

TEST(Progress, IsSaidWhereItLastsAndTakenAway) {
  std::ostringstream terminal;
  ShownBuffer guard(terminal);
  std::ostream shown(&guard);
  {
    const Progress progress("sweep", &shown, std::chrono::milliseconds(1));
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
  }
  const std::string said = terminal.str();
  EXPECT_TRUE(said.starts_with("\rlinkwright: sweep is being worked out, 0 s\r")) << said;
  EXPECT_TRUE(said.ends_with(" \r")) << said;
}

TEST(Progress, SaysNothingOfWhatIsSoonDone) {
  std::ostringstream terminal;
  ShownBuffer guard(terminal);
  std::ostream shown(&guard);
  { const Progress progress("sweep", &shown); }
  { const Progress progress("sweep", nullptr, std::chrono::milliseconds(0)); }
  EXPECT_EQ(terminal.str(), "");
}

}  // namespace
}  // namespace linkwright::check
