// SPDX-License-Identifier: MIT
#include "io/read/input_error.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "io/read/report.h"

namespace linkwright {
namespace {

TEST(FormatError, PutsPlaceThenPathThenMessageAndACaret) {
  const Place place{"van.yaml", 12, 18};
  const InputError error{place,
                         "axles.rear.links.track bar.rate",
                         "it is missing",
                         {{12, 18, "      track bar: {frame: 1}"}}};
  EXPECT_EQ(FormatError(error),
            "van.yaml:12:18: axles.rear.links.track bar.rate: it is missing\n"
            "   12 |       track bar: {frame: 1}\n"
            "      |                  ^\n");
}

TEST(FormatError, SaysNoLineWhereTheWholeFileIsMeant) {
  EXPECT_EQ(FormatError({{"van.yaml", 0, 0}, "", "no such file", {}}), "van.yaml: no such file\n");
}

TEST(FormatError, PutsTheCaretUnderWideTextAndTabs) {
  const Place place{"a.yaml", 1, 4};
  const InputError error{place, "", "here", {{1, 4, "\u00e9\t\u00fcx"}}};
  EXPECT_EQ(FormatError(error), "a.yaml:1:4: here\n    1 | \u00e9\t\u00fcx\n      |  \t ^\n");
}

TEST(InputErrors, SayAllOfThem) {
  const InputErrors errors({{{"a.yaml", 1, 2}, "p", "one", {}}, {{"a.yaml", 3, 4}, "", "two", {}}});
  EXPECT_STREQ(errors.what(), "a.yaml:1:2: p: one\na.yaml:3:4: two\n");
}

TEST(Report, SortsByFileInTheOrderReadThenByPlace) {
  Report report{{{"plan.yaml", {"a", "b"}}, {"base.yaml", {"c", "d"}}}, {}};
  AddError(report, {"base.yaml", 1, 1}, "", "third");
  AddError(report, {"plan.yaml", 2, 9}, "", "second");
  AddError(report, {"plan.yaml", 2, 3}, "", "first");
  try {
    ThrowIfAny(report);
    FAIL() << "three errors were added";
  } catch (const InputErrors& errors) {
    ASSERT_EQ(errors.errors.size(), 3U);
    EXPECT_EQ(errors.errors[0].message, "first");
    EXPECT_EQ(errors.errors[1].message, "second");
    EXPECT_EQ(errors.errors[2].message, "third");
  }
}

TEST(Report, WithoutErrorsThrowsNothing) { EXPECT_NO_THROW(ThrowIfAny(Report{})); }

TEST(Report, ShowsBothPlacesInTheOrderOfTheFile) {
  Report report{{{"a.yaml", {"one", "two", "three"}}}, {}};
  AddError(report, {"a.yaml", 3, 2}, {"a.yaml", 1, 1}, "", "twice");
  EXPECT_EQ(FormatError(report.errors[0]),
            "a.yaml:3:2: twice\n    1 | one\n      | ^\n    3 | three\n      |  ^\n");
}

TEST(Report, CutsAVeryLongLineAroundThePlace) {
  Report report{{{"a.yaml", {std::string(1000, 'a') + "X" + std::string(1000, 'b')}}}, {}};
  const Excerpt excerpt = ExcerptAt(report, {"a.yaml", 1, 1001});
  EXPECT_LE(excerpt.text.size(), 160U);
  EXPECT_EQ(excerpt.text[static_cast<std::size_t>(excerpt.column - 1)], 'X');
}

TEST(Report, KeepsAMessageOnOneLine) {
  Report report;
  AddError(report, {"a.yaml", 0, 0}, "", "one\ntwo\tthree");
  EXPECT_EQ(report.errors[0].message, "one two three");
}

}  // namespace
}  // namespace linkwright
