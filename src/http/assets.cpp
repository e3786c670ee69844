#include "http/assets.h"

#include <array>
#include <utility>

#include "base/hash.h"
#include "base/text.h"

namespace sherd::http {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 13> kTypes{{
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".mjs", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".ico", "image/x-icon"},
    {".woff2", "font/woff2"},
    {".woff", "font/woff"},
    {".json", "application/json; charset=utf-8"},
    {".map", "application/json; charset=utf-8"},
    {".webmanifest", "application/manifest+json"},
    {".txt", "text/plain; charset=utf-8"},
}};

/// RFC 9110 section 13.1.2: weak comparison, any of a list, or "*".
bool has_tag(std::string_view list, std::string_view tag) {
  for (const std::string_view part : split(list, ',')) {
    std::string_view known = trim(part);
    if (known.starts_with("W/")) known.remove_prefix(2);
    if (known == "*" || known == tag) return true;
  }
  return false;
}

}  // namespace

std::string_view mime_of(std::string_view path) {
  for (const auto& [ending, mime] : kTypes) {
    if (path.ends_with(ending)) return mime;
  }
  return "application/octet-stream";
}

Assets::Assets(const AssetTable& table) {
  for (const auto& [path, asset] : table) {
    entries_.emplace(path, Entry{asset.bytes, asset.mime.empty() ? mime_of(path) : asset.mime,
                                 "\"" + sha256(asset.bytes).substr(0, 32) + "\""});
  }
}

Response Assets::answer(const Request& request) const {
  const std::string_view path = request.path() == "/" ? "/index.html" : request.path();
  const auto found = entries_.find(path);
  if (found == entries_.end()) {
    return text_response(404, entries_.empty() ? "This program was built without its pages; /api answers.\n"
                                               : "There is nothing at this address.\n");
  }
  if (request.method != "GET" && request.method != "HEAD") {
    Response refused = text_response(405, "A page can only be read.\n");
    refused.headers.emplace_back("Allow", "GET, HEAD");
    return refused;
  }
  const Entry& entry = found->second;
  const bool is_hashed = path.starts_with("/assets/");
  Response response;
  response.headers = {{"ETag", entry.tag},
                      {"Cache-Control", is_hashed ? "private, max-age=31536000, immutable" : "no-cache"}};
  if (const auto known = request.header("If-None-Match"); known && has_tag(*known, entry.tag)) {
    response.status = 304;
    return response;
  }
  response.headers.emplace_back("Content-Type", entry.mime);
  response.body = entry.bytes;
  return response;
}

}  // namespace sherd::http
