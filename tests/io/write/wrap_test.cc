// SPDX-License-Identifier: MIT
#include "io/write/wrap.h"

#include <gtest/gtest.h>

namespace linkwright::check {
namespace {

TEST(Wrap, BreaksBetweenWordsAndIndentsTheLinesThatFollow) {
  EXPECT_EQ(Wrap("the left stop is solid", 12, "- ", "  "), "- the left\n  stop is\n  solid\n");
  EXPECT_EQ(Wrap("the left stop", 13), "the left stop\n") << "just fits";
  EXPECT_EQ(Wrap("  two   blanks ", 80), "two blanks\n");
  EXPECT_EQ(Wrap("", 80), "\n");
}

TEST(Wrap, LeavesAWordThatIsWiderWhole) {
  EXPECT_EQ(Wrap("in /a/very/long/path it is", 8), "in\n/a/very/long/path\nit is\n");
}

TEST(Wrap, CountsCharactersNotBytes) {
  EXPECT_EQ(TextWidth("Kühlergrill"), 11U);
  EXPECT_EQ(Wrap("Kühlergrill ab", 14), "Kühlergrill ab\n");
  EXPECT_EQ(WidestLine("one\nthree\nto\n"), 5U);
}

}  // namespace
}  // namespace linkwright::check
