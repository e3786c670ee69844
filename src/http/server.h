#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "http/handler.h"
#include "http/tls.h"

namespace sherd::http {

/// Limits and time-outs, each with what happens beyond it.
struct ServerSettings {
  std::string bind = "127.0.0.1";  ///< an address of this machine; "localhost" is 127.0.0.1
  std::uint16_t port = 0;          ///< 0: the system chooses
  std::string version;             ///< for the envelope of refusals
  std::optional<TlsFiles> tls;     ///< none: unencrypted

  std::uint32_t header_bytes = 16 << 10;   ///< 431
  std::uint64_t body_bytes = 1 << 20;      ///< 413
  std::uint64_t file_bytes = 1 << 20;      ///< the same, of a picture or a table
  std::uint64_t bodies_bytes = 256 << 20;  ///< of all requests that are read or answered, together; 429
  std::size_t most_connections = 1024;     ///< then the longest waiting one is closed; where all are at work, 429
  int most_requests = 256;                 ///< answered or waiting to be; 429
  unsigned handler_threads = 4;            ///< that answer side by side what only reads (GET, HEAD)
  unsigned change_threads = 2;             ///< the same, for all else: no change waits for what others look at

  std::chrono::milliseconds idle{60'000};         ///< between requests, and before the first: closed
  std::chrono::milliseconds header_time{10'000};  ///< from the first byte to the end of the headers: closed
  std::chrono::milliseconds body_time{30'000};    ///< for the body: closed
  std::chrono::milliseconds write_time{30'000};   ///< for an answer to be taken: closed
  std::chrono::milliseconds heartbeat{15'000};    ///< a comment in a quiet event stream
  std::chrono::milliseconds grace{3'000};         ///< at the end, for requests under way
};

/// HTTP/1.1 on one address. One thread carries all connections; handlers run on a few others.
class Server {
 public:
  /// Binds and listens. Errors: `port_taken`, `port_not_allowed`, `bad_address`, `no_address`, `cannot_listen`,
  /// `bad_certificate`, `bad_key`.
  static Result<Server> open(ServerSettings settings);

  Server(Server&&) noexcept;
  Server& operator=(Server&&) noexcept;
  ~Server();

  std::uint16_t port() const;
  bool is_loopback() const;
  /// "http://127.0.0.1:8620"; https where connections are encrypted
  std::string origin() const;

  /// Serves until `stop`, or until SIGINT or SIGTERM where `until_signal` (a second one then ends the program at
  /// once). Requests under way are answered, within the time of grace.
  void run(Handler& handler, bool until_signal);
  /// From any thread.
  void stop();

 private:
  struct Impl;
  explicit Server(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace sherd::http
