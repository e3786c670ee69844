#include <gtest/gtest.h>

#include "desk/archive/archive_words.h"
#include "desk/archive/check_deposit.h"
#include "desk/archive/list_boxes.h"
#include "desk/archive/list_loans.h"
#include "desk/archive/print_labels.h"
#include "desk/archive/reconcile_selection.h"
#include "desk/frame/testing.h"
#include "desk/site/new_site.h"
#include "model/chemistry.h"
#include "model/record.h"
#include "model/record_deposit.h"
#include "model/record_more.h"
#include "model/record_vessels.h"
#include "model/rows.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using Names = std::vector<std::string>;

/// A store with what is put into it.
class Deposit : public testing::Test {
 protected:
  Deposit() : desk_(store::in_memory()) {
    NewRequest request;
    request.store = "x.sherds";
    request.site = "SAL26";
    must(make_site(request, desk_.environment, desk_.progress));
  }

  template <class T>
  void put(Kind kind, const std::vector<T>& rows) {
    auto writing = must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02", "test", "add"}));
    must(writing->insert("SAL26", table_from(kind, rows)));
    must(writing->commit());
  }
  static RecordLine line(std::string record, std::string context, std::int64_t count, std::int64_t grams,
                         std::string bag = "", std::string box = "") {
    RecordLine out;
    out.record = std::move(record);
    out.context = std::move(context);
    out.fabric = "grey-1";
    out.count = count;
    out.weight = Weight{grams * 1000};
    out.bag = std::move(bag);
    out.box = std::move(box);
    return out;
  }
  static Loan loan(std::string number, std::string record, std::optional<std::int64_t> count = {},
                   std::optional<Return> returned = {}) {
    Loan out;
    out.loan = std::move(number);
    out.record = std::move(record);
    out.count = count;
    out.returned = returned;
    return out;
  }
  static Selection decision(std::string number, std::string record, std::string context, Decision what,
                            std::optional<std::int64_t> count = {}) {
    Selection out;
    out.selection = std::move(number);
    out.record = std::move(record);
    out.context = std::move(context);
    out.decision = what;
    out.count = count;
    out.reason = "plain";
    return out;
  }
  LoansResponse loans(const std::string& on = "2026-03-02", bool all = false) {
    LoansRequest request;
    request.store = "x.sherds";
    request.on = on;
    request.all = all;
    return must(list_loans(request, desk_.environment, desk_.progress));
  }
  SelectionResponse selection() {
    return must(reconcile_selection({"x.sherds", ""}, desk_.environment, desk_.progress));
  }
  BoxesResponse boxes() { return must(list_boxes({"x.sherds", "", ""}, desk_.environment, desk_.progress)); }
  Names codes() {
    const DepositResponse response =
        must(check_deposit({"x.sherds", "2026-03-02", ""}, desk_.environment, desk_.progress));
    Names out;
    for (const Finding& finding : response.findings) out.push_back(finding.code + " " + finding.where.id);
    return out;
  }
  Result<LabelsResponse> labels(const std::string& of, const std::string& out) {
    LabelsRequest request;
    request.store = "x.sherds";
    request.of = of;
    request.out = out;
    return print_labels(request, desk_.environment, desk_.progress);
  }

  TestDesk desk_;
};

TEST_F(Deposit, what_is_out_is_listed_and_what_is_back_is_not) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50), line("2", "101", 1, 9)});
  Loan back = loan("L2", "2", {}, Return::back);
  back.returned_on = "2026-03-01";
  put<Loan>(Kind::loans, {loan("L10", "1", 2), back, loan("L3", "1", 1, Return::used_up)});
  const LoansResponse found = loans();
  EXPECT_EQ(found.out, 1);
  EXPECT_EQ(found.back, 1);
  EXPECT_EQ(found.used_up, 1);
  ASSERT_EQ(found.loans.size(), 1U);
  EXPECT_EQ(found.loans[0].loan, "L10");
  EXPECT_EQ(found.loans[0].of, 5);
  EXPECT_EQ(loans("2026-03-02", true).loans[1].loan, "L3");  // in natural order: L2, L3, L10
}

TEST_F(Deposit, more_sherds_than_a_line_has_cannot_be_out) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50)});
  put<Loan>(Kind::loans, {loan("L1", "1", 3), loan("L2", "1", 3), loan("L3", "77")});
  const LoansResponse found = loans();
  EXPECT_TRUE(found.loans[0].troubles.empty());
  EXPECT_EQ(found.loans[1].message, "6 sherds taken of 5");
  EXPECT_EQ(found.loans[2].message, "the record has no line 77");
}

TEST_F(Deposit, lines_with_someone_else_and_specimens_need_a_slip) {
  RecordLine away = line("1", "101", 5, 50);
  away.passed_to = "glass specialist";
  put<RecordLine>(Kind::sherds, {away, line("2", "101", 1, 9), line("3", "101", 1, 9)});
  Specimen specimen;
  specimen.specimen = "T1";
  specimen.record = "2";
  put<Specimen>(Kind::specimens, {specimen});
  EXPECT_EQ(loans().without_slip, 2);
  put<Loan>(Kind::loans, {loan("L1", "1"), loan("L2", "2", 1, Return::kept)});
  EXPECT_EQ(loans().without_slip, 0);
}

TEST_F(Deposit, sherds_at_a_laboratory_or_on_a_drawing_table_need_a_slip) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50), line("2", "101", 1, 9), line("3", "101", 1, 9)});
  Sample sample;
  sample.sample = "R1";
  sample.record = "1";
  sample.sent_on = "2026-02-01";
  Sample back = sample;
  back.sample = "R2";
  back.record = "3";
  back.returned_on = "2026-02-20";
  put<Sample>(Kind::samples, {sample, back});
  Drawing drawing;
  drawing.drawing = "D1";
  drawing.record = "2";
  drawing.place = "drawing office";
  put<Drawing>(Kind::drawings, {drawing});
  const LoansResponse found = loans();
  ASSERT_EQ(found.loans.size(), 2U);
  EXPECT_EQ(found.loans[0].message, "was sent as sample R1 and has no slip");
  EXPECT_EQ(found.loans[1].message, "is at drawing office for drawing D1 and has no slip");
}

TEST_F(Deposit, what_was_due_before_the_day_is_overdue) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50)});
  Loan due = loan("L1", "1");
  due.due_on = "2026-03-01";
  put<Loan>(Kind::loans, {due});
  EXPECT_EQ(loans("2026-03-01").overdue, 0);
  EXPECT_EQ(loans("2026-03-02").overdue, 1);
  LoansRequest request;
  request.store = "x.sherds";
  request.on = "yesterday";
  EXPECT_EQ(code_of(list_loans(request, desk_.environment, desk_.progress)), "bad_day");
}

// The example of the CIfA toolkit for finds recording, primary record: 63 found, 9 kept, and the rest listed too.
TEST_F(Deposit, counts_reconcile_where_what_was_not_kept_is_listed_too) {
  Bag bag;
  bag.bag = "B1";
  bag.context = "101";
  bag.count = 63;
  put<Bag>(Kind::bags, {bag});
  put<RecordLine>(Kind::sherds, {line("1", "101", 9, 90, "B1")});
  EXPECT_FALSE(selection().reconciles);
  EXPECT_EQ(selection().total.unaccounted, 54);
  Selection before = decision("S1", "", "101", Decision::deselected, 54);
  before.when = DecidedWhen::before_recording;
  put<Selection>(Kind::selections, {before, decision("S2", "", "101", Decision::kept)});
  const SelectionResponse now = selection();
  EXPECT_TRUE(now.reconciles);
  EXPECT_EQ(now.total.found, 63);
  EXPECT_EQ(now.total.kept, 9);
  EXPECT_EQ(now.total.deselected_before, 54);
  EXPECT_EQ(now.total.undecided, 0);
  ASSERT_EQ(now.reasons.size(), 1U);
  EXPECT_EQ(now.reasons[0].sherds, 54);
}

TEST_F(Deposit, a_decision_about_a_line_goes_before_one_about_its_context) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 10, 100), line("2", "101", 5, 50), line("3", "102", 4, 40)});
  put<Selection>(Kind::selections,
                 {decision("S1", "", "101", Decision::kept), decision("S2", "1", "", Decision::deselected, 4)});
  const SelectionResponse found = selection();
  EXPECT_EQ(found.total.kept, 11);
  EXPECT_EQ(found.total.deselected, 4);
  EXPECT_EQ(found.total.undecided, 4);
  EXPECT_EQ(found.total.deselected_weight, Weight{40'000});  // four tenths of 100 g
  EXPECT_EQ(found.total.recorded, found.total.kept + found.total.deselected + found.total.undecided);
  EXPECT_TRUE(found.reconciles);
}

TEST_F(Deposit, a_decision_about_more_than_there_is_does_not_reconcile) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 10, 100)});
  put<Selection>(Kind::selections,
                 {decision("S1", "1", "", Decision::deselected, 12), decision("S2", "8", "", Decision::kept)});
  const SelectionResponse found = selection();
  EXPECT_FALSE(found.reconciles);
  ASSERT_EQ(found.troubles.size(), 2U);
  EXPECT_EQ(found.troubles[0].message, "decides about 12 sherds; 10 of 10 are left to decide about");
  EXPECT_EQ(found.troubles[1].message, "the record has no line 8");
  EXPECT_EQ(found.total.deselected, 10);
}

TEST_F(Deposit, boxes_are_weighed_without_what_is_not_kept_and_held_against_the_limit) {
  Repository repository;
  repository.repository = "Museum";
  repository.box_limit = Weight{10'000'000};
  put<Repository>(Kind::repositories, {repository});
  put<RecordLine>(Kind::sherds, {line("1", "101", 100, 6000, "1", "1"), line("2", "102", 100, 4500, "2", "1"),
                                 line("3", "103", 10, 500, "3", "2"), line("4", "104", 1, 5)});
  BoxesResponse found = boxes();
  ASSERT_EQ(found.boxes.size(), 2U);
  EXPECT_TRUE(found.boxes[0].over);
  EXPECT_EQ(found.over, 1);
  EXPECT_EQ(found.without_box, 1);
  EXPECT_EQ(found.limit_of, "Museum");
  put<Selection>(Kind::selections, {decision("S1", "2", "", Decision::deselected, 50)});
  found = boxes();
  EXPECT_FALSE(found.boxes[0].over);
  EXPECT_EQ(found.boxes[0].weight, Weight{8'250'000});
}

TEST_F(Deposit, bags_of_which_no_line_speaks_are_in_their_box_all_the_same) {
  Bag tile;
  tile.bag = "T1";
  tile.box = "1";
  tile.material = "tile";
  tile.weight = Weight{700'000};
  Bag lost = tile;
  lost.bag = "T2";
  lost.received = Received::missing;
  put<Bag>(Kind::bags, {tile, lost});
  const BoxesResponse found = boxes();
  ASSERT_EQ(found.boxes.size(), 1U);
  EXPECT_EQ(found.boxes[0].weight, Weight{700'000});
  EXPECT_EQ(found.boxes[0].bags, Names{"T1"});
}

TEST(BoxLists, write_contexts_in_ranges) {
  EXPECT_EQ(in_ranges({"101", "102", "103", "104", "107", "109", "110", "12a"}),
            "101\u2013"
            "104, 107, 109, 110, 12a");
  EXPECT_EQ(in_ranges({}), "");
}

TEST_F(Deposit, what_stands_in_the_way_is_found) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50, "B1", "1")});
  put<Loan>(Kind::loans, {loan("L1", "1")});
  EXPECT_EQ(codes(), (Names{"not_back L1", "no_repository "}));
  Repository repository;
  repository.repository = "Museum";
  repository.accession = "2026.1";
  repository.creator = "Unit";
  repository.copyright_holder = "Unit";
  repository.licence = "CC BY 4.0";
  repository.box_limit = Weight{10'000'000};
  put<Repository>(Kind::repositories, {repository});
  EXPECT_EQ(codes(), Names{"not_back L1"});
  Picture picture;
  picture.picture = "P1";
  picture.file = "files/none.jpg";
  put<Picture>(Kind::pictures, {picture});
  EXPECT_EQ(codes(), (Names{"not_back L1", "picture_missing P1"}));
}

TEST_F(Deposit, labels_have_the_fields_and_the_size_that_the_repository_asks_for) {
  Repository repository;
  repository.repository = "Museum";
  repository.accession = "2026.1";
  repository.bag_fields = "accession, context, weight";
  repository.bag_label_width = Length{5000};
  repository.bag_label_height = Length{3000};
  put<Repository>(Kind::repositories, {repository});
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50, "B1", "1"), line("2", "102", 5, 70, "B2", "1")});
  const LabelsResponse printed = must(labels("bags", "labels.svg"));
  EXPECT_EQ(printed.labels, 2);
  EXPECT_DOUBLE_EQ(printed.width_mm, 50);
  EXPECT_EQ(printed.codes, (Names{"SAL26:bag:B1", "SAL26:bag:B2"}));
  const std::string svg = must(desk_.files.read("labels.svg"));
  EXPECT_NE(svg.find(">Context 101<"), std::string::npos);
  EXPECT_NE(svg.find(">2026.1<"), std::string::npos);
  EXPECT_NE(svg.find(">70 g<"), std::string::npos);
  EXPECT_EQ(svg.find(">count<"), std::string::npos);
  EXPECT_TRUE(must(labels("bags", "labels.pdf")).sheets == 1);
  EXPECT_EQ(must(desk_.files.read("labels.pdf")).substr(0, 5), "%PDF-");
}

TEST_F(Deposit, labels_that_cannot_be_printed_say_why) {
  EXPECT_EQ(code_of(labels("bags", "a.pdf")), "no_labels");
  EXPECT_EQ(code_of(labels("pots", "a.pdf")), "unknown_labels");
  EXPECT_EQ(code_of(labels("bags", "a.doc")), "unknown_format");
  Repository repository;
  repository.repository = "Museum";
  repository.bag_fields = "accession, wieght";
  put<Repository>(Kind::repositories, {repository});
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50, "B1", "1")});
  const auto odd = labels("bags", "a.pdf");
  ASSERT_EQ(code_of(odd), "unknown_field");
  EXPECT_EQ(odd.error().hint, "did you mean \"weight\"?");
  EXPECT_FALSE(desk_.files.exists("a.pdf"));
}

TEST_F(Deposit, slips_are_printed_for_what_is_out_and_not_for_what_is_back) {
  put<RecordLine>(Kind::sherds, {line("1", "101", 5, 50, "B1", "1")});
  put<Loan>(Kind::loans, {loan("L1", "1", 1), loan("L2", "1", 1, Return::back), loan("L3", "1", 1, Return::used_up)});
  const LabelsResponse printed = must(labels("slips", "slips.svg"));
  EXPECT_EQ(printed.codes, (Names{"SAL26:loan:L1", "SAL26:loan:L3"}));
  const std::string svg = must(desk_.files.read("slips.svg"));
  EXPECT_NE(svg.find("Back on"), std::string::npos);
  EXPECT_NE(svg.find("Used up: does not come back"), std::string::npos);
}

TEST(ArchiveWords, every_table_field_and_code_of_the_record_is_described) {
  for (const KindSpec& spec : all_kinds()) {
    EXPECT_FALSE(table_words(spec.name).empty());
    for (const ColumnSpec& column : spec.columns) {
      EXPECT_FALSE(field_words(spec.name, column.name, column.help).empty()) << spec.name << "." << column.name;
      for (const auto word : column.words) EXPECT_FALSE(code_words(column.name, word).empty());
    }
  }
  EXPECT_EQ(field_words("loans", "purpose", ""), "what it was taken for");
  EXPECT_EQ(code_words("returned", "used_up"), "consumed by the analysis");
}

}  // namespace
}  // namespace sherd::desk
