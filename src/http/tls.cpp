#include "http/tls.h"

#include <sys/socket.h>
#include <unistd.h>

#include <array>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/local/stream_protocol.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/ssl/context.hpp>
#include <boost/asio/ssl/stream.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <boost/asio/write.hpp>

#include "http/server.h"

namespace sherd::http {

namespace asio = boost::asio;
namespace ssl = asio::ssl;
using boost::system::error_code;
using tcp = asio::ip::tcp;
using Pair = asio::local::stream_protocol;

namespace {

constexpr std::size_t kPiece = 16 << 10;  ///< the most that a TLS record holds
constexpr std::size_t kMostBeyond = 64;   ///< relays beyond the most connections, which are told 429

auto into(error_code& error) { return asio::redirect_error(asio::use_awaitable, error); }

/// One client: an encrypted connection outside, a pair of sockets inside.
struct Relay {
  Relay(tcp::socket socket, ssl::context& context, std::size_t& all)
      : outer(std::move(socket), context), inner(outer.get_executor()), deadline(outer.get_executor()), all_(all) {
    ++all_;
  }
  ~Relay() { --all_; }
  Relay(const Relay&) = delete;
  Relay& operator=(const Relay&) = delete;

  void close() {
    error_code ignored;
    ignored = outer.next_layer().close(ignored);
    ignored = inner.close(ignored);
    deadline.cancel();
  }

  ssl::stream<tcp::socket> outer;
  Pair::socket inner;
  asio::steady_timer deadline;  ///< of a handshake, and of what the client has still to take

 private:
  std::size_t& all_;
};

using Shared = std::shared_ptr<Relay>;

/// Closes the relay where the deadline passes before it is moved or cancelled.
void limit(const Shared& relay, std::chrono::milliseconds time) {
  relay->deadline.expires_after(time);
  relay->deadline.async_wait([relay](error_code error) {
    if (!error) relay->close();
  });
}

/// From the client to the handler.
asio::awaitable<void> carry_in(Shared relay) {
  std::array<char, kPiece> piece{};
  error_code error;
  while (!error) {
    const std::size_t bytes = co_await relay->outer.async_read_some(asio::buffer(piece), into(error));
    if (bytes > 0) co_await asio::async_write(relay->inner, asio::buffer(piece, bytes), into(error));
  }
  // The client has said its last: what is under way is answered still.
  error_code ignored;
  ignored = relay->inner.shutdown(Pair::socket::shutdown_send, ignored);
  if (error != asio::error::eof) relay->close();
}

/// From the handler to the client.
asio::awaitable<void> carry_out(Shared relay, std::chrono::milliseconds write_time) {
  std::array<char, kPiece> piece{};
  error_code error;
  while (!error) {
    const std::size_t bytes = co_await relay->inner.async_read_some(asio::buffer(piece), into(error));
    if (bytes == 0) continue;
    limit(relay, write_time);
    co_await asio::async_write(relay->outer, asio::buffer(piece, bytes), into(error));
    relay->deadline.cancel();
  }
  limit(relay, std::chrono::seconds(1));
  co_await relay->outer.async_shutdown(into(error));
  relay->close();
}

std::unexpected<Error> refused(std::string code, const std::string& file, const error_code& error, std::string hint) {
  Error told{.kind = ErrorKind::usage,
             .code = std::move(code),
             .message = "the server cannot use it: " + error.message(),
             .where = {},
             .hint = std::move(hint)};
  told.where.file = file;
  return fail(std::move(told));
}

}  // namespace

struct TlsRelay::Impl {
  ssl::context context{ssl::context::tls_server};
  std::size_t relays = 0;

  asio::awaitable<void> shake_hands(Shared relay, Taken taken, std::chrono::milliseconds write_time,
                                    std::function<void(Taken)> hand_on);
};

TlsRelay::TlsRelay(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
TlsRelay::~TlsRelay() = default;

Result<std::unique_ptr<TlsRelay>> TlsRelay::open(const TlsFiles& files) {
  auto impl = std::make_unique<Impl>();
  ssl::context& context = impl->context;
  error_code error;
  error = context.set_options(ssl::context::default_workarounds | ssl::context::no_tlsv1 | ssl::context::no_tlsv1_1 |
                                  ssl::context::no_compression,
                              error);
  if (!error) error = context.use_certificate_chain_file(files.certificate, error);
  if (error) {
    return refused("bad_certificate", files.certificate, error,
                   "a PEM file: the server's certificate, then those that lead to one that browsers know");
  }
  error = context.use_private_key_file(files.key, ssl::context::pem, error);
  if (error)
    return refused("bad_key", files.key, error, "a PEM file: the certificate's own private key, without a password");
  return std::unique_ptr<TlsRelay>(new TlsRelay(std::move(impl)));
}

asio::awaitable<void> TlsRelay::Impl::shake_hands(Shared relay, Taken taken, std::chrono::milliseconds write_time,
                                                  std::function<void(Taken)> hand_on) {
  error_code error;
  co_await relay->outer.async_handshake(ssl::stream_base::server, into(error));
  relay->deadline.cancel();
  std::array<int, 2> ends{};
  if (error || socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0) co_return relay->close();
  error = relay->inner.assign(Pair(), ends[0], error);
  if (error) {
    ::close(ends[0]);
    ::close(ends[1]);
    co_return relay->close();
  }
  taken.descriptor = ends[1];
  const auto executor = relay->outer.get_executor();
  asio::co_spawn(executor, carry_in(relay), asio::detached);
  asio::co_spawn(executor, carry_out(std::move(relay), write_time), asio::detached);
  hand_on(std::move(taken));
}

void TlsRelay::take(asio::io_context& io, const ServerSettings& settings, Taken outer,
                    std::function<void(Taken)> hand_on) {
  error_code error;
  tcp::socket socket(io);
  error = socket.assign(outer.v6 ? tcp::v6() : tcp::v4(), outer.descriptor, error);
  if (error) ::close(outer.descriptor);
  if (error || impl_->relays >= settings.most_connections + kMostBeyond) return;
  outer.peer = socket.remote_endpoint(error).address().to_string();
  outer.local = socket.local_endpoint(error).address().to_string();
  error = socket.set_option(tcp::no_delay(true), error);
  auto relay = std::make_shared<Relay>(std::move(socket), impl_->context, impl_->relays);
  limit(relay, settings.header_time);
  asio::co_spawn(io, impl_->shake_hands(std::move(relay), std::move(outer), settings.write_time, std::move(hand_on)),
                 asio::detached);
}

}  // namespace sherd::http
