#include "desk/site/list_lines.h"

#include <gmock/gmock.h>

#include "desk/site/import_bench.h"
#include "desk/site/site_summary.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

class ListLines : public ImportBench {
 protected:
  ListLines() : ImportBench(store::in_memory()) {
    take("sherds",
         "record,context,fabric,count,weight_g,vessels,vessel,rim_percent,checked_by\n"
         "1,1,grey-1,3,14.5,1,,20,R9\n2,1,green-1,2,20,1,,,\n3,2,grey-1,,3.25,1,,10,\n4,2,green-1,1,,1,v1,,R9\n");
  }
  LinesResponse lines(std::vector<std::string> where, std::optional<std::int64_t> limit = {},
                      std::optional<std::int64_t> offset = {}) {
    LinesRequest wanted;
    wanted.store = "x.sherds";
    wanted.where = std::move(where);
    wanted.limit = limit;
    wanted.offset = offset;
    return must(list_lines(wanted, desk_.environment, desk_.progress));
  }
  SiteResponse site() {
    return must(summarise_site({.store = "x.sherds", .site = {}}, desk_.environment, desk_.progress));
  }
};

// The sums are by hand: 3 + 2 + 1 sherds, 14.5 + 20 + 3.25 g.
TEST_F(ListLines, sums_are_of_all_lines_that_meet_the_conditions_whatever_the_page) {
  const LinesResponse all = lines({}, 1, 2);
  EXPECT_EQ(all.total, 4);
  EXPECT_EQ(all.count, 6);
  EXPECT_EQ(all.weight, Weight{37'750});
  ASSERT_EQ(all.lines.size(), 1U);
  EXPECT_EQ(all.lines[0].record, "3");
  const LinesResponse first = lines({"context=1"});
  EXPECT_EQ(first.count, 5);
  EXPECT_EQ(first.weight, Weight{34'500});
}

TEST_F(ListLines, what_was_not_recorded_has_no_sum) {
  EXPECT_EQ(lines({"record=3"}).count, std::nullopt);
  EXPECT_EQ(lines({"record=3"}).weight, Weight{3'250});
  EXPECT_EQ(lines({"record=4"}).weight, std::nullopt);
  const LinesResponse none = lines({"record=9"});
  EXPECT_EQ(none.total, 0);
  EXPECT_EQ(none.count, std::nullopt);
}

TEST_F(ListLines, a_page_beyond_the_last_is_empty_and_has_the_sums) {
  const LinesResponse beyond = lines({}, 10, 100);
  EXPECT_TRUE(beyond.lines.empty());
  EXPECT_EQ(beyond.count, 6);
}

// Without rim rows the summary reads no record numbers; with them it needs them. By hand: 20 + 10 % of rim are 0.30
// EVE; the rows of record 1, 25 and 30 %, then count in place of its 20: 0.55 + 0.10.
TEST_F(ListLines, the_summary_counts_rims_with_and_without_rows_of_their_own) {
  const SiteResponse before = site();
  EXPECT_EQ(before.total.count, 6);
  EXPECT_NEAR(before.total.eve.value_or(-1), 0.30, 1e-9);
  EXPECT_EQ(before.lines, 4);
  EXPECT_EQ(before.checked, 2);
  EXPECT_EQ(before.contexts_with_pottery, 2);
  take("rims", "record,rim_percent,rim_diameter_mm\n1,25,180\n1,30,200\n");
  EXPECT_NEAR(site().total.eve.value_or(-1), 0.65, 1e-9);
}

}  // namespace
}  // namespace sherd::desk
