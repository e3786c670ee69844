#include "base/hash.h"
#include "store/conformance.h"
#include "store/fault_store.h"
#include "store/migrations.h"
#include "store/open_sqlite.h"

namespace sherd::store {
namespace {

class StoreFaults : public Conformance {};
SHERD_ON_EVERY_STORE(StoreFaults);

/// What a caller does: names first, lines with leased numbers, an edit, the file noted, the list kept.
Result<Change> read_in(Store& store) {
  SHERD_TRY(const bool known, store.was_imported("SAL26", Kind::sherds, sha256("file")));
  if (known) return fail("known_file", "the file was read in before");
  SHERD_TRY(const Table fabrics, store.read({"SAL26", Kind::fabrics, {"uid", "name"}, {}}));
  SHERD_TRY(const auto writing, store.begin(note("import")));
  SHERD_CHECK(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"shell-3"}})));
  SHERD_TRY(const std::int64_t record, writing->lease_records("SAL26", 2));
  const std::vector<std::vector<std::string>> lines{{std::to_string(record), "shell-3"},
                                                    {std::to_string(record + 1), "grey-1"}};
  SHERD_CHECK(writing->insert("SAL26", table_of(Kind::sherds, {"record", "fabric"}, lines)));
  SHERD_CHECK(
      writing->edit("SAL26", Kind::fabrics, {std::string(fabrics.columns()[0].text(0)), "name", "", "Grey ware"}));
  SHERD_CHECK(writing->note_import("SAL26", Kind::sherds, sha256("file")));
  SHERD_CHECK(writing->put_document("SAL26", {"list/1", "text/plain", "x"}));
  return writing->commit();
}

std::vector<std::string> everything(Store& store) {
  std::vector<std::string> all;
  for (const KindSpec& spec : all_kinds()) {
    for (const std::string& row : read(store, spec.kind, {})) all.push_back(spec.name + " " + row);
  }
  for (const Change& each : must(store.changes(0))) all.push_back("change " + each.uid);
  for (const std::string& name : must(store.document_names("SAL26", ""))) all.push_back("document " + name);
  return all;
}

TEST_P(StoreFaults, a_failure_at_any_call_leaves_everything_as_it_was) {
  insert(store(), "grey", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}}));
  const auto before = everything(store());
  FaultStore faulty(store());
  int refused = 0;
  for (;; ++refused) {
    ASSERT_LT(refused, 100);
    faulty.fail_at(refused + 1);
    const auto done = read_in(faulty);
    if (!faulty.failed()) {
      ASSERT_TRUE(done.has_value()) << done.error().message;
      break;
    }
    EXPECT_EQ(code_of(done), "disk_full");
    EXPECT_EQ(everything(store()), before) << "failed at call " << refused + 1;
  }
  EXPECT_EQ(refused, 10) << "every call of the caller failed once";
  EXPECT_EQ(read(store(), Kind::sherds, {"record", "fabric"}), (std::vector<std::string>{"1|shell-3", "2|grey-1"}));
  EXPECT_EQ(code_of(read_in(store())), "known_file");
}

TEST(StoreDiskFull, a_change_that_does_not_fit_is_refused_and_leaves_nothing) {
  const TestFolder folder;
  must(create(folder.file("a.sherds")));
  auto store = must(open_sqlite(folder.file("a.sherds"), {100, 400}, migrations()));
  put_site(*store, "SAL26");
  insert(*store, "small", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}}));
  const std::string notes(2'000'000, 'x');
  {
    auto writing = must(store->begin(note("large")));
    const auto full =
        writing->insert("SAL26", table_of(Kind::contexts, {"context", "notes"}, {{"1", ""}, {"2", notes}}));
    ASSERT_EQ(code_of(full), "disk_full");
    EXPECT_EQ(full.error().hint, "Make room on the disk and try again");
    EXPECT_EQ(code_of(writing->insert("SAL26", table_of(Kind::contexts, {"context"}, {{"3"}}))), "disk_full");
    EXPECT_EQ(code_of(writing->commit()), "disk_full") << "half a change is never committed";
  }
  EXPECT_EQ(must(store->count_rows("SAL26", Kind::contexts)), 0);
  EXPECT_EQ(must(store->changes(0)).size(), 2U);
  insert(*store, "fits", table_of(Kind::contexts, {"context"}, {{"4"}}));
  EXPECT_EQ(must(store->verify()), std::vector<std::string>{});
}

}  // namespace
}  // namespace sherd::store
