#pragma once

#include <cstdint>
#include <string>

#include "base/result.h"

namespace sherd::http {

/// A socket that listens on one address, closed with this.
class Listening {
 public:
  /// `bind`: an address of this machine; "localhost" is 127.0.0.1. `port` 0: the system chooses. Errors: `port_taken`,
  /// `port_not_allowed`, `bad_address`, `no_address`, `cannot_listen`.
  static Result<Listening> on(const std::string& bind, std::uint16_t port);

  Listening(Listening&& other) noexcept;
  Listening& operator=(Listening&& other) noexcept;
  ~Listening();

  std::uint16_t port() const { return port_; }
  bool is_v6() const { return v6_; }
  bool is_loopback() const { return loopback_; }
  /// "http://127.0.0.1:8620"
  std::string origin() const;

  /// The descriptor, which is the caller's from now on.
  int release();

 private:
  Listening() = default;

  int descriptor_ = -1;
  std::uint16_t port_ = 0;
  bool v6_ = false, loopback_ = false;
  std::string address_;
};

}  // namespace sherd::http
