#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "http/handler.h"
#include "http/jobs.h"
#include "http/route.h"

namespace sherd::http {

struct RouterSettings {
  std::chrono::seconds longest_answer{60};  ///< longer work is stopped with 503 and belongs into a job
  JobSettings jobs;
};

/// Everything under /api/: the use cases that read, by path, and the jobs. The store is the server's, never the
/// client's, to say.
class Router {
 public:
  Router(std::vector<Route> routes, Served served, RouterSettings settings = {});

  /// 200 wherever a use case answered, also where its answer lists faults of the record ("ok": false). Else the
  /// status of the error; 404 with "did you mean" for a strange path, 405 where the path has no such method.
  Response answer(const Request& request);

  void stop_jobs() { jobs_.stop_all(); }

 private:
  Response use_case(const Route& route, const Request& request);
  Response start_job(const Request& request);
  Response job(const Request& request, const std::string& id, std::string_view part);
  Response events(const Request& request, const std::string& id);
  Response wrong_method(std::string_view allowed, const std::string& message, const std::string& hint) const;
  Response no_such_path(std::string_view path) const;
  Response refusal(const Error& error) const;
  template <class Reply>
  Response reply(const Result<Reply>& reply) const;

  std::vector<Route> routes_;
  Served served_;
  RouterSettings settings_;
  Jobs jobs_;
};

}  // namespace sherd::http
