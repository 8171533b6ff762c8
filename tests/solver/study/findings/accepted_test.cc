// SPDX-License-Identifier: MIT
#include "solver/study/findings/accepted.h"

#include <gtest/gtest.h>

#include "solver/study/findings/vehicle_findings.h"
#include "tests/support/vehicles.h"

namespace linkwright {
namespace {

Finding LooseCoil() {
  return {.kind = FindingKind::kCoilUnseats, .axle = kRear, .member = "coil left"};
}

bool IsAccepted(const std::string& of, const Finding& finding) {
  Vehicle van = sample::HarbourVan();
  van.accept = {{of, "a strap is on order"}};
  std::vector<Finding> findings{finding};
  const std::vector<AcceptedFinding> accepted = TakeAccepted(van, findings);
  EXPECT_EQ(accepted.size() + findings.size(), 1U);
  return findings.empty();
}

TEST(TakeAccepted, TakesAKindOrOneMemberOfIt) {
  for (const char* of : {"coil-preload", "coil-preload rear coil left", "coil-preload coil left",
                         "coil-preload rear", "coil-preload  rear coil left"}) {
    EXPECT_TRUE(IsAccepted(of, LooseCoil())) << of;
  }
  for (const char* of : {"coil-solid", "coil-preload front coil left", "coil-preload front",
                         "coil-preload cone left", "coil"}) {
    EXPECT_FALSE(IsAccepted(of, LooseCoil())) << of;
  }
}

// Both sides are one finding: which of them is the worst may change with a millimetre.
TEST(TakeAccepted, TakesTheTwinOnTheOtherSideToo) {
  EXPECT_TRUE(IsAccepted("coil-preload rear coil right", LooseCoil()));
  EXPECT_TRUE(IsAccepted("coil-preload coil", LooseCoil()));
  const Finding tire{
      .kind = FindingKind::kTireNear, .axle = kFront, .member = "lip", .detail = "right"};
  EXPECT_TRUE(IsAccepted("tire-clearance front left tyre", tire));
  EXPECT_TRUE(IsAccepted("tire-clearance right tyre", tire));
  EXPECT_TRUE(IsAccepted("tire-clearance left tyre", tire));
  EXPECT_TRUE(IsAccepted("tire-clearance lip", tire));
  EXPECT_FALSE(IsAccepted("tire-clearance rear right tyre", tire));
}

TEST(TakeAccepted, LeavesWhatIsJudgedAndWell) {
  Finding well = LooseCoil();
  well.past = false;
  EXPECT_FALSE(IsAccepted("coil-preload", well));
}

TEST(VehicleFindings, LeavesOutWhatTheFileAcceptsAndTellsWhatSilencesNothing) {
  Vehicle van = sample::HarbourVan();
  const auto find = [&] { return FindAll(PrepareRig(van), CheckVehicle(van)); };
  const VehicleFindings all = find();
  ASSERT_FALSE(all.findings.empty());
  EXPECT_TRUE(all.accepted.empty());
  const Finding& first = all.findings.front();
  const std::string slug = TraitOf(first.kind).slug;
  const std::string of = slug + " " + NameOf(first, van);
  van.accept = {{of, "known"},
                {slug + " flux capacitor", "no such part"},
                {"order-unseats-coil", "what limits alone judges"}};
  const VehicleFindings some = find();
  ASSERT_EQ(some.accepted.size(), 1U);
  EXPECT_EQ(some.accepted[0].finding.kind, first.kind);
  EXPECT_EQ(some.accepted[0].by.of, of);
  EXPECT_EQ(some.findings.size(), all.findings.size());  // one less, and one that tells
  const Finding& idle = some.findings.back();
  EXPECT_EQ(idle.kind, FindingKind::kAcceptsNothing);
  EXPECT_EQ(idle.member, slug + " flux capacitor");
  // One load alone cannot tell what is idle.
  for (const Finding& finding : FindAll(PrepareRig(van), CheckVehicle(van), &van.loads[0]).findings)
    EXPECT_NE(finding.kind, FindingKind::kAcceptsNothing);
}

}  // namespace
}  // namespace linkwright
