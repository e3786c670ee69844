#include "program.h"

namespace sherd::tests {
namespace {

class Report : public Bench {
 protected:
  /// Pages of `report STORE --type TYPE`.
  std::string page(const std::string& store, const std::string& type, const std::vector<std::string>& more = {}) const {
    std::vector<std::string> words{"report", store, "--type", type, "--out", "report.html"};
    words.insert(words.end(), more.begin(), more.end());
    ask(words);
    return read("report.html");
  }
  /// What another program of this machine says of a file of the bench.
  std::string of_program(const std::string& command) const {
    const std::string out = path("said.txt");
    if (std::system(("cd " + quoted(folder_.string()) + " && " + command + " > " + quoted(out) + " 2>&1").c_str()) != 0)
      ADD_FAILURE() << command << ": " << read("said.txt");
    return read("said.txt");
  }
};

std::size_t times(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++n;
  return n;
}

TEST_F(Report, each_type_of_the_demo_is_one_page_with_its_sections_and_nothing_from_outside) {
  ask({"demo", "d"});
  const std::vector<std::pair<const char*, std::vector<const char*>>> wanted{
      {"1", {"introduction", "method", "quantities", "dates", "discussion", "archive", "doubts", "settings"}},
      {"2", {"background", "condition", "chemistry", "recommendations", "checks", "bibliography"}},
      {"3", {"fabrics", "forms", "use", "comparison", "chemistry", "catalogue", "discussion", "bibliography"}}};
  for (const auto& [type, sections] : wanted) {
    const std::string html = page("d/tanyard.sherds", type);
    for (const char* id : sections)
      EXPECT_NE(html.find("<section id=\"" + std::string(id) + "\">"), std::string::npos) << type << " " << id;
    for (const char* bad : {"<script", "style=\"", "href=\"http", "src=\"http", "[[", "{{"})
      EXPECT_EQ(html.find(bad), std::string::npos) << type << " " << bad;
    EXPECT_NE(html.find("<svg"), std::string::npos);
    EXPECT_NE(html.find("@page"), std::string::npos);
  }
  EXPECT_EQ(page("d/tanyard.sherds", "1").find("<section id=\"catalogue\">"), std::string::npos);
}

TEST_F(Report, its_numbers_are_those_of_the_tally) {
  make_small_store("x.sherds");
  write("s.csv",
        "context,fabric,count,weight_g,vessels,rim_percent\n2,grey-1,30,300.5,3,45\n3,green-1,1200,9000,40,\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  const std::string html = page("x.sherds", "2");
  EXPECT_NE(html.find("This appraisal covers 1,230 sherds weighing 9.3 kg, from 43 vessels (EVE 0.45). Pottery was "
                      "found in 2 of 5 contexts."),
            std::string::npos);
  EXPECT_NE(html.find("rule by which vessels were counted"), std::string::npos);  // the sheet does not say it
}

TEST_F(Report, what_people_typed_is_never_taken_as_markup) {
  ask({"new", "x.sherds", "--site", "X", "--title", "<b>Pit & \"ditch\"</b>"});
  write("contexts.csv", "context,my_reason\n\"<i>7</i>\",\"<script>alert(1)</script>\"\n");
  write("fabrics.csv", "fabric,name,earliest,latest\n\"a<b\",\"R&D \"\"ware\"\"\",100,200\n");
  write("s.csv", "context,fabric,count\n\"<i>7</i>\",\"a<b\",3\n");
  ask({"import", "x.sherds", "contexts.csv", "--as", "contexts"});
  ask({"import", "x.sherds", "fabrics.csv", "--as", "fabrics"});
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  ask({"spot-dates", "x.sherds", "--out", "list.html"});
  for (const std::string& html : {page("x.sherds", "3"), read("list.html")}) {
    EXPECT_EQ(html.find("<script"), std::string::npos);
    EXPECT_EQ(html.find("<i>7"), std::string::npos);
    EXPECT_EQ(html.find("a<b"), std::string::npos);
    EXPECT_NE(html.find("&lt;i&gt;7"), std::string::npos);
  }
}

TEST_F(Report, an_empty_record_gives_reports_that_say_so) {
  ask({"new", "x.sherds", "--site", "X"});
  for (const char* type : {"1", "2", "3"})
    EXPECT_NE(page("x.sherds", type).find("Pottery was found in 0 of 0 contexts"), std::string::npos) << type;
}

TEST_F(Report, the_fixed_text_is_spelt_either_way) {
  make_small_store("x.sherds");
  EXPECT_NE(page("x.sherds", "3").find("Catalogue of illustrated vessels"), std::string::npos);
  const std::string american = page("x.sherds", "3", {"--spelling", "american"});
  EXPECT_NE(american.find("Catalog of illustrated vessels"), std::string::npos);
  EXPECT_NE(american.find("lang=\"en-US\""), std::string::npos);
  EXPECT_EQ(
      ask({"report", "x.sherds", "--type", "3", "--out", "r.html", "--spelling", "welsh"}, 2)["errors"][0]["code"],
      "unknown_spelling");
}

TEST_F(Report, issues_are_named_and_kept_and_bad_wishes_refused) {
  make_small_store("x.sherds");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "a.html", "--issue", "one"})["issue"], "one");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "b.html", "--issue", "one"}, 1)["errors"][0]["code"],
            "issue_exists");
  EXPECT_EQ(ask({"errata", "x.sherds"})["issues"].size(), 1u);
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "4", "--out", "c.html"}, 2)["errors"][0]["code"], "unknown_type");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "c.odt"}, 2)["errors"][0]["code"], "unknown_format");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "c.csv"}, 2)["errors"][0]["code"], "which_table");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "a.html/c.html"}, 1)["errors"][0]["code"],
            "not_writable");
}

TEST_F(Report, a_word_processor_gets_every_figure_as_svg_with_a_png_beside_it_captions_and_styles) {
  ask({"demo", "d"});
  const auto answer = ask({"report", "d/tanyard.sherds", "--type", "3", "--out", "r.docx"});
  const std::string names = of_program("unzip -l r.docx");
  EXPECT_EQ(times(names, ".svg"), answer["figures"].get<std::size_t>());
  const std::string document = of_program("unzip -p r.docx word/document.xml");
  EXPECT_EQ(document.find("descr=\"data:"), std::string::npos) << "the bytes of pictures stand in the text as well";
  EXPECT_EQ(times(document, "asvg:svgBlip xmlns"), answer["figures"].get<std::size_t>());
  // Beside each a PNG, for what does not read SVG.
  EXPECT_EQ(times(names, ".png"), answer["figures"].get<std::size_t>());
  EXPECT_EQ(times(document, "<a:blip r:embed="), answer["figures"].get<std::size_t>());
  EXPECT_EQ(times(document, "<a:blip>"), 0U);
  EXPECT_NE(of_program("unzip -p r.docx '\\[Content_Types\\].xml'").find("image/png"), std::string::npos);
  EXPECT_EQ(times(document, "w:val=\"ImageCaption\""), answer["figures"].get<std::size_t>());
  EXPECT_EQ(times(document, "w:val=\"TableCaption\""), answer["tables"].get<std::size_t>());
  for (const char* style : {"Heading1", "Heading2", "Smallprint", "Title", "Compact"})
    EXPECT_NE(document.find("w:val=\"" + std::string(style) + "\""), std::string::npos) << style;
  // 174 mm between the margins of A4 are 6264000 units of 1/914400 inch (ECMA-376, 20.1.2.1).
  EXPECT_NE(document.find("<w:pgSz"), std::string::npos);
  EXPECT_NE(document.find("w:w=\"11906\""), std::string::npos);
}

TEST_F(Report, printed_pages_are_numbered_a4_and_hold_the_words) {
  ask({"demo", "d"});
  ask({"report", "d/tanyard.sherds", "--type", "1", "--out", "r.pdf"});
  EXPECT_TRUE(read("r.pdf").starts_with("%PDF-"));
  const std::string facts = of_program("pdfinfo r.pdf");
  EXPECT_NE(facts.find("A4"), std::string::npos) << facts;
  const std::string words = of_program("pdftotext r.pdf - | tr '\\n' ' '");
  EXPECT_NE(words.find("This description covers 5,230 sherds"), std::string::npos);
  EXPECT_NE(words.find("2 / "), std::string::npos) << "page numbers";
}

TEST_F(Report, tables_are_also_a_workbook_and_single_files) {
  ask({"demo", "d"});
  const auto answer = ask({"report", "d/tanyard.sherds", "--type", "2", "--out", "r.xlsx"});
  EXPECT_EQ(times(of_program("unzip -l r.xlsx"), "worksheets/sheet"), answer["tables"].get<std::size_t>());
  ask({"report", "d/tanyard.sherds", "--type", "2", "--out", "f.csv", "--table", "fabric_by_phase"});
  const std::string csv = read("f.csv");
  EXPECT_TRUE(csv.starts_with("group,fabric,sherds,sherds %,\"weight, g\",\"weight, g %\",EVE,EVE %"))
      << csv.substr(0, 90);
  EXPECT_NE(csv.find(",all,5230,100,"), std::string::npos);
  EXPECT_EQ(ask({"report", "d/tanyard.sherds", "--type", "2", "--out", "f.csv", "--table", "fabric_by_phse"},
                2)["errors"][0]["hint"],
            "did you mean \"fabric_by_phase\"?");
}

TEST_F(Report, the_pdf_has_the_fonts_of_the_program_whatever_is_installed) {
  ask({"demo", "d"});
  ask({"report", "d/tanyard.sherds", "--type", "1", "--out", "r.pdf"});
  const std::string fonts = of_program("pdffonts r.pdf");
  EXPECT_NE(fonts.find("+Sherd-Serif"), std::string::npos) << fonts;
  EXPECT_NE(fonts.find("+Sherd-Sans"), std::string::npos) << fonts;
  // Two fonts of one name were taken for one, and the glyphs of the other were printed.
  for (const char* installed : {"EB-Garamond", "Inter"}) EXPECT_EQ(fonts.find(installed), std::string::npos) << fonts;
}

TEST_F(Report, tables_that_are_too_long_to_print_go_into_an_annex_which_is_said) {
  ask({"new", "x.sherds", "--site", "X"});
  std::string contexts = "context\n", fabrics = "fabric\ngrey\n", lines = "context,fabric,count\n";
  for (int i = 1; i <= 2100; ++i) {
    contexts += std::to_string(i) + "\n";
    lines += std::to_string(i) + ",grey,1\n";
  }
  write("contexts.csv", contexts);
  write("fabrics.csv", fabrics);
  write("s.csv", lines);
  for (const char* kind : {"contexts", "fabrics"})
    ask({"import", "x.sherds", std::string(kind) + ".csv", "--as", kind});
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  const auto answer = ask({"report", "x.sherds", "--type", "1", "--out", "r.pdf"});
  EXPECT_EQ(answer["annex"], "r-annex.xlsx");
  EXPECT_TRUE(read("r-annex.xlsx").starts_with("PK"));
  const std::string words = of_program("pdftotext r.pdf - | tr '\\n' ' '");
  EXPECT_NE(words.find("has 2,100 rows and is not printed here: it is in the annex, r-annex.xlsx"), std::string::npos);
}

}  // namespace
}  // namespace sherd::tests
