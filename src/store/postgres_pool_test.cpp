#include "store/postgres_pool.h"

#include <thread>

#include "store/postgres_fixture.h"

namespace sherd::store {
namespace {

class Pool : public PostgresFixture {
 protected:
  /// The server's numbers of our connections to the database.
  std::string connections() const {
    return ask(address(),
               "select coalesce(string_agg(pid::text, ' ' order by pid), '') from pg_stat_activity where "
               "datname = current_database() and application_name = 'sherdwright' and pid <> pg_backend_pid()");
  }
  PostgresPool pool_;
};

TEST_F(Pool, a_connection_is_used_again) {
  store_.reset();
  EXPECT_EQ(fabrics(*must(pool_.open(address()))), (std::vector<std::string>{"grey-1", "shell-3"}));
  const std::string first = connections();
  for (int i = 0; i < 5; ++i) EXPECT_EQ(must(must(pool_.open(address()))->sites()).size(), 1U);
  EXPECT_EQ(connections(), first);
}

TEST_F(Pool, two_stores_at_once_do_not_share_one) {
  const auto first = must(pool_.open(address()));
  const auto second = must(pool_.open(address()));
  std::thread other([&] { insert(*first, "b", table_of(Kind::fabrics, {"fabric"}, {{"fired-1"}})); });
  other.join();
  EXPECT_EQ(fabrics(*second), (std::vector<std::string>{"grey-1", "shell-3", "fired-1"}));
}

TEST_F(Pool, a_connection_that_was_lost_meanwhile_is_made_anew) {
  must(pool_.open(address()));
  end_sessions(address());
  const auto again = must(pool_.open(address()));
  insert(*again, "b", table_of(Kind::fabrics, {"fabric"}, {{"fired-1"}}));
  EXPECT_EQ(fabrics(*again), (std::vector<std::string>{"grey-1", "shell-3", "fired-1"}));
}

TEST_F(Pool, a_change_that_was_given_up_leaves_nothing_open) {
  {
    const auto store = must(pool_.open(address()));
    const auto writing = must(store->begin(note("b")));
  }
  insert(*must(pool_.open(address())), "b", table_of(Kind::fabrics, {"fabric"}, {{"fired-1"}}));
  EXPECT_EQ(fabrics(store()), (std::vector<std::string>{"grey-1", "shell-3", "fired-1"}));
}

TEST_F(Pool, a_store_that_a_newer_program_has_led_forward_is_refused_though_it_was_open) {
  must(pool_.open(address()));
  run_on(address(), "update sherdwright.meta set value = '9999' where name = 'schema_version'");
  EXPECT_EQ(code_of(pool_.open(address())), "newer_store");
}

TEST_F(Pool, many_threads_write_through_it) {
  std::vector<std::thread> writers;
  for (int i = 0; i < 8; ++i) {
    writers.emplace_back([&, i] {
      for (int n = 0; n < 5; ++n) {
        const std::string fabric = "f-" + std::to_string(i) + "-" + std::to_string(n);
        insert(*must(pool_.open(address())), fabric, table_of(Kind::fabrics, {"fabric"}, {{fabric}}));
      }
    });
  }
  for (std::thread& writer : writers) writer.join();
  EXPECT_EQ(fabrics(store()).size(), 42U);
}

}  // namespace
}  // namespace sherd::store
