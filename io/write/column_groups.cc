// SPDX-License-Identifier: MIT
#include "io/write/column_groups.h"

#include <algorithm>

namespace linkwright {

std::vector<ColumnGroup> GroupsOf(const DataTable& table) {
  std::vector<ColumnGroup> groups;
  for (size_t i = 1; i < table.columns.size(); ++i) {
    const std::string& name = table.columns[i].group;
    auto group = std::find_if(groups.begin(), groups.end(),
                              [&](const ColumnGroup& each) { return each.name == name; });
    if (group == groups.end()) group = groups.insert(groups.end(), {name, {0}});
    group->columns.push_back(i);
  }
  return groups;
}

}  // namespace linkwright
