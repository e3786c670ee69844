#include "desk/series/identify_fabric.h"

#include <gmock/gmock.h>

#include "desk/series/lens_values.h"
#include "desk/series/series_list.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

class IdentifyFabric : public ImportBench {
 protected:
  IdentifyFabric() : ImportBench(store::in_memory()) {
    take("fabrics",
         "fabric,name,ware_group,hardness,feel,outside,core,firing,status,variant_of\n"
         "sandy-1,Sandy ware,medieval,hard,harsh,5YR 5/6,N 4/,\"outside oxidised, core dark\",,\n"
         "shelly-1,Shelly ware,medieval,soft,\"soapy, smooth\",7.5YR 5/4,N 3/,\"oxidised with a dark core\",,\n"
         "shelly-2,Sandy shelly ware,medieval,hard,rough,,,,,shelly-1\n"
         "old-1,Withdrawn,,soft,soapy,,,,retired,\n");
    take("inclusions",
         "fabric,inclusion,frequency,size_least_mm,size_most_mm,sorting,rounding,scale\n"
         "sandy-1,quartz,abundant,0.2,0.5,well sorted,rounded,\n"
         "shelly-1,shell,common,0.5,3,,,pcrg\n"
         "shelly-2,quartz,common,,0.6,,,\nshelly-2,shell,moderate,,2,,,\n");
    take("sherds", "context,fabric,count,weight_g\n1,sandy-1,4,40.5\n1,shelly-1,2,9\n2,sandy-1,1,3\n");
  }

  Result<IdentifyResponse> ask(std::vector<std::string> seen, bool only = false) {
    return identify_fabric(
        {.store = "x.sherds", .site = {}, .seen = std::move(seen), .weight = {}, .only = only, .limit = {}},
        desk_.environment, desk_.progress);
  }
  IdentifyResponse identified(std::vector<std::string> seen, bool only = false) {
    return must(ask(std::move(seen), only));
  }
};

TEST_F(IdentifyFabric, the_description_that_fits_comes_first) {
  const IdentifyResponse answer =
      identified({"hardness=scratched with a penknife", "inclusion=quartz, abundant, 0.3 mm"});
  EXPECT_EQ(answer.candidates[0].fabric, "sandy-1");
  EXPECT_EQ(answer.candidates[0].lines, 2);
  EXPECT_DOUBLE_EQ(*answer.candidates[0].fit, 1);
  EXPECT_DOUBLE_EQ(answer.candidates[0].heard, 1);
  EXPECT_EQ(answer.fabrics, 5);  // three here and two of the bench; the retired one is left out
  EXPECT_EQ(answer.silent, 2);
}

// By hand: hardness hard against soft is one of two steps (0.5, weight 1); abundant quartz against none is 7.5 of 5
// steps (0, weight 2); its size has no say: (0.5 + 0) / 3, and 3 of 4 of the weight is heard.
TEST_F(IdentifyFabric, the_fit_is_the_weighted_mean_worked_out_by_hand) {
  const IdentifyResponse answer = identified({"hardness=hard", "inclusion=quartz, abundant, 0.3 mm"});
  const auto shelly = std::ranges::find(answer.candidates, "shelly-1", &KeyCandidate::fabric);
  ASSERT_NE(shelly, answer.candidates.end());
  EXPECT_NEAR(*shelly->fit, 0.5 / 3, 1e-12);
  EXPECT_DOUBLE_EQ(shelly->heard, 0.75);
  EXPECT_THAT(shelly->silent, ElementsAre("quartz size"));
}

TEST_F(IdentifyFabric, a_rare_inclusion_may_be_missed_and_an_abundant_one_may_not) {
  const auto likeness = [&](const std::string& amount) {
    const IdentifyResponse answer = identified({"inclusion=quartz, " + amount});
    const auto found = std::ranges::find(answer.candidates, "shelly-1", &KeyCandidate::fabric);
    return found->agreements.at(0).likeness;
  };
  EXPECT_DOUBLE_EQ(likeness("rare"), 0.5);  // 2.5 of 5 steps
  EXPECT_DOUBLE_EQ(likeness("moderate"), 0.1);
  EXPECT_DOUBLE_EQ(likeness("abundant"), 0);
  EXPECT_DOUBLE_EQ(likeness("none"), 1);
}

TEST_F(IdentifyFabric, nothing_else_seen_counts_against_what_else_is_described) {
  const IdentifyResponse open = identified({"inclusion=quartz, common"});
  const IdentifyResponse closed = identified({"inclusion=quartz, common"}, true);
  EXPECT_EQ(open.candidates[0].fabric, "shelly-2");
  EXPECT_EQ(closed.candidates[0].fabric, "sandy-1");
  EXPECT_THAT(closed.seen, ElementsAre("quartz=common", "shell=none"));
}

TEST_F(IdentifyFabric, with_nothing_seen_it_says_what_to_look_at_first) {
  const IdentifyResponse answer = identified({});
  EXPECT_NEAR(answer.bits, std::log2(5), 1e-12);
  ASSERT_FALSE(answer.next.empty());
  for (std::size_t i = 1; i < answer.next.size(); ++i) EXPECT_GE(answer.next[i - 1].bits, answer.next[i].bits);
  for (const KeyLook& look : answer.next) EXPECT_THAT(look.key, testing::Not(HasSubstr("size")));
}

TEST_F(IdentifyFabric, colours_count_by_their_distance) {
  const IdentifyResponse answer = identified({"outside=5YR 4/6"});
  EXPECT_EQ(answer.candidates[0].fabric, "sandy-1");
  EXPECT_NEAR(*answer.candidates[0].fit, 1 - 6.0 / 30, 1e-12);  // one chip of value is 6 (Nickerson 1936)
}

TEST_F(IdentifyFabric, what_cannot_be_read_is_refused_by_name) {
  EXPECT_EQ(code_of(ask({"hardness"})), "bad_observation");
  EXPECT_EQ(code_of(ask({"hardnes=hard"})), "unknown_key");
  EXPECT_EQ(code_of(ask({"hardness=rubbery"})), "unreadable_scale");
  EXPECT_EQ(code_of(ask({"outside=reddish"})), "unreadable_colour");
  EXPECT_EQ(code_of(ask({"inclusion=quartz, lots of it"})), "unreadable_seen");
  EXPECT_EQ(code_of(ask({"firing=blue"})), "unreadable_firing");
  const auto weighed = [&](const std::string& weight) {
    return code_of(
        identify_fabric({.store = "x.sherds", .site = {}, .seen = {}, .weight = {weight}, .only = false, .limit = {}},
                        desk_.environment, desk_.progress));
  };
  EXPECT_EQ(weighed("feel=-1"), "bad_weight");
  EXPECT_EQ(weighed("feal=1"), "unknown_key");
  EXPECT_EQ(weighed("feel=0.5"), "none");
}

TEST_F(IdentifyFabric, words_that_no_scale_has_are_told_and_have_no_say) {
  take("fabrics", "fabric,hardness\nodd-1,like cheese\n");
  EXPECT_THAT(identified({"hardness=hard"}).warnings,
              ElementsAre("odd-1: the hardness \"like cheese\" is on no scale that is known"));
}

TEST(LensValues, an_inclusion_is_read_part_by_part) {
  const Inclusion row = must(inclusion_of("Quartz, common, 0.3-0.8 mm, well sorted, sub-rounded"));
  EXPECT_EQ(row.inclusion, "quartz");
  EXPECT_EQ(row.frequency, "common");
  EXPECT_EQ(row.size_least->hundredths_mm, 30);
  EXPECT_EQ(row.size_most->hundredths_mm, 80);
  EXPECT_EQ(row.sorting, "well sorted");
  EXPECT_EQ(row.rounding, "sub-rounded");
  const Inclusion flint = must(inclusion_of("flint, to 2 mm, angular"));
  EXPECT_EQ(flint.rounding, "angular");
  EXPECT_EQ(flint.size_least, std::nullopt);
  EXPECT_EQ(flint.size_most->hundredths_mm, 200);
  EXPECT_EQ(must(inclusion_of("flint, moderate, moderate")).sorting, "moderate");
  EXPECT_EQ(must(inclusion_of("flint, absent")).frequency, "none");
}

// Wentworth 1922, Krumbein's phi: 0.5 mm is 1, 0.25 mm is 2.
TEST(LensValues, sizes_are_places_on_phi) {
  const series::Value sand = must(size_of("medium sand"));
  EXPECT_DOUBLE_EQ(sand.span.low, 1);
  EXPECT_DOUBLE_EQ(sand.span.high, 2);
  EXPECT_DOUBLE_EQ(size_value(std::nullopt, 0.5).span.high, 1);
  EXPECT_EQ(size_value(0.2, 0.5).text, "0.2-0.5 mm");
}

class SeriesList : public IdentifyFabric {};

TEST_F(SeriesList, one_answer_holds_the_whole_series) {
  take("equivalents", "fabric,series,code,relation\nshelly-1,county list,S2,broader\n");
  take("decorations", "decoration,name\ncombed,Combed lines\n");
  take("sherds", "context,fabric,decoration,form,count\n2,shelly-2,wavy line,jar,1\n");
  const SeriesResponse answer = must(list_series({.store = "x.sherds", .site = {}}, desk_.environment, desk_.progress));
  ASSERT_EQ(answer.fabrics.size(), 6U);
  const FabricEntry& sandy = *std::ranges::find(answer.fabrics, "sandy-1", &FabricEntry::fabric);
  EXPECT_EQ(sandy.lines, 2);
  EXPECT_EQ(sandy.count, 5);
  EXPECT_EQ(sandy.weight, Weight{43500});
  EXPECT_FALSE(sandy.uid.empty());
  EXPECT_GT(sandy.changed, 0);
  ASSERT_EQ(sandy.colours.size(), 2U);
  EXPECT_EQ(sandy.colours[0].words, "reddish brown");
  EXPECT_EQ(sandy.colours[0].srgb.size(), 7U);
  EXPECT_EQ(sandy.firing_words, "outside oxidised, core unoxidised");
  ASSERT_EQ(sandy.grades.size(), 4U);
  EXPECT_EQ(sandy.grades[1].of, "quartz frequency");
  EXPECT_EQ(sandy.grades[1].scale, "even-bins");
  const FabricEntry& shelly = *std::ranges::find(answer.fabrics, "shelly-1", &FabricEntry::fabric);
  EXPECT_EQ(shelly.grades[1].scale, "pcrg");
  EXPECT_EQ(shelly.grades[1].measure, "20-29 %");
  EXPECT_THAT(shelly.variants, ElementsAre("shelly-2"));
  EXPECT_EQ(shelly.equivalents.at(0).relation, Equivalence::broader);
  ASSERT_EQ(answer.decorations.size(), 2U);
  EXPECT_EQ(answer.decorations[1].decoration, "wavy line");
  EXPECT_EQ(answer.decorations[1].uid, "");
  EXPECT_EQ(answer.decorations[1].lines, 1);
}

TEST_F(SeriesList, variants_stand_under_their_fabric_within_ware_groups) {
  take("fabrics", "fabric,variant_of\nround-1,round-2\nround-2,round-1\n");
  const SeriesResponse answer = must(list_series({.store = "x.sherds", .site = {}}, desk_.environment, desk_.progress));
  std::vector<std::string> shown;
  for (const WareGroup& group : answer.tree) {
    shown.push_back(group.ware_group + ":");
    for (const TreeRow& row : group.rows)
      shown.push_back(std::string(static_cast<std::size_t>(row.depth), '-') + row.fabric);
  }
  EXPECT_THAT(shown, ElementsAre("medieval:", "sandy-1", "shelly-1", "-shelly-2", ":", "green-1", "grey-1", "old-1",
                                 "round-1", "-round-2"));
  EXPECT_EQ(answer.tree[0].amount.lines, 3);
}

}  // namespace
}  // namespace sherd::desk
