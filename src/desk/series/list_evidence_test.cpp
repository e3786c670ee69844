#include "desk/series/list_evidence.h"

#include <gmock/gmock.h>

#include "desk/site/history.h"
#include "desk/site/import_bench.h"
#include "store/fault_store.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Each;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class ListEvidence : public ImportBench {
 protected:
  ListEvidence() : ImportBench(store::in_memory()) {}

  Result<EvidenceResponse> ask(EvidenceRequest request) {
    return list_evidence(request, desk_.environment, desk_.progress);
  }
  EvidenceResponse list(EvidenceRequest request) { return must(ask(std::move(request))); }
  EvidenceResponse own_rows() { return list({.store = "x.sherds", .own = true}); }

  static std::vector<std::string> history(const EvidenceEntry& entry) {
    std::vector<std::string> out;
    for (const EvidenceChange& each : entry.history)
      out.push_back(std::to_string(each.change) + " " + each.column + " " + each.was + ">" + each.now);
    return out;
  }
};

const std::string kFeather =
    "edge,earliest,latest,reference\nfeather edge,1770,1795,\"from memory, no source at hand\"\n";

TEST_F(ListEvidence, what_is_shipped_needs_no_store) {
  const EvidenceResponse all = list({});
  EXPECT_GT(all.total, 300);
  EXPECT_EQ(all.known, all.total);
  EXPECT_EQ(all.own, 0);
  for (const EvidenceEntry& row : all.rows) {
    EXPECT_EQ(row.from, "shipped");
    EXPECT_FALSE(row.reference.empty());
    EXPECT_EQ(row.change, std::nullopt);
  }
}

TEST_F(ListEvidence, rows_are_chosen_by_what_they_ask_for) {
  const EvidenceResponse rococo = list({.where = {"edge=rococo"}});
  ASSERT_EQ(rococo.total, 1);
  EXPECT_EQ(rococo.rows[0].earliest, Year{1775});
  EXPECT_EQ(rococo.rows[0].seen.at("edge"), "rococo shell edge");
  EXPECT_THAT(rococo.warnings, ElementsAre("\"rococo\" is taken as rococo shell edge"));

  const EvidenceResponse read = list({.where = {"ware=samian", "form=drag. 29", "known=read"}});
  ASSERT_EQ(read.total, 1);
  EXPECT_EQ(read.rows[0].latest, Year{85});

  for (const EvidenceEntry& row : list({.where = {"technique=transfer print", "print_colour="}}).rows)
    EXPECT_FALSE(row.seen.contains("print_colour"));
}

TEST_F(ListEvidence, an_angle_finds_the_row_that_holds_it) {
  const EvidenceResponse acute = list({.where = {"lattice_angle=60"}});
  ASSERT_EQ(acute.total, 1);
  EXPECT_EQ(acute.rows[0].seen.at("lattice_angle"), "<80");
  EXPECT_EQ(acute.rows[0].known, Known::memory);
}

TEST_F(ListEvidence, the_values_of_a_key) {
  const EvidenceResponse edges = list({.values = "edge"});
  EXPECT_THAT(edges.values, testing::Contains("feather edge"));
  EXPECT_THAT(edges.rows, IsEmpty());
  EXPECT_EQ(ask({.values = "edges"}).error().code, "unknown_key");
}

TEST_F(ListEvidence, what_is_asked_wrongly_is_an_error) {
  EXPECT_EQ(code_of(ask({.where = {"edge"}})), "bad_where");
  EXPECT_EQ(code_of(ask({.where = {"edges=shell edge"}})), "unknown_key");
  EXPECT_EQ(code_of(ask({.where = {"edge=zigzag"}})), "unknown_value");
  EXPECT_EQ(code_of(ask({.where = {"lattice_angle=steep"}})), "not_a_number");
  EXPECT_EQ(code_of(ask({.own = true})), "needs_store");
  EXPECT_EQ(code_of(ask({.retired = true})), "needs_store");
  EXPECT_EQ(code_of(ask({.store = "x.sherds", .site = "NONE"})), "no_site");
}

TEST_F(ListEvidence, a_store_row_replaces_the_shipped_one_and_tells_the_change_that_made_it) {
  const auto before = list({.where = {"edge=feather edge"}});
  ASSERT_EQ(before.total, 1);
  take("evidence", kFeather);
  const EvidenceResponse after = list({.store = "x.sherds", .where = {"edge=feather edge"}});
  ASSERT_EQ(after.total, 1);
  EXPECT_EQ(after.replaced, 1);
  EXPECT_EQ(after.own, 1);
  EXPECT_EQ(after.known, list({}).known);
  EXPECT_EQ(after.rows[0].from, "evidence");
  EXPECT_EQ(after.rows[0].earliest, Year{1770});
  ASSERT_EQ(after.rows[0].history.size(), 1U);
  EXPECT_EQ(after.rows[0].history[0].now, "added");
  EXPECT_EQ(after.rows[0].history[0].who, "recorder");
  EXPECT_THAT(after.rows[0].history[0].command, HasSubstr("import"));
  EXPECT_EQ(after.rows[0].change, after.rows[0].history[0].change);
}

TEST_F(ListEvidence, a_changed_entry_shows_its_history) {
  take("evidence", kFeather);
  take("sherds", "context,fabric,count\n1,grey-1,4\n");
  EXPECT_TRUE(update("edge,earliest,latest,reference\nfeather edge,1765,1795,\"from memory, no source at hand\"\n", "",
                     "evidence")
                  .ok());
  take("sherds", "context,fabric,count\n2,grey-1,5\n");
  const EvidenceResponse after = own_rows();
  ASSERT_EQ(after.total, 1);
  ASSERT_EQ(after.rows[0].history.size(), 2U);
  const std::int64_t added = after.rows[0].history[0].change;
  EXPECT_THAT(history(after.rows[0]),
              ElementsAre(std::to_string(added) + "  >added", std::to_string(added + 2) + " earliest 1770>1765"));
  EXPECT_EQ(after.rows[0].change, added + 2);
}

TEST_F(ListEvidence, undo_brings_the_shipped_row_back) {
  take("evidence", kFeather);
  const std::int64_t change = *own_rows().rows.at(0).change;
  must(undo_change({.store = "x.sherds", .change = change}, desk_.environment, desk_.progress));
  EXPECT_EQ(own_rows().total, 0);
  const EvidenceResponse again = list({.store = "x.sherds", .where = {"edge=feather edge"}});
  ASSERT_EQ(again.total, 1);
  EXPECT_EQ(again.rows[0].from, "shipped");
}

TEST_F(ListEvidence, a_retired_row_is_listed_only_when_asked_for) {
  take("evidence", "edge,reference,status\nfeather edge,\"from memory, no source at hand\",retired\n");
  EXPECT_EQ(list({.store = "x.sherds", .where = {"edge=feather edge"}}).total, 0);
  const EvidenceResponse gone = list({.store = "x.sherds", .retired = true});
  EXPECT_EQ(gone.retired, 1);
  ASSERT_EQ(gone.total, 2);
  EXPECT_EQ(gone.rows[0].from, "evidence");
  EXPECT_EQ(gone.rows[1].from, "shipped");
  EXPECT_EQ(gone.rows[1].earliest, Year{1765});
}

TEST_F(ListEvidence, date_rows_and_own_ranges_of_the_store_are_among_them) {
  take("dates", "fabric,form,earliest,latest,reference\ngrey-1,jar,120,250,kiln report\n");
  const EvidenceResponse own = own_rows();
  ASSERT_EQ(own.total, 1);
  EXPECT_EQ(own.rows[0].from, "dates");
  EXPECT_EQ(own.rows[0].seen.at("fabric"), "grey-1");
  EXPECT_EQ(list({.store = "x.sherds", .where = {"from=dates"}}).total, 1);
  EXPECT_EQ(list({.store = "x.sherds", .where = {"fabric=grey 1"}}).total, 1);
  EXPECT_EQ(own.provenance.inputs.size(), 1U);
}

TEST_F(ListEvidence, an_error_of_the_store_is_passed_on_whichever_call_fails) {
  take("evidence", kFeather);
  store::FaultStore fault(desk_.store());
  desk_.serve(fault);
  constexpr int kMostCalls = 50;
  int call = 0;
  for (bool failed = true; failed && call < kMostCalls;) {
    fault.fail_at(++call);
    const bool answered = ask({.store = "x.sherds", .own = true}).has_value();
    failed = fault.failed();
    EXPECT_NE(answered, failed) << call;
  }
  EXPECT_GT(call, 5);
  EXPECT_LT(call, kMostCalls);
}

}  // namespace
}  // namespace sherd::desk
