#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "access/accounts.h"

namespace sherd::access {

using Clock = std::function<std::int64_t()>;  ///< seconds since 1970

/// How long one stays signed in.
struct SessionLimits {
  std::int64_t idle = 30 * 60;       ///< seconds without a request
  std::int64_t longest = 12 * 3600;  ///< seconds in all: a working day
  std::size_t most_each = 10;        ///< sessions of one account; then the one idle longest ends
};

/// One browser that is signed in.
struct SessionState {
  std::string id;  ///< names it in lists; opens nothing
  std::string account;
  std::string peer;  ///< the address it came from
  std::int64_t began = 0, seen = 0;
  std::int64_t proved = 0;  ///< when the password was given last
};

/// Who is signed in, in memory: a restart of the server ends every session. Safe from several threads.
class Sessions {
 public:
  Sessions(SessionLimits limits, Clock clock, std::function<std::string()> new_secret)
      : limits_(limits), clock_(std::move(clock)), new_secret_(std::move(new_secret)) {}

  /// The secret of a new session, which counts as begun in the second `not_before` where that is to come.
  std::string begin(std::string account, std::string peer, std::int64_t not_before = 0);
  /// The session of that secret, as seen now; nothing where there is none or it is over.
  std::optional<SessionState> find(std::string_view secret);
  /// The same without being seen: what only listens keeps no session open.
  std::optional<SessionState> peek(std::string_view secret);
  /// The password was given once more.
  void prove(std::string_view secret);
  void end(std::string_view secret);
  /// Error `no_session`.
  Result<void> end_by_id(std::string_view id);
  /// All of an account, but the one of the secret `but` where it is given.
  void end_of(std::string_view account, std::string_view but = {});
  /// Those that are not over, newest first.
  std::vector<SessionState> all();

 private:
  bool is_over(const SessionState& session, std::int64_t now) const;
  void sweep(std::int64_t now);

  SessionLimits limits_;
  Clock clock_;
  std::function<std::string()> new_secret_;
  std::mutex mutex_;
  std::map<std::string, SessionState, std::less<>> by_digest_;  ///< by the secret's SHA-256
};

}  // namespace sherd::access
