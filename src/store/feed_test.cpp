#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <chrono>
#include <thread>

#include "store/conformance.h"
#include "store/migrations.h"
#include "store/open_postgres.h"
#include "store/open_sqlite.h"

namespace sherd::store {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;
using std::chrono::steady_clock;

constexpr seconds kLong{60};

class StoreFeed : public Conformance {
 protected:
  Change add(Store& to, const std::string& name) { return insert(to, name, table_of(Kind::forms, {"form"}, {{name}})); }
};
SHERD_ON_SHARED_STORES(StoreFeed);

std::unique_ptr<Store> open_patiently(const std::string& address) {
  return address.starts_with("postgres") ? must(open_postgres(address, {60'000}, migrations()))
                                         : must(open_sqlite(address, {60'000, 0}, migrations()));
}

TEST_P(StoreFeed, tells_what_is_there_and_what_comes) {
  const auto feed = must(open_feed(address_));
  EXPECT_EQ(feed->wait(0, milliseconds(0)), 1) << "what is there is told at once";
  EXPECT_EQ(feed->wait(1, milliseconds(20)), 1) << "the time is over";
  add(store(), "a");
  EXPECT_EQ(feed->wait(1, kLong), 2);
  auto other = must(open(address_));
  add(*other, "b");
  EXPECT_EQ(feed->wait(2, kLong), 3);
  must(store().undo(2, note("undo")));
  EXPECT_EQ(feed->wait(3, kLong), 4);
  EXPECT_FALSE(feed->trouble().has_value());
}

TEST_P(StoreFeed, what_is_not_committed_is_not_told) {
  const auto feed = must(open_feed(address_));
  {
    auto writing = must(store().begin(note("a")));
    must(writing->insert("SAL26", table_of(Kind::forms, {"form"}, {{"jar"}})));
    EXPECT_EQ(feed->wait(1, milliseconds(300)), 1);
  }
  EXPECT_EQ(feed->wait(1, milliseconds(300)), 1);
}

TEST_P(StoreFeed, a_change_of_another_process_comes_too) {
  std::array<int, 2> pipe{};
  ASSERT_EQ(::pipe(pipe.data()), 0);
  store_.reset();
  const pid_t child = ::fork();
  if (child == 0) {
    char go = 0;
    if (::read(pipe[0], &go, 1) != 1) ::_exit(2);
    auto own = open(address_);
    auto writing = (*own)->begin(note("elsewhere"));
    const bool kept = writing && (*writing)->commit();
    writing->reset();
    own->reset();
    ::_exit(kept ? 0 : 1);
  }
  const auto feed = must(open_feed(address_));
  EXPECT_EQ(feed->wait(1, milliseconds(20)), 1);
  ASSERT_EQ(::write(pipe[1], "x", 1), 1);
  EXPECT_EQ(feed->wait(1, kLong), 2);
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_EQ(WEXITSTATUS(status), 0);
  ::close(pipe[0]);
  ::close(pipe[1]);
}

TEST_P(StoreFeed, closing_wakes_whoever_waits) {
  const auto feed = must(open_feed(address_));
  std::thread waiting([&] { EXPECT_EQ(feed->wait(1, kLong), 1); });
  std::this_thread::sleep_for(milliseconds(20));
  const auto begun = steady_clock::now();
  feed->close();
  waiting.join();
  EXPECT_LT(steady_clock::now() - begun, kLong / 2);
  EXPECT_EQ(feed->wait(1, kLong), 1);
}

TEST_P(StoreFeed, many_writers_and_listeners_and_no_one_misses_anything) {
  constexpr int kWriters = 8;
  constexpr int kChanges = 5;
  static constexpr std::int64_t kLast = 1 + kWriters * kChanges;
  const auto feed = must(open_feed(address_));
  std::vector<std::thread> threads;
  for (int writer = 0; writer < kWriters; ++writer) {
    threads.emplace_back([this, writer] {
      auto own = open_patiently(address_);
      for (int n = 0; n < kChanges; ++n) add(*own, std::to_string(writer) + "-" + std::to_string(n));
    });
  }
  for (int listener = 0; listener < 3; ++listener) {
    threads.emplace_back([this, &feed] {
      auto own = open_patiently(address_);
      std::int64_t seen = 0;
      const auto until = steady_clock::now() + 2 * kLong;
      while (seen < kLast && steady_clock::now() < until) {
        feed->wait(seen, kLong);
        for (const Change& change : must(own->changes(seen))) {
          // Were an earlier change committed after a later one, its number would be passed over here.
          EXPECT_EQ(change.seq, ++seen);
        }
      }
      EXPECT_EQ(seen, kLast);
    });
  }
  for (std::thread& thread : threads) thread.join();
  std::array<int, kWriters> next{};
  const auto forms = read(store(), Kind::forms, {"form"});
  const auto all = must(store().changes(1));
  ASSERT_EQ(all.size(), forms.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].uid, forms[i]) << "rows come in the order of the changes";
    const auto writer = static_cast<std::size_t>(all[i].uid[0] - '0');
    EXPECT_EQ(all[i].uid.substr(2), std::to_string(next.at(writer)++));
  }
  EXPECT_EQ(must(store().verify()), std::vector<std::string>{});
}

class PostgresFeedLost : public PostgresFixture {
 protected:
  Change add(const std::string& name) { return insert(store(), name, table_of(Kind::forms, {"form"}, {{name}})); }
};

TEST_F(PostgresFeedLost, sessions_ended_by_the_server_are_begun_again_and_nothing_is_missed) {
  const auto feed = must(open_feed(address()));
  std::int64_t seen = 2;
  for (int round = 0; round < 3; ++round) {
    end_sessions(address());
    seen = add(std::to_string(round)).seq;
    EXPECT_EQ(feed->wait(seen - 1, kLong), seen);
  }
}

TEST_F(PostgresFeedLost, what_is_kept_while_the_server_cannot_be_reached_is_told_afterwards) {
  Cable cable(port_of(address()));
  const auto feed = must(open_feed(with_port(address(), cable.port())));
  EXPECT_EQ(feed->wait(2, milliseconds(200)), 2);
  cable.cut();
  const auto until = steady_clock::now() + kLong;
  while (!feed->trouble() && steady_clock::now() < until) std::this_thread::sleep_for(milliseconds(5));
  ASSERT_TRUE(feed->trouble().has_value());
  EXPECT_EQ(feed->trouble()->code, "connection_lost");
  EXPECT_EQ(feed->trouble()->message,
            "the connection to " + shown_address(with_port(address(), cable.port())) + " was lost");
  for (const char* name : {"x", "y", "z"}) add(name);
  EXPECT_EQ(feed->wait(2, milliseconds(50)), 2);
  cable.mend();
  EXPECT_EQ(feed->wait(2, kLong), 5);
  EXPECT_FALSE(feed->trouble().has_value());
}

TEST_F(PostgresFeedLost, is_closed_at_once_also_while_the_server_cannot_be_reached) {
  Cable cable(port_of(address()));
  auto feed = must(open_feed(with_port(address(), cable.port())));
  cable.cut();
  std::this_thread::sleep_for(milliseconds(100));
  const auto begun = steady_clock::now();
  feed.reset();
  EXPECT_LT(steady_clock::now() - begun, seconds(5));
}

}  // namespace
}  // namespace sherd::store
