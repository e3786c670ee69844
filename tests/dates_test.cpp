#include "program.h"

namespace sherd::tests {
namespace {

class Dates : public Bench {
 protected:
  void SetUp() override {
    make_small_store("x.sherds");
    write("relations.csv", "later,earlier,kind\n2,3,above\n3,5,above\n1,2,above\n");
    ask({"import", "x.sherds", "relations.csv", "--as", "relations"});
  }
  void sherds(const std::string& rows) {
    write("s.csv", "context,fabric,count,vessels,earliest,latest,judged,checked_by\n" + rows);
    ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  }
  nlohmann::json context(const std::string& name) const {
    const auto answer = ask({"date", "x.sherds", "--only-spot"});
    for (const auto& date : answer["contexts"]) {
      if (date["context"] == name) return date;
    }
    return {};
  }
};

TEST_F(Dates, a_terminus_is_carried_up_and_names_the_line_that_sets_it) {
  sherds("5,green-1,2,1,,,,R1\n3,grey-1,4,1,,,,R1\n");
  const auto upper = context("3");
  EXPECT_EQ(upper["terminus_post_quem"]["year"], 1250);
  EXPECT_EQ(upper["terminus_post_quem"]["own"], 120);
  EXPECT_EQ(upper["terminus_post_quem"]["from"], "5");
  EXPECT_EQ(upper["terminus_post_quem"]["carried"], true);
  EXPECT_EQ(upper["residual"]["count"], 4);
  EXPECT_DOUBLE_EQ(upper["residual"]["count_share"].get<double>(), 1.0);
  EXPECT_EQ(context("2")["terminus_post_quem"]["year"], 1250);
}

TEST_F(Dates, what_is_judged_intrusive_is_not_carried_and_that_is_visible) {
  sherds("5,grey-1,2,1,,,,R1\n5,green-1,1,1,,,intrusive,R1\n");
  EXPECT_EQ(context("5")["terminus_post_quem"]["year"], 120);
  EXPECT_EQ(context("3")["terminus_post_quem"]["year"], 120);
  const auto stopped = ask({"date", "x.sherds", "--only-spot"})["stopped"];
  ASSERT_EQ(stopped.size(), 2U);
  EXPECT_EQ(stopped[0]["context"], "5");
  EXPECT_EQ(stopped[0]["year"], 1250);
  EXPECT_EQ(stopped[0]["reason"], "judged intrusive");
  EXPECT_EQ(stopped[1]["context"], "1");
  EXPECT_EQ(stopped[1]["reason"], "mixed deposit");
}

TEST_F(Dates, a_mixed_deposit_is_there_with_null_dates) {
  sherds("1,green-1,2,1,,,,R1\n");
  const auto top = context("1");
  EXPECT_TRUE(top["terminus_post_quem"]["year"].is_null());
  EXPECT_TRUE(top["spot"]["earliest"].is_null());
  EXPECT_TRUE(top["mean_date"]["year"].is_null());
}

TEST_F(Dates, years_before_christ_are_negative_and_there_is_no_year_nought) {
  sherds("2,grey-1,2,2,-50,70,,R1\n");
  const auto date = context("2");
  EXPECT_EQ(date["terminus_post_quem"]["year"], -50);
  EXPECT_EQ(date["spot"]["earliest"], -50);
  for (const auto& bin : date["apportioned"]) {
    EXPECT_NE(bin["from"], 0);
    EXPECT_NE(bin["to"], 0);
  }
}

TEST_F(Dates, the_spot_range_is_that_of_the_latest_overlapping_group) {
  sherds("2,grey-1,9,3,,,,R1\n2,green-1,2,2,,,,R1\n2,green-1,1,1,1350,1500,,R1\n");
  const auto spot = context("2")["spot"];
  EXPECT_EQ(spot["earliest"], 1350);
  EXPECT_EQ(spot["latest"], 1400);
  EXPECT_EQ(spot["single"], false);
  EXPECT_EQ(spot["vessels"], 3);
}

TEST_F(Dates, the_next_issue_of_the_list_marks_what_changed) {
  sherds("2,grey-1,9,3,,,,R1\n3,grey-1,1,1,,,,\n");
  const auto first = ask({"spot-dates", "x.sherds", "--issue", "--out", "one.html"});
  EXPECT_EQ(first["issue"], 1);
  EXPECT_TRUE(first["changed"].empty());
  write("more.csv", "context,fabric,count,checked_by\n2,green-1,3,R1\n");
  ask({"import", "x.sherds", "more.csv", "--as", "sherds"});
  const auto second = ask({"spot-dates", "x.sherds", "--issue", "--out", "two.html"});
  EXPECT_EQ(second["issue"], 2);
  bool terminus = false;
  for (const auto& change : second["changed"]) {
    EXPECT_EQ(change["context"], "2");
    if (change["column"] == "terminus") {
      terminus = true;
      EXPECT_EQ(change["was"], "120");
      EXPECT_EQ(change["now"], "1250");
    }
  }
  EXPECT_TRUE(terminus);
  const std::string page = read("two.html");
  EXPECT_NE(page.find("Changed since issue 1"), std::string::npos);
  EXPECT_NE(page.find("class=\"changed\""), std::string::npos);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  const auto draft = ask({"spot-dates", "x.sherds", "--out", "draft.csv"});
  EXPECT_TRUE(draft["issue"].is_null());
  EXPECT_TRUE(read("draft.csv").starts_with("context,deposit,phase,own_date,terminus,")) << read("draft.csv");
  EXPECT_EQ(ask({"spot-dates", "x.sherds", "--out", "draft.doc"}, 2)["errors"][0]["code"], "unknown_format");
}

TEST_F(Dates, an_issue_whose_file_cannot_be_written_is_not_kept) {
  sherds("2,grey-1,9,3,,,,R1\n");
  EXPECT_EQ(ask({"spot-dates", "x.sherds", "--issue", "--out", "nowhere/list.html"}, 1)["errors"][0]["code"],
            "not_writable");
  EXPECT_EQ(ask({"spot-dates", "x.sherds", "--issue", "--out", "list.html"})["issue"], 1);
}

TEST_F(Dates, the_list_as_a_workbook_can_be_read_in_again) {
  sherds("2,grey-1,9,3,,,,R1\n");
  ask({"spot-dates", "x.sherds", "--out", "list.xlsx"});
  write("map.json", R"({"columns": {"notes": "set_by"}})");
  const auto answer =
      ask({"import", "x.sherds", "list.xlsx", "--as", "contexts", "--columns", "map.json", "--dry-run", "--update"});
  EXPECT_EQ(answer["rows_read"], 1);
  EXPECT_EQ(answer["format"], "xlsx");
}

}  // namespace
}  // namespace sherd::tests
