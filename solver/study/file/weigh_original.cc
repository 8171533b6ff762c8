// SPDX-License-Identifier: MIT
#include "solver/study/file/weigh_original.h"

#include <algorithm>
#include <cmath>

namespace linkwright {
namespace {

using R = LeafReadingKind;
using P = LeafPlaceKind;
using Eigen::Index;
using Eigen::VectorXd;

// A number that follows from the places; nothing where they cannot be.
using OfPlaces = std::function<double(const LeafPlaces&, const LeafStand&)>;

// One function or several of the unknowns of a survey.
ReadingModel ModelOf(const LeafSurvey& survey, std::vector<OfPlaces> functions) {
  return [&survey,
          functions = std::move(functions)](const VectorXd& unknowns) -> std::optional<VectorXd> {
    const LeafPlaces places = PlacesAt(survey, unknowns);
    const std::optional<LeafStand> stand = StandOf(places);
    if (!stand) return std::nullopt;
    VectorXd values(static_cast<Index>(functions.size()));
    for (size_t i = 0; i < functions.size(); ++i) {
      values[static_cast<Index>(i)] = functions[i](places, *stand);
    }
    if (!values.allFinite()) return std::nullopt;
    return values;
  };
}

OfPlaces Modelled(R kind, std::optional<int> axle) {
  return [=](const LeafPlaces& places, const LeafStand& stand) {
    return ModelledReading(kind, axle, places, stand);
  };
}

// Those readings of a survey that are kept, weighed.
struct Weighing {
  std::vector<size_t> kept;  // into the survey's readings
  Adjustment fit;
};

Weighing Weigh(const LeafSurvey& survey, std::vector<size_t> kept, const VectorXd& start) {
  std::vector<OfPlaces> functions;
  VectorXd read(static_cast<Index>(kept.size())), sigmas = read;
  for (size_t i = 0; i < kept.size(); ++i) {
    const LeafReading& reading = survey.readings[kept[i]];
    functions.push_back(Modelled(reading.kind, reading.axle));
    read[static_cast<Index>(i)] = reading.value;
    sigmas[static_cast<Index>(i)] = reading.sigma;
  }
  Adjustment fit = Adjust(ModelOf(survey, std::move(functions)), read, sigmas, start);
  return {std::move(kept), std::move(fit)};
}

VectorXd StartOf(const LeafSurvey& survey) {
  LeafPlaces places = survey.start;
  VectorXd start(static_cast<Index>(survey.unknowns.size()));
  for (size_t i = 0; i < survey.unknowns.size(); ++i) {
    start[static_cast<Index>(i)] = survey.unknowns[i](places);
  }
  return start;
}

// All readings weighed; where one is so far off that the steps do not end, a dropped decimal, the
// farthest from the start is left out: what a spring cannot do without fits it exactly.
Weighing WeighAll(const LeafSurvey& survey, std::vector<size_t>& left_out) {
  std::vector<size_t> kept(survey.readings.size());
  for (size_t i = 0; i < kept.size(); ++i) kept[i] = i;
  const std::optional<LeafStand> stand = StandOf(survey.start);
  const auto off = [&](size_t i) {
    const LeafReading& r = survey.readings[i];
    const double read = ModelledReading(r.kind, r.axle, survey.start, stand.value());
    return std::abs(r.value - read) / r.sigma;
  };
  Weighing weighing = Weigh(survey, kept, StartOf(survey));
  while (weighing.fit.status == AdjustStatus::kNotSettled) {
    const auto worst = std::max_element(kept.begin(), kept.end(),
                                        [&](size_t a, size_t b) { return off(a) < off(b); });
    if (!(off(*worst) > kDisagrees)) break;
    left_out.push_back(*worst);
    kept.erase(worst);
    weighing = Weigh(survey, kept, StartOf(survey));
  }
  return weighing;
}

// How far a reading is off by what the others say, to first order [m] or [rad].
double SlipOf(const LeafSurvey& survey, const Weighing& weighing, size_t i) {
  const LeafReading& reading = survey.readings[weighing.kept[i]];
  const double checked = weighing.fit.checked[static_cast<Index>(i)];
  return (reading.value - weighing.fit.adjusted[static_cast<Index>(i)]) / checked;
}

// Those that may have made the worst disagreement, places in `kept`, the worst among them; empty
// where nothing disagrees. Another is one where without it the worst would agree too, and a slip of
// it is not twenty times less likely: the odds are exp((w1^2 - w2^2)/2). (119e)
std::vector<size_t> Suspects(const Weighing& weighing, double limit) {
  const double odds = 2.0 * std::log(20.0);
  constexpr double kRounding = 1e-6;  // of slopes, where two are checked by each other alone
  const double past = limit * limit;
  const Adjustment& fit = weighing.fit;
  const VectorXd squares = fit.normalised.cwiseAbs2();
  Index worst = 0;
  std::vector<size_t> suspects;
  if (!(squares.maxCoeff(&worst) > past)) return suspects;
  for (Index i = 0; i < squares.size(); ++i) {
    if (i != worst && (squares[i] == 0.0 || squares[worst] - squares[i] >= odds)) continue;
    const double together = fit.jacobian.row(i).dot(fit.gain.col(worst));
    const double alike = -together / std::sqrt(fit.checked[i] * fit.checked[worst]);
    const double left = fit.normalised[worst] - alike * fit.normalised[i];
    if (i == worst || left * left <= past * std::max(1.0 - alike * alike, kRounding)) {
      suspects.push_back(static_cast<size_t>(i));
    }
  }
  return suspects;
}

// A measurement not taken so far, and its slopes over its sigma.
struct Candidate {
  R kind;
  std::optional<int> axle;
  Eigen::RowVectorXd slopes;
};

bool IsRead(const LeafSurvey& survey, R kind, std::optional<int> axle) {
  return std::any_of(survey.readings.begin(), survey.readings.end(),
                     [&](const LeafReading& r) { return r.kind == kind && r.axle == axle; });
}

std::vector<Candidate> CandidatesOf(const LeafSurvey& survey, const LeafTolerances& tolerances,
                                    const VectorXd& at) {
  std::vector<Candidate> candidates;
  const auto add = [&](R kind, std::optional<int> axle, const OfPlaces& function, double sigma) {
    if (IsRead(survey, kind, axle)) return;
    const auto slopes = SlopesOf(ModelOf(survey, {function}), at);
    if (slopes) candidates.push_back({kind, axle, slopes->row(0) / sigma});
  };
  const auto read = [&](R kind, std::optional<int> axle) {
    add(kind, axle, Modelled(kind, axle), SigmaOf(kind, tolerances));
  };
  for (int axle : {kFront, kRear}) {
    const auto a = static_cast<size_t>(axle);
    if (!survey.start.axles[a].spring) continue;
    for (const R kind :
         {R::kEyesNow, R::kLeanNow, R::kBoltsApart, R::kWheelNowX, R::kWheelNowZ, R::kEyesNew}) {
      read(kind, axle);
    }
    // An opening as an unknown of its own comes to this with the assumption that goes with it.
    const auto wheel = [=](const LeafPlaces& places, const LeafStand& stand) {
      return WheelX(places, stand, axle, true);
    };
    if (!survey.opening_x[a]) {
      add(R::kOpeningX, axle, wheel,
          std::hypot(SigmaOf(R::kOpeningX, tolerances), SigmaOf(R::kWasCentred, tolerances)));
    } else {
      read(R::kOpeningX, axle);
    }
    if (survey.opening_z[a]) {
      read(R::kInOpeningX, axle);
      read(R::kInOpeningZ, axle);
    }
  }
  if (survey.both) {
    read(R::kWheelbaseNow, std::nullopt);
    read(R::kWheelbaseDesign, std::nullopt);
  }
  return candidates;
}

// Redundancy number of a reading that nothing checks, with one more measurement; (119f).
//   row   of that reading in the jacobian
double CheckedWith(const Adjustment& fit, Index row, const Eigen::RowVectorXd& more) {
  const VectorXd cofactor = fit.gain * (fit.gain.transpose() * more.transpose());
  const double with = fit.jacobian.row(row).dot(cofactor);
  return std::max(fit.checked[row], 0.0) + with * with / (1.0 + more.dot(cofactor));
}

std::optional<NextReading> NextFor(const Adjustment& fit, Index row,
                                   const std::vector<Candidate>& candidates) {
  constexpr double kWorthIt = 0.05;  // below it a slip of 13 sigma would pass
  std::optional<NextReading> best;
  for (const Candidate& candidate : candidates) {
    const double checks = CheckedWith(fit, row, candidate.slopes);
    if (checks > (best ? best->checks : kWorthIt)) best = {candidate.kind, candidate.axle, checks};
  }
  return best;
}

// A slip of delta sigma is found with a chance of 80 % at a limit of 3: Phi(delta - 3) = 0.8.
constexpr double kFound = kDisagrees + 0.8416212335729143;

std::vector<WeighedReading> ReadingsOf(const LeafSurvey& survey, const Weighing& weighing,
                                       const LeafTolerances& tolerances) {
  const Adjustment& fit = weighing.fit;
  const std::vector<Candidate> candidates = CandidatesOf(survey, tolerances, fit.unknowns);
  std::vector<WeighedReading> readings;
  for (const LeafReading& reading : survey.readings) readings.push_back({.reading = reading});
  for (size_t i = 0; i < weighing.kept.size(); ++i) {
    const auto row = static_cast<Index>(i);
    WeighedReading& to = readings[weighing.kept[i]];
    to.adjusted = fit.adjusted[row];
    to.checked = std::max(fit.checked[row], 0.0);
    to.normalised = fit.normalised[row];
    if (to.checked >= kChecked) {
      to.from_rest = to.reading.value - SlipOf(survey, weighing, i);
      to.least_slip = kFound * to.reading.sigma / std::sqrt(to.checked);
    } else {
      to.next = NextFor(fit, row, candidates);
    }
  }
  return readings;
}

// What a reading that was left out should have been, by those kept.
void JudgeLeftOut(const LeafSurvey& survey, const Weighing& weighing, WeighedReading& to) {
  const Adjustment& fit = weighing.fit;
  const ReadingModel model = ModelOf(survey, {Modelled(to.reading.kind, to.reading.axle)});
  const auto value = model(fit.unknowns);
  const auto slopes = SlopesOf(model, fit.unknowns);
  to.left_out = true;
  if (!value || !slopes) return;
  const double sigma = to.reading.sigma;
  const double rest = (*slopes * fit.gain).norm() / sigma;
  to.adjusted = (*value)[0];
  to.from_rest = to.adjusted;
  to.checked = 1.0 / (1.0 + rest * rest);
  to.normalised = (to.reading.value - to.adjusted) / (sigma * std::hypot(1.0, rest));
  to.least_slip = kFound * sigma * std::hypot(1.0, rest);
}

struct PlaceFunction {
  P kind;
  std::optional<int> axle;
  OfPlaces function;
};

std::vector<PlaceFunction> PlacesToTell(const LeafSurvey& survey) {
  std::vector<PlaceFunction> all;
  if (survey.both) {
    for (const bool fresh : {true, false}) {
      all.push_back({fresh ? P::kDesignWheelbase : P::kWheelbaseNow, std::nullopt,
                     [=](const LeafPlaces& places, const LeafStand& stand) {
                       return HubToHub(places, stand, fresh);
                     }});
    }
  }
  for (int axle : {kFront, kRear}) {
    const auto a = static_cast<size_t>(axle);
    const bool sprung = survey.start.axles[a].spring.has_value();
    if (!sprung && !survey.both) continue;
    all.push_back({P::kWheelX, axle, [=](const LeafPlaces& places, const LeafStand& stand) {
                     return WheelX(places, stand, axle, true);
                   }});
    if (!sprung) continue;
    const auto of_poses = [&](P kind, auto of) {
      all.push_back({kind, axle, [=](const LeafPlaces& places, const LeafStand& stand) {
                       return of(*stand.fresh[a], *stand.now[a], places.axles[a].p_DO);
                     }});
    };
    using Pose = const LeafPose&;
    using Point = const Eigen::Vector2d&;
    of_poses(P::kWheelZ, [](Pose fresh, Pose, Point) { return fresh.p_DW.y(); });
    of_poses(P::kMovedX, [](Pose fresh, Pose now, Point) { return now.p_DW.x() - fresh.p_DW.x(); });
    of_poses(P::kMovedZ, [](Pose fresh, Pose now, Point) { return now.p_DW.y() - fresh.p_DW.y(); });
    if (!survey.opening_z[a]) continue;
    of_poses(P::kInBodyX, [](Pose fresh, Pose, Point p) { return fresh.p_DW.x() - p.x(); });
    of_poses(P::kInBodyZ, [](Pose fresh, Pose, Point p) { return fresh.p_DW.y() - p.y(); });
  }
  return all;
}

// An unchecked reading with less than this part in the square of a sigma is not worth naming.
constexpr double kSmallShare = 0.05;

std::vector<WeighedPlace> PlacesOf(const LeafSurvey& survey, const Weighing& weighing,
                                   double widened) {
  const Adjustment& fit = weighing.fit;
  std::vector<WeighedPlace> places;
  for (const PlaceFunction& place : PlacesToTell(survey)) {
    const ReadingModel model = ModelOf(survey, {place.function});
    const auto value = model(fit.unknowns);
    const auto slopes = SlopesOf(model, fit.unknowns);
    if (!value || !slopes) continue;
    const Eigen::RowVectorXd parts = slopes->row(0) * fit.gain;  // of each reading, by its sigma
    WeighedPlace& told = places.emplace_back(
        WeighedPlace{place.kind, place.axle, (*value)[0], widened * parts.norm(), {}, 0.0});
    const double whole = parts.squaredNorm();
    for (Index i = 0; i < parts.size() && whole > 0.0; ++i) {
      const double share = parts[i] * parts[i] / whole;
      if (fit.checked[i] >= kChecked || share <= std::max(told.share, kSmallShare)) continue;
      told.rests_on = weighing.kept[static_cast<size_t>(i)];
      told.share = share;
    }
  }
  return places;
}

}  // namespace

WeighedOriginal WeighOriginal(const Vehicle& vehicle, double limit) {
  const LeafSurvey survey = SurveyOf(vehicle);
  WeighedOriginal weighed;
  Weighing weighing = WeighAll(survey, weighed.slips);
  std::vector<size_t> suspects;
  while (weighing.fit.status == AdjustStatus::kConverged) {
    suspects = Suspects(weighing, limit);
    if (suspects.size() != 1) break;
    std::vector<size_t> kept = weighing.kept;
    const size_t slip = kept[suspects[0]];
    kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(suspects[0]));
    Weighing without = Weigh(survey, std::move(kept), weighing.fit.unknowns);
    weighing = std::move(without);
    weighed.slips.push_back(slip);
  }
  weighed.status = weighing.fit.status;
  if (weighed.status != AdjustStatus::kConverged) return {.status = weighed.status};
  weighed.spare = static_cast<int>(weighing.kept.size()) - static_cast<int>(survey.unknowns.size());
  if (!suspects.empty()) {
    std::sort(suspects.begin(), suspects.end(), [&](size_t a, size_t b) {
      return weighing.fit.checked[static_cast<Index>(a)] >
             weighing.fit.checked[static_cast<Index>(b)];
    });
    weighed.doubt.emplace();
    for (size_t i : suspects) weighed.doubt->which.push_back(weighing.kept[i]);
    weighed.widened = std::max(1.0, std::sqrt(weighing.fit.misfit / weighed.spare));
  }
  weighed.readings = ReadingsOf(survey, weighing, vehicle.leaf_original->tolerances);
  for (size_t slip : weighed.slips) JudgeLeftOut(survey, weighing, weighed.readings[slip]);
  weighed.places = PlacesOf(survey, weighing, weighed.widened);
  return weighed;
}

const WeighedPlace* FindPlace(const WeighedOriginal& weighed, LeafPlaceKind kind,
                              std::optional<int> axle) {
  for (const WeighedPlace& place : weighed.places) {
    if (place.kind == kind && place.axle == axle) return &place;
  }
  return nullptr;
}

}  // namespace linkwright
