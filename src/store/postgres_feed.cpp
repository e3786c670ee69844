#include <fmt/format.h>
#include <libpq-fe.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstring>
#include <string>
#include <thread>
#include <utility>

#include "store/feed.h"
#include "store/feed_hub.h"
#include "store/postgres_address.h"
#include "store/postgres_api.h"
#include "store/postgres_dialect.h"

namespace sherd::store {

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

constexpr milliseconds kConnectWithin{10'000};
constexpr milliseconds kAnswerWithin{10'000};
// Even where nothing is told, the newest change is looked at: a connection that died in silence is found so.
constexpr milliseconds kLookEvery{30'000};
constexpr milliseconds kShortestPause{100};
constexpr milliseconds kLongestPause{5'000};

constexpr const char* kNewest = "select coalesce(max(seq), 0) from change";

std::int64_t number_in(const char* text) {
  std::int64_t value = 0;
  std::from_chars(text, text + std::strlen(text), value);
  return value;
}

/// A file descriptor that is readable once it was rung; it ends any waiting of the thread.
class Bell {
 public:
  Bell() : descriptor_(::eventfd(0, EFD_CLOEXEC)) {}
  ~Bell() { ::close(descriptor_); }
  Bell(const Bell&) = delete;
  Bell& operator=(const Bell&) = delete;
  void ring() {
    const std::uint64_t one = 1;
    [[maybe_unused]] const auto written = ::write(descriptor_, &one, sizeof one);
  }
  /// Waits until the socket is ready for `events`; false where the bell rang or the time was over.
  bool wait_for(int socket, short events, milliseconds at_most) const {
    pollfd both[] = {{descriptor_, POLLIN, 0}, {socket, events, 0}};
    const int ready = ::poll(both, 2, static_cast<int>(std::max<std::int64_t>(at_most.count(), 0)));
    return ready > 0 && both[0].revents == 0 && both[1].revents != 0;
  }

 private:
  int descriptor_;
};

class PostgresFeed final : public ChangeFeed {
 public:
  PostgresFeed(PostgresAddress address, std::int64_t newest)
      : address_(std::move(address)), hub_(newest), thread_([this] { run(); }) {}
  ~PostgresFeed() override {
    close();
    thread_.join();
  }
  PostgresFeed(const PostgresFeed&) = delete;
  PostgresFeed& operator=(const PostgresFeed&) = delete;

  std::int64_t wait(std::int64_t after_seq, milliseconds at_most) override { return hub_.wait(after_seq, at_most); }
  std::optional<Error> trouble() const override { return hub_.trouble(); }
  void close() override {
    hub_.close();
    bell_.ring();
  }

 private:
  void run() {
    milliseconds pause = kShortestPause;
    while (!hub_.closed()) {
      if (const OwnedConnection connection = connect(); connection && listen(connection.get())) {
        pause = kShortestPause;
        hear(connection.get());
      }
      if (hub_.closed()) return;
      hub_.set_trouble(Error{ErrorKind::data,
                             "connection_lost",
                             fmt::format("the connection to {} was lost", address_.shown),
                             {},
                             "It is tried again by itself"});
      if (hub_.closed_within(pause)) return;
      pause = std::min(pause * 2, kLongestPause);
    }
  }

  /// Nothing where the server does not let us in, or the feed was closed meanwhile.
  OwnedConnection connect() {
    OwnedConnection connection(PQconnectStart(address_.connection.c_str()));
    if (!connection || PQstatus(connection.get()) == CONNECTION_BAD) return {};
    keep_quiet(connection.get());
    const auto until = steady_clock::now() + kConnectWithin;
    for (PostgresPollingStatusType state = PGRES_POLLING_WRITING; state != PGRES_POLLING_OK;
         state = PQconnectPoll(connection.get())) {
      if (state == PGRES_POLLING_FAILED) return {};
      const short events = state == PGRES_POLLING_READING ? POLLIN : POLLOUT;
      if (!bell_.wait_for(PQsocket(connection.get()), events, left(until))) return {};
    }
    return connection;
  }

  /// First it listens, then it looks: a change is told or seen, or both.
  bool listen(PGconn* connection) {
    if (!ask(connection, fmt::format("listen {}", kChannel))) return false;
    hub_.set_trouble({});
    return ask(connection, kNewest);
  }

  /// Until the connection is lost or the feed closed.
  void hear(PGconn* connection) {
    auto look_at = steady_clock::now() + kLookEvery;
    while (!hub_.closed()) {
      if (bell_.wait_for(PQsocket(connection), POLLIN, left(look_at))) {
        if (PQconsumeInput(connection) == 0) return;
        take_notices(connection);
      } else if (steady_clock::now() >= look_at) {
        if (!ask(connection, kNewest)) return;
        look_at = steady_clock::now() + kLookEvery;
      }
    }
  }

  /// Sends one statement and waits for its answer; a number in it is the newest change.
  bool ask(PGconn* connection, const std::string& statement) {
    if (PQsendQuery(connection, statement.c_str()) == 0) return false;
    const auto until = steady_clock::now() + kAnswerWithin;
    while (PQisBusy(connection) != 0) {
      if (!bell_.wait_for(PQsocket(connection), POLLIN, left(until)) || PQconsumeInput(connection) == 0) return false;
    }
    bool right = true;
    while (const OwnedResult result{PQgetResult(connection)}) {
      const ExecStatusType status = PQresultStatus(result.get());
      right = right && (status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK);
      if (status == PGRES_TUPLES_OK && PQntuples(result.get()) == 1) {
        hub_.publish(number_in(PQgetvalue(result.get(), 0, 0)));
      }
    }
    take_notices(connection);
    return right;
  }

  void take_notices(PGconn* connection) {
    while (PGnotify* told = PQnotifies(connection)) {
      hub_.publish(number_in(told->extra));
      PQfreemem(told);
    }
  }

  static milliseconds left(steady_clock::time_point until) {
    return std::chrono::ceil<milliseconds>(until - steady_clock::now());
  }

  PostgresAddress address_;
  FeedHub hub_;
  Bell bell_;
  std::thread thread_;
};

}  // namespace

Result<std::unique_ptr<ChangeFeed>> postgres_feed(const std::string& address, std::int64_t newest) {
  SHERD_TRY(PostgresAddress place, read_postgres_address(address, {}));
  return std::make_unique<PostgresFeed>(std::move(place), newest);
}

}  // namespace sherd::store
