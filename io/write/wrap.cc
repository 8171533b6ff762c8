// SPDX-License-Identifier: MIT
#include "io/write/wrap.h"

#include <algorithm>

#include "io/shown.h"

namespace linkwright {

size_t TextWidth(std::string_view text) {
  return static_cast<size_t>(std::count_if(text.begin(), text.end(), StartsCharacter));
}

size_t WidestLine(std::string_view text) {
  size_t widest = 0;
  for (size_t at = 0; at < text.size();) {
    const size_t end = std::min(text.find('\n', at), text.size());
    widest = std::max(widest, TextWidth(text.substr(at, end - at)));
    at = end + 1;
  }
  return widest;
}

std::string Wrap(std::string_view sentence, size_t width, std::string_view first,
                 std::string_view rest) {
  std::string text, line(first);
  bool bare = true;  // nothing but what stands before it
  for (size_t at = 0; at < sentence.size();) {
    const size_t end = std::min(sentence.find_first_of(" \n", at), sentence.size());
    const std::string_view word = sentence.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (!bare && TextWidth(line) + 1 + TextWidth(word) > width) {
      text += line + "\n";
      line = rest, bare = true;
    }
    if (!bare) line += ' ';
    line += word, bare = false;
  }
  return text + line + "\n";
}

}  // namespace linkwright
