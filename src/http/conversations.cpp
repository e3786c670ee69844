#include "http/conversations.h"

#include <unistd.h>

#include <array>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>
#include <set>

#include "http/body_room.h"
#include "http/guard.h"
#include "http/server.h"
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
    if (const auto sleeper = listening.lock()) sleeper->wake();
  }

  beast::tcp_stream stream;
  beast::flat_buffer buffer{kBufferBytes};
  bool at_work = true;     ///< a handler has its request, or its answer is being written
  std::uint64_t turn = 0;  ///< grows with each wait: the smallest has waited longest
  std::string peer, local;
  std::weak_ptr<Sleeper> listening;  ///< of the stream of events that goes out on it

 private:
  std::set<Connection*>& all_;
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

/// Once its head is read: how large the body of this request may be, and room for it. The status with which one that
/// says it is larger, or that finds no room, is refused; 0: it is read.
int limit_body(Parser& parser, const ServerSettings& settings, BodyRoom::Part& room) {
  const std::string_view target(parser.get().target().data(), parser.get().target().size());
  const std::uint64_t most = holds_file(target.substr(0, target.find('?'))) ? settings.file_bytes : settings.body_bytes;
  parser.body_limit(most);
  if (parser.is_done()) return 0;
  const std::uint64_t length = parser.content_length().value_or(most);  // in chunks: nobody knows yet
  if (length > most) return 413;
  return room.take(length) ? 0 : 429;
}

}  // namespace

struct Conversations::Impl {
  Impl(asio::io_context& loop, const ServerSettings& chosen)
      : io(loop), settings(chosen), gate(chosen.most_requests), room(chosen.bodies_bytes) {}

  bool make_room();
  Awaitable<void> turn_away(std::shared_ptr<Connection> connection);
  Awaitable<void> converse(std::shared_ptr<Connection> connection);
  Awaitable<bool> read(Connection& connection, Parser& parser, BodyRoom::Part& part);
  Awaitable<bool> answer(Connection& connection, Parser& parser);
  Awaitable<Response> handled(Request request);
  Awaitable<bool> write(Connection& connection, const Response& response, bool with_body, bool keep_alive);
  Awaitable<void> stream_events(Connection& connection, EventStream& events);
  Awaitable<void> refuse(Connection& connection, int status);
  Awaitable<void> close_gently(Connection& connection);

  asio::io_context& io;
  const ServerSettings& settings;
  Gate gate;
  BodyRoom room;
  std::set<Connection*> connections;
  std::uint64_t turns = 0;
  std::shared_ptr<std::atomic<bool>> stopping = std::make_shared<std::atomic<bool>>(false);
  std::function<void()> when_over;
  std::unique_ptr<asio::thread_pool> lookers;   ///< that carry out what only reads
  std::unique_ptr<asio::thread_pool> changers;  ///< and what does not
  Handler* handler = nullptr;
};

/// False where all connections are at work.
bool Conversations::Impl::make_room() {
  if (connections.size() < settings.most_connections) return true;
  Connection* longest = nullptr;
  for (Connection* one : connections) {
    if (!one->at_work && one->stream.socket().is_open() && (longest == nullptr || one->turn < longest->turn))
      longest = one;
  }
  if (longest != nullptr) longest->close();
  return longest != nullptr;
}

Awaitable<void> Conversations::Impl::turn_away(std::shared_ptr<Connection> connection) {
  co_await refuse(*connection, 429);
}

Awaitable<void> Conversations::Impl::converse(std::shared_ptr<Connection> connection) {
  error_code ignored;
  if (connection->peer.empty()) {
    connection->peer = connection->stream.socket().remote_endpoint(ignored).address().to_string();
    connection->local = connection->stream.socket().local_endpoint(ignored).address().to_string();
  }
  ignored = connection->stream.socket().set_option(tcp::no_delay(true), ignored);
  bool goes_on = true;
  while (goes_on && !*stopping) {
    connection->at_work = false;
    connection->turn = ++turns;
    Parser parser;
    BodyRoom::Part part(room);
    goes_on = co_await read(*connection, parser, part);
    if (goes_on) goes_on = co_await answer(*connection, parser);
  }
  connection.reset();
  if (*stopping && connections.empty()) when_over();
}

/// One whole request; false where there is none and the connection is to be closed.
Awaitable<bool> Conversations::Impl::read(Connection& connection, Parser& parser, BodyRoom::Part& part) {
  error_code error;
  parser.header_limit(settings.header_bytes);
  parser.body_limit(std::max(settings.body_bytes, settings.file_bytes));
  if (connection.buffer.size() == 0) {
    connection.stream.expires_after(settings.idle);
    const auto space = connection.buffer.prepare(kReadBytes);
    const std::size_t bytes = co_await connection.stream.async_read_some(space, into(error));
    if (error) co_return false;
    connection.buffer.commit(bytes);
  }
  connection.stream.expires_after(settings.header_time);
  co_await beast::http::async_read_header(connection.stream, connection.buffer, parser, into(error));
  const int refused = error ? 0 : limit_body(parser, settings, part);
  if (refused != 0) {
    co_await refuse(connection, refused);
    co_return false;
  }
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
Awaitable<bool> Conversations::Impl::answer(Connection& connection, Parser& parser) {
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

/// The handler's response, made on a thread of one of the pools.
Awaitable<Response> Conversations::Impl::handled(Request request) {
  auto made = std::make_shared<Response>();
  auto done = std::make_shared<Sleeper>(io.get_executor());
  auto work = asio::make_work_guard(io);
  const bool only_reads = request.method == "GET" || request.method == "HEAD";
  asio::post(only_reads ? *lookers : *changers,
             [this, made, done, work = std::move(work), request = std::move(request)] {
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

Awaitable<bool> Conversations::Impl::write(Connection& connection, const Response& response, bool with_body,
                                           bool keep_alive) {
  error_code error;
  const std::string head = head_text(response, keep_alive);
  const std::array<asio::const_buffer, 2> parts{asio::buffer(head),
                                                asio::buffer(with_body ? response.body : std::string_view{})};
  connection.stream.expires_after(settings.write_time);
  co_await asio::async_write(connection.stream, parts, into(error));
  co_return !error;
}

Awaitable<void> Conversations::Impl::stream_events(Connection& connection, EventStream& events) {
  auto sleeper = std::make_shared<Sleeper>(io.get_executor());
  connection.listening = sleeper;
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

Awaitable<void> Conversations::Impl::refuse(Connection& connection, int status) {
  Response response = unread_response(status, settings.version);
  add_security_headers(response, settings.tls.has_value());
  if (co_await write(connection, response, true, false)) co_await close_gently(connection);
}

/// Closed at once with unread bytes waiting, the other side would lose the answer (RFC 9112 section 9.6).
Awaitable<void> Conversations::Impl::close_gently(Connection& connection) {
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

Conversations::Conversations(asio::io_context& io, const ServerSettings& settings)
    : impl_(std::make_unique<Impl>(io, settings)) {}

Conversations::~Conversations() = default;

void Conversations::begin(Handler& handler) {
  impl_->handler = &handler;
  impl_->lookers = std::make_unique<asio::thread_pool>(impl_->settings.handler_threads);
  impl_->changers = std::make_unique<asio::thread_pool>(impl_->settings.change_threads);
}

void Conversations::take(Taken taken) {
  error_code error;
  tcp::socket socket(impl_->io);
  error = socket.assign(taken.v6 ? tcp::v6() : tcp::v4(), taken.descriptor, error);
  if (error) ::close(taken.descriptor);
  if (error || impl_->connections.size() >= impl_->settings.most_connections + kMostTurnedAway) return;
  const bool has_room = impl_->make_room();
  auto connection = std::make_shared<Connection>(std::move(socket), impl_->connections);
  connection->peer = std::move(taken.peer);
  connection->local = std::move(taken.local);
  if (has_room) {
    asio::co_spawn(impl_->io, impl_->converse(std::move(connection)), asio::detached);
  } else {
    asio::co_spawn(impl_->io, impl_->turn_away(std::move(connection)), asio::detached);
  }
}

void Conversations::begin_stop(std::function<void()> when_over) {
  impl_->when_over = std::move(when_over);
  *impl_->stopping = true;
  for (Connection* connection : impl_->connections) {
    if (!connection->at_work) connection->close();
  }
  if (impl_->connections.empty()) impl_->when_over();
}

bool Conversations::stopping() const { return *impl_->stopping; }

void Conversations::end() {
  for (asio::thread_pool* pool : {impl_->lookers.get(), impl_->changers.get()}) {
    pool->stop();
    pool->join();
  }
}

}  // namespace sherd::http
