// SPDX-License-Identifier: MIT
// read_files: file names on standard input, one a line; for each "ok" or the first error.
// For schema_test.py, which holds the schema against the reader.
#include <iostream>
#include <string>

#include "io/read/vehicle_file.h"

int main() {
  for (std::string path; std::getline(std::cin, path);) {
    try {
      static_cast<void>(linkwright::ReadVehicleFile(path));
      std::cout << "ok\n";
    } catch (const linkwright::InputErrors& errors) {
      std::cout << linkwright::ErrorText(errors.errors.front()) << "\n";
    }
  }
}
