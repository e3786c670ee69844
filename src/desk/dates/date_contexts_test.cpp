#include "desk/dates/date_contexts.h"

#include <gmock/gmock.h>

#include "desk/frame/json.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

class DateContexts : public ImportBench {
 protected:
  DateContexts() : ImportBench(store::in_memory()) {
    take("contexts", "context,type,deposit,description\n4,fill,dump,black silt with oyster shell\n5,layer,use,\n");
    take("relations", "later,earlier\n4,5\n");
    take("sherds",
         "record,context,fabric,count,earliest,latest\n1,4,grey-1,6,100,200\n2,4,grey-1,5,150,250\n"
         "3,5,green-1,2,180,220\n4,5,grey-1,3,50,120\n5,1,grey-1,4,60,90\n");
  }
  Result<DateResponse> ask(const std::string& context, bool brief, bool in_sequence = true) {
    DateRequest wanted;
    wanted.store = "x.sherds";
    wanted.only_spot = true;
    wanted.context = context;
    wanted.brief = brief;
    wanted.in_sequence = in_sequence;
    return date_contexts(wanted, desk_.environment, desk_.progress);
  }
  static std::string text(const ContextDate& date) {
    JsonWriter json;
    write_json(json, date);
    return json.text();
  }
  static const ContextDate& of(const DateResponse& response, const std::string& context) {
    static const ContextDate kNone;
    for (const ContextDate& one : response.contexts) {
      if (one.context == context) return one;
    }
    ADD_FAILURE() << "no context " << context;
    return kNone;
  }
};

TEST_F(DateContexts, one_context_is_dated_as_among_all_the_others) {
  const DateResponse all = must(ask({}, false));
  EXPECT_EQ(all.contexts.size(), 5U);
  for (const char* context : {"1", "4", "5"}) {
    const DateResponse one = must(ask(context, false));
    ASSERT_EQ(one.contexts.size(), 1U);
    EXPECT_EQ(text(one.contexts[0]), text(of(all, context)));
    EXPECT_TRUE(one.contexts[0].mean_date.year);
    EXPECT_FALSE(one.contexts[0].apportioned.empty());
  }
}

TEST_F(DateContexts, one_context_by_its_own_pottery_takes_nothing_from_what_lies_beneath) {
  const ContextDate in_sequence = must(ask("4", false)).contexts.at(0);
  const DateResponse alone = must(ask("4", false, false));
  ASSERT_EQ(alone.contexts.size(), 1U);
  const ContextDate& own = alone.contexts[0];
  EXPECT_EQ(in_sequence.terminus_post_quem.year, Year{180});
  EXPECT_TRUE(in_sequence.terminus_post_quem.carried);
  EXPECT_EQ(own.terminus_post_quem.year, Year{150});
  EXPECT_EQ(own.terminus_post_quem.record, "2");
  EXPECT_FALSE(own.terminus_post_quem.carried);
  EXPECT_EQ(own.spot.earliest, in_sequence.spot.earliest);
  EXPECT_EQ(own.spot.latest, in_sequence.spot.latest);
  EXPECT_EQ(own.apportioned.size(), in_sequence.apportioned.size());
  EXPECT_EQ(own.sherds, 11);
  EXPECT_EQ(alone.provenance.settings.at("by"), "own pottery");
  EXPECT_TRUE(alone.phases.empty());
  EXPECT_EQ(ask("44", false, false).error().code, "no_context");
}

TEST_F(DateContexts, in_brief_each_keeps_its_dates_and_loses_what_they_rest_on) {
  const DateResponse all = must(ask({}, false));
  const DateResponse brief = must(ask({}, true));
  ASSERT_EQ(brief.contexts.size(), all.contexts.size());
  for (std::size_t i = 0; i < brief.contexts.size(); ++i) {
    const ContextDate& whole = all.contexts[i];
    const ContextDate& shortened = brief.contexts[i];
    EXPECT_EQ(shortened.context, whole.context);
    EXPECT_EQ(shortened.terminus_post_quem.year, whole.terminus_post_quem.year);
    EXPECT_EQ(shortened.terminus_post_quem.because, whole.terminus_post_quem.because);
    EXPECT_EQ(shortened.spot.earliest, whole.spot.earliest);
    EXPECT_EQ(shortened.spot.latest, whole.spot.latest);
    EXPECT_EQ(shortened.residual.count_share, whole.residual.count_share);
    EXPECT_EQ(shortened.flags, whole.flags);
    EXPECT_TRUE(shortened.apportioned.empty());
    EXPECT_TRUE(shortened.spot.records.empty());
    EXPECT_TRUE(shortened.residual.records.empty());
    EXPECT_FALSE(shortened.mean_date.year);
  }
  EXPECT_FALSE(brief.provenance.seed);
  EXPECT_EQ(all.provenance.seed, 1U);
}

TEST_F(DateContexts, a_context_comes_with_what_the_excavator_said_of_it) {
  const DateResponse one = must(ask("4", true));
  EXPECT_EQ(one.contexts.at(0).type, "fill");
  EXPECT_EQ(one.contexts.at(0).description, "black silt with oyster shell");
}

TEST_F(DateContexts, a_context_that_is_not_there_is_said_with_the_nearest) {
  take("contexts", "context\n1013\n");
  const auto none = ask("1031", false);
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, "no_context");
  EXPECT_EQ(none.error().message, "the record has no context \"1031\"");
  EXPECT_EQ(none.error().hint, "did you mean \"1013\"?");
}

}  // namespace
}  // namespace sherd::desk
