#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "http/feed.h"
#include "http/handler.h"
#include "http/jobs.h"
#include "http/route.h"

namespace sherd::http {

struct RouterSettings {
  std::chrono::seconds longest_answer{60};  ///< longer work is stopped with 503 and belongs into a job
  JobSettings jobs;
  FeedSettings feed;
};

/// Everything under /api/: the use cases that read and those that pages may write with, by path, the jobs, and the feed
/// of changes. The store is the server's, never the client's, to say.
class Router {
 public:
  Router(std::vector<Route> routes, Served served, RouterSettings settings = {});

  /// 200 wherever a use case answered, also where its answer lists faults of the record ("ok": false). Where what
  /// writes has written nothing, and where there is no answer, the status of the error; 404 with "did you mean" for a
  /// strange path, 405 where the path has no such method, 403 what the visitor's role does not allow.
  Response answer(const Request& request, const Visitor& visitor = {});

  /// Works out beside the requests what the first page asks for first, so that it is kept when a browser comes.
  void get_ready();
  /// Tells jobs and feed to end, without waiting.
  void stop();

 private:
  /// Of the routes with this path the one with this method; else the first of them; nullptr without any.
  const Route* route_of(std::string_view path, std::string_view method) const;
  Response answer_route(const Route& route, const Request& request, const Visitor& visitor);
  Response use_case(const Route& route, const Request& request);
  Response write(const Route& route, const Request& request, const Visitor& visitor);
  /// Nothing where the body says that it is JSON.
  std::optional<Response> not_json(const Request& request) const;
  Response start_job(const Request& request, const Visitor& visitor);
  Response job(const Request& request, const std::string& id, std::string_view part);
  Response events(const Request& request, const std::string& id);
  Response feed(const Request& request);
  Response wrong_method(std::string_view allowed, const std::string& message, const std::string& hint) const;
  Response no_such_path(std::string_view path) const;
  Response refusal(const Error& error) const;
  template <class Reply>
  Response reply(const Result<Reply>& reply) const;

  std::vector<Route> routes_;
  Served served_;
  RouterSettings settings_;
  std::unique_ptr<Feed> feed_;  ///< none where the world has no feed
  Jobs jobs_;
};

}  // namespace sherd::http
