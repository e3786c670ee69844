#pragma once

#include <string_view>

#include "base/result.h"
#include "http/handler.h"

namespace sherd::http {

/// The status of an error: 400 the request, 404 what it names is not there, 409 the record says otherwise by now,
/// 422 the data, 500 our own fault or the store's, 503 come again, 507 no room.
int status_of(const Error& error);

/// The reason phrase (RFC 9110 section 15).
std::string_view reason_of(int status);

/// A request that was not read or not taken: 400, 413, 429 (with Retry-After) or 431.
Response unread_response(int status, const std::string& version);

/// An error as the contract's envelope.
Response error_response(int status, const Error& error, const std::string& version);

}  // namespace sherd::http
