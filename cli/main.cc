// SPDX-License-Identifier: MIT
#include <iostream>

#include "cli/run.h"

int main(int argc, char** argv) {
  return linkwright::Run({argv + 1, argv + argc}, std::cout, std::cerr, linkwright::FindWindow());
}
