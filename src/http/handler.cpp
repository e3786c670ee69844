#include "http/handler.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::http {

namespace {

bool is_named(const std::pair<std::string, std::string>& header, std::string_view name) {
  return header.first.size() == name.size() && lower(header.first) == lower(name);
}

std::optional<std::string_view> find(const Headers& headers, std::string_view name) {
  for (const auto& header : headers) {
    if (is_named(header, name)) return header.second;
  }
  return std::nullopt;
}

}  // namespace

std::string_view Request::path() const { return std::string_view(target).substr(0, target.find('?')); }

std::string_view Request::query() const {
  const std::size_t mark = target.find('?');
  return mark == std::string::npos ? std::string_view{} : std::string_view(target).substr(mark + 1);
}

std::optional<std::string_view> Request::header(std::string_view name) const { return find(headers, name); }

std::size_t Request::count(std::string_view name) const {
  return static_cast<std::size_t>(
      std::count_if(headers.begin(), headers.end(), [&](const auto& header) { return is_named(header, name); }));
}

std::optional<std::string_view> Response::header(std::string_view name) const { return find(headers, name); }

Response json_response(int status, std::string document) {
  return {.status = status,
          .headers = {{"Content-Type", "application/json; charset=utf-8"}, {"Cache-Control", "no-store"}},
          .body = std::move(document),
          .events = nullptr};
}

Response text_response(int status, std::string text) {
  return {.status = status,
          .headers = {{"Content-Type", "text/plain; charset=utf-8"}, {"Cache-Control", "no-store"}},
          .body = std::move(text),
          .events = nullptr};
}

}  // namespace sherd::http
