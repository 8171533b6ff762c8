// SPDX-License-Identifier: MIT
// What a vehicle is: plain data, SI units (m, kg, N, N/m, rad, s), no behaviour.
//
// Frames. C is the chassis: origin at the file's datum, x forward, y left, z up (ISO 8855).
// Every point below is the place it had in C in the measured stance; points that ride on a
// housing (axle ends, axle seats, wheel centres) are carried by the housing from there.
// Notation: docs/notation.md. Members given as a pair in the file stand here as two members.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "solver/model/aims.h"
#include "solver/model/leaf.h"

namespace linkwright {

// Which side of the vehicle a member stands on; kMiddle for one that was not given as a pair.
enum class Side { kLeft, kRight, kMiddle };

// How a member is called in the file ("lower arm") and which half of its pair it is.
struct MemberName {
  std::string key;
  Side side = Side::kMiddle;
};

// "lower arm left", "track bar".
[[nodiscard]] std::string DisplayName(const MemberName& name);

// The two ends of a link, coil, stop or damper.
struct Span {
  Eigen::Vector3d p_CP;  // end on the chassis, from Co, in C [m]
  Eigen::Vector3d p_CQ;  // end on the housing, from Co, in C, in the measured stance [m]
};

// Distance between the ends in the measured stance [m].
[[nodiscard]] double MeasuredLength(const Span& span);

// A member of fixed length with a joint at each end.
struct Link {
  MemberName name;
  Span span;
  double rate = 5e6;  // axial rate, both bushings in it [N/m]; matters beyond four links
                      // and where a torque winds the housing up
  std::optional<double> thread =
      {};  // length change per turn of its adjuster [m]; absent: none given
  std::optional<double> misalignment_limit = {};  // of either joint [rad]; absent: not watched
  std::optional<double> length = {};  // of the arm, eye to eye [m]; absent: it fits its two points
  // What the file that measured it gave as its length, less what its two points were apart there
  // [m].
  double taped_short = 0.0;
  // What that moved its two points by, chassis end first, where they are still those [m].
  std::array<Eigen::Vector3d, 2> corrected{Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
};

// Eye to eye [m].
[[nodiscard]] double LengthOf(const Link& link);

// A rigid arm with two eyes on the chassis and one ball or bushing on the housing: a wishbone, an
// A-shaped upper arm. It holds what two links from its eyes to its point hold.
struct AArm {
  MemberName name;
  std::array<Eigen::Vector3d, 2> p_CP;  // eyes on the chassis, from Co, in C [m]
  Eigen::Vector3d p_CQ;                 // point on the housing, in the measured stance [m]
  double rate = 5e6;                    // axial, of each leg with its bushings in it [N/m]
  std::optional<std::array<double, 2>> leg_length = {};  // [m]; absent: they fit its points
};

// A radius arm by itself: its three eyes as they stood when it fitted, in C [m].
struct RadiusArmShape {
  Eigen::Vector3d chassis_eye;
  std::array<Eigen::Vector3d, 2> housing_eye;
};

// A stiff arm bushed to the housing at two eyes and to the chassis at one: a radius arm, a ladder
// bar, a torque arm. Its bushings give alike in every direction across their bolt and along the
// arm.
struct RadiusArm {
  MemberName name;
  Eigen::Vector3d p_CP;                     // eye on the chassis, from Co, in C [m]
  std::array<Eigen::Vector3d, 2> p_CQ;      // eyes on the housing, in the measured stance [m]
  double frame_rate = 1e7;                  // radial, of the bushing on the chassis [N/m]
  double axle_rate = 1e7;                   // radial, of each bushing on the housing [N/m]
  std::optional<RadiusArmShape> made = {};  // absent: it fits its points
};

// A crank and its two links by themselves: where their ends stood when they fitted, in C [m].
struct CrankShape {
  Eigen::Vector3d pivot;
  std::array<Eigen::Vector3d, 2> end, far;
};

// A bell crank with a link from each of its ends: a Watt's link. The crank turns about a pivot on
// the housing, its links running to the chassis; or the other way round.
struct WattsLink {
  std::string name;
  bool on_housing = true;               // where the pivot is
  Eigen::Vector3d pivot;                // from Co, in C, in the measured stance [m]
  Eigen::Vector3d axis;                 // of the pivot, in C; any length
  std::array<Eigen::Vector3d, 2> end;   // ends of the crank [m]
  std::array<Eigen::Vector3d, 2> far;   // far ends of the two links, on the other body [m]
  double rate = 5e6;                    // axial, of each link with its bushings in it [N/m]
  std::optional<CrankShape> made = {};  // absent: both fit their points
  // Of each link, eye to eye, as a file gives it: gone once `made` or the ends have it [m].
  std::array<std::optional<double>, 2> length = {};
  // What that moved the ends of each link by, where they are still those [m].
  std::array<Eigen::Vector3d, 2> end_corrected{Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
  std::array<Eigen::Vector3d, 2> far_corrected{Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
};

// One point of a measured force law.
struct CurvePoint {
  double deflection;  // shortening from the free length [m]
  double force;       // push on both seats [N]
};

// How a coil or a stop pushes, as a function of its length; never pulls.
// With a curve: straight lines between points, zero before the first. Without: rate times
// deflection.
struct ForceLaw {
  double free_length = 0.0;       // [m]
  double rate = 0.0;              // [N/m]; unused where a curve is given
  std::vector<CurvePoint> curve;  // empty for a linear spring; deflections strictly ascending
};

// The wire a helical coil is wound from; the rate in its ForceLaw follows from it.
struct CoilWire {
  double wire_diameter;  // [m]
  double mean_diameter;  // [m]
  double active_coils;
  double shear_modulus;  // [Pa]
};

struct Spring {
  MemberName name;
  Span span;
  ForceLaw law;
  std::optional<double> solid_length;  // [m]; absent: not given, binding is not watched
  std::optional<CoilWire> wire;        // absent: the rate or a curve was given
  bool weighed = false;                // the free length follows from the ledger's weights
  bool keep_seated = false;            // nothing holds it in: letting go of its seats ends travel
  // Under its chassis seat, which p_CP is once SeatOnSpacers has been over it (moves.h); below 0:
  // the seat is set back [m].
  double spacer = 0.0;
};

// A cone on one body that meets a pad on the other; its span goes from its end on the chassis to
// its end on the housing, whichever of them carries the cone.
struct Stop {
  MemberName name;
  Span span;
  ForceLaw law;                           // solid beyond the last point of its curve
  bool cone_on_axle = false;              // the housing carries the cone and the chassis the pad
  std::optional<double> pad_radius = {};  // about the pad's point [m]; absent: it ends nowhere
  double spacer = 0.0;                    // as of a coil [m]
};

struct Damper {
  MemberName name;
  Span span;
  std::optional<double> shortest;  // eye to eye [m]
  std::optional<double> longest;   // eye to eye [m]
  std::optional<double> bump;      // [N s/m]
  std::optional<double> rebound;   // [N s/m]
};

// Two points that must keep clear of one another: an oil pan and the housing below it.
struct Gap {
  std::string name;
  Span span;
  std::optional<double> least;  // [m]; absent: as the aims have it
};

// A band that holds the axle up in droop.
struct Strap {
  MemberName name;
  Span span;
  std::optional<double> length;  // pulled taut, eye to eye [m]
};

struct Tire {
  std::optional<double> radius;  // unloaded [m]; carries nothing without a rate
  std::optional<double> width;   // [m]
  std::optional<double> rate;    // vertical [N/m]; absent: rigid at its measured loaded height
  // Sideways on the floor [N/m]; only vibration needs it, and takes a guess where it is absent.
  std::optional<double> lateral_rate = std::nullopt;
  // Unloaded, of the right one where it is not the left one's: both made to stand at their measured
  // heights under their own scales [m].
  std::optional<double> right_radius = std::nullopt;
  // Another one, or at another pressure, than when the vehicle was measured: neither the hub
  // heights nor the scales are its own.
  bool changed = false;
};

// Unloaded radius of the tyre of a side, 0 left, 1 right [m]; it must have one.
[[nodiscard]] double FreeRadius(const Tire& tire, size_t side);

// What an item goes along with when the body is moved on the chassis or the chassis is cut between
// its axles.
enum class FixedTo {
  kBody,     // with the body
  kChassis,  // with the chassis, ahead of the cut or behind it by where it is
  kRear,     // with the chassis behind the cut, wherever it is
};

// A lump of mass.
struct Mass {
  std::string item;
  double mass;           // [kg]
  Eigen::Vector3d p_CM;  // its centre, from Co, in C, in the measured stance [m]
  // Absent: an item of a load goes with the body, any other stays.
  std::optional<FixedTo> fixed_to = {};
};

struct Pinion {
  Eigen::Vector3d p_CY;  // yoke: centre of the joint, from Co, in C [m]
  double angle;          // of the shaft, + = yoke end up [rad]
};

// Axis the knuckle turns about; projected angles (ISO 8855), of the left side.
struct Kingpin {
  double caster;                        // top rearward + [rad]
  double inclination = 0.0;             // top inward + [rad]
  std::optional<Eigen::Vector3d> p_CK;  // a point of the left axis, from Co, in C [m]
};

// From knuckle to knuckle; it makes the one turn with the other.
struct TieRod {
  Eigen::Vector3d p_CL;               // end on the left knuckle, from Co, in C [m]
  Eigen::Vector3d p_CR;               // end on the right knuckle [m]
  std::optional<double> length = {};  // its own, ball to ball [m]; absent: it fits its two points
};

// Ball to ball [m].
[[nodiscard]] double LengthOf(const TieRod& rod);

// What the steering of an axle is held against; absent: not watched.
struct SteeringAims {
  std::optional<double> slope_differ;   // track bar against drag link, in front view [rad]
  std::optional<double> length_differ;  // of the drag link's length [-]
  std::optional<double> steer_rate;     // steer per travel at rest [rad/m]
};

struct Steering {
  Span drag_link;  // pitman arm (chassis end) to knuckle (axle end)
  // Of the link itself, eye to eye [m]; absent: it fits its two points.
  std::optional<double> drag_link_length = {};
  std::optional<TieRod> tie_rod;    // absent: both wheels are taken to steer alike
  std::optional<double> lock = {};  // steer of the wheel inside the bend at full lock [rad]
  SteeringAims aims = {};
};

// Eye to eye [m].
[[nodiscard]] double DragLinkLength(const Steering& steering);

struct Opening {
  double x, z;                       // centre in side view, chassis axes [m]
  std::optional<double> radius;      // of its arc [m]
  std::optional<double> lip_y = {};  // of the left lip's plane; absent: the whole tyre's [m]
  std::optional<double> inner_panel_y = {};  // of the left inner panel's plane [m]
};

struct Axle {
  std::string name;        // "front", "rear"
  Eigen::Vector3d p_CW_l;  // left wheel centre, from Co, in C [m]
  Eigen::Vector3d p_CW_r;  // right wheel centre [m]
  Tire tire;
  std::optional<Mass> unsprung;                 // absent: only where the file is geometry only
  std::optional<double> unsprung_roll_inertia;  // about x through its own centre [kg m2]
  std::optional<double> drive_share;            // share of drive torque, 0 to 1
  std::optional<double> brake_share;            // share of brake force, 0 to 1
  std::vector<Link> links;
  std::vector<AArm> a_arms;
  std::vector<RadiusArm> radius_arms;
  std::vector<WattsLink> watts_links;
  std::vector<Spring> springs;
  std::vector<Stop> bump_stops;
  std::vector<Damper> dampers;
  std::vector<Gap> gaps;
  std::optional<double> rating;  // what the axle may carry on the floor [kg]
  std::vector<Strap> straps;
  std::optional<double> bar_roll_rate;  // anti-roll bar, per radian of housing roll [N m/rad]
  std::optional<Pinion> pinion;
  std::optional<Kingpin> kingpin;
  std::optional<Steering> steering;
  std::optional<Opening> opening;
  std::optional<double> sideways_most;  // housing centre off the centreline at rest [m];
                                        // absent: not watched
};

// kSingle: one cross. kDouble: two crosses with a centring device, taken as constant velocity.
enum class JointKind { kSingle, kDouble };

// What a driveshaft is held against; absent: not watched.
struct ShaftAims {
  std::optional<double> joint_least, joint_most;   // working angle of a single joint at rest [rad]
  std::optional<double> pair_differ;               // the two joints of a piece at rest [rad]
  std::optional<double> double_most;               // angle of a double joint at rest [rad]
  std::optional<double> torsional, inertial;       // accelerations at speed [rad/s2]
  std::optional<double> angle_at_speed;            // of any joint at speed [rad]; absent: a maker's
                                                   // table by speed
  std::optional<double> bottom_least, part_least;  // left of the slip over the travel [m]
};

// A bearing on the chassis that carries the rear end of the front piece of a two-piece shaft; its
// joint sits on the front piece's line.
struct CenterBearing {
  Eigen::Vector3d p_CB;  // centre of its joint, from Co, in C [m]
  JointKind joint = JointKind::kSingle;
  double phase = 0.0;  // of the front piece: its yoke at the bearing ahead of the one at the output
                       // [rad]
};

struct Driveshaft {
  std::string name;
  Eigen::Vector3d p_CO;  // centre of the output joint, from Co, in C [m]
  double output_angle;   // + = yoke end up, against the chassis x axis [rad]
  int axle;              // index into Vehicle::axles
  JointKind output_joint = JointKind::kSingle;
  JointKind axle_joint = JointKind::kSingle;
  double phase = 0.0;               // of the piece at the axle: its axle-end yoke ahead of the
                                    // other one [rad]
  std::optional<double> slip;       // whole stroke of the spline [m]
  std::optional<double> slip_left;  // left before bottoming at `length` [m]
  // Of the piece that slides, between its joints, where slip_left was counted [m]; absent: as it is
  // in the measured stance.
  std::optional<double> length = {};
  std::optional<double> top_speed;              // of the shaft [rad/s]
  std::optional<CenterBearing> center_bearing;  // absent: one piece
  double pinion_low = 0.0;  // pinion's yoke end wanted below the least net angle, at rest [rad]
  ShaftAims aims = {};
};

// The sprung mass as given, or as the ledger gives it.
struct SprungMass {
  double mass;                          // [kg]
  Eigen::Vector3d p_CM;                 // centre, from Co, in C [m]
  std::optional<double> pitch_inertia;  // about y through its centre, without loads [kg m2]
  std::optional<double> roll_inertia = std::nullopt;  // about x, the same [kg m2]
};

// The donor on four scales, and what came off and went on.
struct Ledger {
  std::array<double, 4> weighed;  // front left, front right, rear left, rear right [kg]
  bool by_axle = false;  // each axle was on one scale: its two wheels carry half of it each
  double cg_height;      // of the weighed vehicle, above the floor [m]
  std::vector<Mass> removed;
  std::vector<Mass> added;
  std::optional<double> pitch_inertia;  // of the finished sprung mass, without loads [kg m2]
  std::optional<double> roll_inertia = std::nullopt;  // the same [kg m2]
};

struct Load {
  std::string name;
  std::vector<Mass> items;
};

// A point of the body whose height above the floor matters.
struct Mark {
  std::string name;
  Eigen::Vector3d p_CB;  // from Co, in C [m]
};

// A finding that is known and may be so.
struct Acceptance {
  std::string of;   // its slug, or its slug and the member: "coil-preload rear coil left"
  std::string why;  // in the user's words
};

constexpr int kFront = 0;
constexpr int kRear = 1;

struct Vehicle {
  std::string title;
  double floor_z = 0.0;       // of the floor in the measured stance, in C [m]
  std::array<Axle, 2> axles;  // front, rear
  // The axle that is there, where the vehicle is known by one alone: geometry only, and of the
  // other nothing but its name. Absent: both are there.
  std::optional<size_t> only_axle = {};
  std::vector<Driveshaft> driveshafts;
  std::optional<SprungMass> sprung;  // as given; absent with a ledger or in a geometry-only file
  std::optional<Ledger> ledger;
  std::vector<Load> loads;  // at least one; a file without loads has one named "empty"
  size_t default_load = 0;  // index of the one it stands under unless another is asked for
  std::vector<Mark> marks;
  Aims aims = {};
  std::vector<Acceptance> accept = {};
  std::optional<LeafOriginal>
      leaf_original;  // of the vehicle the body came from; absent: not given
};

// The axles that are there, front first: indices into Vehicle::axles.
[[nodiscard]] std::span<const size_t> AxlesOf(const Vehicle& vehicle);
[[nodiscard]] bool IsThere(const Vehicle& vehicle, size_t axle);
// The load that a vehicle stands under unless another is asked for.
[[nodiscard]] inline const Load& DefaultLoad(const Vehicle& vehicle) {
  return vehicle.loads[vehicle.default_load];
}

// "front right": a wheel by its number, front left, front right, rear left, rear right.
[[nodiscard]] std::string WheelName(const Vehicle& vehicle, size_t wheel);

}  // namespace linkwright
