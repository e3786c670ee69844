#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

/// A small client on plain sockets for the tests, so that the server is not tested by the library it is made of.
namespace sherd::http::testing {

struct Reply {
  int status = 0;
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;
};

class Client {
 public:
  /// Connects to 127.0.0.1; `connected` says whether that worked.
  explicit Client(std::uint16_t port);
  ~Client();
  Client(Client&& other) noexcept;
  Client& operator=(Client&&) = delete;

  bool connected() const { return socket_ >= 0; }
  bool send(std::string_view bytes);
  /// GET with the right Host, and what else is given ("Cookie: a=b\r\n").
  bool get(const std::string& target, const std::string& more = {});

  /// One answer with its body by Content-Length; nothing where the connection ended or five seconds passed before.
  std::optional<Reply> receive(bool with_body = true);
  /// Until the other side closes, or until `wanted` has come, or the time is over.
  std::string receive_until(std::string_view wanted, std::chrono::milliseconds longest = std::chrono::seconds(5));
  /// How long it took the other side to close; nothing where it did not within the time.
  std::optional<std::chrono::milliseconds> closed_within(std::chrono::milliseconds longest);

 private:
  /// More bytes into `pending_`; false at the end or when `until` has passed.
  bool fill(std::chrono::steady_clock::time_point until);

  int socket_ = -1;
  std::uint16_t port_;
  std::string pending_;
  bool ended_ = false;
};

}  // namespace sherd::http::testing
