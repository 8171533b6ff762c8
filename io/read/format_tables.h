// SPDX-License-Identifier: MIT
// The tables of docs/vehicle-file.md, from the format table and the units.
#pragma once

#include <string>
#include <string_view>

namespace linkwright {

// A Markdown table of keys for each group, under its heading.
[[nodiscard]] std::string KeyTables();

// A Markdown table of what a plain number means and which units a value may carry.
[[nodiscard]] std::string UnitTable();

// A document with the text between "<!-- NAME: ... -->" and "<!-- end of NAME -->" replaced;
// unchanged where there is no such pair.
[[nodiscard]] std::string ReplaceSection(std::string_view document, std::string_view name,
                                         std::string_view text);

}  // namespace linkwright
