// SPDX-License-Identifier: MIT
// Made by tests/cli/help_test.cc: it says where the new text is when the output has changed.
#include "cli/examples.h"

namespace linkwright {
namespace {

struct Example {
  std::string_view command, output;
};

constexpr Example kExamples[]{
    {"page", R"(Under 'empty' it stands 8 mm higher in front and 20 mm lower at the rear than
measured, nose up 0.6 deg, wheelbase 2541 mm; front wheels 9 mm back and 11 mm
low, rear wheels 6 mm ahead and 9 mm high in their openings.
Under 'driver' it stands 1 mm lower in front and 27 mm lower at the rear than
measured, nose up 0.6 deg, wheelbase 2545 mm left and 2541 mm right; front
wheels 8 mm back and 2 mm low, rear wheels 5 mm ahead and 15 mm high in their
openings.
)"},
    {"check", R"(loads: empty, driver, deliveries

The file is sound; of 25 things to look at 2 can hurt someone, 8 are parts that
hit or run out, 10 wear or drive badly, 5 look wrong.
5 links hold the front axle where four would do, so bushings must give: in roll
upper arm left takes 1103 N a degree.
5 links hold the rear axle where four would do, so bushings must give: in roll
)"},
    {"settle", R"(Under 'empty' the body stands 8 mm up in front and 20 mm down at the rear
against where it was measured; rake 0.6 deg nose up, no lean.
Under 'driver' it stands 1 mm down in front and 27 mm down at the rear; rake 0.6
deg nose up, leaning 0.6 deg, left side down.
Under 'deliveries' it stands 12 mm down in front and 58 mm down at the rear;
rake 1.1 deg nose up, leaning 0.3 deg, left side down.
Against the centres of their openings the front wheels stand 9 mm back and 11 mm
)"},
    {"sweep", R"(load: empty

From rest the front axle has 62 mm of bump, until tyre left touches its opening
(the rows go on to 78 mm, where cone right is solid), and 80 mm of droop, until
damper left is fully open.
From rest the rear axle has 38 mm of bump, until tyre right touches its opening
(the rows go on to 58 mm, where cone right is solid), and 113 mm of droop, until
)"},
    {"compare", R"(4 parts or places differ: rear lower arm left, frame end, 5 mm ahead, 41 mm
down; rear lower arm right, frame end, 6 mm ahead, 1 mm right, 37 mm down; added
van body, doors and glass, 12 mm back, 6 mm down; and more.
For it the rear axle, at its measured height, steers 0.1 deg left and turns its
pinion 0.1 deg up.
At full bump the rear anti-squat goes from 87 to 27 %.
Under 'driver' the rear roll stiffness goes from 276.2 to 188.4 N*m/deg.
)"},
    {"driveline", R"(load: empty

At rest the rear shaft's joints work at 0.1 deg (output, too little) and 0.6 deg
(pinion), where single ones should at 0.5 to 3.0 deg; over all its travel at 5.4
deg and 3.5 deg at most.
For the rear shaft make lower arm 1.7 mm shorter, left and right alike: the
pinion's yoke end comes 0.5 deg up, and it then runs evenly, not as unevenly as
)"},
    {"steering", R"(load: empty

With the steering wheel held the front wheels steer: 25 mm of bump 0.14 deg
right at rest, more than the 0.10 deg that are usual; 78 mm of bump 0.3 deg
right; 80 mm of droop 0.6 deg left.
Move the track bar: its frame end 12 mm up, 912 mm long, so that bump steers
nothing at rest; or its frame end 5 mm up and 80 mm to the left, 992 mm long, so
)"},
    {"limits", R"(Under 'empty' it has in front 62 mm of bump until tyre left touches its opening;
80 mm of droop until damper left is fully open.
Under 'empty' it has at the rear 38 mm of bump until tyre right touches its
opening; 113 mm of droop until damper left is fully open.
A stop should end bump and a strap droop first; none does here.
Dampers, eye to eye: front at most 343 mm closed, at least 533 mm open, or those
in the file hung 13 mm nearer to the axle; rear at most 353 mm closed, at least
)"},
    {"openings", R"(Under 'empty' the wheels stand in their openings in front 9 mm behind and 11 mm
below the centre; at the rear 6 mm ahead of and 9 mm above the centre.
As both wheels rise the first to touch is in front the left tyre at its lip,
after 62 mm and at the rear the right tyre at its lip, after 38 mm.
To centre them let 15 mm into the chassis between the axles, set the body 9 mm
back on the chassis and set it 11 mm down in front and 9 mm up at the rear on
its pucks.
)"},
    {"original", R"(The design wheelbase is 2560 mm, give or take 7 mm (two sigma).
No reading disagrees: worst fits the rear eye to eye now, 0.9 times what is
usual.
When new the front wheel stood at x 4 mm, give or take 5 mm, z 360 mm, give or
take 11 mm; the rear wheel stood at x -2556 mm, give or take 6 mm, z 366 mm,
give or take 12 mm, in the old frame's axes.
Nothing checks the front leaf to wheel, and the front wheel z when new rests on
)"},
    {"roll", R"(load: empty

Turning left at 0.50 g the body leans 3.7 deg, its left side up, and 404 kg of
load goes to the right wheels.
First wheel to lift: turning left the front left at 0.97 g, turning right the
front right at 1.01 g.
Rollover threshold: turning left 0.97 g, turning right 1.01 g; taken as rigid,
)"},
    {"ride", R"(load: empty

Under 'empty' it rides at 1.27 Hz in front and 1.38 Hz at the rear: the rear 8 %
quicker.
The body bounces at 1.27 Hz, damped 0.22, pitches at 1.37 Hz, damped 0.18, rolls
at 1.10 Hz, damped 0.12 (1 is critical).
The front axle hops at 9.9 Hz, the rear axle hops at 10.5 Hz.
)"},
    {"explain", R"(Why it matters: It rattles, cocks on its seat, and can fall out.

Aim: Least squeeze of a coil at full droop, so that it stays seated (common
  practice). It is 1/4 in.

Mend it: A limit strap or damper that ends droop sooner, a longer coil, or a
  retainer (keep_seated).
)"},
};

}  // namespace

std::string_view ExampleOutput(std::string_view command) {
  for (const Example& example : kExamples) {
    if (example.command == command) return example.output;
  }
  return {};
}

}  // namespace linkwright
