#include "desk/series/known_evidence.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "desk/frame/testing.h"
#include "reference/evidence.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

DatedRow shipped_row(Evidence evidence) { return {.evidence = std::move(evidence), .of_store = false, .change = {}}; }

Evidence ware(std::string name, std::int64_t earliest, std::int64_t latest, std::string reference) {
  Evidence row;
  row.ware = std::move(name);
  row.earliest = Year{earliest};
  row.latest = Year{latest};
  row.reference = std::move(reference);
  return row;
}

const std::vector<DatedRow>& two_rows() {
  static const std::vector<DatedRow> kRows{shipped_row(ware("creamware", 1762, 1820, "a book")),
                                           shipped_row(ware("creamware", 1760, 1830, "a list"))};
  return kRows;
}

KnownEvidence all_shipped() { return KnownEvidence(reference::evidence_rows(), {}); }

/// "creamware 1762-1820 a book" of each row, a store's own with a plus.
std::vector<std::string> told(const std::vector<DatedRow>& rows) {
  std::vector<std::string> out;
  for (const DatedRow& row : rows) {
    const Evidence& e = row.evidence;
    std::string text = row.of_store ? "+" : "";
    for (const std::string* key : {&e.ware, &e.fabric, &e.form, &e.decoration}) text += key->empty() ? "" : *key + " ";
    out.push_back(text + range_text({e.earliest, e.latest}) + " " + e.reference);
  }
  return out;
}

TEST(KnownEvidenceTest, a_store_row_with_the_same_keys_and_reference_takes_the_place_of_the_shipped_one) {
  const KnownEvidence known(two_rows(), {.evidence = {ware("creamware", 1765, 1825, "a book")}});
  EXPECT_THAT(told(known.rows()), ElementsAre("+creamware 1765-1825 a book", "creamware 1760-1830 a list"));
  EXPECT_EQ(known.replaced(), 1U);
}

TEST(KnownEvidenceTest, another_reference_stands_beside) {
  const KnownEvidence known(two_rows(), {.evidence = {ware("creamware", 1765, 1825, "my own finds")}});
  EXPECT_THAT(told(known.rows()), ElementsAre("creamware 1762-1820 a book", "creamware 1760-1830 a list",
                                              "+creamware 1765-1825 my own finds"));
  EXPECT_EQ(known.replaced(), 0U);
}

TEST(KnownEvidenceTest, another_spelling_of_the_keys_is_the_same_row) {
  const KnownEvidence known(two_rows(), {.evidence = {ware("Cream-coloured ware", 1765, 1825, "a book ")}});
  EXPECT_THAT(told(known.rows()), ElementsAre("+creamware 1765-1825 a book ", "creamware 1760-1830 a list"));
}

TEST(KnownEvidenceTest, a_retired_row_hides_the_shipped_one_and_itself) {
  Evidence gone = ware("creamware", 1762, 1820, "a book");
  gone.status = "retired";
  const KnownEvidence known(two_rows(), {.evidence = {gone}});
  EXPECT_THAT(told(known.rows()), ElementsAre("creamware 1760-1830 a list"));
  EXPECT_THAT(told(known.retired()), ElementsAre("+creamware 1762-1820 a book", "creamware 1762-1820 a book"));
  EXPECT_EQ(known.replaced(), 0U);
}

TEST(KnownEvidenceTest, dates_and_own_ranges_become_rows_and_a_date_row_goes_before_an_own_range) {
  StoreEvidence own;
  own.fabrics = {{.fabric = "grey-1", .earliest = Year{120}, .latest = Year{400}},
                 {.fabric = "grey-2", .earliest = Year{50}, .latest = {}, .reference = "kiln report"},
                 {.fabric = "grey-3"},
                 {.fabric = "grey-4", .earliest = Year{1}, .latest = Year{2}, .status = "retired"}};
  own.forms = {{.form = "jar", .earliest = Year{100}, .latest = Year{300}}};
  own.dates = {{.fabric = "grey-1", .earliest = Year{150}, .latest = Year{250}, .reference = "r"},
               {.fabric = "grey-2", .form = "jar", .earliest = Year{70}, .latest = Year{90}, .reference = "r"}};
  const KnownEvidence known({}, own);
  EXPECT_THAT(told(known.rows()), ElementsAre("+grey-1 150-250 r", "+grey-2 jar 70-90 r",
                                              "+grey-2 50 or later kiln report", "+jar 100-300 the form's own range"));
  EXPECT_EQ(known.origin(known.rows()[0])->kind, Kind::dates);
  EXPECT_EQ(known.origin(known.rows()[2])->kind, Kind::fabrics);
  EXPECT_EQ(known.origin(known.rows()[2])->index, 1U);
  EXPECT_EQ(known.origin(known.rows()[3])->kind, Kind::forms);
  EXPECT_EQ(known.rows()[0].evidence.nature, Nature::span);
}

TEST(KnownEvidenceTest, a_variant_is_a_kind_of_its_parent_and_a_circle_ends) {
  StoreEvidence own;
  own.fabrics = {{.fabric = "a", .variant_of = "b"},
                 {.fabric = "b", .variant_of = "c"},
                 {.fabric = "c"},
                 {.fabric = "x", .variant_of = "y"},
                 {.fabric = "y", .variant_of = "x"}};
  const KnownEvidence known({}, own);
  EXPECT_THAT(known.broader("fabric", "a"), ElementsAre("b", "c"));
  EXPECT_THAT(known.broader("fabric", "x"), ElementsAre("y"));
  EXPECT_THAT(known.broader("fabric", "c"), IsEmpty());
  EXPECT_THAT(known.broader("ware", "frechen stoneware"), ElementsAre("rhenish stoneware"));
}

struct Typed {
  std::string key, text, as_key, value;
};

TEST(Normalise, what_is_typed_is_read_as_the_rows_write_it) {
  const KnownEvidence known = all_shipped();
  for (const Typed& each : std::vector<Typed>{
           {"ware", "creamware", "ware", "creamware"},
           {"ware", " Creamwares ", "ware", "creamware"},
           {"ware", "cream-colored ware", "ware", "creamware"},
           {"ware", "Stamford", "ware", "stamford ware"},
           {"ware", "Thetford-type ware", "ware", "thetford ware"},
           {"ware", "White Salt-Glazed Stoneware", "ware", "white salt-glazed stoneware"},
           {"ware", "south gaulish samian", "ware", "south gaulish samian"},
           {"fabric", "BB1", "ware", "black-burnished ware 1"},
           {"ware", "bone china", "body", "bone china"},
           {"form", "Dragendorff 18/31R", "form", "drag. 18/31r"},
           {"form", "Dr 20", "form", "dressel 20"},
           {"form", "Drag 36", "form", "drag. 35/36"},
           {"decoration", "mocha", "technique", "dendritic"},
           {"decoration", "shell edge", "edge", "shell edge"},
           {"technique", "Flow Blue", "decoration", "flow blue"},
           {"edge", "feather", "edge", "feather edge"},
           {"print_colour", "navy", "print_colour", "dark blue"},
           {"mark", "unmarked", "mark", "none"},
           {"mark", "G VI R", "mark", "G VI R"},
           {"mark", "Nippon", "mark", "nippon"},
           {"legend", "W?DGW*", "legend", "W?DGW*"},
           {"region", "Kent", "region", "Kent"},
           {"region", "USA", "region", "united states"},
           {"firing", "outside oxidised, core dark", "firing", "outside oxidised, core dark"},
           {"lattice_angle", "obtuse", "lattice_angle", "120"},
           {"lattice_angle", "75\u00B0", "lattice_angle", "75"},
           {"lattice_angle", "75 degrees", "lattice_angle", "75"},
           {"bore", "6/64", "bore", "6"},
           {"bore", "6/64 in", "bore", "6"},
           {"bore", "6.5", "bore", "6.5"},
       }) {
    const auto seen = known.normalise(each.key, each.text);
    ASSERT_TRUE(seen) << each.key << "=" << each.text << ": " << seen.error().message;
    EXPECT_EQ(seen->key, each.as_key) << each.text;
    EXPECT_EQ(seen->value, each.value) << each.text;
  }
}

TEST(Normalise, what_was_taken_otherwise_is_told) {
  const KnownEvidence known = all_shipped();
  EXPECT_EQ(known.normalise("ware", "CREAMWARE")->note, "");
  EXPECT_EQ(known.normalise("ware", "queensware")->note, "\"queensware\" is taken as creamware");
  EXPECT_EQ(known.normalise("fabric", "BB1")->note, "\"BB1\" is taken as ware=black-burnished ware 1");
  EXPECT_EQ(known.normalise("lattice_angle", "acute")->note, "taken as 60");
}

TEST(Normalise, a_mark_that_no_row_has_is_left_to_be_read) {
  const KnownEvidence known = all_shipped();
  EXPECT_FALSE(known.normalise("mark", "Rd 821265")->known);
  EXPECT_TRUE(known.normalise("mark", "made in England")->known);
  EXPECT_FALSE(known.normalise("region", "Kent")->known);
}

TEST(Normalise, what_cannot_be_read_is_an_error_with_a_way_out) {
  const KnownEvidence known = all_shipped();
  const Error typo = known.normalise("ware", "cremware").error();
  EXPECT_EQ(typo.code, "unknown_value");
  EXPECT_EQ(typo.message, "no ware \"cremware\" is known");
  EXPECT_EQ(typo.hint, "did you mean \"creamware\"? \"sherdwright evidence --values ware\" lists them all");
  EXPECT_THAT(known.normalise("ware", "mortaria").error().hint, HasSubstr("known are lower nene valley mortaria, "));
  EXPECT_EQ(known.normalise("body", "qqqq").error().hint, "\"sherdwright evidence --values body\" lists them all");
  EXPECT_EQ(known.normalise("print_colour", "qqqq").error().message, "no print colour \"qqqq\" is known");

  const Error key = known.normalise("tecnique", "sponging").error();
  EXPECT_EQ(key.kind, ErrorKind::usage);
  EXPECT_EQ(key.code, "unknown_key");
  EXPECT_EQ(key.hint, "did you mean \"technique\"?");
  EXPECT_THAT(known.normalise("weight", "3").error().hint, HasSubstr("known are ware, fabric, form, "));

  EXPECT_EQ(known.normalise("ware", "  ").error().code, "blank_value");
  EXPECT_EQ(known.normalise("bore", "wide").error().code, "not_a_number");
  EXPECT_EQ(known.normalise("lattice_angle", "steep").error().message, "\"steep\" is no angle");
}

TEST(Normalise, a_stores_own_fabrics_and_forms_are_known_as_they_are_written) {
  StoreEvidence own;
  own.fabrics = {{.fabric = "Grey-1"}};
  own.forms = {{.form = "jar 3"}};
  const KnownEvidence known(reference::evidence_rows(), own);
  EXPECT_EQ(known.normalise("fabric", "grey 1")->value, "Grey-1");
  EXPECT_EQ(known.normalise("form", "Jar-3")->value, "jar 3");
  EXPECT_THAT(known.values("fabric"), ElementsAre("Grey-1"));
}

TEST(Values, are_sorted_and_hold_names_that_are_kinds_only) {
  const KnownEvidence known = all_shipped();
  const std::vector<std::string> wares = known.values("ware");
  EXPECT_TRUE(std::ranges::is_sorted(wares));
  EXPECT_THAT(wares, Contains("south gaulish samian"));
  EXPECT_THAT(wares, Not(Contains("queensware")));
  EXPECT_THAT(known.values("weight"), IsEmpty());
}

/// Every value of the shipped rows means itself.
TEST(Values, each_is_read_as_itself) {
  const KnownEvidence known = all_shipped();
  for (const std::string& key : evidence_keys()) {
    if (key == "lattice_angle" || key == "bore") continue;
    for (const std::string& value : known.values(key)) {
      const auto seen = known.normalise(key, value);
      ASSERT_TRUE(seen) << key << "=" << value;
      EXPECT_EQ(seen->key, key);
      EXPECT_EQ(seen->value, value);
      EXPECT_EQ(seen->note, "");
    }
  }
}

}  // namespace
}  // namespace sherd::desk
