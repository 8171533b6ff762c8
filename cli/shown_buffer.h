// SPDX-License-Identifier: MIT
// The last guard between a name in a file and the terminal, and the one way past it.
#pragma once

#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace linkwright {

// Passes on what is written with all that would not be seen shown as escapes. Keeps back the start
// of a character that is cut.
class ShownBuffer : public std::streambuf {
 public:
  explicit ShownBuffer(std::ostream& to) : to_(to) {}

  // What the program itself has for the terminal, as it is.
  void PassOn(std::string_view control);

 protected:
  int_type overflow(int_type c) override;
  std::streamsize xsputn(const char* bytes, std::streamsize count) override;
  int sync() override;

 private:
  std::ostream& to_;
  std::string kept_;
};

// Words of the program's own for the terminal: a colour, a return to the line's begin. Nothing on a
// stream without the guard.
void PassOn(std::ostream& to, std::string_view control);

}  // namespace linkwright
