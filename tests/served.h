#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>

#include "program.h"

namespace sherd::tests {

/// One whole answer of the program's server.
struct Reply {
  int status = 0;
  std::string body;
  nlohmann::json document() const { return nlohmann::json::parse(body); }
};

/// The program serving a store in a process of its own; pages' requests, one connection each.
class Served {
 public:
  /// `accounts`: their file; "" for none.
  Served(const std::string& folder, const std::string& store, const std::string& accounts = {}) {
    const std::string out = folder + "/served-" + std::to_string(++count_);
    log_ = out + ".log";
    child_ = ::fork();
    if (child_ == 0) {
      const char* program = std::getenv("SHERDWRIGHT");
      if (program == nullptr || std::freopen(out.c_str(), "w", stdout) == nullptr ||
          std::freopen((out + ".log").c_str(), "w", stderr) == nullptr)
        ::_exit(127);
      ::execl(program, program, "serve", store.c_str(), "--port", "0", accounts.empty() ? nullptr : "--accounts",
              accounts.c_str(), static_cast<char*>(nullptr));
      ::_exit(127);
    }
    std::string url;
    for (int i = 0; i < 3000 && url.find('\n') == std::string::npos; ++i) {
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
      url.clear();
      if (FILE* file = std::fopen(out.c_str(), "r")) {
        char text[400] = {};
        url.assign(text, std::fread(text, 1, sizeof text - 1, file));
        std::fclose(file);
      }
    }
    const std::size_t colon = url.find(':', 7);
    if (colon == std::string::npos) {
      ADD_FAILURE() << "no address was told";
      return;
    }
    port_ = std::atoi(url.c_str() + colon + 1);
    if (!accounts.empty()) return;
    const std::string head =
        talk("GET " + url.substr(url.find("/?"), url.find('\n') - url.find("/?")) + " HTTP/1.1\r\n", {});
    const std::size_t cookie = head.find("Set-Cookie: ");
    if (cookie != std::string::npos)
      cookie_ = head.substr(cookie + 12, head.find_first_of(";\r", cookie) - cookie - 12);
  }
  ~Served() { end(SIGTERM); }
  Served(const Served&) = delete;
  Served& operator=(const Served&) = delete;

  void end(int signal) {
    if (child_ <= 0) return;
    ::kill(child_, signal);
    ::waitpid(child_, nullptr, 0);
    child_ = 0;
  }
  /// What it wrote to stderr so far.
  std::string log() const {
    std::ifstream file(log_);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  Reply get(const std::string& path) const { return reply("GET " + path + " HTTP/1.1\r\n", {}); }
  Reply post(const std::string& path, const nlohmann::json& body) const {
    return reply("POST " + path + " HTTP/1.1\r\nContent-Type: application/json\r\n", body.dump());
  }

 private:
  Reply reply(const std::string& head, const std::string& body) const {
    const std::string text = talk(head, body);
    const std::size_t end = text.find("\r\n\r\n");
    if (end == std::string::npos) return {};
    return {std::atoi(text.c_str() + 9), text.substr(end + 4)};
  }
  std::string talk(const std::string& head, const std::string& body) const {
    const int wire = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port_));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    std::string text;
    if (::connect(wire, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0) {
      const std::string sent = head + "Host: 127.0.0.1:" + std::to_string(port_) +
                               "\r\nConnection: close\r\nCookie: " + cookie_ +
                               "\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body;
      const ssize_t bytes = ::send(wire, sent.data(), sent.size(), MSG_NOSIGNAL);
      EXPECT_EQ(bytes, static_cast<ssize_t>(sent.size()));
      std::string piece(65536, '\0');
      for (ssize_t got = 0; (got = ::recv(wire, piece.data(), piece.size(), 0)) > 0;)
        text.append(piece, 0, static_cast<std::size_t>(got));
    }
    ::close(wire);
    return text;
  }

  static inline int count_ = 0;
  std::string log_;
  pid_t child_ = 0;
  int port_ = 0;
  std::string cookie_ = "none=none";
};

}  // namespace sherd::tests
