#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <string>
#include <thread>

#include "http/client.h"
#include "http/server.h"
#include "http/testing.h"

/// What the tests of the server share.
namespace sherd::http::testing {

using std::chrono::milliseconds;

/// Says what it was asked; "/slow" takes 300 ms, "/wait" until it is let go, "/events" sends five.
class Echo final : public Handler {
 public:
  Response handle(const Request& request) override {
    ++requests;
    if (request.path() == "/slow") std::this_thread::sleep_for(milliseconds(300));
    if (request.path() == "/wait") {
      ++waiting;
      wait_until([&] { return let_go.load() || (request.stopping && *request.stopping); });
    }
    if (request.path() == "/large") return text_response(200, std::string(3'000'000, 'x'));
    return text_response(200, request.method + " " + request.target + " " + request.body);
  }
  std::atomic<int> requests = 0, waiting = 0;
  std::atomic<bool> let_go = false;
};

inline ServerSettings on_port(std::uint16_t port) {
  ServerSettings settings;
  settings.port = port;
  settings.version = "0.0-test";
  return settings;
}

/// A server on a port of the system's choice, run by a thread of its own.
class Running {
 public:
  explicit Running(Handler& handler, const ServerSettings& settings = on_port(0))
      : server_(Server::open(settings).value()), port_(server_.port()), thread_([&] { server_.run(handler, false); }) {}
  ~Running() { stop(); }
  Running(const Running&) = delete;
  Running& operator=(const Running&) = delete;

  void stop() {
    server_.stop();
    if (thread_.joinable()) thread_.join();
  }
  std::uint16_t port() const { return port_; }

 private:
  Server server_;
  std::uint16_t port_;
  std::thread thread_;
};

}  // namespace sherd::http::testing
