#include "methods/stratigraphy/sequence.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "methods/stratigraphy/simulated_testing.h"

namespace sherd::stratigraphy {
namespace {

using testing::HasSubstr;

VesselKind kind(std::int64_t vessels, std::int64_t earliest, std::int64_t latest, std::string record = {}) {
  VesselKind out;
  out.earliest = {earliest};
  out.latest = {latest};
  out.vessels = vessels;
  if (!record.empty()) out.records.push_back(std::move(record));
  return out;
}

SequenceContext context(std::string name, std::vector<VesselKind> kinds, Deposit deposit = Deposit::dump) {
  SequenceContext out;
  out.context = std::move(name);
  out.deposit = deposit;
  out.kinds = std::move(kinds);
  return out;
}

Result<Chronology> run(const SequenceInput& input, SequenceSettings settings = {}) {
  NoProgress quiet;
  settings.threads = 2;
  return date_in_sequence(input, settings, quiet);
}

bool flagged(const ContextDate& date, std::string_view code) {
  return std::ranges::any_of(date.flags, [&](const DateFlag& flag) { return flag.code == code; });
}

/// Three contexts in a row.
SequenceInput three() {
  SequenceInput input;
  input.contexts = {context("1", {kind(6, 1200, 1300, "r1")}), context("2", {}), context("3", {kind(6, 1400, 1500)})};
  input.relations = {{"2", "1", RelationKind::above}, {"3", "2", RelationKind::above}};
  return input;
}

TEST(DateInSequence, a_context_without_pottery_lies_between_its_neighbours) {
  for (const Limits limits : {Limits::none, Limits::site}) {
    SequenceSettings settings;
    settings.limits = limits;
    const auto out = run(three(), settings);
    ASSERT_TRUE(out) << out.error().message;
    EXPECT_EQ(out->sampler.exact, limits == Limits::none);
    EXPECT_TRUE(out->sampler.converged);
    const ContextDate& between = out->contexts[1];
    EXPECT_GT(*between.completed.median, *out->contexts[0].completed.median);
    EXPECT_LT(*between.completed.median, *out->contexts[2].completed.median);
    EXPECT_TRUE(flagged(between, "no_pottery"));
    EXPECT_FALSE(between.strain);
    EXPECT_EQ(out->window.front(), Year{1100});
    EXPECT_EQ(out->window.back(), Year{1600});
    if (limits == Limits::site) {
      ASSERT_EQ(out->phases.size(), 1U);
      EXPECT_EQ(out->phases[0].contexts, 3);
    }
  }
}

TEST(DateInSequence, the_same_seed_gives_the_same_answer_on_one_thread_and_on_four) {
  SimulatedSite site = SiteSimulator({.contexts = 12}, 3).run();
  SequenceSettings settings;
  settings.draws = settings.least_draws = 200;
  NoProgress quiet;
  std::vector<Chronology> out;
  for (const std::int64_t threads : {1, 4}) {
    settings.threads = threads;
    out.push_back(date_in_sequence(site.input, settings, quiet).value());
  }
  for (std::size_t i = 0; i < out[0].contexts.size(); ++i) {
    EXPECT_EQ(out[0].contexts[i].completed.median, out[1].contexts[i].completed.median);
    EXPECT_EQ(out[0].contexts[i].completed.range95, out[1].contexts[i].completed.range95);
    EXPECT_EQ(out[0].contexts[i].strain, out[1].contexts[i].strain);
  }
  EXPECT_EQ(out[0].sampler.worst_rhat, out[1].sampler.worst_rhat);
}

TEST(DateInSequence, a_wrong_relation_and_late_pottery_deep_down_are_flagged) {
  SequenceInput input = three();
  input.contexts[0].kinds.push_back(kind(1, 1750, 1800, "r9"));
  SequenceSettings settings;
  settings.least_draws =
      4000;  // it may be its own with a chance of half a per cent: few draws are a poor guide to that
  auto out = run(input, settings);
  ASSERT_TRUE(out);
  EXPECT_TRUE(flagged(out->contexts[0], "before_own_terminus"));
  const auto& flags = out->contexts[0].flags;
  const auto flag = std::ranges::find(flags, "before_own_terminus", &DateFlag::code);
  ASSERT_NE(flag, flags.end());
  EXPECT_THAT(flag->records, testing::ElementsAre("r9"));
  EXPECT_GT(*out->contexts[0].not_intrusive.median, Year{1740});
  EXPECT_GT(*out->contexts[0].groups.back().intrusive, 0.5);

  input = three();
  input.relations = {{"1", "2", RelationKind::above}, {"2", "3", RelationKind::above}};  // the wrong way round
  out = run(input);
  ASSERT_TRUE(out);
  EXPECT_TRUE(flagged(out->contexts[0], "conflict") || flagged(out->contexts[2], "conflict"));
  const auto clean = run(three());
  for (const ContextDate& date : clean->contexts) EXPECT_FALSE(flagged(date, "conflict")) << date.context;
}

TEST(DateInSequence, contexts_that_are_the_same_are_dated_together_with_their_own_dates_beside) {
  SequenceInput input;
  input.contexts = {context("1", {kind(4, 1200, 1300)}), context("2", {kind(4, 1250, 1350)})};
  input.relations = {{"1", "2", RelationKind::same_as}};
  auto out = run(input);
  ASSERT_TRUE(out);
  EXPECT_THAT(out->contexts[0].same_as, testing::ElementsAre("2"));
  EXPECT_EQ(out->contexts[0].completed.median, out->contexts[1].completed.median);
  EXPECT_NE(out->contexts[0].alone.median, out->contexts[1].alone.median);
  EXPECT_EQ(out->contexts[0].vessels, 8);
  input.relations[0].decision = SameDecision::apart;
  out = run(input);
  EXPECT_THAT(out->contexts[0].same_as, testing::IsEmpty());
  EXPECT_NE(out->contexts[0].completed.median, out->contexts[1].completed.median);
}

TEST(DateInSequence, made_up_ground_without_pottery_of_its_own_time_is_only_after_a_year) {
  SequenceInput input;
  input.contexts = {context("1", {kind(8, 1600, 1650)}), context("2", {kind(8, 1200, 1300)}, Deposit::make_up),
                    context("3", {kind(8, 1700, 1750)})};
  input.relations = {{"2", "1", RelationKind::above}, {"3", "2", RelationKind::above}};
  const auto out = run(input);
  ASSERT_TRUE(out);
  EXPECT_TRUE(flagged(out->contexts[1], "after_only"));
  EXPECT_FALSE(out->contexts[1].completed.median);
  EXPECT_THAT(out->contexts[1].printed, HasSubstr("after 1"));
  EXPECT_GT(*out->contexts[1].groups[0].residual, 0.9);
}

TEST(DateInSequence, mixed_deposits_are_left_out_and_pottery_of_a_cut_is_pointed_out) {
  SequenceInput input = three();
  input.contexts.push_back(context("4", {kind(3, 1900, 1950)}, Deposit::mixed));
  input.contexts[1] = context("2", {kind(1, 1250, 1300, "r5")}, Deposit::cut);
  const auto out = run(input);
  ASSERT_TRUE(out);
  EXPECT_FALSE(out->contexts[3].completed.median);
  EXPECT_TRUE(flagged(out->contexts[3], "not_modelled"));
  EXPECT_TRUE(flagged(out->contexts[1], "pottery_in_cut"));
  EXPECT_THAT(out->notes, testing::Contains(HasSubstr("mixed deposits are left out")));
}

TEST(DateInSequence, phases_in_a_row_hold_their_contexts_and_a_probability_answers_for_a_pair) {
  SequenceInput input;
  input.contexts = {context("1", {kind(5, 1200, 1300)}), context("2", {kind(5, 1220, 1320)}),
                    context("3", {kind(5, 1250, 1350)}), context("4", {kind(5, 1300, 1400)})};
  for (std::size_t i = 0; i < 4; ++i) input.contexts[i].phase = i < 2 ? "I" : "II";
  Phase one;
  one.phase = "I";
  one.order = 1;
  Phase two = one;
  two.phase = "II";
  two.order = 2;
  input.phases = {one, two};
  input.pairs = {{"3", "2"}, {"2", "1"}};
  const auto out = run(input);
  ASSERT_TRUE(out) << out.error().message;
  ASSERT_EQ(out->phases.size(), 2U);
  EXPECT_LE(*out->phases[0].finish.median, *out->phases[1].start.median);
  EXPECT_EQ(out->pairs[0].probability, 1);
  EXPECT_GT(out->pairs[1].probability, 0.5);
  EXPECT_LT(out->pairs[1].probability, 0.9);
  input.phases[0].basis = input.phases[1].basis = PhaseBasis::pottery;
  const auto without = run(input);
  EXPECT_LT(without->pairs[0].probability, 1);
  EXPECT_THAT(without->notes, testing::Contains("phase I rests on this pottery and is left out of the model"));
}

TEST(DateInSequence, says_what_is_wrong_with_the_input) {
  const auto error = [](const SequenceInput& input) { return run(input).error(); };
  SequenceInput input = three();
  input.relations.push_back({"1", "3", RelationKind::above});
  EXPECT_EQ(error(input).code, "loop");
  EXPECT_THAT(error(input).message,
              testing::AllOf(HasSubstr("1 above 3"), HasSubstr("3 above 2"), HasSubstr("2 above 1")));
  input = three();
  input.relations.push_back({"7", "3", RelationKind::above});
  EXPECT_EQ(error(input).code, "unknown_context");
  input = three();
  input.contexts[0].kinds[0].latest = {1100};
  EXPECT_EQ(error(input).code, "ranges_reversed");
  input = three();
  input.window = dating::Window{{1100}, {1390}};
  EXPECT_EQ(error(input).code, "window_too_narrow");
  EXPECT_THAT(error(input).message, HasSubstr("context 3 has pottery from 1400 on"));
  input.window = dating::Window{{1500}, {1390}};
  EXPECT_EQ(error(input).code, "ranges_reversed");
  EXPECT_EQ(error({}).code, "nothing_to_date");
  input = three();
  input.contexts.push_back(input.contexts[0]);
  EXPECT_EQ(error(input).code, "context_twice");
}

TEST(DateInSequence, a_limit_that_leaves_no_year_and_an_order_that_leaves_none_are_said) {
  SequenceSettings settings;
  settings.dump.intrusive = 0;  // nothing may be intrusive
  SequenceInput input = three();
  input.contexts[2].not_after = Year{1300};
  auto error = run(input, settings).error();
  EXPECT_EQ(error.code, "contradiction");
  EXPECT_EQ(error.message,
            "no year is left for context 3: not after 1300, pottery from 1400 on, nothing may be intrusive");
  input = three();
  input.contexts[0].not_before = Year{1450};
  input.contexts[2].not_after = Year{1420};
  error = run(input).error();
  EXPECT_EQ(error.code, "impossible_order");
  EXPECT_EQ(
      error.message,
      "the order leaves no dates: context 1 no earlier than 1450 (not before 1450); then context 2 no earlier than "
      "1450; then context 3 has no year left after that (not after 1420)");
  input.contexts[2].limit_basis = "by its pottery";  // then it is not used
  const auto out = run(input);
  ASSERT_TRUE(out);
  EXPECT_TRUE(flagged(out->contexts[2], "limit_not_used"));
  for (const char* basis : {"spot date", "latest sherds", "Ceramics report, p. 4"}) {
    input.contexts[2].limit_basis = basis;
    EXPECT_TRUE(run(input)) << basis;
  }
  for (const char* basis : {"Depot ledger of 1420", "potter's bill", "coin"}) {  // these are used
    input.contexts[2].limit_basis = basis;
    EXPECT_FALSE(run(input)) << basis;
  }
}

TEST(DateInSequence, phases_against_the_relations_are_named) {
  SequenceInput input = three();
  input.contexts[0].phase = "late";
  input.contexts[2].phase = "early";
  Phase early;
  early.phase = "early";
  early.order = 1;
  Phase late = early;
  late.phase = "late";
  late.order = 2;
  input.phases = {early, late};
  const auto error = run(input).error();
  EXPECT_EQ(error.code, "phases_against_order");
  EXPECT_THAT(error.message, testing::AllOf(HasSubstr("context 1"), HasSubstr("context 3"), HasSubstr("phase")));
}

TEST(DateInSequence, stops_when_told_to) {
  struct Impatient : Progress {
    bool step(double fraction, std::string_view) override { return fraction < 0.26; }
  } impatient;
  SequenceSettings settings;
  settings.least_draws = settings.draws = 20'000;
  const SimulatedSite site = SiteSimulator({.contexts = 60}, 5).run();
  const auto out = date_in_sequence(site.input, settings, impatient);
  ASSERT_FALSE(out);
  EXPECT_EQ(out.error().kind, ErrorKind::stopped);
}

TEST(DateInSequence, says_that_it_has_not_converged_when_it_may_not_draw_enough) {
  SequenceSettings settings;
  settings.least_draws = settings.draws = 20;
  const auto out = run(SiteSimulator({.contexts = 20}, 5).run().input, settings);
  ASSERT_TRUE(out);
  EXPECT_FALSE(out->sampler.converged);
  EXPECT_THAT(out->notes, testing::Contains(HasSubstr("have not converged after 20")));
}

/// Sites that are not drawn from the model; the truth is known.
double coverage(const Simulation& how, std::uint64_t sites) {
  double held = 0;
  double all = 0;
  for (std::uint64_t seed = 1; seed <= sites; ++seed) {
    const SimulatedSite site = SiteSimulator(how, seed).run();
    SequenceSettings settings;
    settings.draws = settings.least_draws = 400;
    settings.influence = false;
    const auto out = run(site.input, settings);
    for (std::size_t i = 0; i < site.completed.size(); ++i) {
      held += holds95(out->contexts[i].completed, site.completed[i]) ? 1 : 0;
      ++all;
    }
  }
  return held / all;
}

TEST(Coverage, of_ordinary_sites_and_of_sites_with_something_wrong) {
  // docs/methods/dates-in-sequence-proof.md has the table over more and larger sites. Ranges that are all wrong by 20
  // years, each kind its own way, are the known weakness: below 85 %.
  EXPECT_GT(coverage({.contexts = 20}, 2), 0.85);
  EXPECT_GT(coverage({.contexts = 20, .wrong_by = 20}, 4), 0.7);
  EXPECT_GT(coverage({.contexts = 20, .longest = 150, .deposit = Deposit::silting}, 2), 0.85);
}

}  // namespace
}  // namespace sherd::stratigraphy
