// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "io/write/amount.h"
#include "io/write/original_tables.h"

namespace linkwright {
namespace {

// "25.3 mm", without its sign.
std::string Length(double length, UnitSystem units) {
  return ShowAmount(std::abs(length), Dimension::kLength, units);
}

constexpr double kNothing = 5e-5;  // [m] shows as nothing on a tape

// "25.3 mm back", "0.0 mm forward".
std::string Along(double x, UnitSystem units) {
  return Length(x, units) + (x < 0.0 ? " back" : " forward");
}

void TellMove(const Axle& axle, const LeafAxle& leaf, const LeafAims& aims, UnitSystem units,
              std::vector<Finding>& to) {
  if (leaf.moved.norm() < kNothing) {
    to.push_back({false, fmt::format("the old {} axle sits where it did", axle.name)});
    return;
  }
  to.push_back(
      {std::abs(leaf.moved.x()) > aims.off_centre,
       fmt::format("the old {} axle has moved {} and {} {} against the frame since it was new: "
                   "its opening was drawn about where it stood then",
                   axle.name, Along(leaf.moved.x(), units), Length(leaf.moved.y(), units),
                   leaf.moved.y() < 0.0 ? "down" : "up")});
  if (!leaf.link_moved) return;
  to.push_back({false, fmt::format("the {} axle by the 3/4 link rule, which leaves the tilt of the "
                                   "leaf out: {}",
                                   axle.name, Along(*leaf.link_moved, units))});
}

void TellReadings(const Axle& axle, const LeafSpring& spring, const LeafAxle& leaf,
                  const LeafAims& aims, UnitSystem units, std::vector<Finding>& to) {
  if (spring.camber_now > spring.camber_new) {
    to.push_back({true, fmt::format("the {} spring has more camber now than when new: a leaf sags, "
                                    "so are the two exchanged, or has it been re-arched?",
                                    axle.name)});
  }
  if (spring.eyes_now) {
    const double differ = leaf.now.eyes_apart - *spring.eyes_now;
    to.push_back(
        {std::abs(differ) > aims.eyes_differ,
         fmt::format("the {} spring from eye to eye now: {} worked out, {} measured, {} apart{}",
                     axle.name, Length(leaf.now.eyes_apart, units), Length(*spring.eyes_now, units),
                     Length(differ, units),
                     std::abs(differ) > aims.eyes_differ ? "; take arcs and camber again" : "")});
  }
  for (const LeafPose* pose : {&leaf.fresh, &leaf.now}) {
    if (pose->swing >= aims.swing_least) continue;
    to.push_back(
        {true, fmt::format("the {} shackle lies only {} off the line of the eyes {}: a small error "
                           "of camber swings it far, so trust its axle's place less",
                           axle.name, ShowAmount(pose->swing, Dimension::kAngle, units),
                           pose == &leaf.now ? "now" : "when new")});
  }
}

// What a doubt about the camber when new does to the answer.
void TellDoubt(const Axle& axle, const LeafAxle& leaf, UnitSystem units, std::vector<Finding>& to) {
  if (leaf.guesses.size() < 2) return;
  const CamberGuess& low = leaf.guesses.front();
  const CamberGuess& high = leaf.guesses.back();
  to.push_back({false, fmt::format("the {} camber when new is the reading known worst: between {} "
                                   "and {} of it the axle moved {} to {}",
                                   axle.name, ShowAmount(low.camber_new, Dimension::kLength, units),
                                   ShowAmount(high.camber_new, Dimension::kLength, units),
                                   Along(low.moved.x(), units), Along(high.moved.x(), units))});
}

void TellOpening(const Axle& axle, const LeafSpring& spring, const LeafAxle& leaf,
                 const LeafAims& aims, UnitSystem units, std::vector<Finding>& to) {
  if (!leaf.off_opening) return;
  const double off = leaf.off_opening->x();
  const bool far = std::abs(off) > aims.off_centre;
  std::string text = fmt::format(
      "the {} wheel when new stood {} {} the centre of its opening as measured on the old body",
      axle.name, Length(off, units), off < 0.0 ? "behind" : "ahead of");
  if (std::abs(off) < kNothing) {
    text = fmt::format("the {} wheel when new stood centred in its opening as measured", axle.name);
  }
  if (far && leaf.camber_centred) {
    text += fmt::format("; a camber of {} when new, not {}, would have centred it",
                        ShowAmount(*leaf.camber_centred, Dimension::kLength, units),
                        ShowAmount(spring.camber_new, Dimension::kLength, units));
  } else if (far) {
    text += "; no camber when new would have centred it, so take the opening and the eyes again";
  }
  to.push_back({far, text});
}

void TellWheelbase(const Vehicle& vehicle, const OriginalReport& report, UnitSystem units,
                   std::vector<Finding>& to) {
  const LeafAims& aims = vehicle.leaf_original->aims;
  const std::optional<double> design = DesignWheelbase(report);
  if (design) {
    to.push_back({false, fmt::format("the design wheelbase is {}; the old axles have made it {} "
                                     "{} since",
                                     Length(*design, units), Length(report.change, units),
                                     report.change < 0.0 ? "shorter" : "longer")});
  } else {
    to.push_back({false, fmt::format("the old axle has made the wheelbase {} {}; give "
                                     "wheelbase_now or the other spring for the design wheelbase",
                                     Length(report.change, units),
                                     report.change < 0.0 ? "shorter" : "longer")});
  }
  if (report.differs) {
    const bool far = std::abs(*report.differs) > aims.wheelbase_differ;
    to.push_back({far, fmt::format("the wheelbase now: {} worked out, {} measured, {} apart{}",
                                   Length(*report.now.centers, units),
                                   Length(*vehicle.leaf_original->wheelbase_now, units),
                                   Length(*report.differs, units),
                                   far ? "; take eyes, pivots and arcs again" : "")});
  }
  if (!report.spacing || !design) return;
  const double over = *report.spacing - report.fresh.along.value_or(*design);
  to.push_back({std::abs(over) > aims.spacing,
                fmt::format("the file's openings are {} apart, {} {} than the old axles were as "
                            "designed",
                            Length(*report.spacing, units), Length(over, units),
                            over < 0.0 ? "less" : "more")});
}

void TellPlaced(const Vehicle& vehicle, const OriginalReport& report, UnitSystem units,
                std::vector<Finding>& to) {
  const LeafOriginal& original = vehicle.leaf_original.value();
  if (!original.p_CD) {
    to.push_back({false,
                  "without leaf_original.datum only distances are held against the file's "
                  "openings, not places"});
    return;
  }
  for (const LeafAxle& leaf : report.axles) {
    const Axle& axle = vehicle.axles[leaf.axle];
    if (!axle.opening) continue;
    const double ahead = axle.opening->x - original.p_CD->x() - leaf.fresh.p_DW.x();
    const bool far = std::abs(ahead) > original.aims.off_centre;
    to.push_back(
        {far, fmt::format("the {} opening in this file is {} {} where the old axle was "
                          "designed to be",
                          axle.name, Length(ahead, units), ahead < 0.0 ? "behind" : "ahead of")});
  }
}

}  // namespace

std::vector<Finding> OriginalFindings(const Vehicle& vehicle, const OriginalReport& report,
                                      UnitSystem units) {
  std::vector<Finding> findings;
  const LeafOriginal& original = vehicle.leaf_original.value();
  for (const LeafAxle& leaf : report.axles) {
    const Axle& axle = vehicle.axles[leaf.axle];
    const LeafSpring& spring = original.axles[leaf.axle].value();
    TellMove(axle, leaf, original.aims, units, findings);
    TellReadings(axle, spring, leaf, original.aims, units, findings);
    TellOpening(axle, spring, leaf, original.aims, units, findings);
    TellDoubt(axle, leaf, units, findings);
  }
  TellWheelbase(vehicle, report, units, findings);
  TellPlaced(vehicle, report, units, findings);
  if (report.axles.size() == 1) {
    findings.push_back({false, fmt::format("assumed: the {} axle, whose spring is not given, has "
                                           "not moved",
                                           vehicle.axles[1 - report.axles[0].axle].name)});
  }
  findings.push_back({false,
                      "assumed: the leaf keeps its length and bends to arcs of one circle "
                      "outside its clamp; bolts without play; the wheel stood centred in "
                      "its opening when new; both cambers read under the same load"});
  return findings;
}

}  // namespace linkwright
