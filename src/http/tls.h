#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/result.h"
#include "http/conversations.h"

namespace sherd::http {

struct ServerSettings;

/// Certificate and key of a server: PEM files, the certificate with those that lead to one that browsers know.
struct TlsFiles {
  std::string certificate, key;
};

/// Takes encrypted connections (TLS 1.2 and 1.3, RFC 8446) and hands each on decrypted, as the other end of a pair of
/// sockets: what answers requests knows nothing of encryption. Everything in here happens on the thread that runs `io`.
class TlsRelay {
 public:
  /// Errors `bad_certificate`, `bad_key`: not there, not readable, or not of each other.
  static Result<std::unique_ptr<TlsRelay>> open(const TlsFiles& files);
  ~TlsRelay();

  /// An accepted socket's descriptor. Once its handshake is done, `hand_on` is called with the inner end; a client
  /// that does not speak TLS or takes longer than `settings.header_time` is closed without a word.
  void take(boost::asio::io_context& io, const ServerSettings& settings, Taken outer,
            std::function<void(Taken)> hand_on);

 private:
  struct Impl;
  explicit TlsRelay(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace sherd::http
