#include "http/wire.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <chrono>
#include <ctime>

#include "http/status.h"

namespace sherd::http {

std::string http_date(std::int64_t seconds) {
  return fmt::format("{:%a, %d %b %Y %H:%M:%S} GMT", fmt::gmtime(static_cast<std::time_t>(seconds)));
}

std::string head_text(const Response& response, bool keep_alive) {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  std::string out = fmt::format("HTTP/1.1 {} {}\r\nDate: {}\r\n", response.status, reason_of(response.status),
                                http_date(std::chrono::duration_cast<std::chrono::seconds>(now).count()));
  for (const auto& [name, value] : response.headers) out.append(name).append(": ").append(value).append("\r\n");
  const bool has_length = !response.events && response.status != 204 && response.status != 304;
  if (has_length) out += fmt::format("Content-Length: {}\r\n", response.body.size());
  out += keep_alive ? "Connection: keep-alive\r\n\r\n" : "Connection: close\r\n\r\n";
  return out;
}

}  // namespace sherd::http
