// SPDX-License-Identifier: MIT
// The format table: what locates an axle besides plain links.
#include "io/read/format_keys.h"
#include "io/read/keys_of.h"
#include "io/read/mirrored.h"
#include "io/read/values.h"

namespace linkwright {
namespace {

using D = Dimension;

Key PairFlag() {
  return Flag("pair",
              "true: the left one is given (y more than 0) and the right one is its mirror image.");
}

Key KeepOrFit(std::string_view meaning) {
  return Default(Word("length", {"keep", "fit"}, meaning), "keep");
}

// Of a leg or a link of its own: a length, or fit.
Key LengthOrFit(std::string_view name, std::string_view meaning) {
  Key length = Number(name, D::kLength, kPositive, meaning);
  length.words = {"fit"};
  return length;
}

BoundKey<RadiusArm> Radial(double RadiusArm::*to, std::string_view name, std::string_view meaning) {
  return Default(Number(to, name, D::kRate, kPositive, meaning), "10 kN/mm");
}

}  // namespace

Table<AArm> KeysOf(Of<AArm>) {
  return {
      "a_arm",
      "axles.A.a_arms.NAME",
      {PairFlag(),
       Required(Point(Into(&AArm::p_CP, 0), "first_eye", "One of its two eyes on the chassis.")),
       Point(Into(&AArm::p_CP, 1), "second_eye",
             "The other, where it is not the first one's mirror image."),
       Required(Point(&AArm::p_CQ, "axle", "Its point on the axle.")),
       KeepOrFit("In a variant that moves its points: keep, both its legs stay as long as they are "
                 "and the housing moves; fit, it is made to fit them, and later variants keep it."),
       LengthOrFit(
           "first_length",
           "In a variant: the leg from its first eye to its point is made or turned to this "
           "length, the holes stay and the housing moves; fit: to fit the two."),
       LengthOrFit("second_length", "The same of the leg from its second eye."),
       Default(Number(&AArm::rate, "rate", D::kRate, kPositive,
                      "Stiffness along each leg with its bushings in it; it matters only where "
                      "an axle is held more than four ways."),
               "5 kN/mm")},
      {},
      [](const Node& map, AArm& arm) {
        if (Find(map, "second_eye") == nullptr) arm.p_CP[1] = Mirrored(arm.p_CP[0]);
      }};
}

Table<RadiusArm> KeysOf(Of<RadiusArm>) {
  return {
      "radius_arm",
      "axles.A.radius_arms.NAME",
      {PairFlag(), Required(Point(&RadiusArm::p_CP, "frame", "Its eye on the chassis.")),
       Required(Point(Into(&RadiusArm::p_CQ, 0), "first_eye", "One of its two eyes on the axle.")),
       Required(Point(Into(&RadiusArm::p_CQ, 1), "second_eye", "The other.")),
       KeepOrFit("In a variant that moves its points: keep, it keeps its shape and the housing "
                 "moves; fit, it is made to fit them, and later variants keep it."),
       Radial(&RadiusArm::frame_rate, "frame_rate",
              "Radial stiffness of the bushing on the chassis."),
       Radial(&RadiusArm::axle_rate, "axle_rate",
              "Radial stiffness of each of the two bushings on the axle.")}};
}

Table<WattsLink> KeysOf(Of<WattsLink>) {
  return {
      "watts_link",
      "axles.A.watts_links.NAME",
      {Default(Word(Into(&WattsLink::on_housing, "axle"), "crank_on", {"axle", "frame"},
                    "What the crank's pivot is bolted to."),
               "axle"),
       Required(Point(&WattsLink::pivot, "pivot", "Centre of the crank's pivot.")),
       Point("bolt",
             "Another point along the pivot's bolt; without it the bolt lies fore and aft."),
       Required(
           Point(Into(&WattsLink::end, 0), "first_crank", "First link: its end at the crank.")),
       Required(Point(Into(&WattsLink::far, 0), "first_far", "First link: its other end.")),
       Required(
           Point(Into(&WattsLink::end, 1), "second_crank", "Second link: its end at the crank.")),
       Required(Point(Into(&WattsLink::far, 1), "second_far", "Second link: its other end.")),
       KeepOrFit("In a variant that moves its points: keep, the crank keeps its shape, the links "
                 "their lengths, and the housing moves; fit, all three are made to fit them, and "
                 "later variants keep them."),
       Bound(Into(&WattsLink::length, 0),
             LengthOrFit("first_length",
                         "First link: its own length, eye to eye; in a measurement it corrects the "
                         "link's two ends, half each, in a variant the holes stay and the housing "
                         "moves. fit: this link is made or turned to fit its two ends.")),
       Bound(Into(&WattsLink::length, 1),
             LengthOrFit("second_length", "The same of the second link.")),
       Default(Number(&WattsLink::rate, "rate", D::kRate, kPositive,
                      "Stiffness along each link with its bushings in it; it matters only where "
                      "an axle is held more than four ways."),
               "5 kN/mm")},
      {},
      [](const Node& map, WattsLink& watt) {
        watt.axis = Eigen::Vector3d::UnitX();
        if (const auto bolt = PointAt(map, "bolt")) watt.axis = *bolt - watt.pivot;
      }};
}

}  // namespace linkwright
