#include <gtest/gtest.h>

#include <algorithm>

#include "base/text.h"
#include "desk/frame/testing.h"
#include "desk/public/glossary.h"
#include "desk/public/key_answers.h"
#include "desk/public/object_cards.h"
#include "desk/public/pick_list.h"
#include "desk/public/volunteer_key.h"
#include "desk/site/check_record.h"
#include "desk/site/new_site.h"
#include "methods/prose/readability.h"
#include "model/record.h"
#include "model/record_deposit.h"
#include "model/rows.h"
#include "reference/glossary.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

/// A small site: a jug and a cooking pot from a pit, a bowl of a cremation, a body sherd that is away.
class PublicSide : public testing::Test {
 protected:
  PublicSide() : desk_(store::in_memory()) {
    NewRequest request;
    request.store = "x.sherds";
    request.site = "SAL26";
    request.title = "Tanyard Lane";
    must(make_site(request, desk_.environment, desk_.progress));
    Context pit, grave;
    pit.context = "101";
    pit.type = "fill";
    pit.feature = "Cess pit";
    grave.context = "102";
    grave.description = "Fill of a cremation burial";
    put(Kind::contexts, std::vector{pit, grave});
    Fabric sandy, glazed;
    sandy.fabric = "sandy-2";
    sandy.name = "Hard sandy ware";
    sandy.ware_group = "medieval";
    sandy.description = "Hard, harsh. Abundant quartz to 0.4 mm. Orange-brown surfaces with a grey core.";
    sandy.source_area = "local";
    glazed.fabric = "glaze-2";
    glazed.name = "Green-glazed jug ware";
    glazed.description = "Hard. Moderate fine quartz. Buff body; thick glaze, mottled copper green.";
    put(Kind::fabrics, std::vector{sandy, glazed});
    Form pot, jug;
    pot.form = "cooking-pot";
    pot.name = "Cooking pot";
    pot.vessel_class = "kitchen";
    jug.form = "jug";
    jug.name = "Jug";
    jug.vessel_class = "table";
    put(Kind::forms, std::vector{pot, jug});
    put(Kind::dates, std::vector{date("sandy-2", 1175, 1450), date("glaze-2", 1225, 1400)});
    std::vector<RecordLine> lines{
        line("1", "101", "sandy-2", "cooking-pot", "rim", 1, 60), line("2", "101", "glaze-2", "jug", "handle", 1, 90),
        line("3", "102", "sandy-2", "cooking-pot", "base", 1, 80), line("4", "101", "sandy-2", "", "body", 3, 9),
        line("5", "101", "sandy-2", "cooking-pot", "body", 2, 80)};
    lines[0].condition = "sooted";
    lines[0].bag = "7";
    lines[0].box = "2";
    lines[1].decoration = "applied strips";
    put(Kind::sherds, lines);
    Loan loan;
    loan.loan = "L1";
    loan.record = "5";
    loan.holder = "Museum";
    put(Kind::loans, std::vector{loan});
  }

  template <class T>
  void put(Kind kind, const std::vector<T>& rows) {
    auto writing = must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02", "test", "add"}));
    must(writing->insert("SAL26", table_from(kind, rows)));
    must(writing->commit());
  }
  static WareDate date(std::string fabric, int from, int to) {
    WareDate out;
    out.fabric = std::move(fabric);
    out.earliest = Year{from};
    out.latest = Year{to};
    out.reference = "invented";
    return out;
  }
  static RecordLine line(std::string record, std::string context, std::string fabric, std::string form,
                         std::string part, std::int64_t count, std::int64_t grams) {
    RecordLine out;
    out.record = std::move(record);
    out.context = std::move(context);
    out.fabric = std::move(fabric);
    out.form = std::move(form);
    out.part = std::move(part);
    out.count = count;
    out.weight = Weight{grams * 1000};
    return out;
  }
  Result<PickListResponse> pick(PickListRequest request = {}) {
    request.store = "x.sherds";
    return pick_list(request, desk_.environment, desk_.progress);
  }
  static std::vector<std::string> records(const PickListResponse& list) {
    std::vector<std::string> out;
    for (const PublicObject& one : list.objects) out.push_back(one.record);
    std::ranges::sort(out);
    return out;
  }
  Result<EditsResponse> answer(std::vector<std::string> answers, std::string context = "101") {
    KeyAnswersRequest request;
    request.store = "x.sherds";
    request.by = "V1";
    request.context = std::move(context);
    request.answers = std::move(answers);
    return take_answers(request, desk_.environment, desk_.progress);
  }
  KeyResponse key(std::vector<std::string> fabrics = {}) {
    KeyRequest request;
    request.store = "x.sherds";
    request.out = "key.pdf";
    request.fabrics = std::move(fabrics);
    return must(make_key(request, desk_.environment, desk_.progress));
  }

  TestDesk desk_;
};

TEST_F(PublicSide, leaves_out_human_remains_unless_asked_by_the_word) {
  const PickListResponse list = must(pick());
  EXPECT_EQ(records(list), (std::vector<std::string>{"1", "2", "4"}));
  EXPECT_TRUE(std::ranges::any_of(list.left_out, [](const PickLeftOut& one) {
    return one.because == "lay with human remains (ask with --include human-remains)" && one.lines == 1;
  }));
  PickListRequest asked;
  asked.include = {"human-remains"};
  EXPECT_EQ(records(must(pick(asked))), (std::vector<std::string>{"1", "2", "3", "4"}));
  PickListRequest named;
  named.records = {"3"};
  EXPECT_EQ(code_of(pick(named)), "with_human_remains");
}

TEST_F(PublicSide, leaves_out_what_is_away) {
  PickListRequest asked;
  asked.include = {"away"};
  const PickListResponse list = must(pick(asked));
  const auto found = std::ranges::find(list.objects, "5", &PublicObject::record);
  ASSERT_NE(found, list.objects.end());
  EXPECT_EQ(found->away, "out: Museum");
}

TEST_F(PublicSide, picks_by_theme_period_and_what_a_piece_bears) {
  PickListRequest theme;
  theme.theme = "cooking";
  EXPECT_EQ(records(must(pick(theme))), (std::vector<std::string>{"1"}));
  PickListRequest period;
  period.period = "C12";
  EXPECT_EQ(records(must(pick(period))), (std::vector<std::string>{"1", "4"}));
  PickListRequest handling;
  handling.use = "handling";
  EXPECT_EQ(records(must(pick(handling))), (std::vector<std::string>{"1", "2"}));  // line 4: 3 g a piece
}

TEST_F(PublicSide, says_where_each_is_and_what_to_mind) {
  const PickListResponse list = must(pick());
  const auto pot = std::ranges::find(list.objects, "1", &PublicObject::record);
  ASSERT_NE(pot, list.objects.end());
  EXPECT_EQ(pot->bag, "7");
  EXPECT_EQ(pot->box, "2");
  EXPECT_TRUE(pot->has("food"));
  EXPECT_FALSE(pot->has("lead"));
  const auto jug = std::ranges::find(list.objects, "2", &PublicObject::record);
  ASSERT_NE(jug, list.objects.end());
  EXPECT_TRUE(jug->has("lead"));
}

TEST_F(PublicSide, says_in_plain_words_what_when_how_known_and_where) {
  const PickListResponse list = must(pick());
  const auto pot = std::ranges::find(list.objects, "1", &PublicObject::record);
  ASSERT_NE(pot, list.objects.end());
  EXPECT_EQ(pot->what.front(),
            "This is a piece from the rim of a cooking pot: a round pot made to stand in or over the fire.");
  EXPECT_EQ(pot->when, "Made between 1175 and 1450, about 700 years ago.");
  EXPECT_EQ(pot->how_known.front(), "Pots like this, in hard sandy ware, were made between 1175 and 1450.");
  EXPECT_EQ(pot->how_known[1],
            "The newest pot in or under its layer was not made before 1225, so the layer closed after that.");
  EXPECT_EQ(pot->found, "Found in the cess pit, in layer 101.");
  EXPECT_EQ(pot->periods, (std::vector<std::string>{"Medieval"}));
}

TEST_F(PublicSide, refuses_what_it_does_not_know_with_a_hint) {
  PickListRequest theme;
  theme.theme = "cokking";
  const auto refused = pick(theme);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, "unknown_theme");
  EXPECT_EQ(refused.error().hint, "did you mean \"cooking\"?");
  PickListRequest period;
  period.period = "teatime";
  EXPECT_EQ(code_of(pick(period)), "unknown_period");
  PickListRequest word;
  word.include = {"everything"};
  EXPECT_EQ(code_of(pick(word)), "unknown_word");
  PickListRequest none;
  none.theme = "light";
  EXPECT_EQ(code_of(pick(none)), "nothing_fits");
  PickListRequest out;
  out.out = "list.docx";
  EXPECT_EQ(code_of(pick(out)), "unknown_format");
}

TEST_F(PublicSide, writes_cards_on_a6_and_a4) {
  for (const auto& [size, pages] : {std::pair<std::string, std::size_t>{"A6", 3}, {"A4", 3}, {"sheet", 1}}) {
    ObjectCardsRequest request;
    request.store = "x.sherds";
    request.size = size;
    const ObjectCardsResponse made = must(show_cards(request, desk_.environment, desk_.progress));
    EXPECT_EQ(made.pictures.size(), pages) << size;
    EXPECT_TRUE(made.shortened.empty()) << size;
    const std::string width =
        size == "A6" ? "width=\"105.00mm\" height=\"148.00mm\"" : "width=\"210.00mm\" height=\"297.00mm\"";
    EXPECT_NE(made.pictures.front().find(width), std::string::npos) << made.pictures.front().substr(0, 200);
  }
}

TEST_F(PublicSide, measures_how_hard_cards_are_to_read) {
  ObjectCardsRequest request;
  request.store = "x.sherds";
  const ObjectCardsResponse made = must(show_cards(request, desk_.environment, desk_.progress));
  ASSERT_EQ(made.readings.size(), 3U);
  for (const CardReading& one : made.readings) EXPECT_FALSE(one.too_hard) << one.title << " " << one.reading.grade;
  EXPECT_LE(made.reading.grade, prose::kGradeAtTwelve);
}

TEST_F(PublicSide, writes_pages_that_need_nothing_from_outside) {
  DisplayCardsRequest request;
  request.store = "x.sherds";
  request.out = "show.html";
  must(write_cards(request, desk_.environment, desk_.progress));
  const std::string html = must(desk_.files.read("show.html"));
  for (const char* outside : {"http://", "https://", "<script", "url(/"}) {
    const std::string low = replace_all(html, "http://www.w3.org/2000/svg", "");
    EXPECT_EQ(low.find(outside), std::string::npos) << outside;
  }
  EXPECT_NE(html.find("href=\"#word-jug\""), std::string::npos);
  EXPECT_NE(html.find("id=\"word-jug\""), std::string::npos);
  EXPECT_NE(html.find("Flesch-Kincaid"), std::string::npos);
}

TEST_F(PublicSide, keeps_a_key_and_gives_the_same_pictures_the_same_number) {
  const KeyResponse first = key();
  EXPECT_EQ(first.key, 1);
  ASSERT_EQ(first.pictures.size(), 2U);
  EXPECT_EQ(first.pictures[0].fabric, "sandy-2");
  EXPECT_EQ(first.share, 100);
  EXPECT_EQ(key().key, 1);
  EXPECT_EQ(key({"glaze-2", "sandy-2"}).key, 2);
}

TEST_F(PublicSide, takes_answers_of_volunteers_as_lines_to_check) {
  key();
  const EditsResponse saved = must(answer({"1:5:R:23.5", "2:1", "0:2:H"}));
  EXPECT_TRUE(saved.ok()) << (saved.problems.empty() ? "" : saved.problems[0].message);
  const auto rows = desk_.rows(Kind::sherds, {"context", "fabric", "fabric_certainty", "count", "weight_g", "part",
                                              "recorder", "recorded_on", "checked_by", "notes"});
  ASSERT_EQ(rows.size(), 8U);
  EXPECT_EQ(rows[5], "101|sandy-2|possible|5|23.5|rim|V1|2026-03-02||volunteer, key 1, picture 1");
  EXPECT_EQ(rows[7], "101|unknown|possible|2||handle|V1|2026-03-02||volunteer, key 1, picture 0");
  EXPECT_EQ(desk_.rows(Kind::fabrics, {"fabric", "status"}).back(), "unknown|provisional");
  CheckRequest check;
  check.store = "x.sherds";
  const CheckResponse found = must(check_record(check, desk_.environment, desk_.progress));
  EXPECT_TRUE(std::ranges::any_of(found.findings, [](const Finding& one) { return one.code == "lines_to_check"; }));
}

TEST_F(PublicSide, reads_an_answer_by_the_key_that_it_was_given_by) {
  key({"sandy-2", "glaze-2"});
  key({"glaze-2", "sandy-2"});
  KeyAnswersRequest request;
  request.store = "x.sherds";
  request.by = "V1";
  request.context = "101";
  request.key = 1;
  request.answers = {"1:4"};
  must(take_answers(request, desk_.environment, desk_.progress));
  EXPECT_EQ(desk_.rows(Kind::sherds, {"fabric", "count"}).back(), "sandy-2|4");
}

TEST_F(PublicSide, takes_a_sheet_of_answers_and_refuses_what_it_cannot_read) {
  EXPECT_EQ(code_of(answer({"1:2"})), "no_key");
  key();
  must(desk_.files.write("sheet.csv", "Picture,Pieces,Part,Noticed\n1,3,B,shiny\n2,1,,\n"));
  KeyAnswersRequest request;
  request.store = "x.sherds";
  request.by = "V2";
  request.context = "101";
  request.file = "sheet.csv";
  must(take_answers(request, desk_.environment, desk_.progress));
  EXPECT_EQ(desk_.rows(Kind::sherds, {"count", "part", "notes"})[5], "3|body|volunteer, key 1, picture 1: shiny");
  EXPECT_EQ(code_of(answer({"13:1"})), "no_picture");
  EXPECT_EQ(code_of(answer({"one:1"})), "bad_answer");
  EXPECT_EQ(code_of(answer({"1"})), "bad_answer");
  EXPECT_EQ(code_of(answer({"1:0"})), "bad_answer");
  EXPECT_EQ(code_of(answer({})), "nothing_answered");
  EXPECT_EQ(code_of(answer({"1:1"}, "")), "no_context");
}

TEST_F(PublicSide, keeps_nothing_where_one_answer_is_wrong) {
  key();
  const auto refused = answer({"1:5", "2:1:rim:heavy"});
  ASSERT_TRUE(refused);
  EXPECT_FALSE(refused->ok());
  EXPECT_EQ(desk_.rows(Kind::sherds, {"record"}).size(), 5U);
}

TEST(PublicWords, the_glossary_can_be_read_at_twelve) {
  std::string all;
  for (const reference::GlossaryTerm& term : reference::glossary()) all += term.meaning + "\n\n";
  const prose::Readability found = prose::readability(all);
  EXPECT_LE(found.grade, 6.0);
  EXPECT_LE(found.letter_grade, prose::kGradeAtTwelve);
}

TEST(PublicWords, a_term_is_found_or_another_proposed) {
  TestDesk desk(store::in_memory());
  EXPECT_EQ(must(show_glossary({"shard"}, desk.environment, desk.progress)).terms.front().term, "sherd");
  const auto refused = show_glossary({"glazz"}, desk.environment, desk.progress);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().hint, "did you mean \"glaze\"?");
}

TEST(PublicWords, a_text_is_measured_from_a_file_or_as_it_is) {
  TestDesk desk(store::in_memory());
  must(desk.files.write("panel.txt", "The cat sat on the mat."));
  EXPECT_EQ(must(measure_text({"panel.txt"}, desk.environment, desk.progress)).words, 6);
  EXPECT_TRUE(must(measure_text({"A pot. A jug."}, desk.environment, desk.progress)).at_twelve);
  EXPECT_EQ(code_of(measure_text({"not_there.txt"}, desk.environment, desk.progress)), "no_file");
  EXPECT_EQ(code_of(measure_text({"..."}, desk.environment, desk.progress)), "no_file");
}

}  // namespace
}  // namespace sherd::desk
