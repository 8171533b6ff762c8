// SPDX-License-Identifier: MIT
#include "cli/shown_buffer.h"

#include "io/shown.h"

namespace linkwright {
namespace {

// All but the bytes at the end that may begin a character whose rest is still to come.
size_t WholePart(const std::string& text) {
  constexpr size_t kLongest = 4;
  for (size_t back = 1; back < kLongest && back <= text.size(); ++back) {
    const auto byte = static_cast<unsigned char>(text[text.size() - back]);
    if ((byte & 0xC0U) == 0x80U) continue;
    const size_t wants = byte >= 0xF0 ? 4 : byte >= 0xE0 ? 3 : byte >= 0xC0 ? 2 : 1;
    return wants > back ? text.size() - back : text.size();
  }
  return text.size();
}

}  // namespace

void ShownBuffer::PassOn(std::string_view control) {
  sync();
  to_ << control << std::flush;
}

ShownBuffer::int_type ShownBuffer::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char byte = traits_type::to_char_type(c);
  return xsputn(&byte, 1) == 1 ? c : traits_type::eof();
}

std::streamsize ShownBuffer::xsputn(const char* bytes, std::streamsize count) {
  kept_.append(bytes, static_cast<size_t>(count));
  const size_t whole = WholePart(kept_);
  to_ << Shown(std::string_view(kept_).substr(0, whole), "\n\t");
  kept_.erase(0, whole);
  return to_ ? count : 0;
}

int ShownBuffer::sync() {
  to_ << Shown(kept_, "\n\t");
  kept_.clear();
  return to_.flush() ? 0 : -1;
}

void PassOn(std::ostream& to, std::string_view control) {
  if (auto* guard = dynamic_cast<ShownBuffer*>(to.rdbuf())) guard->PassOn(control);
}

}  // namespace linkwright
