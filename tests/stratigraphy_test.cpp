#include <gmock/gmock.h>

#include <cstdlib>
#include <map>
#include <set>
#include <sstream>

#include "program.h"

namespace sherd::tests {
namespace {

using Json = nlohmann::json;
using testing::HasSubstr;

/// The twelve contexts of a textbook's section in 21 relations (Wikipedia, "Harris matrix"; the encoding is ours),
/// later first. Their reduction to 12 was calculated apart from this program.
constexpr const char* kTextbook =
    "later,earlier\n7,8\n8,6\n7,6\n6,3\n6,2\n3,2\n3,12\n3,5\n2,12\n12,5\n2,5\n5,1\n5,4\n1,9\n4,10\n5,9\n5,10\n9,11\n"
    "10,11\n1,11\n4,11\n";

class Stratigraphy : public Bench {
 protected:
  void textbook() {
    ask({"new", "t.sherds", "--site", "T"});
    std::string contexts = "context,type,phase\n";
    for (int n = 1; n <= 12; ++n) contexts += std::to_string(n) + ",layer,\n";
    write("c.csv", contexts);
    write("r.csv", kTextbook);
    ask({"import", "t.sherds", "c.csv", "--as", "contexts"});
    ask({"import", "t.sherds", "r.csv", "--as", "relations"});
  }
};

TEST_F(Stratigraphy, of_the_textbook_twenty_one_relations_say_what_twelve_say) {
  textbook();
  const Json found = ask({"stratigraphy", "t.sherds", "--svg", "t.svg"});
  EXPECT_EQ(found["recorded"], 21);
  EXPECT_EQ(found["edges"].size(), 12U);
  EXPECT_EQ(found["redundant"].size(), 9U);
  EXPECT_TRUE(found["loops"].empty());
  const std::string svg = read("t.svg");
  EXPECT_THAT(svg, HasSubstr("<svg"));
  EXPECT_EQ(svg.find("style="), std::string::npos);
  for (int n = 1; n <= 12; ++n) EXPECT_THAT(svg, HasSubstr("context=" + std::to_string(n) + "\"")) << n;
  ask({"stratigraphy", "t.sherds", "--svg", "again.svg"});
  EXPECT_EQ(read("again.svg"), svg) << "the same record, the same bytes";
}

TEST_F(Stratigraphy, a_loop_is_listed_and_drawn_and_dates_are_refused_with_its_members) {
  textbook();
  write("loop.csv", "later,earlier,kind\n11,7,cuts\n");
  ask({"import", "t.sherds", "loop.csv", "--as", "relations"});
  const Json found = ask({"stratigraphy", "t.sherds", "--svg", "t.svg"});
  ASSERT_EQ(found["loops"].size(), 1U);
  EXPECT_EQ(found["loops"][0]["look_at"].size(), found["loops"][0]["relations"].size());
  const Json dates = ask({"date", "t.sherds"}, 1);
  EXPECT_EQ(dates["errors"][0]["code"], "loop");
  EXPECT_THAT(dates["errors"][0]["message"].get<std::string>(), HasSubstr("11"));
}

TEST_F(Stratigraphy, what_cannot_stand_is_named_with_the_way_out) {
  textbook();
  write("odd.csv", "later,earlier,kind\n3,3,above\n1,4,same_as\n9,10,contemporary\n");
  ask({"import", "t.sherds", "odd.csv", "--as", "relations", "--keep-good"});
  write("same.csv", "later,earlier,kind\n5,1,same_as\n");
  ask({"import", "t.sherds", "same.csv", "--as", "relations"});
  const Json found = ask({"stratigraphy", "t.sherds"});
  std::set<std::string> codes;
  for (const Json& one : found["troubles"]) {
    codes.insert(one["code"]);
    EXPECT_FALSE(one["hint"].get<std::string>().empty()) << one;
  }
  EXPECT_TRUE(codes.contains("same_and_ordered")) << found["troubles"];
  EXPECT_EQ(found["contemporary"].size(), 1U);
  EXPECT_EQ(found["same"].size(), 1U);
}

TEST_F(Stratigraphy, contexts_that_are_the_same_are_merged_and_taken_apart_again) {
  textbook();
  write("same.csv", "later,earlier,kind\n9,10,same_as\n");
  ask({"import", "t.sherds", "same.csv", "--as", "relations"});
  EXPECT_EQ(ask({"stratigraphy", "t.sherds"})["same"].size(), 1U);
  std::string uid;
  const Json rows = ask({"rows", "t.sherds", "relations"});
  for (const Json& row : rows["rows"]) {
    if (row["values"].value("kind", "") == "same_as") uid = row["uid"];
  }
  ask({"edit", "t.sherds", "relations", uid, "decision=apart"});
  const Json apart = ask({"stratigraphy", "t.sherds"});
  EXPECT_TRUE(apart["same"].empty());
  EXPECT_EQ(apart["apart"].size(), 1U);
}

TEST_F(Stratigraphy, new_tables_are_shown_as_a_difference_before_they_are_applied) {
  make_small_store("x.sherds");
  write("r.csv", "later,earlier\n3,2\n5,3\n");
  write("s.csv", "record,context,fabric,count,weight_g\n1,2,green-1,3,30\n2,3,grey-1,2,12\n");
  ask({"import", "x.sherds", "r.csv", "--as", "relations"});
  ask({"import", "x.sherds", "s.csv", "--as", "sherds"});
  ask({"spot-dates", "x.sherds", "--issue", "--out", "dates.csv"});
  write("new.csv", "later,earlier\n2,3\n5,3\n");
  const Json shown = ask({"rephase", "x.sherds", "--relations", "new.csv"});
  EXPECT_EQ(shown["relations_added"].size(), 1U);
  EXPECT_EQ(shown["relations_gone"].size(), 1U);
  EXPECT_EQ(shown["relations_gone"][0]["later"], "3");
  std::map<std::string, Json> moved;
  for (const Json& one : shown["moved"]) moved[one["context"]] = one;
  ASSERT_TRUE(moved.contains("3")) << shown["moved"];
  EXPECT_EQ(moved["3"]["was"], 1250) << "carried from the context beneath";
  EXPECT_EQ(moved["3"]["now"], 120);
  ASSERT_EQ(shown["stale"].size(), 1U);
  EXPECT_EQ(shown["stale"][0]["name"], "spot-dates/1");
  EXPECT_TRUE(shown["change"].is_null());
  const Json before = ask({"rows", "x.sherds", "relations"});
  EXPECT_EQ(before["rows"].size(), 2U);

  const Json done = ask({"rephase", "x.sherds", "--relations", "new.csv", "--apply"});
  const Json edges = ask({"stratigraphy", "x.sherds"})["edges"];
  std::set<std::string> later;
  for (const Json& edge : edges)
    later.insert(edge["later"].get<std::string>() + ">" + edge["earlier"].get<std::string>());
  EXPECT_EQ(later, (std::set<std::string>{"2>3", "5>3"}));
  ask({"undo", "x.sherds", std::to_string(done["change"].get<int>())});
  EXPECT_EQ(ask({"rephase", "x.sherds", "--relations", "r.csv"})["relations_added"].size(), 0U);
  write("bad.csv", "later,earlier\n2,99\n");
  EXPECT_EQ(ask({"rephase", "x.sherds", "--relations", "bad.csv"})["problems"].size(), 1U);
  EXPECT_EQ(ask({"rephase", "x.sherds", "--relations", "bad.csv", "--apply"}, 1)["errors"][0]["code"], "rows_refused");
  EXPECT_EQ(ask({"rephase", "x.sherds"}, 2)["errors"][0]["code"], "no_tables");
}

std::map<std::string, std::pair<int, int>> truth_of(const std::string& csv) {
  std::map<std::string, std::pair<int, int>> out;
  std::istringstream in(csv);
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    const std::size_t first = line.find(',');
    const std::size_t second = line.find(',', first + 1);
    out[line.substr(0, first)] = {std::stoi(line.substr(first + 1)), std::stoi(line.substr(second + 1))};
  }
  return out;
}

class Sensitivity : public Bench {
 protected:
  void SetUp() override {
    ask({"new", "x.sherds", "--site", "X"});
    write("contexts.csv", "context,deposit\n1,dump\n2,make_up\n3,dump\n");
    write("fabrics.csv", "fabric,earliest,latest,reference\nold,1100,1200,test\nnew,1500,1600,test\n");
    write("sherds.csv", "record,context,fabric,count,vessels\na,1,old,9,5\nb,2,old,9,5\nc,3,new,9,5\n");
    write("relations.csv", "later,earlier,kind\n3,2,above\n2,1,above\n");
    for (const char* kind : {"contexts", "fabrics", "sherds", "relations"})
      ask({"import", "x.sherds", std::string(kind) + ".csv", "--as", kind});
  }
};

TEST_F(Sensitivity, counts_what_moves_by_more_than_the_years_asked_for_a_date_after_which_as_well) {
  const Json dates = ask({"date", "x.sherds"});
  EXPECT_TRUE(dates["contexts"][1]["completed"]["median"].is_null()) << dates["contexts"][1]["printed"];
  const Json answer = ask({"sensitivity", "x.sherds", "--years", "2"});
  EXPECT_EQ(answer["contexts"], 3) << "made-up ground is among them";
  ASSERT_EQ(answer["variations"].size(), 10U);
  std::map<std::string, int> listed;
  std::set<std::string> contexts;
  for (const Json& one : answer["moving"]) {
    contexts.insert(one["context"]);
    for (const Json& move : one["moves"]) {
      EXPECT_GT(std::abs(move["years"].get<int>()), 2) << one;
      ++listed[move["variation"]];
    }
  }
  EXPECT_TRUE(contexts.contains("2")) << answer["moving"];
  for (const Json& one : answer["variations"]) {
    EXPECT_EQ(one["moved"], listed[one["name"]]) << one;
    EXPECT_EQ(one["moved"] > 0, std::abs(one["most"].get<int>()) > 2) << one;
  }
  // Pots that last longer come into the ground later.
  for (const Json& one : answer["variations"]) {
    if (one["name"] == "use_life_double") {
      EXPECT_GT(one["most"], 0);
    }
  }
  EXPECT_TRUE(ask({"sensitivity", "x.sherds", "--years", "1000"})["moving"].empty());
}

class DatedDemo : public Bench {
 protected:
  void SetUp() override {
    if (made_.empty()) {
      ask({"demo", "d"});
      dated_ = ask({"date", "d/tanyard.sherds", "--keep"});
      made_ = folder_.string() + "-dated";
      std::filesystem::copy(folder_ / "d", made_, std::filesystem::copy_options::recursive);
    } else {
      std::filesystem::copy(made_, folder_ / "d", std::filesystem::copy_options::recursive);
    }
  }
  static void TearDownTestSuite() {
    std::error_code ignored;
    std::filesystem::remove_all(made_, ignored);
    made_.clear();
  }
  static Json context(const std::string& name) {
    for (const Json& one : dated_["contexts"]) {
      if (one["context"] == name) return one;
    }
    return {};
  }
  static bool holds(const Json& ranges, int year) {
    for (const Json& range : ranges) {
      if (range[0] <= year && year <= range[1]) return true;
    }
    return false;
  }

  static inline std::string made_;
  static inline Json dated_;
};

TEST_F(DatedDemo, a_soakaway_full_of_roman_pots_comes_out_victorian_and_bedding_after_what_it_lies_on) {
  EXPECT_TRUE(dated_["sampler"]["converged"].get<bool>());
  const Json soakaway = context("2004");
  EXPECT_GE(soakaway["completed"]["median"].get<int>(), 1830);
  EXPECT_LE(soakaway["completed"]["median"].get<int>(), 1930);
  EXPECT_TRUE(holds(soakaway["alone"]["range95"], 1871)) << soakaway["alone"];
  EXPECT_LE(soakaway["completed"]["range95"][0][0].get<int>(), 1880) << soakaway["completed"];
  EXPECT_GT(soakaway["residual"]["vessels"].get<double>(), 40) << "of 50 that are older";
  const Json bedding = context("1011");
  EXPECT_TRUE(bedding["completed"].is_null() || holds(bedding["completed"]["range95"], 1720)) << bedding["completed"];
}

TEST_F(DatedDemo, most_ranges_hold_the_year_that_the_site_was_made_with) {
  const auto truth = truth_of(read("d/truth.csv"));
  int dated = 0;
  int held = 0;
  std::string missed;
  for (const Json& one : dated_["contexts"]) {
    const auto at = truth.find(one["context"]);
    if (at == truth.end() || one["completed"].is_null() || one["completed"]["range95"].empty()) continue;
    ++dated;
    const bool good = holds(one["completed"]["range95"], at->second.second);
    held += good ? 1 : 0;
    if (!good) missed += " " + one["context"].get<std::string>() + " (" + one["printed"].get<std::string>() + ")";
  }
  EXPECT_GE(dated, 50);
  EXPECT_GE(held * 100, dated * 80) << held << " of " << dated << "; missed:" << missed;
}

TEST_F(DatedDemo, exchanged_bags_and_a_relation_turned_round_are_flagged) {
  const auto flagged = [&](const std::string& name) {
    const Json one = context(name);
    for (const Json& flag : one["date_flags"]) {
      for (const char* code : {"conflict", "before_own_terminus", "out_of_phase"}) {
        if (flag["code"] == code) return true;
      }
    }
    return false;
  };
  EXPECT_TRUE(flagged("1005") || flagged("1013")) << context("1005")["date_flags"] << context("1013")["date_flags"];
  EXPECT_TRUE(flagged("1028") || flagged("1035")) << context("1028")["date_flags"] << context("1035")["date_flags"];
}

TEST_F(DatedDemo, the_same_seed_gives_the_same_bytes_and_kept_dates_grow_stale_with_reasons) {
  const Answer first = run({"date", "d/tanyard.sherds", "--seed", "7", "--json"});
  EXPECT_EQ(run({"date", "d/tanyard.sherds", "--seed", "7", "--json"}).out, first.out);
  Json shown = ask({"date", "d/tanyard.sherds", "--context", "1013"});
  EXPECT_EQ(shown["kept"]["stale"], false) << shown["kept"];
  EXPECT_FALSE(shown["contexts"][0]["kept"]["printed"].get<std::string>().empty());
  const Json lines = ask({"lines", "d/tanyard.sherds", "--where", "context=1013"});
  ask({"edit", "d/tanyard.sherds", "sherds", lines["lines"][0]["record"], "count=99"});
  shown = ask({"date", "d/tanyard.sherds", "--context", "1013"});
  EXPECT_EQ(shown["kept"]["stale"], true);
  EXPECT_THAT(shown["kept"]["because"][0].get<std::string>(), HasSubstr("1 line changed since"));
  const Json diagram = ask({"stratigraphy", "d/tanyard.sherds", "--svg", "demo.svg"});
  EXPECT_EQ(diagram["dates"]["stale"], true);
  EXPECT_FALSE(diagram["warnings"].empty());
}

TEST_F(DatedDemo, kept_dates_that_had_not_converged_say_so_and_less_than_all_is_not_kept) {
  ask({"date", "d/tanyard.sherds", "--draws", "20", "--keep"});
  const Json kept = ask({"date", "d/tanyard.sherds", "--context", "1013"})["kept"];
  EXPECT_EQ(kept["stale"], true);
  EXPECT_EQ(kept["because"][0], "the draws had not converged when they were kept");
  for (const std::vector<std::string>& less : {std::vector<std::string>{"--only-spot"}, {"--context", "1013"}}) {
    std::vector<std::string> words{"date", "d/tanyard.sherds", "--keep"};
    words.insert(words.end(), less.begin(), less.end());
    EXPECT_EQ(ask(words, 2)["errors"][0]["code"], "not_for_this");
  }
}

TEST_F(DatedDemo, numbers_of_the_model_are_settings_and_wrong_ones_are_refused_by_name) {
  write("s.json", R"({"use_life": 40, "dump": {"none_own": 0.2}})");
  const Json other = ask({"date", "d/tanyard.sherds", "--settings", "s.json", "--brief"});
  EXPECT_EQ(other["provenance"]["settings"]["use_life"], "40");
  EXPECT_EQ(other["provenance"]["settings"]["dump.none_own"], "0.2");
  const auto refused = [&](const std::string& json, const std::string& words) {
    write("bad.json", json);
    const Json error = ask({"date", "d/tanyard.sherds", "--settings", "bad.json"}, 2)["errors"][0];
    EXPECT_EQ(error["code"], "bad_settings");
    EXPECT_EQ(error["message"], words);
  };
  const Json phases = ask({"date", "d/tanyard.sherds", "--limits", "phases", "--draws", "600", "--brief"})["phases"];
  EXPECT_FALSE(phases[0]["start"].is_null() && phases[1]["start"].is_null());
  refused("[]", "the settings are not a JSON object");
  refused(R"({"use_live": 20})", "the settings: use_live is not known");
  refused(R"({"kept_share": 2})", "the settings: kept_share is a share: 0 to 1");
  refused(R"({"use_life": 0})", "the settings: use_life should be above 0");
  refused(R"({"dump": {"residual_a": 0.5}})", "the settings: dump.residual_a should be 1 or more");
  refused(R"({"chains": "four"})", "the settings: chains should be a whole number");
  refused(R"({"chains": 100000})", "the settings: chains should be 64 or less");
  refused(R"({"margin": 9223372036854775807})", "the settings: margin should be 20000 or less");
  refused(R"({"dump": {"intrusive": 1}})",
          "the settings: dump.intrusive should be below 1: not all pottery is intrusive");
  EXPECT_EQ(ask({"date", "d/tanyard.sherds", "--window", "1900:1000"}, 2)["errors"][0]["code"], "bad_window");
  EXPECT_EQ(ask({"date", "d/tanyard.sherds", "--window", "soon"}, 2)["errors"][0]["code"], "bad_window");
  EXPECT_EQ(ask({"date", "d/tanyard.sherds", "--limits", "years"}, 2)["errors"][0]["code"], "unknown_word");
  EXPECT_EQ(ask({"date", "d/tanyard.sherds", "--pair", "1013>9999"}, 1)["errors"][0]["code"], "no_context");
  const Json pair = ask({"date", "d/tanyard.sherds", "--pair", "1004>1010", "--brief"})["pairs"][0];
  EXPECT_EQ(pair["probability"].get<double>(), 1) << "one lies above the other";
}

}  // namespace
}  // namespace sherd::tests
