#include <gmock/gmock.h>

#include "desk/report/write_report.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

/// Dates in sequence and plates of the report.
namespace sherd::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

class ReportDates : public ImportBench {
 protected:
  ReportDates() : ImportBench(store::in_memory()) {
    take("sherds", "record,context,fabric,form,count\n11,1,grey-1,jar,4\n12,2,grey-1,jar,2\n");
  }
  void change(const std::function<Result<void>(Writing&)>& work) {
    auto writing =
        must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02T09:00:00Z", "t", "x"}));
    must(work(*writing));
    must(writing->commit());
  }
  void keep_dates(const std::string& version) {
    const std::string json = R"({"change":)" + std::to_string(must(desk_.store().newest_change())->seq) +
                             R"(,"version":")" + version +
                             R"(","settings_hash":"","contexts":[
      {"context":"1","printed":"1635-1730","median":1680,"earliest":1637,"latest":1728},
      {"context":"3","printed":"after 1720","median":1790,"earliest":1721,"latest":1850}]})";
    change([&](Writing& writing) {
      return writing.put_document("SAL26", {"dates/in-sequence", "application/json", json});
    });
  }
  std::string report(std::int64_t type = 1) {
    ReportRequest request;
    request.store = "x.sherds";
    request.out = "r.html";
    request.type = type;
    const auto answer = must(write_report(request, desk_.environment, desk_.progress));
    EXPECT_TRUE(answer.errors.empty()) << answer.errors.front().message;
    return must(desk_.files.read("r.html"));
  }
};

TEST_F(ReportDates, without_dates_in_sequence_the_report_speaks_of_none) {
  EXPECT_THAT(report(), Not(HasSubstr("in sequence")));
}

TEST_F(ReportDates, in_sequence_stand_in_the_table_of_contexts_and_its_figure_as_they_were_kept) {
  keep_dates(desk_.environment.version);
  const std::string page = report();
  EXPECT_THAT(page, HasSubstr("<td data-label=\"in sequence\">1635-1730</td>"));
  EXPECT_THAT(page, HasSubstr("in sequence 1637-1728 (95 %)"));
  EXPECT_THAT(page, HasSubstr("<th scope=\"row\">3</th>")) << "a cut without pottery is dated, too";
  EXPECT_THAT(page, HasSubstr("Bayesian Approach to Interpreting"));
  EXPECT_THAT(page, Not(HasSubstr("the record has moved on")));
}

TEST_F(ReportDates, in_sequence_of_a_record_that_has_moved_on_say_so) {
  keep_dates("0.0.1");
  EXPECT_THAT(report(), HasSubstr("made by version 0.0.1 of the program"));
}

TEST_F(ReportDates, in_sequence_are_a_field_of_the_prose) {
  keep_dates(desk_.environment.version);
  take("texts", "text,section,body\nt,discussion,The pit is of {{date in sequence context=1}}.\n");
  EXPECT_THAT(report(), HasSubstr("The pit is of 1635-1730."));
}

TEST_F(ReportDates, the_catalogue_says_decoration_surface_use_mark_and_sample_of_a_piece) {
  take("sherds",
       "record,context,fabric,form,count,decoration,surface,use_traces,mark,sample,technique\n"
       "13,1,grey-1,jar,1,combed,burnished,sooted,X,S7,wheel\n");
  take("pieces", "piece,record\nP1,13\n");
  take("drawings", "drawing,piece,catalogue\nD1,P1,1\n");
  EXPECT_THAT(report(3), HasSubstr("combed; wheel; burnished; sooted; X; sample S7"));
}

TEST_F(ReportDates, every_field_that_is_wrong_is_named_with_its_line) {
  take("texts",
       "text,section,body\nt,discussion,\"{{date in sequence context=1}}\n{{cite nobody}} {{total sherd}}\"\n");
  ReportRequest request;
  request.store = "x.sherds";
  request.out = "r.html";
  const auto answer = must(write_report(request, desk_.environment, desk_.progress));
  ASSERT_EQ(answer.errors.size(), 3U);
  EXPECT_EQ(answer.errors[0].hint, "no dates in sequence are kept: sherdwright date STORE --keep");
  EXPECT_THAT(answer.errors[1].message, HasSubstr("no work \"nobody\" (line 2)"));
  EXPECT_EQ(answer.errors[2].hint, "did you mean \"total sherds\"?");
  EXPECT_FALSE(desk_.files.exists("r.html"));
}

TEST_F(ReportDates, plates_name_the_numbers_that_they_show_and_no_others) {
  take("pieces", "piece,record,rim_diameter_mm\nP1,11,100\nP3,12,100\nP4,12,100\n");
  std::string points = "piece,side,point,r_mm,z_mm\n";
  for (const std::string piece : {"P1", "P3", "P4"}) {
    points += piece + ",outer,1,0,0\n" + piece + ",outer,2,40,0\n" + piece + ",outer,3,50,80\n";
    points += piece + ",inner,1,0,6\n" + piece + ",inner,2,35,6\n" + piece + ",inner,3,50,80\n";
  }
  take("sections", points);
  take("drawings", "drawing,piece,record,catalogue\nD1,P1,,1\nD2,,,2\n");
  EXPECT_THAT(report(3), HasSubstr("No. 1, 1:4."));
  EXPECT_THAT(report(3), testing::ContainsRegex("<td data-label=\"shown in\">Figure\u00a0[0-9]+</td>"));
  take("drawings", "drawing,piece,catalogue\nD3,P3,3\nD4,P4,4\n");
  EXPECT_THAT(report(3), HasSubstr("Nos 1, 3\u20134, 1:4."));
}

}  // namespace
}  // namespace sherd::desk
