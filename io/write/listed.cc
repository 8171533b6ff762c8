// SPDX-License-Identifier: MIT
#include "io/write/listed.h"

#include <fmt/format.h>

#include <cctype>

#include "io/write/wrap.h"

namespace linkwright {

std::string Listed(const std::vector<std::string>& parts) {
  std::string all;
  for (size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) all += i + 1 == parts.size() ? " and " : ", ";
    all += parts[i];
  }
  return all;
}

std::string InRow(const std::vector<std::string>& parts) {
  return fmt::format("{}", fmt::join(parts, "; "));
}

std::string Capital(std::string sentence) {
  if (!sentence.empty()) {
    sentence[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(sentence[0])));
  }
  return sentence;
}

bool IsTakenInAtOnce(const std::string& sentence) {
  constexpr size_t kAtOnce = 240;  // characters
  return TextWidth(sentence) <= kAtOnce;
}

std::string Sentence(const std::string& head, const std::vector<std::string>& parts,
                     const std::string& table) {
  std::vector<std::string> told = parts;
  while (true) {
    std::string sentence = head + InRow(told);
    const size_t left = parts.size() - told.size();
    if (left > 0) sentence += fmt::format("; {} more in the table {}", left, table);
    sentence += ".";
    if (IsTakenInAtOnce(sentence) || told.size() <= 1) return Capital(std::move(sentence));
    told.pop_back();
  }
}

}  // namespace linkwright
