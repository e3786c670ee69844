#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "base/fields.h"
#include "desk/frame/reply.h"
#include "http/handler.h"
#include "http/route.h"

/// What several tests of this folder need.
namespace sherd::http::testing {

inline Request get(std::string target, Headers headers = {}) {
  return {.method = "GET", .target = std::move(target), .headers = std::move(headers), .body = {}};
}

inline Request post(std::string target, std::string body) {
  return {.method = "POST",
          .target = std::move(target),
          .headers = {{"Content-Type", "application/json"}},
          .body = std::move(body)};
}

/// True as soon as `condition` is; false after ten seconds.
inline bool wait_until(const std::function<bool()>& condition) {
  for (int i = 0; i < 2000; ++i) {
    if (condition()) return true;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  return false;
}

/// A small use case: says what it was asked, counts to `steps`, fails where told to.
struct EchoRequest {
  std::string store, word, fail_with;
  std::vector<std::string> by;
  std::optional<std::int64_t> steps;

  template <class V>
  static void fields(V& v) {
    v.field("store", &EchoRequest::store, argument("the store"));
    v.field("word", &EchoRequest::word, required_option("a word"));
    v.field("by", &EchoRequest::by, option("fields"));
    v.field("steps", &EchoRequest::steps, option("so many steps of a millisecond"));
    v.field("fail_with", &EchoRequest::fail_with, option("a code"));
  }
};

struct EchoResponse : desk::Reply {
  std::string store, word;
  std::vector<std::string> by;

  template <class V>
  static void fields(V& v) {
    v.field("store", &EchoResponse::store);
    v.field("word", &EchoResponse::word);
    v.field("by", &EchoResponse::by);
  }
};

Result<EchoResponse> echo(const EchoRequest& request, desk::Environment& environment, Progress& progress);

/// The same, but where told to fail it answers, with that error.
Result<EchoResponse> echo_or_refuse(const EchoRequest& request, desk::Environment& environment, Progress& progress);

/// echo at /api/echo, the same as one that writes, at /api/writes, and echo_or_refuse as one that pages write with, at
/// /api/alters.
std::vector<Route> small_routes();
/// A world without stores.
Served small_world();

}  // namespace sherd::http::testing
