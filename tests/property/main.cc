// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cstdlib>

// One seed for everybody, so that a failure is the same failure everywhere. RC_PARAMS in the
// environment overrides it, for a long hunt.
int main(int argc, char** argv) {
  constexpr int kKeep = 0;  // setenv: leave what is there
  setenv("RC_PARAMS", "seed=20240229 max_success=60 max_size=100", kKeep);
  ::testing::InitGoogleTest(&argc, argv);
  return RUN_ALL_TESTS();
}
