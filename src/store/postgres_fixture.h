#pragma once

#include <atomic>
#include <string>

#include "store/testing.h"

/// What the tests on a PostgreSQL server share. The server is one for tests (tools/postgres_for_tests); its address is
/// in the environment variable SHERD_TEST_POSTGRES.
namespace sherd::store {

/// "" where there is no server for tests.
std::string test_server();
constexpr const char* kNoServer =
    "no PostgreSQL server for tests: run under tools/postgres_for_tests, or set SHERD_TEST_POSTGRES";

/// Runs statements on the database of that address, as its owner, outside any store.
void run_on(const std::string& address, const std::string& statements);
/// The first value of a query's answer.
std::string ask(const std::string& address, const std::string& query);
/// Ends every other session on that database, as a server does that stops.
void end_sessions(const std::string& address);

/// The same address with another password or database.
std::string with_password(const std::string& address, const std::string& password);
std::string with_database(const std::string& address, const std::string& database);
std::string with_port(const std::string& address, int port);
int port_of(const std::string& address);

/// An empty database of its own; it goes when the test ends.
class TestDatabase {
 public:
  /// `how`: words after "create database NAME".
  explicit TestDatabase(const std::string& how = "");
  ~TestDatabase();
  TestDatabase(const TestDatabase&) = delete;
  TestDatabase& operator=(const TestDatabase&) = delete;

  const std::string& name() const { return name_; }
  const std::string& address() const { return address_; }

 private:
  bool is_usual_;
  std::string name_, address_;
};

/// A store in a database of its own, with the site SAL26 (change 1) and two fabrics (change 2).
class PostgresFixture : public testing::Test {
 protected:
  void SetUp() override {
    if (test_server().empty()) GTEST_SKIP() << kNoServer;
    database_ = std::make_unique<TestDatabase>();
    store_ = must(create(address()));
    put_site(*store_, "SAL26");
    insert(*store_, "a", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}, {"shell-3"}}));
  }
  void TearDown() override { store_.reset(); }

  Store& store() { return *store_; }
  const std::string& address() const { return database_->address(); }
  std::vector<std::string> fabrics(Store& in) { return read(in, Kind::fabrics, {"fabric"}); }

  TestFolder folder_;
  std::unique_ptr<TestDatabase> database_;
  std::unique_ptr<Store> store_;
};

/// Stands between a client and the server on a port of its own, and can be cut like a cable.
class Cable {
 public:
  explicit Cable(int server_port);
  ~Cable();
  Cable(const Cable&) = delete;
  Cable& operator=(const Cable&) = delete;

  int port() const { return port_; }
  /// Breaks every connection and lets no new one in until `mend`.
  void cut();
  void mend();
  /// The next message of a client that holds `word` reaches the server; the connection breaks before the answer comes.
  void lose_the_answer_to(const std::string& word);
  /// The connection breaks before the next message with `word` reaches the server.
  void lose_the_message(const std::string& word);

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
  int port_ = 0;
};

}  // namespace sherd::store
