// SPDX-License-Identifier: MIT
#include "io/read/source_map.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/io/read/temp_folder.h"

namespace linkwright {
namespace {

class Places : public testing::Test {
 protected:
  const VehicleFile file_ =
      ReadVehicleFile(std::string(LINKWRIGHT_SOURCE_DIR) + "/fixtures/vehicles/harbour_van.yaml");

  std::string PlaceOf(const std::vector<std::string>& part) const {
    const InputErrors errors = Locate(file_, ModelError(part, "why"));
    const InputError& error = errors.errors.at(0);
    EXPECT_EQ(error.message, "why");
    return fmt::format("{}:{} {}", error.place.line, error.place.column, error.path);
  }
};

TEST_F(Places, AreThoseOfThePart) {
  EXPECT_EQ(PlaceOf({"axles", "rear", "links", "track bar"}), "44:7 axles.rear.links.track bar");
  EXPECT_EQ(PlaceOf({"axles", "front"}), "14:3 axles.front");
  EXPECT_EQ(PlaceOf({"ledger"}), "56:1 ledger");
}

TEST_F(Places, FallBackOnThePartAround) {
  EXPECT_EQ(PlaceOf({"axles", "rear", "anti_roll_bar"}), "34:3 axles.rear");
  EXPECT_EQ(PlaceOf({"nothing", "here"}), "9:1 ");
  EXPECT_EQ(PlaceOf({}), "9:1 ");
}

TEST_F(Places, FindItemsByNumberAndByName) {
  EXPECT_EQ(PlaceOf({"ledger", "added", "2"}), "63:7 ledger.added[2]");
  EXPECT_EQ(PlaceOf({"ledger", "added", "engine and gearbox"}), "63:7 ledger.added[2]");
  EXPECT_EQ(PlaceOf({"loads", "deliveries", "2", "mass"}), "69:80 loads.deliveries[2].mass");
}

TEST_F(Places, ShowTheLineTheyAreOn) {
  const InputErrors errors = Locate(file_, ModelError({"marks", "sill rear left"}, "why"));
  EXPECT_THAT(errors.what(),
              testing::HasSubstr("harbour_van.yaml:79:3: marks.sill rear left: why\n   79 |   sill "
                                 "rear left: [-2010, 760, 420]\n      |   ^\n"));
}

TEST_F(Places, OfAVariantsValuesAreInTheVariant) {
  const TempFolder folder;
  const VehicleFile plan = ReadVehicleFile(folder.Write(
      "plan.yaml", fmt::format("base: {}\nchange:\n  axles.rear.links.track bar: {{frame: [-2650, "
                               "455, 520], axle: [-2660, -440, 440]}}\n",
                               file_.path)));
  const InputErrors errors =
      Locate(plan, ModelError({"axles", "rear", "links", "track bar"}, "why"));
  EXPECT_EQ(errors.errors[0].place.file, folder.Path("plan.yaml"));
  EXPECT_EQ(errors.errors[0].place.line, 3);
  EXPECT_EQ(errors.errors[0].place.column, 3);
}

}  // namespace
}  // namespace linkwright
