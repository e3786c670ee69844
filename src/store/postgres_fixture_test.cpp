#include "store/postgres_fixture.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <poll.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <mutex>
#include <thread>

#include "store/postgres_dialect.h"

namespace sherd::store {

namespace {

sockaddr_in loopback(int port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  return address;
}

const sockaddr* as_plain(const sockaddr_in& address) { return reinterpret_cast<const sockaddr*>(&address); }

std::size_t begin_of_host(const std::string& address) { return address.rfind('@') + 1; }

std::unique_ptr<Dialect> connected(const std::string& address) {
  return must(connect_postgres(must(read_postgres_address(address, {}))));
}

}  // namespace

std::string test_server() {
  const char* address = ::getenv("SHERD_TEST_POSTGRES");
  return address == nullptr ? "" : address;
}

void run_on(const std::string& address, const std::string& statements) {
  const auto dialect = connected(address);
  must(guarded(*dialect, [&]() -> Result<void> {
    Table none;
    dialect->fetch(statements, {}, none);
    return {};
  }));
}

std::string ask(const std::string& address, const std::string& query) {
  const auto dialect = connected(address);
  Table rows;
  rows.add("value", CellType::text);
  must(guarded(*dialect, [&]() -> Result<void> {
    dialect->fetch(query, {}, rows);
    return {};
  }));
  return rows.rows() == 0 ? "" : std::string(rows.columns()[0].text(0));
}

void end_sessions(const std::string& address) {
  ask(address,
      "select count(pg_terminate_backend(pid, 5000))::text from pg_stat_activity where datname = current_database() "
      "and "
      "pid <> pg_backend_pid()");
}

std::string with_password(const std::string& address, const std::string& password) {
  const std::size_t user = address.find(':', address.find("://") + 3);
  return address.substr(0, user + 1) + password + address.substr(begin_of_host(address) - 1);
}

std::string with_database(const std::string& address, const std::string& database) {
  return address.substr(0, address.find('/', begin_of_host(address)) + 1) + database;
}

std::string with_port(const std::string& address, int port) {
  const std::size_t colon = address.find(':', begin_of_host(address));
  return fmt::format("{}:{}{}", address.substr(0, colon), port, address.substr(address.find('/', colon)));
}

int port_of(const std::string& address) {
  return std::stoi(address.substr(address.find(':', begin_of_host(address)) + 1));
}

namespace {

/// Making a database takes longer than emptying one: those that have been used are used again, and go at the end.
class Databases final : public testing::Environment {
 public:
  std::string take() {
    if (free_.empty()) {
      const std::string name = next_name();
      run_on(test_server(), "create database " + name);
      return name;
    }
    const std::string name = free_.back();
    free_.pop_back();
    return name;
  }
  void give_back(const std::string& name) { free_.push_back(name); }
  std::string next_name() { return fmt::format("sherds_{}_{}", ::getpid(), ++made_); }
  void TearDown() override {
    for (const std::string& name : free_) run_on(test_server(), fmt::format("drop database {} with (force)", name));
    free_.clear();
  }

 private:
  std::vector<std::string> free_;
  int made_ = 0;
};

Databases& databases() {
  static auto* the_ones = static_cast<Databases*>(testing::AddGlobalTestEnvironment(new Databases));
  return *the_ones;
}
[[maybe_unused]] const Databases& at_start = databases();

constexpr const char* kEmpty =
    "do $$ declare name text; begin for name in select nspname from pg_namespace where nspname like 'sherdwright%' "
    "loop execute 'drop schema ' || quote_ident(name) || ' cascade'; end loop; end $$";

}  // namespace

TestDatabase::TestDatabase(const std::string& how) : is_usual_(how.empty()) {
  name_ = is_usual_ ? databases().take() : databases().next_name();
  if (!is_usual_) run_on(test_server(), fmt::format("create database {} {}", name_, how));
  address_ = with_database(test_server(), name_);
}

TestDatabase::~TestDatabase() {
  if (is_usual_) {
    end_sessions(address_);
    run_on(address_, kEmpty);
    databases().give_back(name_);
  } else {
    run_on(test_server(), fmt::format("drop database {} with (force)", name_));
  }
}

/// One thread passes bytes to and fro.
struct Cable::Inside {
  struct Pair {
    int client = -1, server = -1;
    bool deaf = false;  ///< its answers are lost
  };

  void run() {
    while (!done) {
      std::vector<pollfd> sockets{{listening, POLLIN, 0}};
      const std::lock_guard lock(mutex);
      if (is_cut) break_all();
      for (const Pair& pair : pairs) {
        sockets.push_back({pair.client, POLLIN, 0});
        sockets.push_back({pair.server, POLLIN, 0});
      }
      if (::poll(sockets.data(), sockets.size(), 5) <= 0) continue;
      for (std::size_t i = pairs.size(); i-- > 0;) {
        const bool whole = (sockets[1 + 2 * i].revents == 0 || pass_up(pairs[i])) &&
                           (sockets[2 + 2 * i].revents == 0 || pass_down(pairs[i]));
        if (!whole) break_pair(i);
      }
      if (sockets[0].revents != 0) accept_one();
    }
    break_all();
  }

  void accept_one() {
    const int client = ::accept4(listening, nullptr, nullptr, SOCK_CLOEXEC);
    const int server = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    const sockaddr_in address = loopback(server_port);
    if (is_cut || ::connect(server, as_plain(address), sizeof address) != 0) {
      ::close(client);
      ::close(server);
    } else {
      pairs.push_back({client, server});
    }
  }

  static bool pass(int from, int to, std::string& seen) {
    std::array<char, 65536> bytes{};
    const auto size = ::recv(from, bytes.data(), bytes.size(), 0);
    if (size <= 0) return false;
    seen.assign(bytes.data(), static_cast<std::size_t>(size));
    return to < 0 || ::send(to, bytes.data(), static_cast<std::size_t>(size), MSG_NOSIGNAL) == size;
  }

  bool pass_up(Pair& pair) {
    std::string seen;
    if (!pass(pair.client, -1, seen)) return false;
    if (!lost_message.empty() && seen.find(lost_message) != std::string::npos) {
      lost_message.clear();
      return false;
    }
    if (!lost_answer.empty() && seen.find(lost_answer) != std::string::npos) {
      lost_answer.clear();
      pair.deaf = true;
    }
    return ::send(pair.server, seen.data(), seen.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(seen.size());
  }

  bool pass_down(Pair& pair) {
    std::string seen;
    if (pair.deaf) return !pass(pair.server, -1, seen) && false;  // the answer came, and goes nowhere
    return pass(pair.server, pair.client, seen);
  }

  void break_pair(std::size_t i) {
    ::close(pairs[i].client);
    ::close(pairs[i].server);
    pairs.erase(pairs.begin() + static_cast<std::ptrdiff_t>(i));
  }
  void break_all() {
    while (!pairs.empty()) break_pair(pairs.size() - 1);
  }

  int server_port = 0, listening = -1;
  std::mutex mutex;
  std::atomic<bool> done = false, is_cut = false;
  std::string lost_answer, lost_message;
  std::vector<Pair> pairs;
  std::thread thread;
};

Cable::Cable(int server_port) : inside_(std::make_unique<Inside>()) {
  inside_->server_port = server_port;
  inside_->listening = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  sockaddr_in address = loopback(0);
  socklen_t size = sizeof address;
  EXPECT_EQ(::bind(inside_->listening, as_plain(address), size), 0);
  EXPECT_EQ(::listen(inside_->listening, 16), 0);
  EXPECT_EQ(::getsockname(inside_->listening, reinterpret_cast<sockaddr*>(&address), &size), 0);
  port_ = ntohs(address.sin_port);
  inside_->thread = std::thread([this] { inside_->run(); });
}

Cable::~Cable() {
  inside_->done = true;
  inside_->thread.join();
  ::close(inside_->listening);
}

void Cable::cut() { inside_->is_cut = true; }
void Cable::mend() { inside_->is_cut = false; }

void Cable::lose_the_answer_to(const std::string& word) {
  const std::lock_guard lock(inside_->mutex);
  inside_->lost_answer = word;
}

void Cable::lose_the_message(const std::string& word) {
  const std::lock_guard lock(inside_->mutex);
  inside_->lost_message = word;
}

}  // namespace sherd::store
