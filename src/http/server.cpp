#include "http/server.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>
#include <set>

#include "http/guard.h"
#include "http/status.h"
#include "http/wire.h"

namespace sherd::http {

namespace asio = boost::asio;
namespace beast = boost::beast;
using boost::system::error_code;
using tcp = asio::ip::tcp;
template <class T>
using Awaitable = asio::awaitable<T>;
using Parser = beast::http::request_parser<beast::http::string_body>;

namespace {

constexpr std::size_t kReadBytes = 4096;
constexpr std::size_t kBufferBytes = 128 << 10;
constexpr std::size_t kMostTurnedAway = 64;  ///< told so at once; further ones are closed without a word

auto into(error_code& error) { return asio::redirect_error(asio::use_awaitable, error); }

/// One client. Everything in it happens on the server's one thread.
struct Connection {
  Connection(tcp::socket socket, std::set<Connection*>& all) : stream(std::move(socket)), all_(all) {
    all_.insert(this);
  }
  ~Connection() { all_.erase(this); }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void close() {
    error_code ignored;
    ignored = stream.socket().close(ignored);
  }

  beast::tcp_stream stream;
  beast::flat_buffer buffer{kBufferBytes};
  bool at_work = true;     ///< a handler has its request, or its answer is being written
  std::uint64_t turn = 0;  ///< grows with each wait: the smallest has waited longest
  std::string peer, local;

 private:
  std::set<Connection*>& all_;
};

/// One request inside the gate, for as long as this lives.
class Pass {
 public:
  explicit Pass(Gate& gate) : gate_(gate), inside_(gate.enter()) {}
  ~Pass() {
    if (inside_) gate_.leave();
  }
  Pass(const Pass&) = delete;
  Pass& operator=(const Pass&) = delete;
  bool inside() const { return inside_; }

 private:
  Gate& gate_;
  bool inside_;
};

/// Lets a coroutine sleep until there is news, or for a time. `wake` only by the server's thread.
struct Sleeper {
  explicit Sleeper(const asio::any_io_executor& executor) : timer(executor) {}

  asio::steady_timer timer;
  bool woken = false;

  void wake() {
    woken = true;
    timer.cancel();
  }
};

Request request_of(Parser& parser, const Connection& connection, std::shared_ptr<const std::atomic<bool>> stopping) {
  auto& message = parser.get();
  Request request{.method = std::string(message.method_string()),
                  .target = std::string(message.target()),
                  .headers = {},
                  .body = std::move(message.body()),
                  .peer = connection.peer,
                  .local = connection.local,
                  .stopping = std::move(stopping)};
  for (const auto& field : message) request.headers.emplace_back(field.name_string(), field.value());
  return request;
}

/// The status with which a request that cannot be read is refused; 0 where the client is simply gone.
int status_of_failure(const error_code& error) {
  if (error == beast::http::error::header_limit || error == beast::http::error::buffer_overflow) return 431;
  if (error == beast::http::error::body_limit) return 413;
  if (error == beast::http::error::end_of_stream || error == beast::http::error::partial_message) return 0;
  return error.category() == beast::http::make_error_code(beast::http::error::bad_method).category() ? 400 : 0;
}

std::string sentence_of(int status) {
  switch (status) {
    case 413:
      return "the request's body is too large";
    case 429:
      return "too much is asked at once";
    case 431:
      return "the request's headers are too large";
    default:
      return "this is not an HTTP request";
  }
}

}  // namespace

struct Server::Impl {
  explicit Impl(ServerSettings chosen) : settings(std::move(chosen)), gate(settings.most_requests) {}

  Result<void> listen();
  void serve(Handler& handler, bool until_signal);
  void begin_stop();

  Awaitable<void> accept();
  bool make_room();
  Awaitable<void> turn_away(std::shared_ptr<Connection> connection);
  Awaitable<void> converse(std::shared_ptr<Connection> connection);
  Awaitable<bool> read(Connection& connection, Parser& parser);
  Awaitable<bool> answer(Connection& connection, Parser& parser);
  Awaitable<Response> handled(Request request);
  Awaitable<bool> write(Connection& connection, const Response& response, bool with_body, bool keep_alive);
  Awaitable<void> stream_events(Connection& connection, EventStream& events);
  Awaitable<void> refuse(Connection& connection, int status);
  Awaitable<void> close_gently(Connection& connection);

  ServerSettings settings;
  Gate gate;
  std::set<Connection*> connections;  // outlives the coroutines, which end with `io` at the latest
  std::uint64_t turns = 0;
  asio::io_context io{1};
  tcp::acceptor acceptor{io};
  asio::steady_timer grace{io};
  std::shared_ptr<std::atomic<bool>> stopping = std::make_shared<std::atomic<bool>>(false);
  std::unique_ptr<asio::thread_pool> pool;
  std::unique_ptr<asio::signal_set> signals;
  Handler* handler = nullptr;
};

Result<void> Server::Impl::listen() {
  error_code error;
  const std::string name = settings.bind == "localhost" ? "127.0.0.1" : settings.bind;
  const auto address = asio::ip::make_address(name, error);
  if (error) {
    return fail(ErrorKind::usage, "bad_address", "\"" + settings.bind + "\" is not an address",
                "say 127.0.0.1, or an address of this machine such as 192.168.1.5");
  }
  const tcp::endpoint endpoint(address, settings.port);
  error = acceptor.open(endpoint.protocol(), error);
  if (!error) error = acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) error = acceptor.bind(endpoint, error);
  if (!error) error = acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (!error) return {};
  const std::string port = "port " + std::to_string(settings.port);
  if (error == asio::error::address_in_use)
    return fail("port_taken", port + " is taken by another program", "choose another with --port, or --port 0");
  if (error == asio::error::access_denied)
    return fail("port_not_allowed", port + " is not for ordinary users", "choose one above 1023 with --port");
  if (error == boost::system::errc::address_not_available)
    return fail("no_address", settings.bind + " is no address of this machine", "leave out --bind");
  return fail("cannot_listen", "no connection can be taken on " + port + ": " + error.message(), {});
}

void Server::Impl::serve(Handler& answers, bool until_signal) {
  handler = &answers;
  pool = std::make_unique<asio::thread_pool>(settings.handler_threads);
  if (until_signal) {
    signals = std::make_unique<asio::signal_set>(io, SIGINT, SIGTERM);
    signals->async_wait([this](error_code error, int) {
      if (error) return;
      signals.reset();  // a second signal ends the program at once
      begin_stop();
    });
  }
  asio::co_spawn(io, accept(), asio::detached);
  io.run();
  pool->stop();
  pool->join();
}

void Server::Impl::begin_stop() {
  if (stopping->exchange(true)) return;
  error_code ignored;
  ignored = acceptor.close(ignored);
  if (signals) ignored = signals->cancel(ignored);
  for (Connection* connection : connections) {
    if (!connection->at_work) connection->close();
  }
  grace.expires_after(settings.grace);
  grace.async_wait([this](error_code error) {
    if (!error) io.stop();
  });
  if (connections.empty()) grace.cancel();
}

Awaitable<void> Server::Impl::accept() {
  asio::steady_timer pause(io);
  while (!*stopping) {
    error_code error;
    tcp::socket socket(io);
    co_await acceptor.async_accept(socket, into(error));
    if (*stopping) break;
    if (error) {  // out of descriptors, most likely: some will come back
      pause.expires_after(std::chrono::milliseconds(100));
      co_await pause.async_wait(into(error));
      continue;
    }
    if (connections.size() >= settings.most_connections + kMostTurnedAway) continue;
    const bool has_room = make_room();
    auto connection = std::make_shared<Connection>(std::move(socket), connections);
    if (has_room) {
      asio::co_spawn(io, converse(std::move(connection)), asio::detached);
    } else {
      asio::co_spawn(io, turn_away(std::move(connection)), asio::detached);
    }
  }
}

/// False where all connections are at work.
bool Server::Impl::make_room() {
  if (connections.size() < settings.most_connections) return true;
  Connection* longest = nullptr;
  for (Connection* one : connections) {
    if (!one->at_work && one->stream.socket().is_open() && (longest == nullptr || one->turn < longest->turn))
      longest = one;
  }
  if (longest != nullptr) longest->close();
  return longest != nullptr;
}

Awaitable<void> Server::Impl::turn_away(std::shared_ptr<Connection> connection) { co_await refuse(*connection, 429); }

Awaitable<void> Server::Impl::converse(std::shared_ptr<Connection> connection) {
  error_code ignored;
  connection->peer = connection->stream.socket().remote_endpoint(ignored).address().to_string();
  connection->local = connection->stream.socket().local_endpoint(ignored).address().to_string();
  ignored = connection->stream.socket().set_option(tcp::no_delay(true), ignored);
  bool goes_on = true;
  while (goes_on && !*stopping) {
    connection->at_work = false;
    connection->turn = ++turns;
    Parser parser;
    goes_on = co_await read(*connection, parser);
    if (goes_on) goes_on = co_await answer(*connection, parser);
  }
  connection.reset();
  if (*stopping && connections.empty()) grace.cancel();
}

/// One whole request; false where there is none and the connection is to be closed.
Awaitable<bool> Server::Impl::read(Connection& connection, Parser& parser) {
  error_code error;
  parser.header_limit(settings.header_bytes);
  parser.body_limit(settings.body_bytes);
  if (connection.buffer.size() == 0) {
    connection.stream.expires_after(settings.idle);
    const auto space = connection.buffer.prepare(kReadBytes);
    const std::size_t bytes = co_await connection.stream.async_read_some(space, into(error));
    if (error) co_return false;
    connection.buffer.commit(bytes);
  }
  connection.stream.expires_after(settings.header_time);
  co_await beast::http::async_read_header(connection.stream, connection.buffer, parser, into(error));
  if (!error && beast::iequals(parser.get()[beast::http::field::expect], "100-continue")) {
    const std::string go_on = "HTTP/1.1 100 Continue\r\n\r\n";
    co_await asio::async_write(connection.stream, asio::buffer(go_on), into(error));
  }
  if (!error && !parser.is_done()) {
    connection.stream.expires_after(settings.body_time);
    co_await beast::http::async_read(connection.stream, connection.buffer, parser, into(error));
  }
  if (!error) co_return true;
  const int status = *stopping ? 0 : status_of_failure(error);
  if (status != 0) co_await refuse(connection, status);
  co_return false;
}

/// Answers one request; false where nothing is to follow on this connection.
Awaitable<bool> Server::Impl::answer(Connection& connection, Parser& parser) {
  connection.at_work = true;
  auto pass = std::make_unique<Pass>(gate);
  if (!pass->inside()) {
    co_await refuse(connection, 429);
    co_return false;
  }
  const bool with_body = parser.get().method() != beast::http::verb::head;
  bool keep_alive = parser.get().keep_alive();
  const Response response = co_await handled(request_of(parser, connection, stopping));
  pass.reset();
  keep_alive = keep_alive && !*stopping && !response.events;
  if (!co_await write(connection, response, with_body, keep_alive)) co_return false;
  if (response.events && with_body) {
    connection.at_work = false;  // ends with the server, and gives way where there is no room
    connection.turn = ++turns;
    co_await stream_events(connection, *response.events);
  }
  if (!keep_alive) co_await close_gently(connection);
  co_return keep_alive;
}

/// The handler's response, made on a thread of the pool.
Awaitable<Response> Server::Impl::handled(Request request) {
  auto made = std::make_shared<Response>();
  auto done = std::make_shared<Sleeper>(io.get_executor());
  auto work = asio::make_work_guard(io);
  asio::post(*pool, [this, made, done, work = std::move(work), request = std::move(request)] {
    *made = handler->handle(request);
    asio::post(io, [done] { done->wake(); });
  });
  while (!done->woken) {
    error_code ignored;
    done->timer.expires_at(asio::steady_timer::time_point::max());
    co_await done->timer.async_wait(into(ignored));
  }
  co_return std::move(*made);
}

Awaitable<bool> Server::Impl::write(Connection& connection, const Response& response, bool with_body, bool keep_alive) {
  error_code error;
  const std::string head = head_text(response, keep_alive);
  const std::array<asio::const_buffer, 2> parts{asio::buffer(head),
                                                asio::buffer(with_body ? response.body : std::string_view{})};
  connection.stream.expires_after(settings.write_time);
  co_await asio::async_write(connection.stream, parts, into(error));
  co_return !error;
}

Awaitable<void> Server::Impl::stream_events(Connection& connection, EventStream& events) {
  auto sleeper = std::make_shared<Sleeper>(io.get_executor());
  events.on_news([this, weak = std::weak_ptr<Sleeper>(sleeper)] {
    asio::post(io, [weak] {
      if (const auto one = weak.lock()) one->wake();
    });
  });
  error_code error;
  bool over = false;
  while (!error && !over && !*stopping && connection.stream.socket().is_open()) {
    sleeper->woken = false;
    const EventStream::News news = events.poll();
    over = news.over;
    const std::string text = news.text.empty() ? ":\n\n" : news.text;
    connection.stream.expires_after(settings.write_time);
    co_await asio::async_write(connection.stream, asio::buffer(text), into(error));
    if (error || over || sleeper->woken) continue;
    error_code ignored;
    sleeper->timer.expires_after(settings.heartbeat);
    co_await sleeper->timer.async_wait(into(ignored));
  }
}

Awaitable<void> Server::Impl::refuse(Connection& connection, int status) {
  Error error{.kind = ErrorKind::usage, .code = "bad_request", .message = sentence_of(status), .where = {}, .hint = {}};
  if (status == 429) error.code = "too_many_requests";
  Response response = error_response(status, error, settings.version);
  if (status == 429) response.headers.emplace_back("Retry-After", "1");
  add_security_headers(response);
  if (co_await write(connection, response, true, false)) co_await close_gently(connection);
}

/// Closed at once with unread bytes waiting, the other side would lose the answer (RFC 9112 section 9.6).
Awaitable<void> Server::Impl::close_gently(Connection& connection) {
  error_code error;
  error = connection.stream.socket().shutdown(tcp::socket::shutdown_send, error);
  connection.stream.expires_after(std::chrono::seconds(1));
  connection.buffer.clear();
  std::size_t left = 16 * kReadBytes;
  while (!error && left > 0) {
    const auto space = connection.buffer.prepare(kReadBytes);
    const std::size_t bytes = co_await connection.stream.async_read_some(space, into(error));
    left -= std::min(left, bytes);
  }
}

Server::Server(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Server::Server(Server&&) noexcept = default;
Server& Server::operator=(Server&&) noexcept = default;
Server::~Server() = default;

Result<Server> Server::open(ServerSettings settings) {
  rlimit files{};
  if (getrlimit(RLIMIT_NOFILE, &files) == 0) {  // a descriptor a connection, and some for stores
    files.rlim_cur =
        std::max<rlim_t>(files.rlim_cur, std::min<rlim_t>(files.rlim_max, settings.most_connections + 256));
    setrlimit(RLIMIT_NOFILE, &files);
  }
  auto impl = std::make_unique<Impl>(std::move(settings));
  SHERD_CHECK(impl->listen());
  return Server(std::move(impl));
}

std::uint16_t Server::port() const { return impl_->acceptor.local_endpoint().port(); }

bool Server::is_loopback() const { return impl_->acceptor.local_endpoint().address().is_loopback(); }

std::string Server::origin() const {
  const auto endpoint = impl_->acceptor.local_endpoint();
  const std::string host = endpoint.address().to_string();
  return endpoint.address().is_v6() ? fmt::format("http://[{}]:{}", host, endpoint.port())
                                    : fmt::format("http://{}:{}", host, endpoint.port());
}

void Server::run(Handler& handler, bool until_signal) { impl_->serve(handler, until_signal); }

void Server::stop() {
  asio::post(impl_->io, [impl = impl_.get()] { impl->begin_stop(); });
}

}  // namespace sherd::http
