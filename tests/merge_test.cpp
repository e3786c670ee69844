#include "program.h"

namespace sherd::tests {
namespace {

/// A store with contexts and fabrics, taken along on two laptops.
class Away : public Bench {
 protected:
  void SetUp() override {
    make_small_store("x.sherds");
    write("first.csv", "record,context,fabric,count,weight_g,notes\n1,2,grey-1,3,14.5,\n2,3,green-1,1,8,\n");
    ask({"import", "x.sherds", "first.csv", "--as", "sherds"});
    ask({"copy", "x.sherds", "laptop-a.sherds", "--lease", "20"});
    ask({"copy", "x.sherds", "laptop-b.sherds", "--lease", "20"});
  }
  void lines(const std::string& store, const std::string& name, const std::string& rows) {
    write(name, rows);
    ask({"import", store, name, "--as", "sherds"});
  }
  /// Alters the notes of a line by its record number.
  void note(const std::string& store, const std::string& record, const std::string& text) {
    ask({"edit", store, "sherds", record, "notes=" + text});
  }
  std::string notes_of(const std::string& record) {
    const auto answer = ask({"lines", "x.sherds"});
    for (const auto& line : answer["lines"]) {
      if (line["record"] == record) return line["notes"].get<std::string>();
    }
    return "no line";
  }
};

TEST_F(Away, lines_of_two_laptops_come_together_under_their_own_numbers) {
  lines("laptop-a.sherds", "a.csv", "context,fabric,count,weight_g\n2,grey-1,5,30\n3,green-1,1,4\n");
  lines("laptop-b.sherds", "b.csv", "context,fabric,count,weight_g\n5,grey-1,2,11\n");
  const auto dry = ask({"merge", "laptop-a.sherds", "x.sherds", "--dry-run"});
  EXPECT_EQ(dry["changes"], 1);
  EXPECT_EQ(dry["rows_added"], 2);
  EXPECT_EQ(ask({"lines", "x.sherds"})["total"], 2);
  for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
    EXPECT_EQ(entry.path().filename().string().find("trial"), std::string::npos) << entry.path();
  }
  EXPECT_EQ(ask({"merge", "laptop-a.sherds", "x.sherds"})["rows_added"], 2);
  EXPECT_EQ(ask({"merge", "laptop-b.sherds", "x.sherds"})["rows_added"], 1);
  const auto again = ask({"merge", "laptop-a.sherds", "x.sherds"});
  EXPECT_EQ(again["changes"], 0);
  EXPECT_EQ(again["passed_over"], 1);
  std::vector<std::string> records;
  const auto lines_now = ask({"lines", "x.sherds"});
  for (const auto& line : lines_now["lines"]) records.push_back(line["record"]);
  std::ranges::sort(records);
  EXPECT_EQ(records, (std::vector<std::string>{"1", "2", "23", "3", "4"}));
  EXPECT_EQ(ask({"verify", "x.sherds"})["ok"], true);
}

TEST_F(Away, a_line_altered_on_both_laptops_is_listed_with_both_values_and_settled) {
  note("laptop-a.sherds", "1", "burnt");
  note("laptop-b.sherds", "1", "sooted");
  note("laptop-b.sherds", "2", "joins 1");
  EXPECT_TRUE(ask({"merge", "laptop-a.sherds", "x.sherds"})["conflicts"].empty());
  const auto merged = ask({"merge", "laptop-b.sherds", "x.sherds"});
  ASSERT_EQ(merged["conflicts"].size(), 1U);
  EXPECT_EQ(notes_of("2"), "joins 1");
  const auto list = ask({"conflicts", "x.sherds"})["conflicts"];
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0]["table"], "sherds");
  EXPECT_EQ(list[0]["row"], "1");
  EXPECT_EQ(list[0]["column"], "notes");
  EXPECT_EQ(list[0]["base"], "");
  EXPECT_EQ(list[0]["here"], "burnt");
  EXPECT_EQ(list[0]["there"], "sooted");
  EXPECT_EQ(list[0]["copy"], "laptop-b");
  const std::string id = std::to_string(list[0]["id"].get<int>());
  const Answer text = run({"conflicts", "x.sherds"});
  EXPECT_NE(text.out.find("sherds 1, notes\n      before  (blank)\n      here    burnt"), std::string::npos)
      << text.out;
  EXPECT_NE(text.out.find("there   sooted"), std::string::npos) << text.out;

  EXPECT_EQ(ask({"settle", "x.sherds", id, "--take", "there", "--seen", "clean"}, 1)["errors"][0]["code"], "conflict");
  EXPECT_EQ(ask({"settle", "x.sherds", "99", "--take", "there"}, 1)["errors"][0]["code"], "no_conflict");
  EXPECT_EQ(run({"settle", "x.sherds", id}).code, 2);
  const auto settled = ask({"settle", "x.sherds", id, "--take", "burnt and sooted"});
  EXPECT_EQ(settled["left"], 0);
  EXPECT_EQ(notes_of("1"), "burnt and sooted");
  EXPECT_TRUE(ask({"conflicts", "x.sherds"})["conflicts"].empty());
  const std::string change = std::to_string(settled["change"].get<int>());
  ask({"undo", "x.sherds", change});
  EXPECT_EQ(notes_of("1"), "burnt");
  EXPECT_EQ(ask({"conflicts", "x.sherds"})["conflicts"].size(), 1U);
  ask({"settle", "x.sherds", id, "--take", "there"});
  EXPECT_EQ(notes_of("1"), "sooted");
}

TEST_F(Away, numbers_that_are_used_up_and_wrong_files_are_refused_with_the_way_out) {
  std::string rows = "context,fabric,count,weight_g\n";
  for (int n = 0; n < 21; ++n) rows += "2,grey-1,1,5\n";
  write("many.csv", rows);
  const auto refused = ask({"import", "laptop-a.sherds", "many.csv", "--as", "sherds"}, 1);
  EXPECT_EQ(refused["errors"][0]["code"], "lease_used_up");
  EXPECT_NE(refused["errors"][0]["hint"].get<std::string>().find("--lease"), std::string::npos);
  EXPECT_EQ(ask({"lines", "laptop-a.sherds"})["total"], 2);
  EXPECT_EQ(ask({"merge", "x.sherds", "laptop-a.sherds"}, 1)["errors"][0]["code"], "not_a_copy");
  EXPECT_EQ(ask({"copy", "x.sherds", "laptop-a.sherds"}, 1)["errors"][0]["code"], "store_exists");
  EXPECT_EQ(ask({"copy", "x.sherds", "c.sherds", "--lease", "0"}, 2)["errors"][0]["code"], "bad_lease");
  EXPECT_EQ(ask({"copy", "x.sherds", "c.sherds", "--site", "SAL27"}, 1)["errors"][0]["code"], "no_site");
  make_small_store("other.sherds");
  EXPECT_EQ(ask({"merge", "laptop-a.sherds", "other.sherds"}, 1)["errors"][0]["code"], "not_its_parent");
}

}  // namespace
}  // namespace sherd::tests
