#include "program.h"

namespace sherd::tests {
namespace {

class Report : public Bench {};

TEST_F(Report, the_appraisal_of_the_demo_is_one_page_with_every_section_and_nothing_from_outside) {
  ask({"demo", "d"});
  const auto answer = ask({"report", "d/tanyard.sherds", "--type", "2", "--out", "report.html"});
  EXPECT_EQ(answer["file"], "report.html");
  EXPECT_TRUE(answer["issue"].is_null());
  EXPECT_FALSE(answer["missing"].empty());
  const std::string page = read("report.html");
  for (const char* id :
       {"introduction", "method", "quantities", "dates", "condition", "doubts", "checks", "settings"}) {
    EXPECT_NE(page.find("<section id=\"" + std::string(id) + "\">"), std::string::npos) << id;
  }
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(page.find("style=\""), std::string::npos);
  EXPECT_EQ(page.find("href=\"http"), std::string::npos);
  EXPECT_EQ(page.find("src=\"http"), std::string::npos);
  EXPECT_NE(page.find("<svg"), std::string::npos);
  EXPECT_NE(page.find("@page"), std::string::npos);
}

TEST_F(Report, its_numbers_are_those_of_the_tally) {
  make_small_store("x.sherds");
  write("s.csv",
        "context,fabric,count,weight_g,vessels,rim_percent\n2,grey-1,30,300.5,3,45\n3,green-1,1200,9000,40,\n");
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  ask({"report", "x.sherds", "--type", "2", "--out", "report.html"});
  const std::string page = read("report.html");
  EXPECT_NE(page.find("This appraisal covers 1,230 sherds weighing 9.3 kg, from 43 vessels (EVE 0.45). Pottery was "
                      "found in 2 of 5 contexts."),
            std::string::npos);
  EXPECT_NE(page.find("rule by which vessels were counted"), std::string::npos);  // the sheet does not say it
}

TEST_F(Report, what_people_typed_is_never_taken_as_markup) {
  ask({"new", "x.sherds", "--site", "X", "--title", "<b>Pit & \"ditch\"</b>"});
  write("contexts.csv", "context,my_reason\n\"<i>7</i>\",\"<script>alert(1)</script>\"\n");
  write("fabrics.csv", "fabric,name,earliest,latest\n\"a<b\",\"R&D \"\"ware\"\"\",100,200\n");
  write("s.csv", "context,fabric,count\n\"<i>7</i>\",\"a<b\",3\n");
  ask({"import", "x.sherds", "contexts.csv", "--as", "contexts"});
  ask({"import", "x.sherds", "fabrics.csv", "--as", "fabrics"});
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  ask({"report", "x.sherds", "--type", "2", "--out", "report.html"});
  ask({"spot-dates", "x.sherds", "--out", "list.html"});
  for (const std::string& page : {read("report.html"), read("list.html")}) {
    EXPECT_EQ(page.find("<script"), std::string::npos);
    EXPECT_EQ(page.find("<i>7"), std::string::npos);
    EXPECT_EQ(page.find("a<b"), std::string::npos);
    EXPECT_NE(page.find("&lt;i&gt;7"), std::string::npos);
  }
}

TEST_F(Report, an_empty_record_gives_a_report_that_says_so) {
  ask({"new", "x.sherds", "--site", "X"});
  ask({"report", "x.sherds", "--type", "2", "--out", "report.html"});
  EXPECT_NE(read("report.html").find("Pottery was found in 0 of 0 contexts"), std::string::npos);
}

TEST_F(Report, issues_are_numbered_and_kept) {
  make_small_store("x.sherds");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "a.html", "--issue"})["issue"], 1);
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "b.html", "--issue"})["issue"], 2);
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "3", "--out", "c.html"}, 2)["errors"][0]["code"], "unknown_type");
  EXPECT_EQ(ask({"report", "x.sherds", "--type", "2", "--out", "c.docx"}, 2)["errors"][0]["code"], "unknown_format");
}

}  // namespace
}  // namespace sherd::tests
