#include <fmt/format.h>

#include <thread>

#include "store/migrations.h"
#include "store/open_postgres.h"
#include "store/postgres_dialect.h"
#include "store/postgres_fixture.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;
class PostgresStore : public PostgresFixture {
 protected:
  Table fabric(const std::string& name) { return table_of(Kind::fabrics, {"fabric"}, {{name}}); }
};

TEST_F(PostgresStore, one_writer_at_a_time_and_readers_wait_for_no_one) {
  auto other = must(open_postgres(address(), {50}, migrations()));
  auto writing = must(store().begin(note("b")));
  must(writing->insert("SAL26", fabric("sand-2")));
  const auto busy = other->begin(note("c"));
  ASSERT_EQ(code_of(busy), "store_busy");
  EXPECT_EQ(busy.error().message, "another program is writing to " + shown_address(address()));
  EXPECT_EQ(code_of(other->undo(2, note("c"))), "store_busy");
  EXPECT_EQ(fabrics(*other).size(), 2U) << "what is not committed is not seen";
  must(writing->commit());
  EXPECT_EQ(fabrics(*other).size(), 3U);
  EXPECT_EQ(insert(*other, "c", fabric("flint-1")).seq, 4);
}

TEST_F(PostgresStore, tells_constraint_busy_and_lost_apart) {
  auto dialect = must(connect_postgres(must(read_postgres_address(address(), {50}))));
  const auto code = [&](const std::string& statement) {
    return code_of(guarded(*dialect, [&]() -> Result<void> {
      Table none;
      dialect->fetch(statement, {}, none);
      return {};
    }));
  };
  EXPECT_EQ(code("insert into site values (1, 'SAL26')"), "store_error");
  EXPECT_EQ(code("insert into fabrics (uid, site, from_change) values ('x', 77, 1)"), "store_error");
  auto writing = must(store().begin(note("b")));
  EXPECT_EQ(code("begin"), "none");
  EXPECT_EQ(code("lock table change in access exclusive mode"), "store_busy");
  EXPECT_EQ(code("rollback"), "none");
  EXPECT_EQ(code("begin isolation level serializable read only"), "none");
  EXPECT_EQ(code("insert into site values (2, 'x')"), "read_only");
  EXPECT_EQ(code("rollback"), "none");
  end_sessions(address());
  EXPECT_EQ(code("select 1"), "connection_lost");
  EXPECT_EQ(code("select 1"), "connection_lost");
  EXPECT_TRUE(dialect->revive());
  EXPECT_EQ(code("set search_path = sherdwright"), "none");
}

TEST_F(PostgresStore, reads_and_begins_again_after_the_connection_was_lost) {
  end_sessions(address());
  EXPECT_EQ(fabrics(store()).size(), 2U);
  end_sessions(address());
  EXPECT_EQ(insert(store(), "b", fabric("sand-2")).seq, 3);
  end_sessions(address());
  must(store().undo(3, note("c")));
  EXPECT_EQ(fabrics(store()).size(), 2U);
}

TEST_F(PostgresStore, a_change_whose_connection_is_lost_is_lost_as_a_whole) {
  auto writing = must(store().begin(note("b")));
  must(writing->insert("SAL26", fabric("sand-2")));
  end_sessions(address());
  const auto more = writing->insert("SAL26", fabric("flint-1"));
  ASSERT_EQ(code_of(more), "connection_lost");
  EXPECT_EQ(more.error().message, "the connection to " + shown_address(address()) + " was lost");
  EXPECT_EQ(more.error().hint, "Nothing that was not finished was kept; try again when the server answers");
  EXPECT_EQ(code_of(writing->commit()), "connection_lost");
  writing.reset();
  EXPECT_EQ(fabrics(store()).size(), 2U);
  EXPECT_EQ(insert(store(), "b", fabric("sand-2")).seq, 3) << "the same change, made again";
}

/// A store whose connections go through a cable.
class PostgresCable : public PostgresStore {
 protected:
  void SetUp() override {
    PostgresStore::SetUp();
    if (IsSkipped()) return;
    cable_ = std::make_unique<Cable>(port_of(address()));
    far_ = must(open(with_port(address(), cable_->port())));
  }
  void TearDown() override {
    far_.reset();
    cable_.reset();
    PostgresStore::TearDown();
  }
  std::unique_ptr<Cable> cable_;
  std::unique_ptr<Store> far_;
};

TEST_F(PostgresCable, a_commit_whose_answer_is_lost_is_found_by_its_uid) {
  auto writing = must(far_->begin(note("b")));
  must(writing->insert("SAL26", fabric("sand-2")));
  cable_->lose_the_answer_to("; commit");
  const Change made = must(writing->commit());
  EXPECT_EQ(made.seq, 3);
  EXPECT_EQ(made.uid, "b");
  EXPECT_EQ(made.rows_added, 1);
  EXPECT_EQ(fabrics(store()).size(), 3U);
  EXPECT_EQ(code_of(far_->begin(note("b"))), "already_done");
  EXPECT_EQ(insert(*far_, "c", fabric("flint-1")).seq, 4);
}

TEST_F(PostgresCable, a_commit_that_never_arrived_is_told_as_not_kept) {
  auto writing = must(far_->begin(note("b")));
  must(writing->insert("SAL26", fabric("sand-2")));
  cable_->lose_the_message("; commit");
  const auto lost = writing->commit();
  ASSERT_EQ(code_of(lost), "connection_lost");
  EXPECT_EQ(lost.error().hint, "Nothing that was not finished was kept; try again when the server answers");
  EXPECT_EQ(fabrics(store()).size(), 2U);
  EXPECT_EQ(insert(*far_, "b", fabric("sand-2")).seq, 3);
}

TEST_F(PostgresCable, where_no_one_can_tell_it_says_so) {
  auto writing = must(far_->begin(note("b")));
  must(writing->insert("SAL26", fabric("sand-2")));
  cable_->cut();
  const auto lost = far_->count_rows("SAL26", Kind::fabrics);
  EXPECT_EQ(code_of(lost), "connection_lost");
  EXPECT_EQ(code_of(writing->commit()), "connection_lost");
  writing.reset();
  EXPECT_EQ(code_of(far_->sites()), "connection_lost") << "no longer tried for ever";
  cable_->mend();
  EXPECT_EQ(fabrics(*far_).size(), 2U);
  auto again = must(far_->begin(note("c")));
  cable_->lose_the_answer_to("; commit");
  std::thread cutter([&] {
    while (must(store().newest_change())->uid != "c") std::this_thread::yield();
    cable_->cut();
  });
  const auto unknown = again->commit();
  cutter.join();
  cable_->mend();
  if (unknown) return;  // it was found before the cable was cut
  EXPECT_TRUE(unknown.error().message.ends_with(" was lost while the change was being kept: it may be there or not"));
  EXPECT_EQ(unknown.error().hint, "Look at the history when the server answers; the same change is not made twice");
}

TEST_F(PostgresStore, orders_text_byte_by_byte_whatever_the_language_of_the_database) {
  const TestDatabase english(" template template0 locale_provider icu icu_locale 'en-GB'");
  ASSERT_EQ(ask(english.address(), "select ('a' < 'B')::text"), "true") << "the language of the database";
  auto store = must(create(english.address()));
  put_site(*store, "a");
  put_site(*store, "B");
  const auto sites = must(store->sites());
  ASSERT_EQ(sites.size(), 2U);
  EXPECT_EQ(sites[0].code, "B");
  for (const std::string name : {"a/1", "B/1", "_"}) {
    change(*store, name, [&](Writing& writing) { return writing.put_document("a", {name, "text/plain", "x"}); });
  }
  EXPECT_EQ(must(store->document_names("a", "")), (Texts{"B/1", "_", "a/1"}));
}

TEST_F(PostgresStore, text_that_no_database_holds_is_refused_or_not_found) {
  const std::string with_nul("SAL26\0x", 7);
  EXPECT_EQ(code_of(store().count_rows(with_nul, Kind::fabrics)), "no_site");
  EXPECT_EQ(code_of(store().count_rows("caf\xE9", Kind::fabrics)), "no_site");
  EXPECT_EQ(code_of(store().begin(note(std::string("u\0", 2)))), "not_text");
  {
    auto writing = must(store().begin({"b", "Ren\xE9", "2026", "test", std::string("import caf\xE9.csv\0", 16)}));
    EXPECT_EQ(code_of(writing->remove("SAL26", Kind::fabrics, with_nul)), "not_found");
    EXPECT_EQ(code_of(writing->edit("SAL26", Kind::fabrics, {with_nul, "name", "", "x"})), "not_found");
    must(writing->commit());
  }
  const Change made = *must(store().newest_change());
  EXPECT_EQ(made.who, "Ren\xEF\xBF\xBD");
  EXPECT_EQ(made.command, "import caf\xEF\xBF\xBD.csv\xEF\xBF\xBD");
}

TEST_F(PostgresStore, verify_finds_what_cannot_be) {
  EXPECT_EQ(must(store().verify()), Texts{});
  run_on(address(), "alter table fabrics disable trigger all");
  run_on(address(),
         "insert into fabrics (uid, site, from_change, to_change) values ('x', 77, 1, 99), ('y', 1, 2, 1), "
         "('z', 1, 1, null)");
  run_on(address(), "drop index fabrics_current");
  run_on(address(), "insert into fabrics (uid, site, from_change, to_change) values ('z', 1, 2, null)");
  run_on(address(), "update change set undoes = 2 where seq = 1");
  EXPECT_EQ(
      must(store().verify()),
      (Texts{"row x of fabrics names a site that is not there", "row x of fabrics names a change that is not there",
             "row y of fabrics has a version that ends before it begins", "row z of fabrics has two versions at a time",
             "change 1 takes back a change that is not before it",
             "change 1 (test): what it wrote to fabrics is not what is there",
             "change 1 (test): what it ended in fabrics is not what has ended there",
             "change 1 (test): what the history says of it is not what was kept",
             "change 2 (test): what it wrote to fabrics is not what is there"}));
}

TEST_F(PostgresStore, verify_finds_an_index_that_lost_a_row) {
  run_on(address(), "update pg_index set indisready = false where indexrelid = 'fabrics_from'::regclass");
  insert(store(), "b", fabric("sand-2"));
  run_on(address(), "update pg_index set indisready = true where indexrelid = 'fabrics_from'::regclass");
  EXPECT_EQ(must(store().verify()),
            Texts{"the index fabrics_from finds 2 rows of fabrics, which has 3: reindex table sherdwright.fabrics"});
  run_on(address(), "reindex table fabrics");
  EXPECT_EQ(must(store().verify()), Texts{});
}

}  // namespace
}  // namespace sherd::store
