#include "desk/report/issue_report.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/frame/testing.h"
#include "desk/report/check_report.h"
#include "desk/report/import_bibliography.h"
#include "desk/report/write_report.h"
#include "desk/site/new_site.h"
#include "model/record_report.h"
#include "model/rows.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

class Reports : public testing::Test {
 protected:
  Reports() : desk_(store::in_memory()) {
    NewRequest request;
    request.store = "x.sherds";
    request.site = "SAL26";
    request.title = "Tanyard Lane";
    must(make_site(request, desk_.environment, desk_.progress));
    desk_.environment.processes = &processes_;
    Context pit{};
    pit.context = "101";
    Fabric grey{};
    grey.fabric = "grey-1";
    grey.name = "grey *ware*";
    RecordLine line{};
    line.record = "1";
    line.context = "101";
    line.fabric = "grey-1";
    line.count = 1230;
    put<Context>(Kind::contexts, {pit});
    put<Fabric>(Kind::fabrics, {grey});
    put<RecordLine>(Kind::sherds, {line});
  }

  template <class T>
  void put(Kind kind, const std::vector<T>& rows) {
    auto writing =
        must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02T09:00:00Z", "test", "add"}));
    must(writing->insert("SAL26", table_from(kind, rows)));
    must(writing->commit());
  }
  void text(const std::string& name, const std::string& section, const std::string& body) {
    TextBlock block{};
    block.text = name;
    block.section = section;
    block.body = body;
    put<TextBlock>(Kind::texts, {block});
  }
  Result<ReportResponse> report(const std::string& out, const std::string& issue = "", std::int64_t type = 2) {
    ReportRequest request;
    request.store = "x.sherds";
    request.out = out;
    request.issue = issue;
    request.type = type;
    return write_report(request, desk_.environment, desk_.progress);
  }
  ErrataResponse errata(const std::string& issue) {
    return must(list_errata({.store = "x.sherds", .issue = issue, .site = {}}, desk_.environment, desk_.progress));
  }
  std::string page(const std::string& file) { return must(desk_.environment.files->read(file)); }
  void count_is(std::int64_t count) {
    auto table = must(desk_.store().read({"SAL26", Kind::sherds, {"uid", "count"}, {}}));
    auto writing =
        must(desk_.store().begin({desk_.environment.new_uid(), "recorder", "2026-03-02T09:00:00Z", "test", "edit"}));
    must(writing->edit("SAL26", Kind::sherds,
                       {std::string(table.columns()[0].text(0)), "count", std::to_string(table.columns()[1].integer(0)),
                        std::to_string(count)}));
    must(writing->commit());
  }

  TestDesk desk_;
  SystemProcess processes_;
};

TEST_F(Reports, a_text_stands_under_its_heading_with_its_numbers_of_today) {
  text("t1", "discussion",
       "All **{{total sherds}}** sherds are {{sherds fabric=grey-1}} of one ware; see {{table fabrics}}.");
  must(report("r.html"));
  EXPECT_THAT(page("r.html"), testing::HasSubstr("All <strong>1,230</strong> sherds are 1,230 of one ware; see <a "
                                                 "href=\"#item-fabrics\">Table 2</a>."));
  count_is(7);
  must(report("r.html"));
  EXPECT_THAT(page("r.html"), testing::HasSubstr("All <strong>7</strong> sherds are 7 of one ware"));
}

TEST_F(Reports, a_field_that_does_not_exist_keeps_the_report_back_and_is_named) {
  text("t1", "discussion", "One.\n\nOf {{total sherd}} and {{sherds fabric=gray-1}}.");
  text("t2", "aims", "{{cite orton1975}} {{table fabric}}");
  const ReportResponse answer = must(report("r.html"));
  ASSERT_EQ(answer.errors.size(), 4u);
  EXPECT_EQ(answer.errors[0].message, "text t2: the bibliography has no work \"orton1975\" (line 1)");
  EXPECT_THAT(answer.errors[1].message, testing::HasSubstr("text t2: the report has no table or figure"));
  EXPECT_EQ(answer.errors[2].message, "text t1: there is no field {{total sherd}} (line 3)");
  EXPECT_EQ(answer.errors[2].hint, "did you mean \"total sherds\"?");
  EXPECT_EQ(answer.errors[2].where.id, "t1");
  EXPECT_THAT(answer.errors[3].message, testing::HasSubstr("no pottery under gray-1"));
  EXPECT_FALSE(desk_.environment.files->exists("r.html"));
}

TEST_F(Reports, what_a_text_holds_is_never_taken_as_markup_of_the_page) {
  text("t1", "discussion", "<script>alert(1)</script> [x](javascript:alert(1))");
  must(report("r.html"));
  EXPECT_EQ(page("r.html").find("<script"), std::string::npos);
  EXPECT_EQ(page("r.html").find("javascript:"), std::string::npos);
}

TEST_F(Reports, an_item_may_be_left_out_captioned_anew_or_added) {
  const auto item = [](const char* name, const char* shows, std::optional<Shown> shown, const char* caption) {
    ReportItem out{};
    out.item = name;
    out.shows = shows;
    out.shown = shown;
    out.caption = caption;
    return out;
  };
  put<ReportItem>(Kind::report_items,
                  {item("no-bars", "fabric_shares", Shown::no, ""), item("wares", "fabrics", {}, "Wares & all."),
                   item("mine", "tally fabric,context", {}, "Fabrics of contexts."), item("lost", "fabricks", {}, ""),
                   item("photo", "picture P9", {}, "")});
  text("t1", "discussion", "{{table wares}} and {{table mine}}");
  const ReportResponse answer = must(report("r.html"));
  ASSERT_EQ(answer.errors.size(), 1u);
  EXPECT_EQ(answer.errors[0].message, "item photo: the record has no picture \"P9\"");
  EXPECT_THAT(answer.warnings,
              testing::Contains("item lost shows \"fabricks\", which this report has not; did you mean \"fabrics\"?"));
}

TEST_F(Reports, an_issue_keeps_its_figures_and_later_changes_to_them_are_told) {
  text("t1", "discussion", "{{total sherds}} sherds");
  must(report("r.html", "draft-1"));
  EXPECT_EQ(code_of(report("s.html", "draft-1")), "issue_exists");
  EXPECT_EQ(code_of(report("s.html", "../x")), "bad_issue");
  EXPECT_FALSE(desk_.environment.files->exists("s.html"));
  EXPECT_TRUE(errata("draft-1").errata.empty());
  count_is(1231);
  const ErrataResponse later = errata("draft-1");
  ASSERT_EQ(later.issues.size(), 1u);
  EXPECT_EQ(later.issues[0].type, 2);
  EXPECT_GT(later.issues[0].change, 0);
  bool in_text = false, in_table = false;
  for (const Erratum& one : later.errata) {
    in_text |= one.place == "in the text" && one.row == "total sherds" && one.was == "1,230" && one.now == "1,231";
    in_table |= one.place == "Table 2 (fabrics)" && one.row == "grey-1" && one.column == "sherds" &&
                one.was == "1230" && one.now == "1231";
  }
  EXPECT_TRUE(in_text);
  EXPECT_TRUE(in_table);
  EXPECT_EQ(errata("").issues.size(), 1u);
  EXPECT_EQ(
      code_of(list_errata({.store = "x.sherds", .issue = "draft-2", .site = {}}, desk_.environment, desk_.progress)),
      "no_issue");
}

TEST_F(Reports, nothing_is_kept_or_left_where_a_file_cannot_be_written) {
  desk_.files.fail_at(1);
  EXPECT_EQ(code_of(report("r.html", "draft-1")), "not_writable");
  desk_.files.fail_at(INT64_MAX);
  EXPECT_TRUE(errata("").issues.empty());
  EXPECT_TRUE(desk_.files.all().empty());
  EXPECT_EQ(code_of(report("nowhere/r.html")), "not_writable");
}

TEST_F(Reports, nothing_is_written_where_the_store_fails) {
  store::FaultStore faults(desk_.store());
  desk_.serve(faults);
  for (std::int64_t n = 1;; ++n) {
    ASSERT_LT(n, 300);
    faults.fail_at(n);
    const auto answer = report("r" + std::to_string(n) + ".html", "draft-1");
    if (!faults.failed()) {
      must(answer);
      break;
    }
    EXPECT_EQ(code_of(answer), "disk_full") << n;
  }
}

/// A machine that lacks the program.
class NoPrograms final : public ChildProcess {
 public:
  Result<ChildOutput> run(std::span<const std::string>, std::string_view, const ChildLimit&, Progress&) override {
    return fail("no_program", "not there");
  }
};

TEST_F(Reports, a_program_that_is_not_there_is_told_with_its_package) {
  must(desk_.files.make_folder("/tmp"));
  NoPrograms none;
  desk_.environment.processes = &none;
  const auto docx = report("r.docx");
  ASSERT_FALSE(docx);
  EXPECT_EQ(docx.error().code, "no_pandoc");
  EXPECT_THAT(docx.error().hint, testing::HasSubstr("apt install pandoc"));
  const auto pdf = report("r.pdf");
  ASSERT_FALSE(pdf);
  EXPECT_EQ(pdf.error().code, "no_weasyprint");
  EXPECT_THAT(pdf.error().hint, testing::HasSubstr("apt install weasyprint"));
  EXPECT_TRUE(desk_.files.all().empty());
}

TEST_F(Reports, what_is_missing_says_where_it_is_entered) {
  const ReportCheckResponse check =
      must(check_report({.store = "x.sherds", .site = {}, .spelling = {}, .type = 3, .list_fields = true},
                        desk_.environment, desk_.progress));
  const auto need = [&](const std::string& what) {
    return std::ranges::any_of(check.needs, [&](const ReportNeed& one) { return one.what == what; });
  };
  EXPECT_TRUE(need("the aims of the work"));
  EXPECT_TRUE(need("descriptions of these fabrics: grey-1"));
  EXPECT_TRUE(need("a catalogue of illustrated vessels"));
  EXPECT_FALSE(need("the potential for further work")) << "of appraisals alone";
  EXPECT_FALSE(check.field_list.empty());
  for (const ReportNeed& one : check.needs) EXPECT_FALSE(one.command.empty()) << one.what;
  text("t1", "aims", "To date it.");
  const ReportCheckResponse then = must(
      check_report({.store = "x.sherds", .site = {}, .spelling = {}, .type = 3}, desk_.environment, desk_.progress));
  EXPECT_EQ(then.needs.size() + 1, check.needs.size());
}

TEST_F(Reports, bibtex_comes_in_matched_by_its_keys) {
  const std::string bib =
      "@book{orton1993, author={Orton, Clive and Tyers, Paul and Vince, Alan}, title={Pottery in Archaeology}, "
      "year=1993, publisher={Cambridge University Press}}\n";
  must(desk_.environment.files->write("w.bib", bib));
  const auto take = [&] {
    return import_bibliography({.store = "x.sherds", .file = "w.bib", .site = {}, .dry_run = false}, desk_.environment,
                               desk_.progress);
  };
  EXPECT_EQ(must(take()).added, 1);
  EXPECT_EQ(must(take()).same, 1);
  EXPECT_FALSE(must(take()).change);
  text("t1", "discussion", "As {{cite orton1993: 172}} say.");
  must(report("r.html"));
  EXPECT_THAT(page("r.html"), testing::HasSubstr("<a href=\"#ref-orton1993\">Orton et al. 1993, 172</a>"));
  EXPECT_THAT(page("r.html"), testing::HasSubstr("Orton, C., Tyers, P. &amp; Vince, A. 1993."));
  must(desk_.environment.files->write("w.bib", "@book{x, title={unclosed"));
  EXPECT_EQ(code_of(take()), "not_bibtex");
}

}  // namespace
}  // namespace sherd::desk
