#include <gmock/gmock.h>

#include <cmath>
#include <map>
#include <sstream>

#include "program.h"

namespace sherd::tests {
namespace {

using Json = nlohmann::json;

/// The rows of a delimited text whose cells hold no line breaks, by the names of its first row.
std::vector<std::map<std::string, std::string>> rows_of(const std::string& csv) {
  const auto cells_of = [](const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (quoted && line[i] == '"' && i + 1 < line.size() && line[i + 1] == '"') {
        cells.back() += line[i++];
      } else if (line[i] == '"') {
        quoted = !quoted;
      } else if (line[i] == ',' && !quoted) {
        cells.emplace_back();
      } else {
        cells.back() += line[i];
      }
    }
    return cells;
  };
  std::istringstream in(csv);
  std::string line;
  std::getline(in, line);
  const auto names = cells_of(line);
  std::vector<std::map<std::string, std::string>> rows;
  while (std::getline(in, line)) {
    const auto cells = cells_of(line);
    for (std::size_t i = 0; i < std::min(names.size(), cells.size()); ++i) {
      if (i == 0) rows.emplace_back();
      rows.back()[names[i]] = cells[i];
    }
  }
  return rows;
}

class Demo : public Bench {
 protected:
  /// The demo is made once, in `d`; each test works on its own copy.
  void SetUp() override {
    if (first_.empty()) {
      made_ = ask({"demo", "d"});
      first_ = folder_.string() + "-demo";
      std::filesystem::copy(folder_ / "d", first_, std::filesystem::copy_options::recursive);
    } else {
      std::filesystem::copy(first_, folder_ / "d", std::filesystem::copy_options::recursive);
    }
  }
  static void TearDownTestSuite() {
    std::error_code ignored;
    std::filesystem::remove_all(first_, ignored);
    first_.clear();
  }

  bool is_there(const std::string& name) const { return std::filesystem::exists(folder_ / name); }
  /// One list of an answer, by value, so that a loop over it keeps it alive.
  Json list(const std::vector<std::string>& arguments, const char* key) const { return ask(arguments)[key]; }
  /// The number of the change that brought the table in.
  std::int64_t change_of(const std::string& kind) const {
    for (const Json& change : list({"history", "d/tanyard.sherds"}, "changes")) {
      if (change["command"].get<std::string>().starts_with("import " + kind + " ")) return change["seq"];
    }
    ADD_FAILURE() << "history has no import of " << kind;
    return 0;
  }
  Answer undo(std::int64_t change) const { return run({"undo", "d/tanyard.sherds", std::to_string(change), "--json"}); }

  static inline Json made_;
  static inline std::string first_;
};

TEST_F(Demo, every_table_it_writes_is_read_in_and_the_counts_reconcile) {
  ASSERT_EQ(made_["imports"].size(), 28U);
  for (const Json& import : made_["imports"]) {
    EXPECT_EQ(import["rows_read"].get<int>(), import["rows_kept"].get<int>() + import["rows_refused"].get<int>());
    EXPECT_EQ(rows_of(read("d/" + import["file"].get<std::string>())).size(), import["rows_read"].get<std::size_t>())
        << import["file"];
    EXPECT_EQ(import["problems"].size(), import["rows_refused"].get<std::size_t>()) << import["problems"];
  }
}

TEST_F(Demo, the_total_is_that_of_the_sherds_table_without_the_row_refused) {
  std::int64_t sherds = 0;
  std::int64_t tenths_g = 0;
  for (auto& row : rows_of(read("d/sherds.csv"))) {
    if (row["rim_percent"] == "130") continue;
    if (!row["count"].empty()) sherds += std::stoll(row["count"]);
    tenths_g += std::llround(std::stod(row["weight_g"]) * 10);
  }
  EXPECT_EQ(made_["total"]["count"], sherds);
  EXPECT_NEAR(made_["total"]["weight_g"].get<double>(), static_cast<double>(tenths_g) / 10, 0.05);
  std::int64_t count = 0;
  for (const Json& row : made_["tally"]) count += row["count"].get<std::int64_t>();
  EXPECT_EQ(count, sherds);
}

/// The record number that stands in that row of a sherds table, as a spreadsheet numbers rows.
std::string record_in_row(const std::vector<std::map<std::string, std::string>>& sherds, const Json& row) {
  return sherds.at(row.get<std::size_t>() - 2).at("record");
}

TEST_F(Demo, every_mistake_that_was_planted_is_found_under_its_code_and_at_its_place) {
  const auto planted = rows_of(read("d/planted.csv"));
  EXPECT_EQ(planted.size(), made_["planted"].get<std::size_t>());
  EXPECT_GE(planted.size(), 12U);
  const Json findings = ask({"check", "d/tanyard.sherds"}, 1)["findings"];
  const auto dry = ask({"import", "d/tanyard.sherds", "d/sherds.csv", "--as", "sherds", "--update", "--dry-run"}, 1);
  const auto sherds = rows_of(read("d/sherds.csv"));
  for (auto row : planted) {
    bool found = false;
    for (const Json& problem : dry["problems"])
      found = found || (problem["code"] == row["code"] && record_in_row(sherds, problem["row"]) == row["id"]);
    for (const Json& finding : findings) {
      if (finding["code"] != row["code"]) continue;
      const std::string id = finding["where"]["id"];
      const std::string message = finding["message"];
      // "1035 above 1028": the finding stands at the later context and names the earlier.
      const bool relation = row["place"] == "relation" && row["id"].starts_with(id + " above ") &&
                            message.find("context " + row["id"].substr(id.size() + 7)) != std::string::npos;
      found = found || id == row["id"] || relation;
    }
    EXPECT_TRUE(found) << row["code"] << " at " << row["place"] << " " << row["id"] << ": " << row["sentence"];
  }
}

TEST_F(Demo, every_error_of_the_checks_was_planted) {
  std::vector<std::string> codes;
  for (auto row : rows_of(read("d/planted.csv"))) codes.push_back(row["code"]);
  const Json check = ask({"check", "d/tanyard.sherds"}, 1);
  EXPECT_EQ(check["error_count"], made_["check_errors"]);
  for (const Json& finding : check["findings"]) {
    if (finding["severity"] != "error") continue;
    EXPECT_THAT(codes, testing::Contains(finding["code"].get<std::string>())) << finding;
  }
}

TEST_F(Demo, the_dates_are_scored_against_the_true_ones) {
  const Json& score = made_["score"];
  const auto truth = rows_of(read("d/truth.csv"));
  EXPECT_GT(truth.size(), 40U);
  for (const char* key : {"termini", "spots"}) {
    EXPECT_GT(score[key].get<int>(), 20) << key;
    EXPECT_LE(score[key].get<std::size_t>(), truth.size()) << key;
    EXPECT_GT(score[std::string(key) + "_right"].get<int>(), 0) << key;
    EXPECT_LE(score[std::string(key) + "_right"].get<int>(), score[key].get<int>()) << key;
  }
  EXPECT_GT(score["mean_error_years"].get<double>(), 0);
}

TEST_F(Demo, the_score_of_the_termini_can_be_counted_again_from_the_answers) {
  std::map<std::string, std::int64_t> completed;
  for (auto row : rows_of(read("d/truth.csv"))) completed[row["context"]] = std::stoll(row["completed"]);
  int termini = 0;
  int right = 0;
  for (const Json& context : list({"date", "d/tanyard.sherds", "--only-spot"}, "contexts")) {
    const auto truth = completed.find(context["context"].get<std::string>());
    const Json& year = context["terminus_post_quem"]["year"];
    if (truth == completed.end() || year.is_null()) continue;
    ++termini;
    right += year.get<std::int64_t>() <= truth->second ? 1 : 0;
  }
  EXPECT_EQ(made_["score"]["termini"], termini);
  EXPECT_EQ(made_["score"]["termini_right"], right);
}

TEST_F(Demo, every_context_is_dated) {
  const Json dates = ask({"date", "d/tanyard.sherds", "--only-spot"});
  EXPECT_EQ(dates["contexts"].size(), rows_of(read("d/contexts.csv")).size());
  EXPECT_EQ(dates["phases"].size(), rows_of(read("d/phases.csv")).size());
}

TEST_F(Demo, the_lists_for_the_excavator_are_there_and_name_every_context_with_pottery) {
  EXPECT_EQ(made_["lists"], Json::array({"d/spot-dates.html", "d/spot-dates.xlsx"}));
  const std::string page = read("d/spot-dates.html");
  EXPECT_TRUE(page.starts_with("<!doctype html>") || page.starts_with("<!DOCTYPE html>")) << page.substr(0, 40);
  EXPECT_TRUE(read("d/spot-dates.xlsx").starts_with("PK"));
  for (const Json& row : list({"tally", "d/tanyard.sherds", "--by", "context"}, "rows"))
    EXPECT_NE(page.find(row["context"].get<std::string>()), std::string::npos) << row["context"];
}

TEST_F(Demo, history_lists_the_imports_in_their_order) {
  std::vector<std::string> kinds;
  for (const Json& change : list({"history", "d/tanyard.sherds"}, "changes")) {
    const std::string command = change["command"];
    if (command.starts_with("import ")) kinds.push_back(command.substr(7, command.find(' ', 7) - 7));
  }
  EXPECT_THAT(kinds,
              testing::ElementsAre("phases", "contexts", "relations", "fabrics", "forms", "dates", "sherds", "rims",
                                   "joins", "pieces", "sections", "bands", "drawings", "standards", "certified",
                                   "sources", "samples", "readings", "petrology", "point_counts", "repositories",
                                   "loans", "selections", "rates", "estimates", "hours", "bibliography", "texts"));
}

TEST_F(Demo, its_vessels_are_drawn_put_on_plates_and_numbered_anew) {
  const Json drawings = ask({"drawings", "d/tanyard.sherds"});
  ASSERT_GT(drawings["rows"].size(), 20U);
  for (const Json& row : drawings["rows"]) EXPECT_TRUE(row["section"].get<bool>()) << row["drawing"];
  const Json one = ask({"draw", "--vessel", "P1", "--in", "d/tanyard.sherds", "--scale", "1:4", "--out", "p1.svg"});
  EXPECT_NE(read("p1.svg").find("width=\"" + std::to_string(one["width_mm"].get<double>()).substr(0, 4)),
            std::string::npos);
  const Json plate = ask({"plate", "d/tanyard.sherds", "--out", "plate.pdf"});
  std::size_t shown = 0;
  for (const Json& page : plate["pages"]) shown += page["drawings"].size();
  EXPECT_EQ(shown, drawings["rows"].size() - 1) << "one was dropped";
  EXPECT_TRUE(read("plate.pdf").starts_with("%PDF-"));
  const Json numbered = ask({"renumber", "d/tanyard.sherds"});
  EXPECT_EQ(numbered["numbered"], shown);
  EXPECT_EQ(numbered["renumbered"][0]["now"], 6) << "the gap of the dropped one";
  EXPECT_TRUE(ask({"renumber", "d/tanyard.sherds"})["renumbered"].empty());
  const Json brief = ask({"brief", "d/tanyard.sherds", "--out", "brief.html"});
  for (const Json& name : brief["drawings"])
    EXPECT_NE(read("brief.html").find("drawing " + name.get<std::string>()), std::string::npos) << name;
}

TEST_F(Demo, it_makes_the_same_folder_anew) {
  write("d/mine.txt", "notes of my own");
  ask({"undo", "d/tanyard.sherds", std::to_string(change_of("joins"))});
  const Json again = ask({"demo", "d"});
  EXPECT_EQ(again["tally"], made_["tally"]);
  EXPECT_EQ(again["score"], made_["score"]);
  EXPECT_EQ(ask({"history", "d/tanyard.sherds"})["changes"].size(), 30U) << "the site, 28 imports and one list";
  EXPECT_EQ(read("d/mine.txt"), "notes of my own");
}

TEST_F(Demo, a_folder_that_no_demo_made_is_refused_and_left_alone) {
  std::filesystem::create_directory(folder_ / "mine");
  write("mine/sherds.csv", "my own sherds");
  const Json answer = ask({"demo", "mine"}, 1);
  EXPECT_EQ(answer["errors"][0]["code"], "folder_in_use");
  EXPECT_EQ(read("mine/sherds.csv"), "my own sherds");
  EXPECT_FALSE(is_there("mine/tanyard.sherds"));
  write("file", "x");
  EXPECT_EQ(ask({"demo", "file"}, 1)["errors"][0]["code"], "folder_in_use");
}

TEST_F(Demo, the_same_seed_makes_the_same_site_and_another_seed_another) {
  const Json same = ask({"demo", "e", "--seed", std::to_string(made_["provenance"]["seed"].get<std::uint64_t>())});
  EXPECT_EQ(same["tally"], made_["tally"]);
  EXPECT_EQ(read("e/sherds.csv"), read("d/sherds.csv"));
  EXPECT_EQ(ask({"tally", "e/tanyard.sherds", "--by", "fabric,context"})["rows"],
            ask({"tally", "d/tanyard.sherds", "--by", "fabric,context"})["rows"]);
  EXPECT_NE(ask({"demo", "f", "--seed", "7"})["tally"], made_["tally"]);
}

TEST_F(Demo, sherds_that_rims_and_joins_refer_to_cannot_be_undone_before_them) {
  const std::int64_t sherds = change_of("sherds");
  const Answer refused = undo(sherds);
  EXPECT_EQ(refused.code, 1);
  EXPECT_EQ(refused.json()["errors"][0]["code"], "still_used") << refused.out;
  EXPECT_EQ(ask({"tally", "d/tanyard.sherds", "--by", "fabric"})["total"]["count"], made_["total"]["count"]);
  for (const char* kind :
       {"selections", "loans", "point_counts", "petrology", "readings", "samples", "drawings", "bands", "sections",
        "pieces", "joins", "rims", "sherds", "dates", "forms", "fabrics", "relations", "contexts", "phases"}) {
    const Answer done = undo(change_of(kind));
    EXPECT_EQ(done.code, 0) << kind << done.out << done.err;
  }
  EXPECT_TRUE(ask({"tally", "d/tanyard.sherds", "--by", "fabric"})["rows"].empty());
  EXPECT_TRUE(ask({"date", "d/tanyard.sherds", "--only-spot"})["contexts"].empty());
}

TEST_F(Demo, undoing_the_undo_brings_the_sherds_back) {
  for (const char* kind : {"selections", "loans", "point_counts", "petrology", "readings", "samples", "drawings",
                           "bands", "sections", "pieces", "joins", "rims", "sherds"})
    EXPECT_EQ(undo(change_of(kind)).code, 0) << kind;
  const Json changes = ask({"history", "d/tanyard.sherds"})["changes"];
  EXPECT_EQ(undo(changes.back()["seq"]).code, 0);
  EXPECT_EQ(ask({"tally", "d/tanyard.sherds", "--by", "fabric"})["total"]["count"], made_["total"]["count"]);
}

}  // namespace
}  // namespace sherd::tests
