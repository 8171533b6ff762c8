// SPDX-License-Identifier: MIT
#include "solver/study/driveline/shaft_order.h"

#include <algorithm>

namespace linkwright {
namespace {

constexpr double kAlikeLength = 5e-5;  // [m] a tape shows nothing of it

// The lengths of one shaft under one load.
struct LengthsUnder {
  double least, most;
};

LengthsUnder LengthsOver(const ShaftReport& report) {
  LengthsUnder all{AtRest(report).length, AtRest(report).length};
  for (const ShaftPlace& place : AllPlaces(report)) {
    all.least = std::min(all.least, place.length);
    all.most = std::max(all.most, place.length);
  }
  return all;
}

void KeepLesser(std::optional<double>& least, const std::optional<double>& value) {
  if (value) least = std::min(least.value_or(*value), *value);
}

ShaftOrder OrderShaft(std::span<const ShaftsUnder> each, size_t shaft) {
  const ShaftReport& first = each.front().reports[shaft];
  ShaftOrder order{.shaft = first.shaft,
                   .front_length = first.front_length,
                   .rest = AtRest(first).length,
                   .least = AtRest(first).length,
                   .most = AtRest(first).length,
                   .least_under = {},
                   .most_under = {},
                   .greatest = std::vector<double>(AtRest(first).joints.size(), 0.0),
                   .to_bottom = {},
                   .to_part = {}};
  LengthsUnder high{0.0, 0.0}, low{1e9, 1e9};  // over the loads
  for (const ShaftsUnder& under : each) {
    const ShaftReport& report = under.reports[shaft];
    const LengthsUnder own = LengthsOver(report);
    if (own.least < low.least) order.least_under = under.load;
    if (own.most > high.most) order.most_under = under.load;
    low = {std::min(low.least, own.least), std::min(low.most, own.most)};
    high = {std::max(high.least, own.least), std::max(high.most, own.most)};
    for (const ShaftPlace& place : AllPlaces(report)) {
      for (size_t j = 0; j < order.greatest.size(); ++j) {
        order.greatest[j] = std::max(order.greatest[j], place.joints[j].angle);
      }
      KeepLesser(order.to_bottom, place.to_bottom);
      KeepLesser(order.to_part, place.to_part);
    }
  }
  order.least = low.least, order.most = high.most;
  if (high.least - low.least < kAlikeLength) order.least_under.clear();
  if (high.most - low.most < kAlikeLength) order.most_under.clear();
  return order;
}

}  // namespace

std::vector<ShaftOrder> OrderShafts(std::span<const ShaftsUnder> each) {
  std::vector<ShaftOrder> orders;
  for (size_t i = 0; i < each.front().reports.size(); ++i) orders.push_back(OrderShaft(each, i));
  return orders;
}

}  // namespace linkwright
