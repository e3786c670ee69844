#include "methods/dating/when.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "methods/dating/when_testing.h"

namespace sherd::dating {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

std::vector<std::string> evidence_of(const std::vector<WhenReason>& reasons) {
  std::vector<std::string> out;
  for (const WhenReason& reason : reasons) out.push_back(reason.evidence);
  return out;
}
const WhenConflict* conflict(const ObjectDate& date, std::string_view code) {
  const auto found = std::ranges::find(date.conflicts, code, &WhenConflict::code);
  return found == date.conflicts.end() ? nullptr : &*found;
}

// Years as read in: Florida Museum type page after Samford 1997 (pearlware, transfer printed, 1784-1840; brown prints
// from 1809) and J. Petrovay's rule that both ends count.
std::vector<DatedRow> printed_pearlware() {
  return {row({{"ware", "pearlware"}, {"technique", "transfer print"}}, 1784, 1840, "Florida Museum"),
          row({{"technique", "transfer print"}, {"print_colour", "brown"}}, 1809, {}, "Florida Museum"),
          row({{"ware", "pearlware"}}, 1775, {}, "Miller 2013")};
}

TEST(When, spans_of_different_features_are_intersected) {
  const ObjectDate date = when(
      printed_pearlware(), seen({{"ware", "pearlware"}, {"technique", "transfer print"}, {"print_colour", "brown"}}));
  EXPECT_EQ(years(date), "1809-1840");
  EXPECT_EQ(date.statement, "made between 1809 and 1840");
  EXPECT_EQ(years(*date.most_likely), "1809-1840");
  ASSERT_EQ(date.range95.size(), 1u);
  EXPECT_THAT(evidence_of(date.because), UnorderedElementsAre("technique=transfer print, print_colour=brown",
                                                              "ware=pearlware, technique=transfer print"));
  EXPECT_THAT(date.conflicts, IsEmpty());
}

TEST(When, no_piece_is_of_a_year_to_come) {
  const std::vector<DatedRow> rows{of_nature(Nature::limit, row({{"ware", "w"}}, 1937, {})),
                                   row({{"edge", "e"}}, 1900, 2100)};
  WhenQuestion question = seen({{"ware", "w"}, {"edge", "e"}});
  question.today = Year{2026};
  const ObjectDate date = when(rows, question);
  ASSERT_EQ(date.range95.size(), 1u);
  EXPECT_LE(date.range95.front().back(), Year{2026});
  EXPECT_EQ(date.window.back(), Year{2026});
}

TEST(When, an_open_end_is_null_and_the_ranges_wait_for_a_window) {
  const ObjectDate open = when(printed_pearlware(), seen({{"ware", "pearlware"}}));
  EXPECT_EQ(years(open), "1775 or later");
  EXPECT_EQ(open.statement, "made in 1775 or later");
  EXPECT_TRUE(open.range68.empty() && open.range95.empty() && !open.most_likely);
  WhenQuestion question = seen({{"ware", "pearlware"}});
  question.window = YearRange{Year{1700}, Year{1874}};
  const ObjectDate closed = when(printed_pearlware(), question);
  EXPECT_EQ(years(closed), "1775 or later");
  EXPECT_EQ(years(*closed.most_likely), "1775-1874");
}

TEST(When, evidence_that_leaves_no_year_is_a_conflict_and_the_years_are_null) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1762, 1820, "wares"),
                                      of_nature(Nature::limit, row({{"mark", "m"}}, 1891, {}, "law")),
                                      row({{"edge", "e"}}, 1780, 1800, "edges")};
  const ObjectDate date = when(rows, seen({{"ware", "w"}, {"mark", "m"}, {"edge", "e"}}));
  EXPECT_FALSE(date.earliest || date.latest || date.most_likely);
  EXPECT_TRUE(date.range68.empty() && date.range95.empty() && date.density.empty());
  const WhenConflict* none = conflict(date, "no_year_fits");
  ASSERT_NE(none, nullptr);
  ASSERT_EQ(none->drop.size(), 1u);
  EXPECT_THAT(none->drop[0].evidence, ElementsAre("mark=m"));
  EXPECT_EQ(years(none->drop[0].earliest, none->drop[0].latest), "1780-1800");
  EXPECT_THAT(none->sources, UnorderedElementsAre("wares", "law", "edges"));
  EXPECT_EQ(date.statement, "no year fits all the evidence: set aside mark=m (then 1780-1800)");
}

TEST(When, of_two_pieces_that_exclude_each_other_both_ways_out_are_named) {
  const ObjectDate date =
      when({row({{"ware", "w"}}, 1700, 1750), row({{"edge", "e"}}, 1800, 1850)}, seen({{"ware", "w"}, {"edge", "e"}}));
  EXPECT_EQ(date.statement,
            "no year fits all the evidence: set aside edge=e (then 1700-1750), or ware=w (then 1800-1850)");
}

// Shoulders of 10: in 1753 the first stands at 1 - 3/11, the second, begun in 1756, at 1 - 3/11.
TEST(When, spans_that_miss_by_a_few_years_meet_in_their_shoulders) {
  const ObjectDate date =
      when({row({{"ware", "w"}}, 1700, 1750), row({{"edge", "e"}}, 1756, 1800)}, seen({{"ware", "w"}, {"edge", "e"}}));
  EXPECT_FALSE(date.earliest || date.latest);
  ASSERT_NE(conflict(date, "spans_miss"), nullptr);
  EXPECT_EQ(years(*date.most_likely), "1753");
  EXPECT_THAT(date.statement, HasSubstr("their margins meet: most likely 1753"));
}

// The span as read in Edwards & Hampson 2005, the other as read in a museum label after Noel Hume.
TEST(When, equal_rows_that_differ_are_a_conflict_of_sources_and_their_union_is_used) {
  const std::vector<DatedRow> rows = {row({{"ware", "white salt-glazed stoneware"}}, 1685, 1785, "Edwards & Hampson"),
                                      row({{"ware", "white salt-glazed stoneware"}}, 1710, 1789, "Noel Hume")};
  const ObjectDate date = when(rows, seen({{"ware", "white salt-glazed stoneware"}}));
  EXPECT_EQ(years(date), "1685-1789");
  const WhenConflict* sources = conflict(date, "sources_differ");
  ASSERT_NE(sources, nullptr);
  EXPECT_THAT(sources->sources, ElementsAre("Edwards & Hampson", "Noel Hume"));
  EXPECT_EQ(sources->message,
            "equally specific rows differ on ware=white salt-glazed stoneware: 1685-1785 (Edwards & Hampson); "
            "1710-1789 (Noel Hume). "
            "Used: 1685-1789");
  EXPECT_EQ(date.because.size(), 2u);
}

TEST(When, the_region_decides_where_it_must_and_is_asked_for) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}, {"region", "kent"}}, 1500, 1600, "K"),
                                      row({{"ware", "w"}, {"region", "devon"}}, 1550, 1700, "D")};
  const ObjectDate date = when(rows, seen({{"ware", "w"}}));
  EXPECT_EQ(years(date), "1500-1700");
  ASSERT_NE(conflict(date, "regions_differ"), nullptr);
  EXPECT_EQ(years(when(rows, seen({{"ware", "w"}, {"region", "devon"}}))), "1550-1700");
}

TEST(When, what_is_usual_sets_no_limit) {
  const std::vector<DatedRow> rows = {of_nature(Nature::usual, row({{"bore", "7"}}, 1650, 1680, "table"))};
  const ObjectDate date = when(rows, seen({{"bore", "7"}}));
  EXPECT_FALSE(date.earliest || date.latest);
  EXPECT_EQ(years(*date.most_likely), "1650-1680");
  EXPECT_EQ(date.statement, "usually made 1650-1680; no limit is known");
}

TEST(When, what_is_usual_narrows_within_the_limits) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1685, 1785, "A"),
                                      of_nature(Nature::usual, row({{"ware", "w"}}, 1720, 1770, "A"))};
  EXPECT_EQ(when(rows, seen({{"ware", "w"}})).statement, "made between 1685 and 1785, most likely 1720-1770");
}

TEST(When, what_is_usual_but_impossible_is_said_and_not_used) {
  const std::vector<DatedRow> rows = {of_nature(Nature::limit, row({{"mark", "m"}}, 1891, 1920, "law")),
                                      of_nature(Nature::usual, row({{"edge", "e"}}, 1780, 1820, "U"))};
  const ObjectDate date = when(rows, seen({{"mark", "m"}, {"edge", "e"}}));
  EXPECT_EQ(years(date), "1891-1920");
  EXPECT_NE(conflict(date, "unusual"), nullptr);
}

TEST(When, arrival_and_deposition_limit_use_and_not_making) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1550, 1750, "made"),
                                      of_basis(DateBasis::arrived, row({{"ware", "w"}}, 1600, {}, "arrived")),
                                      of_basis(DateBasis::deposited, row({{"ware", "w"}}, 1620, 1780, "dug"))};
  const ObjectDate date = when(rows, seen({{"ware", "w"}}));
  EXPECT_EQ(years(date), "1550-1750");
  ASSERT_EQ(date.because.size(), 1u);
  ASSERT_EQ(date.use_limits.size(), 2u);
  EXPECT_EQ(date.use_limits[0].basis, DateBasis::arrived);
  EXPECT_EQ(date.use_limits[1].basis, DateBasis::deposited);
}

TEST(When, reasons_come_in_the_order_of_how_much_they_narrow) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1700, 1900, "wide"),
                                      row({{"edge", "e"}}, 1780, 1800, "narrow"),
                                      row({{"technique", "t"}}, 1700, 1850, "middling")};
  const ObjectDate date = when(rows, seen({{"ware", "w"}, {"technique", "t"}, {"edge", "e"}}));
  EXPECT_THAT(evidence_of(date.because), ElementsAre("edge=e", "technique=t", "ware=w"));
  EXPECT_GT(date.because[0].weight, date.because[1].weight);
  EXPECT_NEAR(date.because[1].weight, 0, 1e-9);
}

TEST(When, an_end_that_rests_on_memory_is_named_with_what_it_would_be_without) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1700, 1850, "read"),
                                      of_memory(row({{"edge", "e"}}, 1780, 1900, "recalled"))};
  const ObjectDate date = when(rows, seen({{"ware", "w"}, {"edge", "e"}}));
  EXPECT_EQ(years(date), "1780-1850");
  ASSERT_EQ(date.rests_on_memory.size(), 2u);
  EXPECT_EQ(date.rests_on_memory[0].end, "earliest");
  EXPECT_EQ(date.rests_on_memory[0].year, Year{1780});
  EXPECT_EQ(date.rests_on_memory[0].without, Year{1700});
  EXPECT_THAT(date.rests_on_memory[0].evidence, ElementsAre("edge=e"));
  EXPECT_EQ(date.rests_on_memory[1].end, "most_likely");
  EXPECT_THAT(when(rows, seen({{"ware", "w"}})).rests_on_memory, IsEmpty());
}

TEST(When, only_the_rows_from_memory_that_set_an_end_are_named_for_it) {
  const std::vector<DatedRow> rows = {of_memory(row({{"edge", "e"}}, 1780, 1900)),
                                      of_memory(of_nature(Nature::usual, row({{"ware", "w"}}, 1790, 1800)))};
  const ObjectDate date = when(rows, seen({{"ware", "w"}, {"edge", "e"}}));
  ASSERT_EQ(date.rests_on_memory.size(), 3u);
  EXPECT_THAT(date.rests_on_memory[0].evidence, ElementsAre("edge=e"));
  EXPECT_THAT(date.rests_on_memory[2].evidence, ElementsAre("edge=e", "ware=w"));
}

TEST(When, limits_and_spans_of_the_same_keys_are_equal_rows) {
  const std::vector<DatedRow> rows = {of_nature(Nature::limit, row({{"mark", "m"}}, 1945, 1952, "A")),
                                      row({{"mark", "m"}}, 1948, 1952, "B")};
  const ObjectDate date = when(rows, seen({{"mark", "m"}}));
  EXPECT_EQ(years(date), "1945-1952");
  EXPECT_NE(conflict(date, "sources_differ"), nullptr);
}

TEST(When, open_years_are_considered_for_a_hundred_years_beyond_the_evidence) {
  const ObjectDate date = when({of_nature(Nature::usual, row({{"bore", "7"}}, 1600, 1600)), row({{"ware", "w"}}, 1, 2)},
                               seen({{"bore", "7"}}));
  EXPECT_EQ(years(date.window), "1490-1710");
}

TEST(When, without_memory_a_more_general_row_stands_in) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1700, 1850, "read"),
                                      of_memory(row({{"ware", "w"}, {"form", "cup"}}, 1780, 1800, "recalled"))};
  const ObjectDate date = when(rows, seen({{"ware", "w"}, {"form", "cup"}}));
  ASSERT_EQ(date.rests_on_memory.size(), 3u);
  EXPECT_EQ(date.rests_on_memory[0].without, Year{1700});
  EXPECT_EQ(date.rests_on_memory[1].without, Year{1850});
}

TEST(When, absence_gives_its_note_and_no_bound) {
  DatedRow none = row({{"mark", "none"}}, {}, {}, "page");
  none.evidence.notes = "the absence of a mark does not make a piece early";
  const ObjectDate date = when({none, row({{"ware", "w"}}, 1850, 1950)}, seen({{"ware", "w"}, {"mark", "none"}}));
  EXPECT_EQ(years(date), "1850-1950");
  ASSERT_EQ(date.notes.size(), 1u);
  EXPECT_EQ(date.notes[0].text, "the absence of a mark does not make a piece early");
  EXPECT_THAT(date.silent, IsEmpty());
}

TEST(When, look_alikes_of_the_rows_used_are_told) {
  DatedRow ware = row({{"ware", "w"}}, 1762, 1820);
  ware.evidence.look_alikes = "x: a bluer glaze";
  const ObjectDate date = when({ware}, seen({{"ware", "w"}, {"edge", "e"}}));
  ASSERT_EQ(date.look_alikes.size(), 1u);
  EXPECT_EQ(date.look_alikes[0].text, "x: a bluer glaze");
  EXPECT_THAT(date.silent, ElementsAre("edge=e"));
}

TEST(When, nothing_known_is_said_in_so_many_words) {
  const ObjectDate date = when({row({{"ware", "w"}}, 1, 2)}, seen({{"ware", "x"}}));
  EXPECT_EQ(date.statement, "not dated: nothing that is known holds for what was seen");
  EXPECT_FALSE(date.earliest || date.latest);
}

TEST(When, what_is_usual_of_the_wider_kind_gives_way_to_the_years_of_the_kind_itself) {
  WhenQuestion question;
  question.observations = {{*evidence_key("edge"), "unmoulded shell edge", {"shell edge"}}};
  const std::vector<DatedRow> rows = {row({{"edge", "unmoulded shell edge"}}, 1860, 1899),
                                      of_nature(Nature::usual, row({{"edge", "shell edge"}}, 1780, 1860))};
  EXPECT_EQ(years(*when(rows, question).most_likely), "1860-1899");
}

TEST(When, other_wares_are_offered_where_something_else_bears_them_out) {
  const std::vector<DatedRow> rows = {row({{"ware", "a"}}, 1762, 1820), row({{"ware", "b"}, {"edge", "e"}}, 1785, 1840),
                                      row({{"ware", "c"}, {"edge", "e"}}, 1900, 1950), row({{"ware", "d"}}, 1780, 1800),
                                      row({{"technique", "t"}}, 1700, 1850)};
  const ObjectDate date = when(rows, seen({{"ware", "a"}, {"edge", "e"}, {"technique", "t"}}));
  ASSERT_EQ(date.alternatives.size(), 1u);  // c leaves no year, d is borne out by nothing
  EXPECT_EQ(date.alternatives[0].ware, "b");
  EXPECT_EQ(years(date.alternatives[0].earliest, date.alternatives[0].latest), "1785-1840");
  EXPECT_THAT(date.alternatives[0].rests_on, ElementsAre("ware=b, edge=e"));
}

TEST(When, a_stamp_with_lost_letters_is_looked_for_among_the_known_ones) {
  const auto limit = [](DatedRow row) { return of_nature(Nature::limit, std::move(row)); };
  const std::vector<DatedRow> rows = {
      limit(row({{"legend", "ADAMS"}}, 1800, 1809, "A")), limit(row({{"legend", "ADAMS"}}, 1800, 1809, "B")),
      limit(row({{"legend", "Adams"}}, 1800, 1809, "C")), limit(row({{"legend", "ADANS"}}, 1820, 1829, "D")),
      limit(row({{"legend", "BROWN"}}, 1700, 1710, "E"))};
  const ObjectDate date = when(rows, seen({{"legend", "AD?*"}}));
  ASSERT_EQ(date.candidates.size(), 2u);
  EXPECT_EQ(date.candidates[0].value, "ADAMS");
  EXPECT_DOUBLE_EQ(date.candidates[0].share, 0.75);
  EXPECT_EQ(years(date.candidates[0].earliest, date.candidates[0].latest), "1800-1809");
  EXPECT_EQ(years(date), "1800-1829");
  EXPECT_EQ(years(*date.most_likely), "1800-1809");
  const auto bin = std::ranges::find(date.density, Year{1820}, &Bin::from);
  ASSERT_NE(bin, date.density.end());
  EXPECT_NEAR(bin->value, 0.025, 1e-12);
  EXPECT_EQ(years(when(rows, seen({{"legend", "ADAN?"}}))), "1820-1829");
}

TEST(When, stamps_of_the_record_count_by_their_lines) {
  WhenQuestion question = seen({{"legend", "T?N*"}});
  question.readings.push_back({0, row({{"legend", "TENN"}}, 1801, 1810, "record 3"), 3, true});
  question.readings.push_back({0, row({{"legend", "TONG"}}, {}, {}, "record 9"), 1, true});
  question.window = YearRange{Year{1801}, Year{1840}};
  const ObjectDate date = when({}, question);
  ASSERT_EQ(date.candidates.size(), 2u);
  EXPECT_EQ(date.candidates[0].lines, 3);
  EXPECT_FALSE(date.earliest || date.latest);  // TONG says nothing of its years
  EXPECT_EQ(years(*date.most_likely), "1801-1810");
}

TEST(When, a_mark_that_was_read_in_one_way_is_evidence_like_a_row) {
  WhenQuestion question = seen({{"mark", "Rd 821265"}});
  question.readings.push_back({0, of_nature(Nature::limit, row({{"mark", "Rd 821265"}}, 1937, {}, "list")), 1, false});
  const ObjectDate date = when({}, question);
  EXPECT_EQ(years(date), "1937 or later");
  ASSERT_EQ(date.because.size(), 1u);
  EXPECT_EQ(date.because[0].nature, Nature::limit);
}

TEST(When, years_before_christ_read_as_such) {
  const ObjectDate date = when({row({{"ware", "w"}}, -49, 70)}, seen({{"ware", "w"}}));
  EXPECT_EQ(date.statement, "made between 50 BC and AD 70");
}

}  // namespace
}  // namespace sherd::dating
