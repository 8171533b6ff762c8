// SPDX-License-Identifier: MIT
#include "solver/numeric/assignment.h"

#include <limits>

namespace linkwright {
namespace {

constexpr size_t kNone = std::numeric_limits<size_t>::max();

// Rows that have a column keep it as cheap as any other by these prices: what an entry costs, less
// both its prices, is never below 0, and 0 where it is chosen.
struct Assignment {
  std::vector<double> row_price, column_price;
  std::vector<size_t> row_of;  // of a column; kNone: free
};

// The cheapest way from a row without a column, over columns already taken, to a free one; each
// row on it moves on to the next column.
void AddRow(const Eigen::MatrixXd& worth, size_t first, Assignment& to) {
  const auto columns = to.row_of.size();
  std::vector<double> distance(columns, std::numeric_limits<double>::infinity());
  std::vector<size_t> came_from(columns, kNone);  // the column before it on the way
  std::vector<bool> reached(columns, false);
  size_t row = first, column = kNone;
  double here = 0.0;  // length of the way to `row`
  for (;;) {
    size_t nearest = kNone;
    for (size_t j = 0; j < columns; ++j) {
      if (reached[j]) continue;
      const double cost = -worth(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(j));
      const double way = here + cost - to.row_price[row] - to.column_price[j];
      if (way < distance[j]) distance[j] = way, came_from[j] = column;
      if (nearest == kNone || distance[j] < distance[nearest]) nearest = j;
    }
    column = nearest;
    here = distance[column];
    if (to.row_of[column] == kNone) break;
    reached[column] = true;
    row = to.row_of[column];
  }
  to.row_price[first] += here;
  for (size_t j = 0; j < columns; ++j) {
    if (!reached[j]) continue;
    to.row_price[to.row_of[j]] += here - distance[j];
    to.column_price[j] -= here - distance[j];
  }
  for (; came_from[column] != kNone; column = came_from[column]) {
    to.row_of[column] = to.row_of[came_from[column]];
  }
  to.row_of[column] = first;
}

}  // namespace

std::vector<size_t> AssignMost(const Eigen::MatrixXd& worth) {
  const auto rows = static_cast<size_t>(worth.rows()), columns = static_cast<size_t>(worth.cols());
  Assignment made{std::vector<double>(rows, 0.0), std::vector<double>(columns, 0.0),
                  std::vector<size_t>(columns, kNone)};
  for (size_t row = 0; row < rows; ++row) AddRow(worth, row, made);
  std::vector<size_t> column_of(rows, kNone);
  for (size_t j = 0; j < columns; ++j) {
    if (made.row_of[j] != kNone) column_of[made.row_of[j]] = j;
  }
  return column_of;
}

}  // namespace linkwright
