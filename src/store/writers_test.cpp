#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <thread>

#include "store/migrations.h"
#include "store/open_sqlite.h"
#include "store/sqlite_fixture.h"

namespace sherd::store {
namespace {

using Texts = std::vector<std::string>;
class SqliteWriters : public SqliteFixture {};

TEST_F(SqliteWriters, one_writer_at_a_time_and_readers_wait_for_no_one) {
  auto other = must(open_sqlite(path_, {50, 0}, migrations()));
  auto writing = must(store().begin(note("b")));
  must(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})));
  const auto busy = other->begin(note("c"));
  ASSERT_EQ(code_of(busy), "store_busy");
  EXPECT_EQ(busy.error().message, "another program is writing to " + path_);
  EXPECT_EQ(busy.error().hint, "Try again when it is done");
  EXPECT_EQ(code_of(other->undo(2, note("c"))), "store_busy");
  EXPECT_EQ(fabrics(*other).size(), 2U) << "what is not committed is not seen";
  must(writing->commit());
  EXPECT_EQ(fabrics(*other).size(), 3U);
  EXPECT_EQ(insert(*other, "c", table_of(Kind::fabrics, {"fabric"}, {{"flint-1"}})).seq, 4);
  EXPECT_EQ(fabrics(store()).size(), 4U);
}

TEST_F(SqliteWriters, a_change_that_begins_never_runs_into_one_that_ends) {
  std::atomic<bool> done = false;
  std::atomic<int> begun = 0;
  std::thread other([&] {
    auto own = must(open_sqlite(path_, {60'000, 0}, migrations()));
    while (!done) {
      const auto writing = own->begin(note("never committed"));
      EXPECT_EQ(code_of(writing), "none") << "whoever begins while another commits waits, and is not refused";
      ++begun;
    }
  });
  for (int n = 0; n < 15; ++n) {
    insert(store(), std::to_string(n), table_of(Kind::forms, {"form"}, {{std::to_string(n)}}));
    while (begun <= n) std::this_thread::yield();
  }
  done = true;
  other.join();
}

TEST_F(SqliteWriters, record_numbers_of_two_connections_never_overlap) {
  auto other = must(open(path_));
  std::vector<std::int64_t> firsts;
  for (int round = 0; round < 4; ++round) {
    auto writing = must((round % 2 == 0 ? store() : *other).begin(note("lease " + std::to_string(round))));
    firsts.push_back(must(writing->lease_records("SAL26", 10)));
    must(writing->commit());
  }
  EXPECT_EQ(firsts, (std::vector<std::int64_t>{1, 11, 21, 31}));
}

TEST_F(SqliteWriters, what_was_committed_outlives_a_killed_program) {
  store_.reset();
  const pid_t child = ::fork();
  if (child == 0) {
    auto own = open(path_);
    auto first = (*own)->begin(note("kept"));
    const bool kept =
        (*first)->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})) && (*first)->commit();
    auto second = (*own)->begin(note("lost"));
    const bool begun = (*second)->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"flint-1"}})).has_value();
    if (kept && begun) ::kill(::getpid(), SIGKILL);
    ::_exit(1);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFSIGNALED(status));
  store_ = must(open(path_));
  EXPECT_EQ(fabrics(store()), (Texts{"grey-1", "shell-3", "sand-2"}));
  EXPECT_EQ(store().warnings().size(), 1U);
  EXPECT_EQ(must(store().newest_change())->uid, "kept");
  EXPECT_EQ(must(store().verify()), Texts{});
}

}  // namespace
}  // namespace sherd::store
