#include "reference/evidence.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <set>
#include <string>

#include "base/text.h"
#include "reference/evidence_words.h"
#include "reference/tables.h"

namespace sherd::reference {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::string kHeader =
    "ware,fabric,form,decoration,technique,edge,body,firing,mark,legend,lattice_angle,bore,print_colour,region,"
    "earliest,latest,full_from,full_to,nature,basis,reference,known,quality,look_alikes,notes,status\n";

/// A row of ware x with these years, nature and reference.
std::string row(const std::string& years, const std::string& nature = "span", const std::string& reference = "a book") {
  return "x,,,,,,,,,,,,,," + years + "," + nature + ",made," + reference + ",read,A,,,\n";
}

Result<std::vector<DatedRow>> read(const std::string& rows) { return evidence_from(*parse_csv(kHeader + rows)); }

std::string trouble(const std::string& rows) {
  const auto done = read(rows);
  return done ? "none" : done.error().message;
}

/// The shipped rows that ask for exactly these keys.
std::vector<Evidence> shipped(const Evidence& wanted) {
  const auto keys = [](const Evidence& e) {
    return std::tie(e.ware, e.fabric, e.form, e.decoration, e.technique, e.edge, e.body, e.firing, e.mark, e.legend,
                    e.lattice_angle, e.bore, e.print_colour, e.region);
  };
  std::vector<Evidence> out;
  for (const DatedRow& each : evidence_rows()) {
    if (keys(each.evidence) == keys(wanted)) out.push_back(each.evidence);
  }
  return out;
}

std::vector<std::string> ranges(const Evidence& wanted) {
  std::vector<std::string> out;
  for (const Evidence& each : shipped(wanted)) out.push_back(range_text({each.earliest, each.latest}));
  return out;
}

TEST(EvidenceTable, years_are_historical_and_blanks_are_open) {
  const auto rows = read(row("-50,70,,") + row(",,,", "usual", "another book"));
  ASSERT_TRUE(rows) << rows.error().message;
  const Evidence& first = rows->front().evidence;
  EXPECT_EQ(first.earliest, Year{-49});
  EXPECT_EQ(first.latest, Year{70});
  EXPECT_EQ(first.full_from, std::nullopt);
  EXPECT_EQ(first.nature, Nature::span);
  EXPECT_EQ(first.known, Known::read);
  EXPECT_FALSE(rows->front().of_store);
  EXPECT_EQ(rows->back().evidence.earliest, std::nullopt);
  EXPECT_EQ(rows->back().evidence.nature, Nature::usual);
}

TEST(EvidenceTable, a_bad_row_is_told_by_place_and_reason) {
  EXPECT_EQ(trouble(row("1,x,,")), "row 2, column latest: \"x\" is no whole number");
  EXPECT_EQ(trouble(row("0,5,,")), "row 2, column earliest: \"0\" is no year: 1 BC is -1");
  EXPECT_EQ(trouble(row("1,5,,", "hard")), "row 2, column nature: \"hard\" is not in the list");
  EXPECT_EQ(trouble(row("5,1,,")), "row 2, column ware: \"x\" ends before it starts");
  EXPECT_EQ(trouble(row("5,9,1,")), "row 2, column ware: \"x\" ends before it starts");
  EXPECT_EQ(trouble(row("5,9,,12")), "row 2, column ware: \"x\" ends before it starts");
  EXPECT_EQ(trouble(row("5,9,,", "span", "")), "row 2, column ware: \"x\" has no reference");
  EXPECT_EQ(trouble(row("1,5,,") + row("2,6,,")), "row 3, column ware: \"x\" stands twice with the same reference");
  EXPECT_EQ(trouble(",,,,,,,,,,,,,kent,1,5,,,span,made,a book,read,A,,,\n"),
            "row 2, column ware: \"\" names nothing that could be seen on a piece");
  EXPECT_EQ(trouble(row("1,5,,") + row("2,6,,", "span", "another book")), "none");
}

TEST(EvidenceTable, values_are_plain_words_in_lower_case) {
  for (const DatedRow& each : evidence_rows()) {
    const Evidence& e = each.evidence;
    for (const std::string* value :
         {&e.ware, &e.form, &e.decoration, &e.technique, &e.edge, &e.body, &e.mark, &e.print_colour, &e.region}) {
      EXPECT_EQ(*value, lower(*value));
      EXPECT_EQ(*value, std::string(trim(*value)));
      EXPECT_THAT(*value, Not(HasSubstr("("))) << "a code or a remark in a name";
    }
  }
}

TEST(EvidenceTable, a_row_from_memory_says_so_in_three_places) {
  std::size_t from_memory = 0;
  for (const DatedRow& each : evidence_rows()) {
    const Evidence& e = each.evidence;
    ASSERT_TRUE(e.known) << e.reference;
    EXPECT_EQ(e.known == Known::memory, e.quality == "M") << e.reference;
    EXPECT_THAT((std::set<std::string>{"A", "B", "C", "M"}), testing::Contains(e.quality));
    if (e.known == Known::memory && e.mark.empty()) {
      EXPECT_TRUE(e.reference.ends_with("from memory") || e.reference.ends_with("no source") ||
                  e.reference.starts_with("from memory") || e.reference.find(", from memory, ") != std::string::npos)
          << e.reference;
    }
    if (e.known == Known::memory) {
      ++from_memory;
    }
    if (!e.look_alikes.empty()) {
      EXPECT_THAT(e.notes, HasSubstr("common practice, no source"));
    }
  }
  EXPECT_GT(from_memory, 50U);
}

TEST(EvidenceTable, a_row_without_years_says_why_in_its_notes) {
  for (const DatedRow& each : evidence_rows()) {
    const Evidence& e = each.evidence;
    if (!e.earliest && !e.latest) {
      EXPECT_GT(e.notes.size(), 20U) << e.reference;
    }
  }
}

// As printed by Hunter & Miller 1994 and the pages of Diagnostic Artifacts in Maryland that cite them.
TEST(ShippedRows, edges) {
  EXPECT_THAT(ranges({.edge = "rococo shell edge"}), ElementsAre("1775-1810"));
  EXPECT_THAT(ranges({.edge = "unmoulded shell edge"}), ElementsAre("1860-1899"));
  EXPECT_THAT(ranges({.edge = "shell edge", .region = "north america"}), ElementsAre("1790-1860"));
}

// Florida Museum's type of transfer-printed ware, after Samford 1997.
TEST(ShippedRows, colours_of_prints) {
  const auto colour = [](const char* name) { return ranges({.technique = "transfer print", .print_colour = name}); };
  EXPECT_THAT(colour("blue"), ElementsAre("1784-1840"));
  EXPECT_THAT(colour("brown"), ElementsAre("1809 or later"));
  EXPECT_THAT(colour("dark blue"), ElementsAre("1818-1830"));
  for (const char* name : {"red", "green", "purple"}) EXPECT_THAT(colour(name), ElementsAre("1829 or later"));
  EXPECT_THAT(ranges({.technique = "stipple engraving"}), ElementsAre("1807 or later"));
}

// Willis 2005, Internet Archaeology 17, section 5.3.2.5; the others are from memory.
TEST(ShippedRows, samian_platters_and_dishes) {
  EXPECT_THAT(ranges({.ware = "samian", .form = "drag. 18/31"}), ElementsAre("100-150"));
  EXPECT_THAT(ranges({.ware = "samian", .form = "drag. 18/31r"}), ElementsAre("100-160"));
  EXPECT_THAT(ranges({.ware = "samian", .form = "drag. 31"}), ElementsAre("150-200"));
  EXPECT_THAT(ranges({.ware = "samian", .form = "drag. 31r"}), ElementsAre("160-200"));
}

TEST(ShippedRows, sources_that_disagree_stand_side_by_side) {
  // Shaw 1829: 214 and Miller & Hunter 2001 on printing under the glaze; the rule of Samford 1997 has no years.
  EXPECT_THAT(ranges({.technique = "transfer print"}), ElementsAre("1783 or later", "1784 or later", "undated"));
  // P. Tucker 2011; Barker & Halfpenny 1990 as cited in 2020.
  EXPECT_THAT(ranges({.ware = "jackfield-type ware"}), ElementsAre("1745-1790", "1740-1790"));
  // Noel Hume 1970 and 2001 on the dipped kind.
  EXPECT_THAT(ranges({.ware = "white salt-glazed stoneware", .technique = "white slip dip"}),
              ElementsAre("1715 or later", "1694 or later"));
}

// Edwards & Hampson 2005: c. 1685-1785, most popular c. 1720-1770.
TEST(ShippedRows, the_popular_years_of_the_same_source_are_those_of_full_production) {
  const auto rows = shipped({.ware = "white salt-glazed stoneware"});
  ASSERT_FALSE(rows.empty());
  EXPECT_EQ(rows.front().earliest, Year{1685});
  EXPECT_EQ(rows.front().full_from, Year{1720});
  EXPECT_EQ(rows.front().full_to, Year{1770});
  EXPECT_EQ(rows.front().latest, Year{1785});
}

TEST(ShippedRows, the_angle_of_the_lattice_is_from_memory_and_says_so) {
  for (const char* angle : {"<80", "80-100", ">100"}) {
    const auto rows = shipped({.lattice_angle = angle});
    ASSERT_EQ(rows.size(), 1U) << angle;
    EXPECT_EQ(rows.front().known, Known::memory);
  }
}

TEST(ShippedRows, no_mark_has_no_years) {
  const auto rows = shipped({.mark = "none"});
  ASSERT_FALSE(rows.empty());
  for (const Evidence& each : rows) {
    EXPECT_EQ(each.earliest, std::nullopt);
    EXPECT_EQ(each.latest, std::nullopt);
  }
  EXPECT_THAT(rows.front().notes, HasSubstr("does not make a piece early"));
}

MarkRule rule(std::string mark, RuleRole role, std::optional<int> earliest, std::optional<int> latest,
              std::string source, MarkDates dates = MarkDates::vessel) {
  return {std::move(mark), role, "a reading", earliest, latest, dates, Nature::limit, {std::move(source), {}, ""}};
}

TEST(MarksAsEvidence, two_first_years_of_one_source_are_one_row) {
  const auto rows = evidence_of_marks({.rules = {rule("limited", RuleRole::main, 1860, {}, "page"),
                                                 rule("limited", RuleRole::variant, 1885, {}, "page"),
                                                 rule("limited", RuleRole::variant, 1855, {}, "act")}});
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].evidence.mark, "limited");
  EXPECT_EQ(rows[0].evidence.earliest, Year{1860});
  EXPECT_EQ(rows[0].evidence.full_from, Year{1885});
  EXPECT_EQ(rows[1].evidence.earliest, Year{1855});
  EXPECT_EQ(rows[1].evidence.full_from, std::nullopt);
}

TEST(MarksAsEvidence, a_stamp_says_only_that_the_vessel_is_no_later) {
  const auto rows =
      evidence_of_marks({.rules = {rule("uniform_vr", RuleRole::main, 1879, 1901, "page", MarkDates::stamp)}});
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0].evidence.mark, "uniform vr");
  EXPECT_EQ(rows[0].evidence.earliest, std::nullopt);
  EXPECT_EQ(rows[0].evidence.latest, Year{1901});
}

TEST(MarksAsEvidence, an_exception_is_told_in_the_notes_and_widens_nothing) {
  const auto rows = evidence_of_marks({.rules = {rule("cipher_er", RuleRole::main, 1901, 1910, "memory"),
                                                 rule("cipher_er", RuleRole::exception, 1952, 2022, "memory")}});
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows[0].evidence.latest, Year{1910});
  EXPECT_THAT(rows[0].evidence.notes, HasSubstr("exception: a reading, 1952-2022 (memory)"));
}

// Historic Deerfield HD 94.016.4, after J. Horne: WR stayed the official cipher until 1825.
TEST(MarksAsEvidence, the_cipher_that_outlived_its_king) {
  const auto rows = shipped({.mark = "cipher wr"});
  ASSERT_FALSE(rows.empty());
  EXPECT_EQ(rows.front().earliest, Year{1700});
  EXPECT_EQ(rows.front().latest, Year{1825});
  EXPECT_THAT(rows.front().notes, HasSubstr("WR does not mean William III"));
}

TEST(MarksAsEvidence, every_rule_of_a_vessel_or_design_is_among_the_rows) {
  for (const MarkRule& each : marks().rules) {
    const auto rows = shipped({.mark = mark_value(each.mark)});
    EXPECT_THAT(rows, Not(IsEmpty())) << each.mark;
    if (each.role == RuleRole::exception || each.dates == MarkDates::stamp || !each.earliest) {
      continue;
    }
    EXPECT_TRUE(std::ranges::any_of(rows,
                                    [&](const Evidence& e) {
                                      return e.earliest == from_historical(*each.earliest) ||
                                             e.full_from == from_historical(*each.earliest);
                                    }))
        << each.mark << " " << *each.earliest;
  }
}

TEST(EvidenceWordsTest, spellings_fold_to_the_same_text) {
  EXPECT_EQ(folded(" Cream-Coloured  Ware "), "cream coloured ware");
  EXPECT_EQ(folded("cream colored ware"), "cream coloured ware");
  EXPECT_EQ(folded("Drag. 18/31R"), "drag 18/31r");
  EXPECT_EQ(folded("cat's eye"), "cats eye");
  EXPECT_EQ(folded("Powell&Bishop"), "powell and bishop");
  EXPECT_EQ(folded("gray moldings"), "grey mouldings");
  EXPECT_EQ(folded("-"), "");
}

TEST(EvidenceWordsTest, another_name_leads_to_the_tables_name_under_its_key_only) {
  EXPECT_EQ(evidence_words().meant("ware", "Cream-coloured ware"), "creamware");
  EXPECT_EQ(evidence_words().meant("ware", "BB1"), "black-burnished ware 1");
  EXPECT_EQ(evidence_words().meant("form", "bb1"), std::nullopt);
  EXPECT_EQ(evidence_words().meant("mark", "GvR"), "cipher gvr");
  EXPECT_EQ(evidence_words().meant("ware", "creamware"), std::nullopt);
}

TEST(EvidenceWordsTest, a_kind_of_something_leads_upwards_over_all_steps) {
  EXPECT_THAT(evidence_words().broader("edge", "even scalloped shell edge, curved lines"),
              ElementsAre("even scalloped shell edge", "shell edge"));
  EXPECT_THAT(evidence_words().broader("edge", "unscalloped shell edge, unmoulded"),
              ElementsAre("unscalloped shell edge", "unmoulded shell edge", "shell edge"));
  EXPECT_THAT(evidence_words().broader("ware", "samian"), IsEmpty());
}

TEST(EvidenceWordsTest, a_circle_of_kinds_ends) {
  const EvidenceWords circle({{"ware", "a", "b", true}, {"ware", "b", "a", true}});
  EXPECT_THAT(circle.broader("ware", "a"), ElementsAre("b"));
}

TEST(EvidenceWordsTest, a_bad_row_is_told_by_place_and_reason) {
  const auto trouble_of = [](const std::string& cells) {
    const auto done = evidence_words_from(*parse_csv("key,said,relation,meant\n" + cells + "\n"));
    return done ? "none" : done.error().message;
  };
  EXPECT_EQ(trouble_of("ware,a,like,b"), "row 2, column relation: \"like\" is neither \"same\" nor \"kind of\"");
  EXPECT_EQ(trouble_of("ware,,same,b"), "row 2, column said: \"\" is blank");
  EXPECT_EQ(trouble_of("ware,a,same,b"), "none");
}

TEST(EvidenceWordsTest, what_is_meant_stands_in_the_rows_and_is_said_once) {
  std::set<std::pair<std::string, std::string>> values;
  for (const DatedRow& each : evidence_rows()) {
    const Evidence& e = each.evidence;
    for (const auto& [key, value] : {std::pair<std::string, std::string>{"ware", e.ware},
                                     {"form", e.form},
                                     {"decoration", e.decoration},
                                     {"technique", e.technique},
                                     {"edge", e.edge},
                                     {"body", e.body},
                                     {"mark", e.mark},
                                     {"print_colour", e.print_colour},
                                     {"region", e.region}})
      values.emplace(key, value);
  }
  std::set<std::pair<std::string, std::string>> said;
  for (const EvidenceWord& each : evidence_words().all()) {
    if (each.key == "lattice_angle") continue;
    if (each.kind_of) values.emplace(each.key, each.said);
  }
  for (const EvidenceWord& each : evidence_words().all()) {
    if (each.key == "lattice_angle" || each.kind_of) {
      continue;
    }
    EXPECT_TRUE(values.contains({each.key, each.meant})) << each.key << " " << each.meant;
    EXPECT_FALSE(values.contains({each.key, each.said})) << each.key << " " << each.said;
    if (each.key != "mark") {
      EXPECT_TRUE(said.emplace(each.key, folded(each.said)).second) << each.said;
    }
  }
}

}  // namespace
}  // namespace sherd::reference
