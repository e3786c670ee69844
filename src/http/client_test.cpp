#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "http/client.h"

namespace sherd::http::testing {

using Clock = std::chrono::steady_clock;

Client::Client(std::uint16_t port) : port_(port) {
  socket_ = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  // The socket interface takes every kind of address by the head that they share.
  const auto* head = static_cast<const sockaddr*>(static_cast<const void*>(&address));
  if (socket_ >= 0 && ::connect(socket_, head, sizeof address) != 0) {
    ::close(socket_);
    socket_ = -1;
  }
}

Client::~Client() {
  if (socket_ >= 0) ::close(socket_);
}

Client::Client(Client&& other) noexcept
    : socket_(std::exchange(other.socket_, -1)),
      port_(other.port_),
      pending_(std::move(other.pending_)),
      ended_(other.ended_) {}

bool Client::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool Client::get(const std::string& target, const std::string& more) {
  return send("GET " + target + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port_) + "\r\n" + more + "\r\n");
}

bool Client::fill(Clock::time_point until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now()).count();
  pollfd wait{socket_, POLLIN, 0};
  if (ended_ || left <= 0 || ::poll(&wait, 1, static_cast<int>(left)) <= 0) return false;
  char bytes[4096];
  const ssize_t read = ::recv(socket_, bytes, sizeof bytes, 0);
  if (read <= 0) {
    ended_ = true;
    return false;
  }
  pending_.append(bytes, static_cast<std::size_t>(read));
  return true;
}

std::optional<Reply> Client::receive(bool with_body) {
  const auto until = Clock::now() + std::chrono::seconds(5);
  std::size_t end = 0;
  while ((end = pending_.find("\r\n\r\n")) == std::string::npos) {
    if (!fill(until)) return std::nullopt;
  }
  Reply reply;
  bool first = true;
  for (const std::string_view line : split(std::string_view(pending_).substr(0, end), '\n')) {
    const std::string_view text = trim(line);
    if (first) {
      reply.status = std::stoi(std::string(text.substr(text.find(' ') + 1, 3)));
    } else {
      const std::size_t colon = text.find(':');
      reply.headers[lower(text.substr(0, colon))] = trim(text.substr(colon + 1));
    }
    first = false;
  }
  pending_.erase(0, end + 4);
  const auto length = reply.headers.find("content-length");
  const std::size_t bytes = with_body && length != reply.headers.end() ? std::stoul(length->second) : 0;
  while (pending_.size() < bytes) {
    if (!fill(until)) return std::nullopt;
  }
  reply.body = pending_.substr(0, bytes);
  pending_.erase(0, bytes);
  return reply;
}

std::string Client::receive_until(std::string_view wanted, std::chrono::milliseconds longest) {
  const auto until = Clock::now() + longest;
  while (pending_.find(wanted) == std::string::npos && fill(until)) {
  }
  return std::exchange(pending_, {});
}

std::optional<std::chrono::milliseconds> Client::closed_within(std::chrono::milliseconds longest) {
  const auto start = Clock::now();
  while (fill(start + longest)) {
  }
  if (!ended_) return std::nullopt;
  return std::chrono::duration_cast<std::chrono::milliseconds>(Clock::now() - start);
}

}  // namespace sherd::http::testing
