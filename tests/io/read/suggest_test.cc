// SPDX-License-Identifier: MIT
#include "io/read/suggest.h"

#include <gtest/gtest.h>

namespace linkwright {
namespace {

TEST(NearestWord, FindsTheWordThatWasMeant) {
  const std::vector<std::string_view> keys = {"wheel_center", "wheel_center_right", "tire", "axle"};
  EXPECT_EQ(NearestWord("wheel_centre", keys), "wheel_center");
  EXPECT_EQ(NearestWord("Wheel Center", keys), "wheel_center");
  EXPECT_EQ(NearestWord("wheel_centre_right", keys), "wheel_center_right");
  EXPECT_EQ(NearestWord("tyre", keys), "tire");
  EXPECT_EQ(NearestWord("axel", keys), "axle");
  EXPECT_EQ(NearestWord("axles", keys), "axle");
}

TEST(NearestWord, CountsASwapOfNeighboursAsOneChange) {
  EXPECT_EQ(NearestWord("abdcef", {"abxyef", "abcdef"}), "abcdef");
}

TEST(NearestWord, IsEmptyWhereNothingIsNear) {
  EXPECT_EQ(NearestWord("colour", {"title", "units", "axles"}), "");
  EXPECT_EQ(NearestWord("xy", {"at"}), "");
  EXPECT_EQ(NearestWord("abc", {}), "");
}

TEST(NearestWord, PassesOverEndlessWords) {
  EXPECT_EQ(NearestWord(std::string(1'000'000, 'a'), {"axle"}), "");
}

}  // namespace
}  // namespace linkwright
