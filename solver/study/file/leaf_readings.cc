// SPDX-License-Identifier: MIT
#include "solver/study/file/leaf_readings.h"

#include <array>

#include "solver/study/file/original.h"

namespace linkwright {
namespace {

using R = LeafReadingKind;
using Tolerance = double LeafTolerances::*;
using T = LeafTolerances;

struct ReadingTrait {
  R kind;
  Tolerance sigma;
  const char* key;   // under the axle's spring, or under leaf_original
  const char* name;  // after the axle's, where it is of one
};

// In the order of LeafReadingKind.
constexpr std::array kTraits{
    ReadingTrait{R::kFixedEyeX, &T::plumb, "fixed_eye", "fixed eye x"},
    ReadingTrait{R::kFixedEyeZ, &T::plumb, "fixed_eye", "fixed eye z"},
    ReadingTrait{R::kPivotX, &T::plumb, "shackle_pivot", "shackle pivot x"},
    ReadingTrait{R::kPivotZ, &T::plumb, "shackle_pivot", "shackle pivot z"},
    ReadingTrait{R::kShackle, &T::rule, "shackle_length", "shackle length"},
    ReadingTrait{R::kArcFixed, &T::rule, "arc_fixed", "arc to fixed eye"},
    ReadingTrait{R::kArcShackled, &T::rule, "arc_shackled", "arc to shackled eye"},
    ReadingTrait{R::kClamped, &T::rule, "clamped", "clamped length"},
    ReadingTrait{R::kEyeUp, &T::rule, "eye_up", "eye over leaf"},
    ReadingTrait{R::kToWheel, &T::rule, "leaf_to_wheel", "leaf to wheel"},
    ReadingTrait{R::kCamberNew, &T::camber_new, "camber_new", "camber when new"},
    ReadingTrait{R::kCamberNow, &T::camber, "camber_now", "camber now"},
    ReadingTrait{R::kEyesNow, &T::rule, "eyes_now", "eye to eye now"},
    ReadingTrait{R::kEyesNew, &T::maker, "eyes_new", "eye to eye when new"},
    ReadingTrait{R::kLeanNow, &T::angle, "shackle_lean_now", "shackle lean now"},
    ReadingTrait{R::kBoltsApart, &T::rule, "bolts_apart", "bolt to bolt"},
    ReadingTrait{R::kWheelNowX, &T::plumb, "wheel_now", "wheel x now"},
    ReadingTrait{R::kWheelNowZ, &T::plumb, "wheel_now", "wheel z now"},
    ReadingTrait{R::kOpeningX, &T::plumb, "opening", "opening x"},
    ReadingTrait{R::kOpeningZ, &T::plumb, "opening", "opening z"},
    ReadingTrait{R::kInOpeningX, &T::plumb, "wheel_in_opening", "wheel ahead in its opening now"},
    ReadingTrait{R::kInOpeningZ, &T::plumb, "wheel_in_opening", "wheel up in its opening now"},
    ReadingTrait{R::kWheelbaseNow, &T::tape, "wheelbase_now", "wheelbase now"},
    ReadingTrait{R::kWheelbaseDesign, &T::maker, "wheelbase_design", "maker's wheelbase"},
    ReadingTrait{R::kOpeningsApart, &T::tape, "openings", "distance between the file's openings"},
    ReadingTrait{R::kWasCentred, &T::centred, "", "wheel centred in its opening"},
    ReadingTrait{R::kUnmoved, &T::unmoved, "", "axle unmoved since"},
};

constexpr bool InOrder() {
  for (size_t i = 0; i < kTraits.size(); ++i) {
    if (kTraits[i].kind != static_cast<R>(i)) return false;
  }
  return kTraits.size() == static_cast<size_t>(R::kUnmoved) + 1;
}
static_assert(InOrder());

const ReadingTrait& Trait(R kind) { return kTraits[static_cast<size_t>(kind)]; }

// Gathers the equations of one vehicle.
struct Surveyor {
  const LeafOriginal& original;
  LeafSurvey survey = {};

  void Read(R kind, std::optional<int> axle, double value) {
    survey.readings.push_back({kind, axle, value, SigmaOf(kind, original.tolerances)});
  }
  void Read(R kind, std::optional<int> axle, const std::optional<double>& value) {
    if (value) Read(kind, axle, *value);
  }
  void Read(R x, R z, int axle, const std::optional<Eigen::Vector2d>& p) {
    if (!p) return;
    Read(x, axle, p->x());
    Read(z, axle, p->y());
  }
  void Seek(std::function<double&(LeafPlaces&)> unknown) {
    survey.unknowns.push_back(std::move(unknown));
  }
  void SeekOf(int axle, double LeafPlaces::Axle::*member) {
    Seek([=](LeafPlaces& places) -> double& {
      return places.axles[static_cast<size_t>(axle)].*member;
    });
  }

  // A part or place of a spring that the leaf cannot do without, each an unknown of its own.
  void Measure(R kind, int axle, double LeafSpring::*member) {
    const auto a = static_cast<size_t>(axle);
    Read(kind, axle, (*survey.start.axles[a].spring).*member);
    Seek([=](LeafPlaces& places) -> double& { return (*places.axles[a].spring).*member; });
  }
  void Plumb(R x, R z, int axle, Eigen::Vector2d LeafSpring::*member) {
    const auto a = static_cast<size_t>(axle);
    Read(x, z, axle, (*survey.start.axles[a].spring).*member);
    for (Eigen::Index i : {0, 1}) {
      Seek([=](LeafPlaces& places) -> double& { return ((*places.axles[a].spring).*member)[i]; });
    }
  }

  void Spring(int axle, const LeafAxle& leaf);
  void Opening(int axle, bool apart, double x_new);
};

void Surveyor::Spring(int axle, const LeafAxle& leaf) {
  const LeafSpring& spring = *original.axles[static_cast<size_t>(axle)];
  LeafPlaces::Axle& place = survey.start.axles[static_cast<size_t>(axle)];
  place.spring = spring;
  place.curvature_new = leaf.fresh.curvature;
  place.curvature_now = leaf.now.curvature;
  Plumb(R::kFixedEyeX, R::kFixedEyeZ, axle, &LeafSpring::p_DF);
  Plumb(R::kPivotX, R::kPivotZ, axle, &LeafSpring::p_DS);
  Measure(R::kShackle, axle, &LeafSpring::shackle);
  Measure(R::kArcFixed, axle, &LeafSpring::arc_fixed);
  Measure(R::kArcShackled, axle, &LeafSpring::arc_shackled);
  Measure(R::kClamped, axle, &LeafSpring::clamped);
  Measure(R::kEyeUp, axle, &LeafSpring::eye_up);
  Measure(R::kToWheel, axle, &LeafSpring::to_wheel);
  SeekOf(axle, &LeafPlaces::Axle::curvature_new);
  SeekOf(axle, &LeafPlaces::Axle::curvature_now);
  Read(R::kCamberNew, axle, spring.camber_new);
  Read(R::kCamberNow, axle, spring.camber_now);
  Read(R::kEyesNow, axle, spring.eyes_now);
  Read(R::kEyesNew, axle, spring.eyes_new);
  Read(R::kLeanNow, axle, spring.lean_now);
  Read(R::kBoltsApart, axle, spring.bolts_apart);
  Read(R::kWheelNowX, R::kWheelNowZ, axle, spring.p_DW_now);
}

// The opening of an axle, where anything is read of it; with it goes what is assumed of it.
void Surveyor::Opening(int axle, bool apart, double x_new) {
  const auto a = static_cast<size_t>(axle);
  const std::optional<LeafSpring>& spring = original.axles[a];
  const bool own = spring && (spring->p_DB || spring->p_BW_now);
  if (!own && !apart) return;
  LeafPlaces::Axle& place = survey.start.axles[a];
  place.p_DO.x() = x_new;
  Seek([=](LeafPlaces& places) -> double& { return places.axles[a].p_DO.x(); });
  survey.opening_x[a] = true;
  Read(R::kWasCentred, axle, 0.0);
  if (!own) return;
  if (spring->p_DB) place.p_DO.y() = spring->p_DB->y();
  Seek([=](LeafPlaces& places) -> double& { return places.axles[a].p_DO.y(); });
  survey.opening_z[a] = true;
  Read(R::kOpeningX, R::kOpeningZ, axle, spring->p_DB);
  Read(R::kInOpeningX, R::kInOpeningZ, axle, spring->p_BW_now);
}

}  // namespace

bool IsAssumed(LeafReadingKind kind) { return kind == R::kWasCentred || kind == R::kUnmoved; }

std::string NameOf(const LeafReading& reading, const Vehicle& vehicle) {
  const std::string name = Trait(reading.kind).name;
  if (!reading.axle) return name;
  const std::string& axle = vehicle.axles[static_cast<size_t>(*reading.axle)].name;
  return axle + " " + name;
}

std::vector<std::string> PathOf(const LeafReading& reading, const Vehicle& vehicle) {
  if (reading.kind == R::kOpeningsApart) return {"openings"};
  std::vector<std::string> path{"leaf_original"};
  const std::string key = Trait(reading.kind).key;
  if (reading.kind == R::kUnmoved) return path;
  if (reading.axle) path.push_back(vehicle.axles[static_cast<size_t>(*reading.axle)].name);
  if (!key.empty()) path.push_back(key);
  return path;
}

double SigmaOf(LeafReadingKind kind, const LeafTolerances& tolerances) {
  return tolerances.*Trait(kind).sigma;
}

std::optional<LeafStand> StandOf(const LeafPlaces& places) {
  LeafStand stand;
  for (size_t a : {0, 1}) {
    const LeafPlaces::Axle& axle = places.axles[a];
    if (!axle.spring) continue;
    stand.fresh[a] = PoseLeaf(*axle.spring, axle.curvature_new);
    stand.now[a] = PoseLeaf(*axle.spring, axle.curvature_now);
    if (!stand.fresh[a] || !stand.now[a]) return std::nullopt;
  }
  return stand;
}

double WheelX(const LeafPlaces& places, const LeafStand& stand, int axle, bool fresh) {
  const auto a = static_cast<size_t>(axle);
  const std::optional<LeafPose>& pose = fresh ? stand.fresh[a] : stand.now[a];
  if (pose) return pose->p_DW.x();
  return fresh ? places.axles[a].x_new : places.axles[a].x_now;
}

double HubToHub(const LeafPlaces& places, const LeafStand& stand, bool fresh) {
  const auto& poses = fresh ? stand.fresh : stand.now;
  if (poses[0] && poses[1]) return (poses[0]->p_DW - poses[1]->p_DW).norm();
  return WheelX(places, stand, kFront, fresh) - WheelX(places, stand, kRear, fresh);
}

double ModelledReading(LeafReadingKind kind, std::optional<int> axle, const LeafPlaces& places,
                       const LeafStand& stand) {
  const auto a = static_cast<size_t>(axle.value_or(0));
  const LeafPlaces::Axle& place = places.axles[a];
  const auto spring = [&]() -> const LeafSpring& { return place.spring.value(); };
  const auto fresh = [&]() -> const LeafPose& { return stand.fresh[a].value(); };
  const auto now = [&]() -> const LeafPose& { return stand.now[a].value(); };
  switch (kind) {
    case R::kFixedEyeX:
      return spring().p_DF.x();
    case R::kFixedEyeZ:
      return spring().p_DF.y();
    case R::kPivotX:
      return spring().p_DS.x();
    case R::kPivotZ:
      return spring().p_DS.y();
    case R::kShackle:
      return spring().shackle;
    case R::kArcFixed:
      return spring().arc_fixed;
    case R::kArcShackled:
      return spring().arc_shackled;
    case R::kClamped:
      return spring().clamped;
    case R::kEyeUp:
      return spring().eye_up;
    case R::kToWheel:
      return spring().to_wheel;
    case R::kCamberNew:
      return fresh().camber;
    case R::kCamberNow:
      return now().camber;
    case R::kEyesNow:
      return now().eyes_apart;
    case R::kEyesNew:
      return fresh().eyes_apart;
    case R::kLeanNow:
      return now().shackle_lean;
    case R::kBoltsApart:
      return (spring().p_DS - spring().p_DF).norm();
    case R::kWheelNowX:
      return now().p_DW.x();
    case R::kWheelNowZ:
      return now().p_DW.y();
    case R::kOpeningX:
      return place.p_DO.x();
    case R::kOpeningZ:
      return place.p_DO.y();
    case R::kInOpeningX:
      return now().p_DW.x() - place.p_DO.x();
    case R::kInOpeningZ:
      return now().p_DW.y() - place.p_DO.y();
    case R::kWheelbaseNow:
      return HubToHub(places, stand, false);
    case R::kWheelbaseDesign:
      return HubToHub(places, stand, true);
    case R::kOpeningsApart:
      return places.axles[kFront].p_DO.x() - places.axles[kRear].p_DO.x();
    case R::kWasCentred:
      return WheelX(places, stand, *axle, true) - place.p_DO.x();
    case R::kUnmoved:
      return place.x_now - place.x_new;
  }
  return 0.0;
}

LeafSurvey SurveyOf(const Vehicle& vehicle) {
  const LeafOriginal& original = vehicle.leaf_original.value();
  constexpr double kAnyStep = 0.01;  // [m] of guesses that are not looked at
  const OriginalReport report = ReportOriginal(vehicle, kAnyStep);
  Surveyor surveyor{original};
  for (const LeafAxle& leaf : report.axles) surveyor.Spring(leaf.axle, leaf);
  LeafSurvey& survey = surveyor.survey;
  const bool linked = original.wheelbase_now || original.wheelbase_design || report.spacing;
  survey.both = report.axles.size() == 2 || linked;
  if (report.axles.size() == 1 && linked) {
    const LeafAxle& leaf = report.axles.front();
    const int other = 1 - leaf.axle;
    const double apart = report.from_measured.value_or(
        original.wheelbase_design.value_or(report.spacing.value_or(0.0)));
    LeafPlaces::Axle& place = survey.start.axles[static_cast<size_t>(other)];
    place.x_new = place.x_now = leaf.fresh.p_DW.x() + (other == kFront ? apart : -apart);
    surveyor.SeekOf(other, &LeafPlaces::Axle::x_new);
    surveyor.SeekOf(other, &LeafPlaces::Axle::x_now);
    surveyor.Read(R::kUnmoved, other, 0.0);
  }
  const std::optional<LeafStand> stand = StandOf(survey.start);
  for (int axle : {kFront, kRear}) {
    if (!original.axles[static_cast<size_t>(axle)] && !survey.both) continue;
    surveyor.Opening(axle, report.spacing.has_value(),
                     WheelX(survey.start, stand.value(), axle, true));
  }
  surveyor.Read(R::kWheelbaseNow, std::nullopt, original.wheelbase_now);
  surveyor.Read(R::kWheelbaseDesign, std::nullopt, original.wheelbase_design);
  surveyor.Read(R::kOpeningsApart, std::nullopt, report.spacing);
  return survey;
}

LeafPlaces PlacesAt(const LeafSurvey& survey, const Eigen::VectorXd& unknowns) {
  LeafPlaces places = survey.start;
  for (size_t i = 0; i < survey.unknowns.size(); ++i) {
    survey.unknowns[i](places) = unknowns[static_cast<Eigen::Index>(i)];
  }
  return places;
}

}  // namespace linkwright
