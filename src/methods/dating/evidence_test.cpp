#include "methods/dating/evidence.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "methods/dating/when_testing.h"

namespace sherd::dating {
namespace {

using testing::ElementsAre;
using testing::UnorderedElementsAre;

/// The references of the rows that count, one word a piece, those of one piece joined by "+".
std::vector<std::string> counted(const std::vector<DatedRow>& rows, const WhenQuestion& question) {
  std::vector<Match> held;
  for (const Match& match : match_rows(rows, question.observations)) {
    if (match.held()) held.push_back(match);
  }
  std::vector<std::string> out;
  for (const Piece& piece : select_pieces(held, question.observations)) {
    std::string names;
    for (const DatedRow* row : piece.rows) names += (names.empty() ? "" : "+") + row->evidence.reference;
    out.push_back(names);
  }
  return out;
}

TEST(EvidenceKeys, are_the_fourteen_columns_of_the_table) {
  EXPECT_EQ(evidence_key("fabric"), kFabricKey);
  EXPECT_EQ(evidence_key("ware"), kWareKey);
  EXPECT_EQ(evidence_key("region"), kRegionKey);
  EXPECT_FALSE(evidence_key("colour"));
}

TEST(NumberSpan, a_row_gives_one_number_or_a_range_or_an_open_end) {
  const auto holds = [](std::string_view cell, std::string_view seen) {
    return cell_holds(kEvidenceKeys[*evidence_key("lattice_angle")], cell, seen);
  };
  EXPECT_TRUE(holds("80-100", "80"));
  EXPECT_TRUE(holds("80-100", "100"));
  EXPECT_TRUE(holds("80\u2013100", "92.5"));
  EXPECT_FALSE(holds("80-100", "79.9"));
  EXPECT_TRUE(holds("<80", "79.9"));
  EXPECT_FALSE(holds("<80", "80"));
  EXPECT_TRUE(holds(">100", "101"));
  EXPECT_FALSE(holds(">100", "100"));
  EXPECT_TRUE(holds("<80", "60-75"));
  EXPECT_FALSE(holds("<80", "75-85"));
  EXPECT_FALSE(holds("acute", "60"));
  EXPECT_TRUE(cell_holds(kEvidenceKeys[*evidence_key("bore")], "7", "7/64"));
}

TEST(Pattern, a_question_mark_is_one_lost_letter_and_a_star_any_number) {
  EXPECT_TRUE(fits_pattern("W?DGW*", "Wedgwood"));
  EXPECT_TRUE(fits_pattern("W?DGW*", "WEDGW"));
  EXPECT_TRUE(fits_pattern("*WOOD", "Wedg Wood."));
  EXPECT_FALSE(fits_pattern("W?DGW*", "Wdgwood"));
  EXPECT_FALSE(fits_pattern("W?DGW", "Wedgwood"));
  EXPECT_TRUE(fits_pattern("*A*A*", "ADAMS A"));
  EXPECT_FALSE(fits_pattern("*A*A*", "ADOMS"));
  EXPECT_TRUE(fits_pattern("H?HR", "h\u00F6hr"));
  EXPECT_TRUE(fits_pattern("*", ""));
}

TEST(MatchRows, every_key_that_a_row_names_must_be_seen_but_the_region) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1700, 1800), row({{"ware", "w"}, {"edge", "e"}}, 1700, 1800),
                                      row({{"ware", "x"}}, 1700, 1800),
                                      row({{"ware", "w"}, {"region", "kent"}}, 1700, 1800)};
  const auto matches = match_rows(rows, seen({{"ware", "w"}}).observations);
  EXPECT_TRUE(matches[0].held());
  EXPECT_FALSE(matches[1].held());
  EXPECT_TRUE(matches[2].contradicted);
  EXPECT_TRUE(matches[3].held() && matches[3].regional());
  EXPECT_FALSE(match_rows(rows, seen({{"ware", "w"}, {"region", "devon"}}).observations)[3].held());
}

TEST(MatchRows, a_retired_row_is_left_out) {
  std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1700, 1800)};
  rows[0].evidence.status = "retired";
  EXPECT_TRUE(match_rows(rows, seen({{"ware", "w"}}).observations).empty());
}

// The order of the specific rows: number of keys, then decoration, form, region.
TEST(SelectPieces, the_row_with_the_most_keys_wins_then_decoration_form_region) {
  const Keys all = {{"fabric", "f"}, {"form", "jar"}, {"decoration", "d"}, {"region", "kent"}};
  const DatedRow fabric = row({{"fabric", "f"}}, 1, 2, "fabric");
  const DatedRow form = row({{"fabric", "f"}, {"form", "jar"}}, 1, 2, "form");
  const DatedRow decoration = row({{"fabric", "f"}, {"decoration", "d"}}, 1, 2, "decoration");
  const DatedRow region = row({{"fabric", "f"}, {"region", "kent"}}, 1, 2, "region");
  const DatedRow both = row({{"fabric", "f"}, {"form", "jar"}, {"region", "kent"}}, 1, 2, "both");
  EXPECT_THAT(counted({fabric, form, decoration, region, both}, seen(all)), ElementsAre("both"));
  EXPECT_THAT(counted({fabric, form, decoration, region}, seen(all)), ElementsAre("decoration"));
  EXPECT_THAT(counted({fabric, region, form}, seen(all)), ElementsAre("form"));
  EXPECT_THAT(counted({fabric, region}, seen(all)), ElementsAre("region"));
  EXPECT_THAT(counted({fabric}, seen(all)), ElementsAre("fabric"));
}

TEST(SelectPieces, rows_on_different_observations_go_together) {
  const std::vector<DatedRow> rows = {
      row({{"ware", "w"}}, 1, 2, "ware"), row({{"decoration", "d"}}, 1, 2, "decoration"),
      row({{"ware", "w"}, {"edge", "e"}}, 1, 2, "edge"), row({{"ware", "w"}, {"technique", "t"}}, 1, 2, "technique")};
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"decoration", "d"}})), UnorderedElementsAre("ware", "decoration"));
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"edge", "e"}, {"technique", "t"}})),
              UnorderedElementsAre("edge", "technique"));
}

TEST(SelectPieces, two_decorations_are_two_pieces_of_evidence) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}, {"decoration", "c"}}, 1, 2, "c"),
                                      row({{"ware", "w"}, {"form", "jug"}, {"decoration", "d"}}, 1, 2, "d")};
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"form", "jug"}, {"decoration", "c"}, {"decoration", "d"}})),
              UnorderedElementsAre("c", "d"));
}

TEST(SelectPieces, equal_rows_are_one_piece) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1, 2, "A"), row({{"ware", "w"}}, 1, 3, "B")};
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}})), ElementsAre("A+B"));
}

TEST(SelectPieces, what_is_usual_takes_no_span_away_and_gives_way_to_a_more_specific_one) {
  const std::vector<DatedRow> rows = {row({{"ware", "w"}}, 1, 2, "span"),
                                      of_nature(Nature::usual, row({{"ware", "w"}}, 1, 2, "usual")),
                                      of_nature(Nature::usual, row({{"ware", "w"}, {"edge", "e"}}, 1, 2, "usual edge")),
                                      row({{"ware", "w"}, {"form", "cup"}}, 1, 2, "span cup")};
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}})), UnorderedElementsAre("span", "usual"));
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"edge", "e"}})), UnorderedElementsAre("span", "usual edge"));
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"form", "cup"}})), ElementsAre("span cup"));
}

TEST(SelectPieces, a_law_stays_beside_a_more_specific_span) {
  const std::vector<DatedRow> rows = {of_nature(Nature::limit, row({{"mark", "m"}}, 1891, {}, "law")),
                                      row({{"ware", "w"}, {"mark", "m"}}, 1895, 1930, "span")};
  EXPECT_THAT(counted(rows, seen({{"ware", "w"}, {"mark", "m"}})), UnorderedElementsAre("law", "span"));
}

TEST(SelectPieces, a_row_of_a_region_is_used_where_no_other_holds_and_no_region_was_given) {
  const DatedRow kent = row({{"ware", "w"}, {"region", "kent"}}, 1, 2, "kent");
  const DatedRow anywhere = row({{"ware", "w"}}, 1, 2, "anywhere");
  EXPECT_THAT(counted({kent, anywhere}, seen({{"ware", "w"}})), ElementsAre("anywhere"));
  EXPECT_THAT(counted({kent}, seen({{"ware", "w"}})), ElementsAre("kent"));
  EXPECT_THAT(counted({kent, anywhere}, seen({{"ware", "w"}, {"region", "kent"}})), ElementsAre("kent"));
}

TEST(SelectPieces, a_row_of_the_kind_itself_comes_before_one_of_what_it_is_a_kind_of) {
  WhenQuestion question;
  question.observations = {{kWareKey, "shell-edged pearlware", {"pearlware", "refined earthenware"}}};
  const DatedRow itself = row({{"ware", "shell-edged pearlware"}}, 1, 2, "itself");
  const DatedRow kind = row({{"ware", "pearlware"}}, 1, 2, "kind");
  const DatedRow wide = row({{"ware", "refined earthenware"}}, 1, 2, "wide");
  EXPECT_THAT(counted({wide, kind, itself}, question), ElementsAre("itself"));
  EXPECT_THAT(counted({wide, kind}, question), ElementsAre("kind"));
  EXPECT_THAT(counted({wide}, question), ElementsAre("wide"));
}

}  // namespace
}  // namespace sherd::dating
