#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/report/citations.h"
#include "desk/report/picture_figure.h"
#include "desk/report/report_fields.h"
#include "desk/report/report_files.h"
#include "desk/report/report_outline.h"

namespace sherd::desk {
namespace {

Result<std::string> shout(const BracedField& field) {
  if (field.words == "bad") return fail("unknown_field", "there is no field {{bad}}", "did you mean \"good\"?");
  return "<" + std::string(field.words) + ">";
}

TEST(ReportFields, fields_are_filled_and_braces_after_a_backslash_stay) {
  EXPECT_EQ(*fill_fields("a {{ total sherds }} b\n{{x}}{{y}}", shout), "a <total sherds> b\n<x><y>");
  EXPECT_EQ(*fill_fields("\\{{x}} {x} }}", shout), "{{x}} {x} }}");
  EXPECT_EQ(*fill_fields("", shout), "");
}

TEST(ReportFields, a_field_that_is_not_closed_or_empty_is_told_with_its_line) {
  const auto open = fill_fields("one\ntwo {{total sherds\nthree}}", shout);
  ASSERT_FALSE(open);
  EXPECT_EQ(open.error().code, "open_field");
  EXPECT_THAT(open.error().message, testing::HasSubstr("(line 2)"));
  EXPECT_EQ(fill_fields("{{}}", shout).error().code, "open_field");
  EXPECT_EQ(fill_fields("{{x", shout).error().code, "open_field");
}

TEST(ReportFields, the_error_of_a_field_says_the_line) {
  const auto bad = fill_fields("one\n\nthree {{bad}}", shout);
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().message, "there is no field {{bad}} (line 3)");
  EXPECT_EQ(bad.error().hint, "did you mean \"good\"?");
}

TEST(ReportOutline, every_slot_leads_to_a_section_and_every_type_has_what_the_checklist_asks_of_all) {
  for (const SlotPlan& slot : slot_plans()) {
    const auto found = std::ranges::find(section_plans(), slot.section, &SectionPlan::id);
    EXPECT_TRUE(slot.section == "author" || found != section_plans().end()) << slot.slot;
  }
  // CIfA, Toolkit for Specialist Reporting, advisory checklist (read in part): introduction, methodology,
  // quantification, location of the archive in reports of every type.
  for (const char* id : {"introduction", "method", "quantities", "archive", "discussion"}) {
    const auto plan = std::ranges::find(section_plans(), std::string_view(id), &SectionPlan::id);
    ASSERT_NE(plan, section_plans().end());
    for (const bool in : plan->in) EXPECT_TRUE(in) << id;
  }
  EXPECT_TRUE(is_for("", 1));
  EXPECT_TRUE(is_for("2, 3", 3));
  EXPECT_FALSE(is_for("2, 3", 1));
}

// From the documentation of the percent sign of editors: less than half a percent is "+" (common practice, no source).
TEST(EditorsTables, less_than_half_a_percent_is_a_plus) {
  EXPECT_EQ(editors_percent(0.0049), "+");
  EXPECT_EQ(editors_percent(0.005), "1");
  EXPECT_EQ(editors_percent(0.5), "50");
  EXPECT_EQ(editors_percent(0.0), "0");
  EXPECT_EQ(editors_percent(std::nullopt), "\u2013");
}

constexpr const char* kCsl = R"([{"id":"orton1993","type":"book","title":"Pottery in Archaeology",
  "author":[{"family":"Orton","given":"Clive"},{"family":"Tyers","given":"Paul"},{"family":"Vince","given":"Alan G."}],
  "issued":{"date-parts":[[1993]]},"publisher":"Cambridge University Press","publisher-place":"Cambridge"},
 {"id":"robinson1951","type":"article-journal","title":"A method for chronologically ordering archaeological deposits",
  "author":[{"family":"Robinson","given":"W. S."}],"issued":{"date-parts":[["1951"]]},
  "container-title":"American Antiquity","volume":"16","page":"293-301"}])";

TEST(Citations, an_entry_and_its_mark_are_in_the_author_date_form) {
  const auto works = citations_from_csl(kCsl);
  ASSERT_TRUE(works) << works.error().message;
  ASSERT_EQ(works->size(), 2u);
  EXPECT_EQ(citation_entry((*works)[0]),
            "Orton, C., Tyers, P. & Vince, A. G. 1993. Pottery in Archaeology. Cambridge: Cambridge University Press.");
  EXPECT_EQ(citation_mark((*works)[0]), "Orton et al. 1993");
  EXPECT_EQ(citation_entry((*works)[1]),
            "Robinson, W. S. 1951. A method for chronologically ordering archaeological "
            "deposits. American Antiquity 16: 293-301.");
  EXPECT_EQ(citation_mark((*works)[1]), "Robinson 1951");
  EXPECT_EQ((*works)[0].authors, "Orton, Clive; Tyers, Paul; Vince, Alan G.");
  EXPECT_EQ((*works)[1].year, "1951");
}

TEST(Citations, works_that_would_be_cited_alike_get_letters_in_the_order_of_their_titles) {
  std::vector<PublishedWork> works(4);
  const char* const kTitles[] = {"Statistical analysis", "Counting pots", "Of another year", "Not cited"};
  for (std::size_t i = 0; i < works.size(); ++i) {
    works[i].citation = "k" + std::to_string(i);
    works[i].authors = "Orton, Clive; Tyers, Paul";
    works[i].title = kTitles[i];
    works[i].year = i == 2 ? "1992" : "1990";
  }
  tell_apart(works, {"k0", "k1", "k2"});
  EXPECT_EQ(citation_mark(works[0]), "Orton & Tyers 1990b");
  EXPECT_EQ(citation_mark(works[1]), "Orton & Tyers 1990a");
  EXPECT_EQ(citation_mark(works[2]), "Orton & Tyers 1992");
  EXPECT_EQ(works[3].year, "1990");
  EXPECT_THAT(citation_entry(works[1]), testing::HasSubstr(" 1990a. Counting pots."));
}

TEST(Citations, a_part_of_a_book_names_its_editors) {
  const auto one = citations_from_csl(
      R"([{"id":"x","title":"A part","container-title":"The book","author":[{"family":"Roe","given":"A."}],
      "editor":[{"family":"Poe","given":"B."},{"family":"Coe","given":"C."}],"issued":{"date-parts":[[1990]]}}])");
  ASSERT_TRUE(one);
  EXPECT_EQ(citation_entry((*one)[0]), "Roe, A. 1990. A part. In Poe, B. & Coe, C. (eds), The book.");
}

TEST(Citations, what_is_no_list_of_works_is_refused_by_name) {
  EXPECT_EQ(citations_from_csl("{").error().code, "not_json");
  EXPECT_EQ(citations_from_csl("3").error().code, "not_csl");
  EXPECT_EQ(citations_from_csl("[3]").error().code, "not_csl");
  EXPECT_EQ(citations_from_csl(R"([{"title":"x"}])").error().code, "no_key");
  EXPECT_EQ(citations_from_csl(R"([{"id":"x"}])").error().code, "no_key");
}

report::DocumentTable grouped() {
  report::DocumentTable table{.caption = "c",
                              .columns = {{"fabric", false}, {"sherds", true}, {"%", true}},
                              .rows = {{"Phase 1"}, {"grey", "1,200", "99"}, {"red", "\u2013", "+"}},
                              .total = {"all", "1,200", "100"},
                              .note = {}};
  table.heads = {0};
  return table;
}

TEST(ReportFiles, rows_for_other_programs_name_their_group_and_hold_plain_numbers) {
  const std::vector<std::vector<std::string>> wanted{{"group", "fabric", "sherds", "sherds %"},
                                                     {"Phase 1", "grey", "1200", "99"},
                                                     {"Phase 1", "red", "", "+"},
                                                     {"", "all", "1200", "100"}};
  EXPECT_EQ(plain_rows(grouped()), wanted);
}

TEST(ReportFiles, a_file_that_ends_in_nothing_known_is_refused) {
  EXPECT_EQ(report_format("a.HTML").value(), ReportFormat::html);
  EXPECT_EQ(report_format("docx").value(), ReportFormat::docx);
  EXPECT_EQ(report_format("a.odt").error().code, "unknown_format");
  EXPECT_EQ(report_format("").error().code, "unknown_format");
}

TEST(PictureFigure, sizes_come_from_the_headers_of_png_and_jpeg) {
  const std::string png("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x64\0\0\0\x32\x08\x02\0\0\0", 29);
  const auto svg = picture_svg(png, "a <jug>", 140);
  ASSERT_TRUE(svg) << svg.error().message;
  EXPECT_THAT(*svg, testing::HasSubstr("width=\"140.00mm\" height=\"70.00mm\""));
  EXPECT_THAT(*svg, testing::HasSubstr("a &lt;jug&gt;"));
  const std::string jpeg("\xFF\xD8\xFF\xE0\0\x04xx\xFF\xC0\0\x11\x08\0\x64\0\x32\x03\x01", 20);
  const auto tall = picture_svg(jpeg, "", 140);
  ASSERT_TRUE(tall) << tall.error().message;
  EXPECT_THAT(*tall, testing::HasSubstr("width=\"100.00mm\" height=\"200.00mm\"")) << "no higher than the page";
  EXPECT_EQ(picture_svg("GIF89a", "", 140).error().code, "unknown_picture");
}

}  // namespace
}  // namespace sherd::desk
