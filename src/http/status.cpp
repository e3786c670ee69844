#include "http/status.h"

#include <array>
#include <utility>

#include "desk/frame/json.h"

namespace sherd::http {

namespace {

constexpr std::array<std::pair<std::string_view, int>, 26> kStatuses{{
    {"no_site", 404},      {"no_change", 404},       {"not_found", 404},       {"no_field", 404},
    {"no_job", 404},       {"no_context", 404},      {"conflict", 409},        {"later_change", 409},
    {"still_used", 409},   {"no_longer_there", 409}, {"nothing_to_undo", 409}, {"already_imported", 409},
    {"already_done", 409}, {"store_exists", 409},    {"store_busy", 503},      {"no_store", 500},
    {"not_a_store", 500},  {"damaged_store", 500},   {"newer_store", 500},     {"cannot_open", 500},
    {"disk_error", 500},   {"disk_full", 507},       {"connection_lost", 503}, {"edit_refused", 400},
    {"not_allowed", 403},  {"not_yours", 403},
}};

constexpr std::array<std::pair<int, std::string_view>, 19> kReasons{{
    {200, "OK"},
    {204, "No Content"},
    {303, "See Other"},
    {304, "Not Modified"},
    {400, "Bad Request"},
    {401, "Unauthorized"},
    {403, "Forbidden"},
    {404, "Not Found"},
    {405, "Method Not Allowed"},
    {409, "Conflict"},
    {413, "Content Too Large"},
    {415, "Unsupported Media Type"},
    {421, "Misdirected Request"},
    {422, "Unprocessable Content"},
    {429, "Too Many Requests"},
    {431, "Request Header Fields Too Large"},
    {500, "Internal Server Error"},
    {503, "Service Unavailable"},
    {507, "Insufficient Storage"},
}};

std::string sentence_of(int status) {
  switch (status) {
    case 413:
      return "the request's body is too large";
    case 429:
      return "too much is asked at once";
    case 431:
      return "the request's headers are too large";
    default:
      return "this is not an HTTP request";
  }
}

}  // namespace

int status_of(const Error& error) {
  switch (error.kind) {
    case ErrorKind::usage:
      return 400;
    case ErrorKind::internal:
      return 500;
    case ErrorKind::stopped:
      return 503;
    case ErrorKind::data:
      break;
  }
  for (const auto& [code, status] : kStatuses) {
    if (code == error.code) return status;
  }
  return 422;
}

std::string_view reason_of(int status) {
  for (const auto& [known, reason] : kReasons) {
    if (known == status) return reason;
  }
  return "Other";
}

Response unread_response(int status, const std::string& version) {
  Error error{.kind = ErrorKind::usage, .code = "bad_request", .message = sentence_of(status), .where = {}, .hint = {}};
  if (status == 429) error.code = "too_many_requests";
  Response response = error_response(status, error, version);
  if (status == 429) response.headers.emplace_back("Retry-After", "1");
  return response;
}

Response error_response(int status, const Error& error, const std::string& version) {
  Response response = json_response(status, desk::error_envelope(error, version));
  response.error = error.code;
  return response;
}

}  // namespace sherd::http
