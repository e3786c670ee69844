#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "http/handler.h"

namespace sherd::http {

/// Status line and headers as they go out (RFC 9112), with Date, Content-Length (not for 204, 304 and event streams)
/// and Connection; the body follows apart.
std::string head_text(const Response& response, bool keep_alive);

/// "Sun, 06 Nov 1994 08:49:37 GMT" (RFC 9110 section 5.6.7) of seconds since 1970.
std::string http_date(std::int64_t seconds);

}  // namespace sherd::http
