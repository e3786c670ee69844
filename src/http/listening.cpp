#include "http/listening.h"

#include <fmt/format.h>
#include <unistd.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <utility>

namespace sherd::http {

namespace asio = boost::asio;
using boost::system::error_code;
using tcp = asio::ip::tcp;

namespace {

std::unexpected<Error> failure(const error_code& error, const std::string& bind, std::uint16_t port_number) {
  const std::string port = "port " + std::to_string(port_number);
  if (error == asio::error::address_in_use)
    return fail("port_taken", port + " is taken by another program", "choose another with --port, or --port 0");
  if (error == asio::error::access_denied)
    return fail("port_not_allowed", port + " is not for ordinary users", "choose one above 1023 with --port");
  if (error == boost::system::errc::address_not_available)
    return fail("no_address", bind + " is no address of this machine", "leave out --bind");
  return fail("cannot_listen", "no connection can be taken on " + port + ": " + error.message(), {});
}

}  // namespace

Result<Listening> Listening::on(const std::string& bind, std::uint16_t port) {
  error_code error;
  const auto address = asio::ip::make_address(bind == "localhost" ? "127.0.0.1" : bind, error);
  if (error) {
    return fail(ErrorKind::usage, "bad_address", "\"" + bind + "\" is not an address",
                "say 127.0.0.1, or an address of this machine such as 192.168.1.5");
  }
  asio::io_context io;
  tcp::acceptor acceptor(io);
  const tcp::endpoint endpoint(address, port);
  error = acceptor.open(endpoint.protocol(), error);
  if (!error) error = acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  if (!error) error = acceptor.bind(endpoint, error);
  if (!error) error = acceptor.listen(asio::socket_base::max_listen_connections, error);
  if (error) return failure(error, bind, port);
  const tcp::endpoint local = acceptor.local_endpoint(error);
  Listening listening;
  listening.port_ = local.port();
  listening.v6_ = local.address().is_v6();
  listening.loopback_ = local.address().is_loopback();
  listening.address_ = local.address().to_string();
  if (!error) listening.descriptor_ = acceptor.release(error);
  if (error) return failure(error, bind, port);
  return listening;
}

Listening::Listening(Listening&& other) noexcept { *this = std::move(other); }

Listening& Listening::operator=(Listening&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(port_, other.port_);
  std::swap(v6_, other.v6_);
  std::swap(loopback_, other.loopback_);
  std::swap(address_, other.address_);
  return *this;
}

Listening::~Listening() {
  if (descriptor_ >= 0) close(descriptor_);
}

std::string Listening::origin() const {
  return v6_ ? fmt::format("http://[{}]:{}", address_, port_) : fmt::format("http://{}:{}", address_, port_);
}

int Listening::release() { return std::exchange(descriptor_, -1); }

}  // namespace sherd::http
