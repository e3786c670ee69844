#include "methods/dating/residual_or_old.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace sherd::dating {

void PrintTo(const KeptLong& kept, std::ostream* out) {
  *out << word(kept.kept) << " " << kept.record << ", " << kept.years << " years: " << kept.because;
}
bool operator==(const KeptLong& a, const KeptLong& b) {
  return a.kept == b.kept && a.record == b.record && a.years == b.years && a.because == b.because;
}

namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// The rules are ours (docs/methods/bracket.md): no source outside.

LineSigns line(std::string_view record, std::string_view condition = {}, std::optional<double> rim = {}) {
  LineSigns out;
  out.record = record;
  out.condition = condition;
  out.rim_percent = rim;
  out.range = {Year{1200}, Year{1300}};
  return out;
}

std::vector<KeptLong> found(const std::vector<LineSigns>& lines) { return kept_long(Year{1450}, lines); }

KeptLong old(std::string record, std::string because) {
  return {Kept::old_when_discarded, std::move(record), 150, std::move(because)};
}

TEST(OldWhenDiscarded, is_what_is_nearly_whole_mended_or_worn_by_use) {
  EXPECT_THAT(
      found({line("10", "", 85), line("9", "mended with lead rivets"), line("11", "worn", 30), line("12", "complete")}),
      ElementsAre(old("9", "mended (mended with lead rivets)"), old("10", "nearly whole (85 % of its rim)"),
                  old("11", "worn by use"), old("12", "recorded as whole")));
}

TEST(OldWhenDiscarded, is_not_what_is_fresh_small_or_rolled) {
  EXPECT_THAT(
      found({line("1", "fresh", 20), line("2", "worn", 10), line("3", "worn, abraded", 90), line("4", "water-worn", 60),
             line("5", "not mended"), line("6", "incomplete"), line("7", "complete profile")}),
      IsEmpty());
}

TEST(OldWhenDiscarded, adds_up_a_vessel_over_its_lines_and_tells_it_once) {
  std::vector<LineSigns> lines{line("1", "", 40), line("2", "", 40), line("3", "", 40)};
  EXPECT_THAT(found(lines), IsEmpty());
  lines[0].vessel = lines[2].vessel = "jug-1";
  EXPECT_THAT(found(lines), ElementsAre(old("1", "nearly whole (80 % of its rim)")));
  lines[1].base_percent = 100;
  EXPECT_THAT(found(lines),
              ElementsAre(old("1", "nearly whole (80 % of its rim)"), old("2", "nearly whole (100 % of its base)")));
}

TEST(OldWhenDiscarded, needs_a_range_that_ends_before_the_terminus) {
  LineSigns late = line("1", "mended");
  late.range.latest = Year{1450};
  LineSigns open = line("2", "mended");
  open.range.latest.reset();
  EXPECT_THAT(found({late, open}), IsEmpty());
}

TEST(OldWhenDiscarded, is_not_said_of_what_is_centuries_too_old_to_have_been_in_use) {
  const std::vector<LineSigns> mended{line("1", "mended")};
  EXPECT_EQ(kept_long(Year{1600}, mended).size(), 1U);
  EXPECT_THAT(kept_long(Year{1601}, mended), IsEmpty());
  const std::vector<LineSigns> reworked{line("1", "trimmed to a counter")};
  EXPECT_EQ(kept_long(Year{1900}, reworked).at(0).kept, Kept::curated);
}

TEST(OldWhenDiscarded, the_specialists_judgement_stands_above_the_signs) {
  LineSigns residual = line("1", "mended");
  residual.judged = Judgement::residual;
  LineSigns intrusive = line("2", "mended");
  intrusive.judged = Judgement::intrusive;
  LineSigns own = line("3", "abraded");
  own.judged = Judgement::own;
  EXPECT_THAT(found({residual, intrusive, own}), ElementsAre(old("3", "judged own")));
}

TEST(Curated, is_kept_apart_from_old_when_discarded) {
  EXPECT_THAT(
      found({line("1", "Reworked as a spindle whorl"), line("2", "re-used, mended"), line("3", "heirloom", 90)}),
      ElementsAre(KeptLong{Kept::curated, "1", 150, "kept or re-used (Reworked as a spindle whorl)"},
                  KeptLong{Kept::curated, "2", 150, "kept or re-used (re-used, mended)"},
                  KeptLong{Kept::curated, "3", 150, "kept or re-used (heirloom)"}));
}

}  // namespace
}  // namespace sherd::dating
