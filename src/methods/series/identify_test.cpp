#include "methods/series/identify.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace sherd::series {
namespace {

using testing::DoubleNear;

Value words(std::string word) { return {.text = word, .words = {word}}; }
Value place(double at) { return {.text = std::to_string(at), .span = {at, at}}; }

/// Five features of a published table, the last four nominal, as the example has them.
std::vector<Feature> five_features() {
  return {{"weight", Compared::ordered, 1, 40}, {"anxiety"}, {"depression"}, {"hallucination"}, {"age"}};
}
Described patient(std::string code, double weight, const std::string& anxiety, const std::string& depression,
                  const std::string& hallucination, const std::string& age) {
  return {std::move(code), {place(weight), words(anxiety), words(depression), words(hallucination), words(age)}};
}

// Everitt, Cluster Analysis, 3rd ed., pp. 45-46, as printed at clustan.com/gower_example.html: five patients, weights
// 110 to 150, s12 = 0.0625 where "hallucination", absent in both, has no say.
TEST(Likeness, the_coefficient_of_a_published_example) {
  const Described first = patient("1", 120, "1", "1", "absent", "1");
  const Described second = patient("2", 150, "2", "2", "absent", "2");
  Question question{five_features(), second.values, {first}};
  question.seen[3].reset();
  const Identification answer = identify(question);
  ASSERT_TRUE(answer.fits[0].fit.has_value());
  EXPECT_DOUBLE_EQ(*answer.fits[0].fit, 0.0625);
}

// The same example, by hand from its table: patients 3 and 4 have weights 110 and 145 and share hallucination and age:
// (1 - 35/40 + 0 + 0 + 1 + 1) / 5 = 0.425. Patients 1 and 5: weight, anxiety, depression and age alike, hallucination
// in one of them: 4/5.
TEST(Likeness, other_pairs_of_that_table_by_hand) {
  const Described first = patient("1", 120, "1", "1", "absent", "1");
  const Described third = patient("3", 110, "3", "2", "present", "3");
  const Described fourth = patient("4", 145, "1", "1", "present", "3");
  const Described fifth = patient("5", 120, "1", "1", "present", "1");
  EXPECT_DOUBLE_EQ(*identify({five_features(), third.values, {fourth}}).fits[0].fit, 0.425);
  EXPECT_DOUBLE_EQ(*identify({five_features(), first.values, {fifth}}).fits[0].fit, 0.8);
}

// Nickerson 1936 in the form given at search.r-project.org/CRAN/refmans/munsellinterpol: 0.4 C dH + 6 dV + 3 dC. The
// page of the package colorscience at rdrr.io prints 18 for 10B 5/6 against 5B 5/4.
TEST(ColourDistance, a_published_value_of_the_index_of_fading) {
  const Colour first{70, 5, 6};   // 10B 5/6
  const Colour second{65, 5, 4};  // 5B 5/4
  EXPECT_DOUBLE_EQ(nickerson(first, second), 18);
  EXPECT_DOUBLE_EQ(colour_distance(first, second), 14);  // by hand: 0.4 x 4 x 5 + 6
  EXPECT_DOUBLE_EQ(colour_distance(second, first), 14);
}

TEST(ColourDistance, goes_the_shorter_way_round_the_hues) {
  EXPECT_DOUBLE_EQ(colour_distance({98, 5, 4}, {3, 5, 4}), 0.4 * 4 * 5);
  EXPECT_DOUBLE_EQ(colour_distance({0, 5, 0}, {40, 5, 0}), 0);  // two neutrals have no hue
  EXPECT_DOUBLE_EQ(colour_distance({20, 5, 4}, {20, 4, 4}), 6);
}

TEST(Likeness, of_ranges_is_that_of_their_nearest_ends) {
  const Feature colour{"core", Compared::colour, 1, 30};
  const Value range{.text = "", .colours = {{20, 5, 4}, {20, 6, 4}}};
  const Value grey{.text = "", .colours = {{20, 3, 4}}};
  EXPECT_DOUBLE_EQ(likeness(colour, range, grey), 1 - 12.0 / 30);
  const Feature amount{"amount", Compared::ordered, 1, 5};
  EXPECT_DOUBLE_EQ(likeness(amount, {.text = "", .span = {2, 4}}, {.text = "", .span = {3, 6}}), 1);
  EXPECT_DOUBLE_EQ(likeness(amount, {.text = "", .span = {2, 3}}, {.text = "", .span = {5, 6}}), 0.6);
  EXPECT_DOUBLE_EQ(likeness(amount, place(0), place(9)), 0);
}

Question two_questions() {
  // Four fabrics; hardness parts them two and two, feel one from three.
  Question question;
  question.features = {{"hardness", Compared::words}, {"feel", Compared::words}};
  question.fabrics = {{"a", {words("soft"), words("harsh")}},
                      {"b", {words("soft"), words("smooth")}},
                      {"c", {words("hard"), words("smooth")}},
                      {"d", {words("hard"), words("smooth")}}};
  question.seen.resize(2);
  return question;
}

// By hand: with q = 1/1.02 and r = 0.02/1.02, a fabric gives its own answer with chance q and the other with r. For
// two against two: I = 1 + q log2 q + r log2 r. For one against three, the chance of the rare answer is p = (q + 3r)/4,
// and I = H(p) - H(q).
TEST(NextLook, tells_the_bits_worked_out_by_hand) {
  const double q = 1 / 1.02;
  const double r = 0.02 / 1.02;
  const double noise = -q * std::log2(q) - r * std::log2(r);
  const double p = (q + 3 * r) / 4;
  const Identification answer = identify(two_questions());
  EXPECT_DOUBLE_EQ(answer.bits, 2);
  ASSERT_EQ(answer.next.size(), 2U);
  EXPECT_EQ(answer.next[0].feature, 0U);
  EXPECT_THAT(answer.next[0].bits, DoubleNear(1 - noise, 1e-12));
  EXPECT_THAT(answer.next[1].bits, DoubleNear(-p * std::log2(p) - (1 - p) * std::log2(1 - p) - noise, 1e-12));
  EXPECT_EQ(answer.next[1].answers[0].text, "smooth");
  EXPECT_THAT(answer.next[1].answers[1].share, DoubleNear(p, 1e-12));
}

TEST(Identify, what_is_seen_ranks_the_fabrics) {
  Question question = two_questions();
  question.seen[0] = words("soft");
  const Identification half = identify(question);
  EXPECT_EQ(question.fabrics[half.fits[0].fabric].code, "a");
  EXPECT_THAT(half.fits[0].share, DoubleNear(0.5 / 1.02, 1e-12));  // 1, 1, 0.02, 0.02 of 2.04
  EXPECT_THAT(half.fits[2].share, DoubleNear(0.01 / 1.02, 1e-12));
  question.seen[1] = words("smooth");
  const Identification whole = identify(question);
  EXPECT_EQ(question.fabrics[whole.fits[0].fabric].code, "b");
  EXPECT_DOUBLE_EQ(*whole.fits[0].fit, 1);
  EXPECT_THAT(whole.next, testing::IsEmpty());
}

TEST(Identify, a_fabric_that_does_not_say_is_neither_helped_nor_harmed) {
  Question question = two_questions();
  question.fabrics.push_back({"e", {std::nullopt, std::nullopt}});
  question.seen[0] = words("soft");
  const Identification answer = identify(question);
  const auto silent = std::ranges::find(answer.fits, std::size_t{4}, &Fit::fabric);
  EXPECT_THAT(silent->share, DoubleNear(0.2, 1e-12));  // one of five, as before anything was seen
  EXPECT_FALSE(silent->fit.has_value());
  EXPECT_EQ(silent->heard, 0);
}

TEST(Identify, a_weight_of_nothing_takes_the_say_away) {
  Question question = two_questions();
  question.features[0].weight = 0;
  question.seen[0] = words("soft");
  for (const Fit& fit : identify(question).fits) EXPECT_DOUBLE_EQ(fit.share, 0.25);
}

TEST(Identify, no_fabrics_give_no_answer) { EXPECT_TRUE(identify({five_features(), {}, {}}).fits.empty()); }

RC_GTEST_PROP(Identify, shares_add_up_and_looking_never_costs_bits, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 8);
  Question question;
  question.features = {
      {"size", Compared::ordered, 1, 4}, {"feel", Compared::words, 0.5}, {"count", Compared::ordered, 2, 5}};
  const auto some = [](bool worded) -> std::optional<Value> {
    const int at = *rc::gen::inRange(0, 6);
    if (at == 0) return std::nullopt;
    return worded ? words(std::string(1, static_cast<char>('a' + at))) : place(at);
  };
  for (std::size_t i = 0; i < count; ++i) question.fabrics.push_back({"f", {some(false), some(true), some(false)}});
  question.seen = {some(false), some(true), some(false)};
  const Identification answer = identify(question);
  double sum = 0;
  for (const Fit& fit : answer.fits) {
    sum += fit.share;
    if (fit.fit) RC_ASSERT(*fit.fit >= 0 && *fit.fit <= 1);
    RC_ASSERT(fit.heard >= 0 && fit.heard <= 1 + 1e-12);
  }
  RC_ASSERT(std::fabs(sum - 1) < 1e-9);
  for (const NextLook& look : answer.next) {
    RC_ASSERT(look.bits <= answer.bits + 1e-9);
    double chances = 0;
    for (const Answer& each : look.answers) chances += each.share;
    RC_ASSERT(std::fabs(chances - 1) < 1e-9);
  }
}

}  // namespace
}  // namespace sherd::series
