#pragma once

#include <functional>
#include <memory>
#include <string>

#include "http/handler.h"

namespace boost::asio {
class io_context;
}

namespace sherd::http {

struct ServerSettings;

/// A connection that was accepted.
struct Taken {
  int descriptor = -1;
  bool v6 = false;
  std::string peer, local;  ///< "": as the socket says
};

/// All connections of a server: each reads a request, has it answered by the handler on another thread, and goes on.
/// Everything in here happens on the thread that runs `io`, which ends first.
class Conversations {
 public:
  Conversations(boost::asio::io_context& io, const ServerSettings& settings);
  ~Conversations();
  Conversations(const Conversations&) = delete;
  Conversations& operator=(const Conversations&) = delete;

  /// Before the first `take`: starts the handler's threads.
  void begin(Handler& handler);
  /// The descriptor is closed at the end of its conversation.
  void take(Taken taken);
  /// Ends what waits and lets what is under way be answered, then calls `when_over`; at once where nothing is.
  void begin_stop(std::function<void()> when_over);
  bool stopping() const;
  /// After `io` has run: waits for the handler's threads.
  void end();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sherd::http
