#include "desk/series/date_object.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "desk/frame/json.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class DateObject : public ImportBench {
 protected:
  DateObject() : ImportBench(store::in_memory()) {}

  Result<WhenResponse> ask(WhenRequest request) { return date_object(request, desk_.environment, desk_.progress); }
  WhenResponse when(std::vector<std::string> seen, const std::string& store = {}) {
    return must(ask({.seen = std::move(seen), .in = store}));
  }
  static std::string years(const WhenResponse& date) { return range_text({date.earliest, date.latest}); }
};

// Florida Museum type page after Samford 1997: transfer-printed pearlware 1784-1840, brown prints from 1809.
TEST_F(DateObject, needs_no_store_and_knows_the_names_that_people_use) {
  const WhenResponse date = when({"ware=Pearl White", "technique=transfer printed", "print_colour=brown"});
  EXPECT_EQ(years(date), "1809-1840");
  EXPECT_THAT(date.seen, ElementsAre("ware=pearlware", "technique=transfer print", "print_colour=brown"));
  EXPECT_THAT(date.provenance.inputs, IsEmpty());
  EXPECT_EQ(date.provenance.settings.at("shoulders"), "10");
  EXPECT_FALSE(date.file);
}

TEST_F(DateObject, the_same_observation_twice_is_one) {
  EXPECT_EQ(when({"ware=creamware", "ware=Creamware"}).seen.size(), 1U);
}

TEST_F(DateObject, what_is_no_observation_is_refused_with_the_way_out) {
  EXPECT_EQ(code_of(ask({})), "nothing_seen");
  EXPECT_EQ(code_of(ask({.seen = {"creamware"}})), "bad_observation");
  const auto key = ask({.seen = {"wares=creamware"}});
  ASSERT_FALSE(key);
  EXPECT_EQ(key.error().code, "unknown_key");
  EXPECT_EQ(key.error().kind, ErrorKind::usage);
  EXPECT_THAT(key.error().hint, HasSubstr("did you mean \"ware\"?"));
  const auto value = ask({.seen = {"ware=creamwear"}});
  ASSERT_FALSE(value);
  EXPECT_EQ(value.error().code, "unknown_value");
  EXPECT_THAT(value.error().hint, HasSubstr("did you mean \"creamware\"?"));
}

TEST_F(DateObject, a_window_is_two_years_in_order) {
  for (const char* text : {"1700", "1800:1700", "x:1800", "1700:", "-9000:90000"}) {
    EXPECT_EQ(code_of(ask({.seen = {"ware=creamware"}, .window = text})), "bad_window") << text;
  }
  const WhenResponse date = must(ask({.seen = {"ware=creamware"}, .window = "-50:1800"}));
  EXPECT_THAT(date.window, ElementsAre(Year{-49}, Year{1800}));
  EXPECT_EQ(date.provenance.settings.at("window"), "-50:1800");
  EXPECT_EQ(code_of(ask({.seen = {"ware=creamware"}, .shoulders = -1})), "bad_shoulders");
}

// The list of first numbers read by the table of registered designs gives 1937 for 821265.
TEST_F(DateObject, a_registered_number_is_read_and_sets_a_first_year_alone) {
  const WhenResponse date = when({"mark=Rd No 821265"});
  EXPECT_EQ(years(date), "1937 or later");
  EXPECT_THAT(date.notes, testing::Not(IsEmpty()));
  EXPECT_EQ(date.because.front().nature, Nature::limit);
}

// 18 February 1862: a worked example of the published tables, O for 1862 and G for February (first series).
TEST_F(DateObject, a_registration_diamond_is_read_and_an_impossible_one_refused) {
  EXPECT_EQ(years(when({"mark=diamond top=O left=G right=18 bottom=5"})), "1862 or later");
  EXPECT_EQ(code_of(ask({.seen = {"mark=diamond top=O left=G right=31 bottom=5"}})), "impossible_mark");
}

TEST_F(DateObject, a_mark_that_nobody_knows_is_said_to_be_silent) {
  const WhenResponse date = when({"mark=three crossed spoons"});
  EXPECT_THAT(date.silent, ElementsAre("mark=three crossed spoons"));
  EXPECT_THAT(date.warnings, Contains(HasSubstr("is not one that can be read")));
}

TEST_F(DateObject, the_rows_of_a_store_count_and_the_most_specific_wins) {
  take("dates",
       "fabric,form,decoration,earliest,latest,reference\n"
       "grey-1,,,100,250,R1\ngrey-1,jar,,150,200,R2\ngrey-1,,lattice,180,230,R3\n");
  EXPECT_EQ(years(when({"fabric=grey-1"}, "x.sherds")), "100-250");
  EXPECT_EQ(years(when({"fabric=grey-1", "form=jar"}, "x.sherds")), "150-200");
  const WhenResponse both = when({"fabric=grey-1", "form=jar", "decoration=lattice"}, "x.sherds");
  EXPECT_EQ(years(both), "180-230");
  ASSERT_EQ(both.because.size(), 1U);
  EXPECT_EQ(both.because[0].source, "R3");
  EXPECT_TRUE(both.because[0].of_store);
  EXPECT_THAT(both.provenance.inputs, ElementsAre(HasSubstr("SAL26@")));
  EXPECT_EQ(code_of(ask({.seen = {"fabric=grey-1"}})), "unknown_value");
}

TEST_F(DateObject, equal_rows_that_differ_are_told_with_both_sources) {
  take("dates", "fabric,earliest,latest,reference\ngreen-1,1250,1400,R1\ngreen-1,1300,1450,R2\n");
  const WhenResponse date = when({"fabric=green-1"}, "x.sherds");
  EXPECT_EQ(years(date), "1250-1450");
  ASSERT_EQ(date.conflicts.size(), 1U);
  EXPECT_THAT(date.conflicts[0].sources, ElementsAre("R1", "R2"));
}

TEST_F(DateObject, a_variant_is_dated_by_the_fabric_that_it_is_one_of) {
  take("fabrics", "fabric,variant_of\ngrey-1a,grey-1\n");
  take("dates", "fabric,earliest,latest,reference\ngrey-1,100,250,R1\n");
  EXPECT_EQ(years(when({"fabric=grey-1a"}, "x.sherds")), "100-250");
}

// Three lines bear TENN, one bears TONG: a share of 0.75 and 0.25.
TEST_F(DateObject, lost_letters_are_looked_for_among_the_marks_of_the_record) {
  take("sherds",
       "record,context,fabric,count,mark,earliest,latest\n1,1,grey-1,1,TENN,1801,1810\n2,1,grey-1,1,TENN,1801,1810\n"
       "3,2,grey-1,1,Tenn,1801,1810\n4,2,grey-1,1,TONG,1821,1830\n5,2,grey-1,1,WELL,1701,1710\n");
  const WhenResponse date = when({"legend=T?N*"}, "x.sherds");
  ASSERT_EQ(date.candidates.size(), 2U);
  EXPECT_EQ(date.candidates[0].lines, 3);
  EXPECT_DOUBLE_EQ(date.candidates[0].share, 0.75);
  EXPECT_EQ(date.candidates[0].source, "records 1, 2, 3");
  EXPECT_EQ(years(date), "1801-1830");
  EXPECT_THAT(*date.most_likely, ElementsAre(Year{1801}, Year{1810}));
  EXPECT_THAT(when({"legend=T?N*"}).candidates, IsEmpty());
}

TEST_F(DateObject, the_drawing_is_written_where_it_is_asked_for) {
  const WhenResponse date = must(ask({.seen = {"edge=feather"}, .svg = "plate.svg"}));
  EXPECT_EQ(date.file, "plate.svg");
  EXPECT_THAT(must(desk_.files.read("plate.svg")), HasSubstr("edge=feather edge"));
  EXPECT_EQ(code_of(ask({.seen = {"edge=feather"}, .svg = "plate.png"})), "unknown_format");
  EXPECT_EQ(code_of(ask({.seen = {"edge=feather"}, .svg = "nowhere/plate.svg"})), "not_writable");
}

TEST_F(DateObject, the_document_has_the_keys_of_the_contract) {
  const std::string json = envelope(when({"ware=tin-glazed earthenware", "form=mug"}));
  for (const char* key : {"\"earliest\":", "\"latest\":", "\"because\":", "\"evidence\":", "\"source\":", "\"basis\":",
                          "\"conflicts\":", "\"alternatives\":", "\"range68\":", "\"range95\":", "\"most_likely\":"})
    EXPECT_THAT(json, HasSubstr(key));
}

TEST_F(DateObject, what_the_store_refuses_is_handed_on) {
  EXPECT_EQ(code_of(ask({.seen = {"ware=creamware"}, .in = "x.sherds", .site = "ELSE"})), "no_site");
}

}  // namespace
}  // namespace sherd::desk
