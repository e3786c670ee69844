#include "http/server.h"

#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <boost/asio/awaitable.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/detached.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>

#include "http/conversations.h"
#include "http/listening.h"

namespace sherd::http {

namespace asio = boost::asio;
using boost::system::error_code;
using tcp = asio::ip::tcp;

struct Server::Impl {
  Impl(ServerSettings chosen, Listening socket, std::unique_ptr<TlsRelay> tls)
      : settings(std::move(chosen)), listening(std::move(socket)), relay(std::move(tls)) {}

  void serve(Handler& handler, bool until_signal);
  void begin_stop();
  asio::awaitable<void> accept();
  void take(Taken taken);

  ServerSettings settings;
  Listening listening;
  std::unique_ptr<TlsRelay> relay;            // none: unencrypted
  Conversations conversations{io, settings};  // outlives what still waits in `io`
  asio::io_context io{1};
  tcp::acceptor acceptor{io};
  asio::steady_timer grace{io};
  std::unique_ptr<asio::signal_set> signals;
};

void Server::Impl::serve(Handler& handler, bool until_signal) {
  conversations.begin(handler);
  if (until_signal) {
    signals = std::make_unique<asio::signal_set>(io, SIGINT, SIGTERM);
    signals->async_wait([this](error_code error, int) {
      if (error) return;
      signals.reset();  // a second signal ends the program at once
      begin_stop();
    });
  }
  acceptor.assign(listening.is_v6() ? tcp::v6() : tcp::v4(), listening.release());
  asio::co_spawn(io, accept(), asio::detached);
  io.run();
  conversations.end();
}

void Server::Impl::begin_stop() {
  if (conversations.stopping()) return;
  error_code ignored;
  ignored = acceptor.close(ignored);
  if (signals) ignored = signals->cancel(ignored);
  grace.expires_after(settings.grace);
  grace.async_wait([this](error_code error) {
    if (!error) io.stop();
  });
  conversations.begin_stop([this] { grace.cancel(); });
}

asio::awaitable<void> Server::Impl::accept() {
  asio::steady_timer pause(io);
  while (!conversations.stopping()) {
    error_code error;
    tcp::socket socket(io);
    co_await acceptor.async_accept(socket, asio::redirect_error(asio::use_awaitable, error));
    if (conversations.stopping()) break;
    int descriptor = -1;
    if (!error) descriptor = socket.release(error);
    if (error) {  // out of descriptors, most likely: some will come back
      pause.expires_after(std::chrono::milliseconds(100));
      co_await pause.async_wait(asio::redirect_error(asio::use_awaitable, error));
      continue;
    }
    take({descriptor, listening.is_v6(), {}, {}});
  }
}

void Server::Impl::take(Taken taken) {
  if (!relay) return conversations.take(std::move(taken));
  relay->take(io, settings, std::move(taken), [this](Taken inner) {
    if (conversations.stopping()) {
      ::close(inner.descriptor);
    } else {
      conversations.take(std::move(inner));
    }
  });
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
  SHERD_TRY(Listening listening, Listening::on(settings.bind, settings.port));
  std::unique_ptr<TlsRelay> relay;
  if (settings.tls) {
    SHERD_TRY(relay, TlsRelay::open(*settings.tls));
  }
  return Server(std::make_unique<Impl>(std::move(settings), std::move(listening), std::move(relay)));
}

std::uint16_t Server::port() const { return impl_->listening.port(); }

bool Server::is_loopback() const { return impl_->listening.is_loopback(); }

std::string Server::origin() const {
  const std::string plain = impl_->listening.origin();
  return impl_->relay ? "https" + plain.substr(plain.find(':')) : plain;
}

void Server::run(Handler& handler, bool until_signal) { impl_->serve(handler, until_signal); }

void Server::stop() {
  asio::post(impl_->io, [impl = impl_.get()] { impl->begin_stop(); });
}

}  // namespace sherd::http
