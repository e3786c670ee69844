#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <gmock/gmock.h>
#include <chrono>
#include <cstdlib>
#include <functional>
#include <memory>
#include <sstream>
#include <thread>

#include "program.h"

namespace sherd::tests {
namespace {

using nlohmann::json;
using std::chrono::milliseconds;
using std::chrono::seconds;
using std::chrono::steady_clock;
using ::testing::HasSubstr;

bool wait_until(const std::function<bool()>& condition, seconds at_most = seconds(30)) {
  const auto until = steady_clock::now() + at_most;
  while (steady_clock::now() < until) {
    if (condition()) return true;
    std::this_thread::sleep_for(milliseconds(10));
  }
  return condition();
}

/// A connection to a port of this machine.
class Wire {
 public:
  explicit Wire(int port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    open_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0;
    const timeval quantum{0, 50'000};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &quantum, sizeof quantum);
  }
  ~Wire() { ::close(socket_); }
  Wire(const Wire&) = delete;
  Wire& operator=(const Wire&) = delete;

  void send(const std::string& bytes) {
    open_ = open_ && ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(bytes.size());
  }
  /// All that has come so far.
  const std::string& take() {
    std::string piece(65536, '\0');
    while (open_) {
      const ssize_t bytes = ::recv(socket_, piece.data(), piece.size(), 0);
      if (bytes < 0) break;  // nothing just now
      open_ = bytes > 0;
      text_.append(piece, 0, static_cast<std::size_t>(bytes));
    }
    return text_;
  }
  bool is_open() const { return open_; }

 private:
  int socket_;
  bool open_ = false;
  std::string text_;
};

/// The program serving a store in a process of its own.
class Serving {
 public:
  Serving(const std::string& folder, const std::string& store) {
    const std::string out = folder + "/address-" + std::to_string(::getpid()) + "-" + std::to_string(++count_);
    child_ = ::fork();
    if (child_ == 0) {
      const char* program = std::getenv("SHERDWRIGHT");
      if (program == nullptr || std::freopen(out.c_str(), "w", stdout) == nullptr) ::_exit(127);
      ::execl(program, program, "serve", store.c_str(), "--port", "0", static_cast<char*>(nullptr));
      ::_exit(127);
    }
    std::string url;
    wait_until([&] {
      url = text_of(out);
      return url.find('\n') != std::string::npos;
    });
    const std::size_t colon = url.find(':', 7);
    EXPECT_NE(colon, std::string::npos) << "no address was told";
    if (colon == std::string::npos) return;
    port = std::atoi(url.c_str() + colon + 1);
    const std::string reply = get(url.substr(url.find("/?"), url.find('\n') - url.find("/?")));
    const std::size_t cookie = reply.find("Set-Cookie: ");
    EXPECT_NE(cookie, std::string::npos) << reply;
    if (cookie != std::string::npos)
      cookie_ = reply.substr(cookie + 12, reply.find_first_of(";\r", cookie) - cookie - 12);
  }
  ~Serving() { end(); }
  Serving(const Serving&) = delete;
  Serving& operator=(const Serving&) = delete;

  /// Its exit code.
  int end() {
    if (child_ <= 0) return -1;
    int status = 0;
    ::kill(child_, SIGTERM);
    ::waitpid(child_, &status, 0);
    child_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  std::string head(const std::string& target, const std::string& verb = "GET") const {
    return verb + " " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) + "\r\nCookie: " + cookie_ +
           "\r\n";
  }
  std::unique_ptr<Wire> listen(std::int64_t after) const {
    auto wire = std::make_unique<Wire>(port);
    wire->send(head("/api/feed?after=" + std::to_string(after)) + "\r\n");
    return wire;
  }
  std::string get(const std::string& target) const { return answer_of(head(target) + "Connection: close\r\n\r\n"); }
  json document(const std::string& target) const { return body_of(get(target)); }
  json post(const std::string& target, const std::string& body) const {
    return body_of(answer_of(head(target, "POST") + "Content-Type: application/json\r\nContent-Length: " +
                             std::to_string(body.size()) + "\r\nConnection: close\r\n\r\n" + body));
  }

  int port = 0;

 private:
  static std::string text_of(const std::string& path) {
    std::ostringstream out;
    if (std::FILE* file = std::fopen(path.c_str(), "r")) {
      char line[1024];
      while (std::fgets(line, sizeof line, file) != nullptr) out << line;
      std::fclose(file);
    }
    return out.str();
  }
  std::string answer_of(const std::string& request) const {
    Wire wire(port);
    wire.send(request);
    wait_until([&] {
      wire.take();
      return !wire.is_open();
    });
    return wire.take();
  }
  static json body_of(const std::string& answer) {
    const auto document = json::parse(answer.substr(answer.find("\r\n\r\n") + 4), nullptr, false);
    EXPECT_FALSE(document.is_discarded()) << answer;
    return document;
  }

  static inline int count_ = 0;
  pid_t child_ = 0;
  std::string cookie_;
};

bool hears(Wire& wire, const std::string& wanted) {
  const bool heard = wait_until([&] { return wire.take().find(wanted) != std::string::npos; });
  if (!heard) ADD_FAILURE() << "no " << wanted << " in\n" << wire.take();
  return heard;
}

std::size_t times(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

/// A store in a file or on a server, served by two processes; changes come from a third.
class FeedOfProcesses : public Bench, public ::testing::WithParamInterface<const char*> {
 protected:
  void SetUp() override {
    store_ = "x.sherds";
    address_ = path(store_);
    if (std::string(GetParam()) == "postgres") {
      const char* server = std::getenv("SHERD_TEST_POSTGRES");
      if (server == nullptr) GTEST_SKIP() << "no PostgreSQL server for tests: run under tools/postgres_for_tests";
      database_ = "sherd_feed_" + std::to_string(::getpid());
      server_ = server;
      ASSERT_TRUE(on_server("create database " + database_ + " encoding 'UTF8' template template0"));
      const std::size_t slash = server_.find('/', server_.find("://") + 3);
      address_ = store_ = server_.substr(0, slash) + "/" + database_;
    }
    make_small_store(store_);
    write("sherds.csv", "context,fabric,count\n2,grey-1,3\n");
    write("more.csv", "context,fabric,count\n3,grey-1,4\n");
  }
  void TearDown() override {
    if (!database_.empty()) on_server("drop database if exists " + database_ + " with (force)");
  }
  bool on_server(const std::string& statement) const {
    return std::system(("psql -q -d " + quoted(server_) + " -c " + quoted(statement) + " >/dev/null 2>&1").c_str()) ==
           0;
  }
  std::int64_t import(const std::string& file) const {
    return ask({"import", store_, file, "--as", "sherds"})["change"].get<std::int64_t>();
  }

  std::string store_, address_, database_, server_;
};
INSTANTIATE_TEST_SUITE_P(Kinds, FeedOfProcesses, ::testing::Values("file", "postgres"),
                         [](const auto& kind) { return std::string(kind.param); });

TEST_P(FeedOfProcesses, a_change_of_a_third_process_is_heard_in_both) {
  const Serving one(folder_.string(), address_), two(folder_.string(), address_);
  const auto first = one.listen(4), second = two.listen(0);
  ASSERT_TRUE(hears(*second, "id: 4\n")) << "four changes made the store, and are there at once";
  const auto begun = steady_clock::now();
  const std::int64_t seq = import("sherds.csv");
  EXPECT_EQ(seq, 5);
  ASSERT_TRUE(hears(*first, "id: 5\n"));
  ASSERT_TRUE(hears(*second, "id: 5\n"));
  EXPECT_LT(steady_clock::now() - begun, seconds(10)) << "generous: a loaded machine runs this";
  ASSERT_TRUE(hears(*first, "\"rows_added\": 1"));
  EXPECT_THAT(first->take(), HasSubstr("\"command\": \"import sherds sherds.csv\""));
  const json history = ask({"history", store_});
  EXPECT_THAT(first->take(), HasSubstr(history["changes"].back()["uid"].get<std::string>()));
  ask({"undo", store_, "5"});
  ASSERT_TRUE(hears(*first, "\"undoes\": 5"));
  ASSERT_TRUE(hears(*second, "\"undoes\": 5"));
  EXPECT_EQ(times(first->take(), "id: 5\n"), 1U);
  EXPECT_EQ(times(second->take(), "\nid: "), 6U) << second->take();
}

TEST_P(FeedOfProcesses, who_comes_back_to_the_other_process_hears_what_was_missed) {
  const Serving one(folder_.string(), address_), two(folder_.string(), address_);
  {
    const auto wire = one.listen(4);
    import("sherds.csv");
    ASSERT_TRUE(hears(*wire, "id: 5\n"));
  }
  import("more.csv");
  Wire wire(two.port);
  wire.send(two.head("/api/feed") + "Last-Event-ID: 5\r\n\r\n");
  ASSERT_TRUE(hears(wire, "id: 6\n"));
  EXPECT_EQ(times(wire.take(), "id: 5\n"), 0U);
}

TEST_P(FeedOfProcesses, the_result_of_a_job_is_stale_once_another_process_has_changed_the_record) {
  const Serving one(folder_.string(), address_);
  import("sherds.csv");
  const std::string id = one.post("/api/jobs", R"({"use_case": "tally", "request": {"by": ["fabric"]}})")["id"];
  ASSERT_TRUE(wait_until([&] { return one.document("/api/jobs/" + id)["state"] == "done"; }));
  const json fresh = one.document("/api/jobs/" + id + "/result");
  EXPECT_EQ(fresh["stale"], false);
  EXPECT_EQ(fresh["total"]["count"], 3);
  const auto wire = one.listen(5);
  import("more.csv");
  ASSERT_TRUE(hears(*wire, "id: 6\n"));
  const json stale = one.document("/api/jobs/" + id + "/result");
  EXPECT_EQ(stale["stale"], true);
  EXPECT_EQ(stale["stale_since"]["seq"], 6);
  EXPECT_EQ(stale["stale_since"]["command"], "import sherds more.csv");
  EXPECT_EQ(stale["total"]["count"], 3) << "what it found then";
  EXPECT_EQ(one.document("/api/tally?by=fabric")["total"]["count"], 7);
}

TEST_P(FeedOfProcesses, the_program_ends_at_once_although_seventy_listen) {
  Serving one(folder_.string(), address_);
  std::vector<std::unique_ptr<Wire>> wires;
  for (int i = 0; i < 70; ++i) {
    wires.push_back(one.listen(4));
    ASSERT_TRUE(hears(*wires.back(), "retry: "));
  }
  import("sherds.csv");
  for (const auto& wire : wires) ASSERT_TRUE(hears(*wire, "id: 5\n"));
  const auto begun = steady_clock::now();
  EXPECT_EQ(one.end(), 0);
  EXPECT_LT(steady_clock::now() - begun, seconds(3));
  for (const auto& wire : wires) {
    wire->take();
    EXPECT_FALSE(wire->is_open());
  }
}

}  // namespace
}  // namespace sherd::tests
