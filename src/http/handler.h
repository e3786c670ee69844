#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Request and response as plain values, so that whatever answers can be tested without a socket.
namespace sherd::http {

/// Where pictures go and come from.
constexpr std::string_view kFilesPath = "/api/files";
/// Grey pixels of a drawing to be traced.
constexpr std::string_view kTracesPath = "/api/traces";
/// A table to be read in.
constexpr std::string_view kTablesPath = "/api/tables";
/// Whether the body of a request may be as large as a picture.
constexpr bool holds_file(std::string_view path) {
  return path == kFilesPath || path == kTracesPath || path == kTablesPath;
}

using Headers = std::vector<std::pair<std::string, std::string>>;

struct Request {
  std::string method;
  std::string target;  ///< as sent: "/api/tally?by=fabric"
  Headers headers;
  std::string body;
  std::string peer;                                   ///< the other side's address
  std::string local;                                  ///< our side's address, where the connection came in
  std::shared_ptr<const std::atomic<bool>> stopping;  ///< true: the server ends, long work is to stop

  std::string_view path() const;   ///< before the "?"
  std::string_view query() const;  ///< after it; "" where there is none
  /// The value of a header, its name's case aside; nothing where it is missing, the first where it is repeated.
  std::optional<std::string_view> header(std::string_view name) const;
  std::size_t count(std::string_view name) const;
};

/// Server-sent events of one listener. `poll` and the destructor are called from one thread; the wake-up comes from
/// any thread.
class EventStream {
 public:
  struct News {
    std::string text;   ///< complete events in the wire's format; "" where there is nothing new
    bool over = false;  ///< nothing will follow
  };
  virtual ~EventStream() = default;
  virtual News poll() = 0;
  /// `wake` is called whenever `poll` may have news, never after the stream is gone. It must be quick.
  virtual void on_news(std::function<void()> wake) = 0;
};

struct Response {
  int status = 200;
  Headers headers;
  std::string body;
  std::shared_ptr<EventStream> events;  ///< then `body` is empty and the answer goes on until the stream is over
  std::string error = {};               ///< the code of the error that it tells

  std::optional<std::string_view> header(std::string_view name) const;
};

/// Whatever answers. Called from several threads at once; never throws.
class Handler {
 public:
  virtual ~Handler() = default;
  virtual Response handle(const Request& request) = 0;
};

Response json_response(int status, std::string document);
Response text_response(int status, std::string text);

}  // namespace sherd::http
