#include "report/document.h"

#include <gtest/gtest.h>

#include "report/markdown.h"
#include "report/words.h"

namespace sherd::report {
namespace {

TEST(Words, every_wording_names_its_parts_and_is_spelt_both_ways) {
  const Words british, american(Spelling::american);
  ASSERT_GT(Words::names().size(), 200u);
  for (const std::string& name : Words::names()) {
    EXPECT_FALSE(british(name).empty() && name != "fabrics.reference") << name;
    EXPECT_FALSE(american(name).empty()) << name;
  }
  EXPECT_EQ(british("section.catalogue"), "Catalogue of illustrated vessels");
  EXPECT_EQ(american("section.catalogue"), "Catalog of illustrated vessels");
  EXPECT_EQ(british("section.dates"), american("section.dates"));
}

TEST(Words, american_text_has_no_british_word_left) {
  const Words american(Spelling::american);
  for (const std::string& name : Words::names()) {
    for (const char* word :
         {"colour", "catalogue", "millimetre", "licence", "judgement", "centre", "programme", "mould"})
      EXPECT_EQ(american(name).find(word), std::string::npos) << name << ": " << american(name);
  }
}

TEST(Words, values_go_where_they_are_named_and_a_name_that_is_not_there_shows) {
  const Words words;
  EXPECT_EQ(words("page_of", {{"page", "2"}, {"pages", "3"}}), " (2 of 3)");
  EXPECT_EQ(words("page_of", {{"page", "{pages}"}, {"pages", "3"}}), " ({pages} of 3)") << "values are no patterns";
  EXPECT_EQ(words("no.such"), "[[no.such]]");
  EXPECT_EQ(words.counted(1, "sherd"), "1 sherd");
  EXPECT_EQ(words.counted(1230, "sherd"), "1,230 sherds");
}

// CommonMark 0.31, examples of its specification for what is kept; what is left out is our own rule.
TEST(Markdown, is_commonmark_with_tables) {
  EXPECT_EQ(markdown_html("*foo bar*"), "<p><em>foo bar</em></p>\n");                       // example 350
  EXPECT_EQ(markdown_html("- foo\n- bar\n"), "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n");  // 301, shortened
  EXPECT_EQ(markdown_html("[link](https://e.x)"), "<p><a href=\"https://e.x\">link</a></p>\n");
  EXPECT_NE(markdown_html("| a | b |\n|---|--:|\n| 1 | 2 |\n").find("<table>"), std::string::npos);
}

TEST(Markdown, html_scripts_and_pictures_of_the_writer_do_not_come_through) {
  for (const char* text :
       {"<script>alert(1)</script>", "a <img src=x onerror=alert(1)> b", "[x](javascript:alert(1))",
        "[x](data:text/html;base64,PHNjcmlwdD4=)", "![x](https://example.org/x.png)", "<iframe src=\"https://e.x\">",
        "[x](file:///etc/passwd)", "![](file:///etc/passwd)", "[x]: javascript:alert(1)\n\n[x]"}) {
    const std::string html = markdown_html(text);
    for (const char* bad : {"<script", "<img", "javascript:", "data:", "src=", "<iframe", "file:", "onerror"})
      EXPECT_EQ(html.find(bad), std::string::npos) << text << " gave " << html;
  }
  EXPECT_EQ(markdown_html("![the jug](https://example.org/x.png)"), "<p>the jug</p>\n");
}

TEST(Markdown, headings_stand_beneath_those_of_the_report) {
  EXPECT_EQ(markdown_html("# One"), "<h4>One</h4>\n");
  EXPECT_EQ(markdown_html("###### Six"), "<h6>Six</h6>\n");
}

TEST(Markdown, a_value_is_never_markup) {
  for (const char* value : {"a*b*c", "grey_1_x", "[x](y)", "<b>", "1. x", "a|b", "`x`", "~~x~~", "&amp;"}) {
    const std::string html = markdown_html("is " + markdown_text(value));
    for (const char* bad : {"<em>", "<strong>", "<a ", "<b>", "<ol>", "<code>", "<del>"})
      EXPECT_EQ(html.find(bad), std::string::npos) << value << " gave " << html;
  }
  EXPECT_EQ(markdown_html(markdown_text("&amp;")), "<p>&amp;amp;</p>\n");
}

Document small() {
  Document document;
  document.title = "Pit & ditch";
  DocumentTable table{.caption = "Fabrics.",
                      .columns = {{"fabric", false}, {"sherds", true}},
                      .rows = {{"Phase 1"}, {"grey", "1,230"}, {"together", "1,230"}},
                      .total = {"all", "1,230"},
                      .note = "",
                      .id = "fabrics"};
  table.heads = {0};
  table.sums = {2};
  document.sections = {
      {"q",
       "Quantities",
       {table,
        DocumentFigure{"Bars.",
                       "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"120mm\" "
                       "height=\"40mm\"></svg>",
                       "bars"},
        DocumentTable{.caption = "B.", .columns = {{"x", false}}, .rows = {}, .total = {}, .note = {}}}}};
  number_items(document);
  return document;
}

TEST(Document, tables_and_figures_are_numbered_apart_and_named_by_their_ids) {
  const auto names = item_names(small());
  EXPECT_EQ(names.at("fabrics"), "Table 1");
  EXPECT_EQ(names.at("bars"), "Figure 1");
  EXPECT_EQ(tables_of(small()).back()->number, 2);
}

TEST(Document, a_group_of_rows_is_a_part_of_the_table_that_its_head_names) {
  const std::string html = document_html(small());
  EXPECT_NE(html.find("<th scope=\"rowgroup\" colspan=\"2\">Phase 1</th>"), std::string::npos);
  EXPECT_NE(html.find("<tr class=\"sum\"><th scope=\"row\">together</th>"), std::string::npos);
  EXPECT_NE(html.find("lang=\"en-GB\""), std::string::npos);
  EXPECT_NE(html.find("id=\"item-fabrics\""), std::string::npos);
}

TEST(Document, for_the_word_processor_figures_have_their_width_and_nothing_is_to_be_fetched) {
  const std::string html = document_pandoc(small());
  EXPECT_NE(html.find("width=\"120.0mm\""), std::string::npos);
  EXPECT_NE(html.find("src=\"data:image/svg+xml;base64,"), std::string::npos);
  EXPECT_EQ(html.find("src=\"http"), std::string::npos);
  EXPECT_NE(html.find("Table 1. Fabrics."), std::string::npos);
  EXPECT_NE(html.find("<td colspan=\"2\"><strong>Phase 1</strong></td>"), std::string::npos);
  // No empty paragraph stands between a heading and its figure: the place of a reference is in the caption.
  EXPECT_NE(html.find("<figcaption><span id=\"item-bars\"></span>Figure 1."), std::string::npos);
}

TEST(Document, for_the_word_processor_a_column_of_remarks_is_wider_than_one_of_numbers) {
  DocumentTable table{
      .caption = "Dates.", .columns = {{"no", true}, {"notes", false}}, .rows = {}, .total = {}, .note = {}};
  table.rows = {{"The pits of the yard, the head of the group beneath"}, {"1", std::string(200, 'n')}};
  table.heads = {0};
  Document document;
  document.sections = {{"d", "Dates", {table}}};
  EXPECT_NE(
      document_pandoc(document).find("<colgroup><col style=\"width: 5%\" /><col style=\"width: 37%\" /></colgroup>"),
      std::string::npos);
}

TEST(Document, cells_of_numbers_are_read_by_other_programs) {
  EXPECT_EQ(plain_number("1,230"), "1230");
  EXPECT_EQ(plain_number("\u2013"), "");
  EXPECT_EQ(plain_number("+"), "+");
  EXPECT_EQ(plain_number("12.5"), "12.5");
}

}  // namespace
}  // namespace sherd::report
