#include "desk/dates/stem_bores.h"

#include <gmock/gmock.h>

#include "desk/frame/testing.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::HasSubstr;

Result<StemBoresResponse> ask(std::string counts) {
  Environment environment;
  environment.version = "1.2.3";
  NoProgress progress;
  StemBoresRequest request;
  request.counts = std::move(counts);
  return stem_bores(request, environment, progress);
}

TEST(StemBoresUseCase, reads_counts_by_bore) {
  // The published example of stem_bore_test.cpp: 1749.
  const StemBoresResponse response = must(ask("4=22, 5=42,6 = 6"));
  EXPECT_EQ(response.bores.stems, 70);
  EXPECT_NEAR(*response.bores.formulas[0].year, 1749, 0.5);
  EXPECT_TRUE(response.ok());
  EXPECT_THAT(response.warnings, Contains(HasSubstr("from memory")));
  EXPECT_EQ(response.provenance.seed, 1U);
}

TEST(StemBoresUseCase, refuses_where_no_formula_holds_and_still_tells_the_periods) {
  const StemBoresResponse response = must(ask("12=40"));
  ASSERT_EQ(response.errors.size(), 1U);
  EXPECT_EQ(response.errors[0].code, "outside_validity");
  EXPECT_EQ(response.errors[0].message, "no formula holds for a mean bore of 12.00/64 inch");
  EXPECT_EQ(response.bores.periods.size(), 6U);
}

TEST(StemBoresUseCase, refuses_what_is_no_list_of_counts) {
  for (const char* text : {"", "5", "5=", "=3", "5=3=2", "5=1.5", "5.5=2", "5=12;6=3", "x=3", "5=12,"})
    EXPECT_EQ(code_of(ask(text)), "unreadable_counts") << text;
  EXPECT_EQ(code_of(ask("5=0")), "no_stems");
  EXPECT_EQ(code_of(ask("5=-2")), "negative_count");
  EXPECT_EQ(code_of(ask("40=2")), "bore_unlikely");
}

}  // namespace
}  // namespace sherd::desk
