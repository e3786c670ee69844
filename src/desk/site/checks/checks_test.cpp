#include <gmock/gmock.h>

#include <fstream>
#include <map>
#include <set>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/site/check_record.h"
#include "desk/site/checks/planted_record.h"
#include "model/rows.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

/// Code and severity of every row of the table in docs/methods/checks.md.
std::map<std::string, std::string> documented() {
  std::ifstream page(std::string(SHERD_SOURCE_DIR) + "/docs/methods/checks.md");
  std::map<std::string, std::string> rows;
  for (std::string line; std::getline(page, line);) {
    if (!line.starts_with("| `")) continue;
    const auto cells = split(line, '|');
    const std::string code = replace_all(std::string(trim(cells[1])), "`", "");
    rows[code] = trim(cells[2]);
  }
  return rows;
}

TEST(Checks, the_page_lists_every_check_with_its_severity_and_no_other) {
  std::map<std::string, std::string> known;
  for (const Check& check : every_check()) known[std::string(check.code)] = word(check.severity);
  EXPECT_EQ(known.size(), every_check().size()) << "no code twice";
  EXPECT_EQ(documented(), known);
}

TEST(Checks, an_empty_record_and_a_sound_one_set_nothing_off) {
  PlantedRecord planted;
  for (const Check& check : every_check()) EXPECT_EQ(planted.told(check.code), Told{}) << check.code;
  planted.context("1");
  planted.record.fabrics = {{.fabric = "grey-1", .earliest = Year{120}, .latest = Year{250}}};
  RecordLine& line = planted.line(3);
  line.weight = grams(30);
  line.part = "rim";
  line.rim_percent = percent(12);
  line.rim_diameter = mm(140);
  for (const Check& check : every_check()) EXPECT_EQ(planted.told(check.code), Told{}) << check.code;
}

/// A record with many faults, put into a store.
class WholeRecord : public ::testing::Test {
 protected:
  void SetUp() override {
    PlantedRecord planted;
    planted.context("1");
    planted.context("2").deposit = Deposit::cut;
    planted.record.fabrics = {{.fabric = "grey-1"}};
    planted.line(2).vessels = 3;
    planted.line(2, "2").rim_percent = percent(0.5);
    planted.record.lines.back().checked_by.clear();
    const auto writing = must(desk_.store().begin({"uid-1", "recorder", "2026-03-02T09:00:00Z", "test", "fill"}));
    must(writing->put_site(planted.site));
    must(writing->insert("SAL26", table_from(Kind::contexts, planted.record.contexts)));
    must(writing->insert("SAL26", table_from(Kind::fabrics, planted.record.fabrics)));
    must(writing->insert("SAL26", table_from(Kind::sherds, planted.record.lines)));
    must(writing->commit());
  }

  TestDesk desk_{store::in_memory()};
};

TEST_F(WholeRecord, findings_come_errors_first_with_their_numbers_and_the_answer_is_not_ok) {
  const auto answer = must(check_record({.store = "x.sherds", .site = {}}, desk_.environment, desk_.progress));
  std::vector<std::string> codes;
  for (const Finding& finding : answer.findings) codes.push_back(finding.code);
  EXPECT_THAT(codes, testing::ElementsAre("more_vessels_than_sherds", "pottery_in_cut", "percent_as_fraction",
                                          "lines_to_check", "fabrics_undated"));
  EXPECT_EQ(answer.error_count, 2);
  EXPECT_EQ(answer.warning_count, 1);
  EXPECT_EQ(answer.note_count, 2);
  EXPECT_FALSE(answer.ok());
  ASSERT_EQ(answer.errors.size(), 1U);
  EXPECT_EQ(answer.errors[0].message, "the record has 2 errors");
  EXPECT_EQ(answer.provenance.inputs, std::vector<std::string>{"SAL26@uid-1"});
  for (const Finding& finding : answer.findings) EXPECT_NE(finding.hint, "") << finding.code << " has no way out";
}

TEST_F(WholeRecord, a_site_that_is_not_there_is_an_error_with_the_nearest) {
  const auto answer = check_record({.store = "x.sherds", .site = "SAL62"}, desk_.environment, desk_.progress);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().code, "no_site");
  EXPECT_EQ(answer.error().hint, "did you mean \"SAL26\"?");
}

TEST_F(WholeRecord, work_that_is_stopped_says_so) {
  class Stop final : public Progress {
    bool step(double, std::string_view) override { return false; }
  } stop;
  const auto answer = check_record({.store = "x.sherds", .site = {}}, desk_.environment, stop);
  ASSERT_FALSE(answer);
  EXPECT_EQ(answer.error().kind, ErrorKind::stopped);
}

}  // namespace
}  // namespace sherd::desk
