#include "http/router.h"

#include <algorithm>

#include "base/text.h"
#include "http/files.h"
#include "http/roles.h"
#include "http/status.h"

namespace sherd::http {

namespace {

/// Stops work that takes too long, and all work when the server ends.
class Patience final : public Progress {
 public:
  Patience(std::chrono::seconds longest, const Request& request)
      : until_(std::chrono::steady_clock::now() + longest), stopping_(request.stopping) {}

  bool step(double, std::string_view) override {
    ran_out_ = ran_out_ || std::chrono::steady_clock::now() > until_;
    return !ran_out_ && !(stopping_ && *stopping_);
  }
  bool ran_out() const { return ran_out_; }

 private:
  std::chrono::steady_clock::time_point until_;
  std::shared_ptr<const std::atomic<bool>> stopping_;
  bool ran_out_ = false;
};

Response event_response(std::shared_ptr<EventStream> events) {
  return {.status = 200,
          .headers = {{"Content-Type", "text/event-stream; charset=utf-8"}, {"Cache-Control", "no-store"}},
          .body = {},
          .events = std::move(events)};
}

bool is_read(const Request& request) { return request.method == "GET" || request.method == "HEAD"; }

}  // namespace

Router::Router(std::vector<Route> routes, Served served, RouterSettings settings)
    : routes_(std::move(routes)),
      served_(std::move(served)),
      settings_(settings),
      feed_(served_.environment.open_feed ? std::make_unique<Feed>(served_, settings.feed) : nullptr),
      jobs_(settings.jobs, served_, feed_ ? feed_->board() : nullptr) {}

void Router::stop() {
  jobs_.stop_all();
  if (feed_) feed_->stop();
}

Response Router::refusal(const Error& error) const {
  return error_response(status_of(error), error, served_.environment.version);
}

template <class Reply>
Response Router::reply(const Result<Reply>& reply) const {
  if (!reply) return refusal(reply.error());
  return json_response(200, desk::envelope(*reply));
}

Response Router::wrong_method(std::string_view allowed, const std::string& message, const std::string& hint) const {
  Error error{.kind = ErrorKind::usage, .code = "wrong_method", .message = message, .where = {}, .hint = hint};
  Response response = error_response(405, error, served_.environment.version);
  response.headers.emplace_back("Allow", allowed);
  return response;
}

Response Router::no_such_path(std::string_view path) const {
  std::vector<std::string> known{"/api/jobs", std::string(kFilesPath)};
  if (feed_) known.emplace_back("/api/feed");
  for (const Route& route : routes_) known.push_back(route.path);
  return refusal({.code = "not_found",
                  .message = "there is nothing at " + shortened(path, 80),
                  .where = {},
                  .hint = did_you_mean(path, known)});
}

const Route* Router::route_of(std::string_view path, std::string_view method) const {
  const Route* of_path = nullptr;
  for (const Route& route : routes_) {
    if (route.path != path) continue;
    if (route.verb == (method == "HEAD" ? "GET" : method)) return &route;
    if (of_path == nullptr) of_path = &route;
  }
  return of_path;
}

Response Router::answer_route(const Route& route, const Request& request, const Visitor& visitor) {
  if (route.from_page) {
    return request.method == route.verb
               ? write(route, request, visitor)
               : wrong_method(route.verb, route.name + " changes the record", "use " + route.verb);
  }
  if (route.verb != "GET") {
    return wrong_method("", route.name + " is not done over HTTP in this version",
                        "use the command: sherdwright " + route.name);
  }
  if (!is_read(request)) return wrong_method("GET, HEAD", route.name + " can only be read", "use GET");
  return use_case(route, request);
}

Response Router::answer(const Request& request, const Visitor& visitor) {
  const std::string_view path = request.path();
  if (const Route* route = route_of(path, request.method)) return answer_route(*route, request, visitor);
  if (path == kFilesPath) return answer_files(request, served_, visitor);
  if (path == "/api/jobs") {
    return request.method == "POST" ? start_job(request, visitor)
                                    : wrong_method("POST", "jobs are started here", "use POST");
  }
  if (path == "/api/feed" && feed_) {
    return is_read(request) ? feed(request) : wrong_method("GET, HEAD", "changes can only be listened to", "use GET");
  }
  constexpr std::string_view kJobs = "/api/jobs/";
  if (!path.starts_with(kJobs)) return no_such_path(path);
  const std::string_view rest = path.substr(kJobs.size());
  const std::size_t slash = std::min(rest.find('/'), rest.size());
  return job(request, std::string(rest.substr(0, slash)), rest.substr(slash));
}

void Router::get_ready() {
  for (const Route& route : routes_) {
    if (route.path != "/api/site" || !served_.kept) continue;
    const auto given = desk::Given::query("");
    if (!given) return;
    const auto work = route.prepare(*given, served_.presets());
    if (work) [[maybe_unused]]
      const auto started = jobs_.start(route.name, *work);
  }
}

Response Router::use_case(const Route& route, const Request& request) {
  const auto given = desk::Given::query(request.query());
  if (!given) return refusal(given.error());
  const auto work = route.prepare(*given, served_.presets());
  if (!work) return refusal(work.error());
  if (work->keeps)
    return wrong_method("", route.name + " that is kept changes the record", "start it as a job: POST /api/jobs");
  Patience patience(settings_.longest_answer, request);
  const Answer answer = carry_out(*work, served_, patience);
  if (answer) return json_response(200, *answer);
  if (patience.ran_out() && answer.error().kind == ErrorKind::stopped) {
    return refusal({.kind = ErrorKind::stopped,
                    .code = "took_too_long",
                    .message = route.name + " takes longer than one answer may",
                    .where = {},
                    .hint = "start it as a job: POST /api/jobs"});
  }
  return refusal(answer.error());
}

std::optional<Response> Router::not_json(const Request& request) const {
  const std::string type = lower(request.header("Content-Type").value_or(""));
  if (type.starts_with("application/json")) return std::nullopt;
  return error_response(415,
                        {.kind = ErrorKind::usage,
                         .code = "bad_request",
                         .message = "the body should be JSON",
                         .where = {},
                         .hint = "say Content-Type: application/json"},
                        served_.environment.version);
}

Response Router::write(const Route& route, const Request& request, const Visitor& visitor) {
  if (auto refused = not_json(request)) return std::move(*refused);
  const auto given = desk::Given::json(request.body);
  if (!given) return refusal(given.error());
  const auto work = route.prepare(*given, served_.presets(visitor));
  if (!work) return refusal(work.error());
  if (const auto may = check_role(visitor, route, *work); !may) return refusal(may.error());
  Patience patience(settings_.longest_answer, request);
  const auto written = carry_out_writing(*work, served_, visitor, patience);
  if (!written) return refusal(written.error());
  Response response = json_response(written->refused ? status_of(*written->refused) : 200, written->document);
  if (written->refused) response.error = written->refused->code;
  return response;
}

Response Router::start_job(const Request& request, const Visitor& visitor) {
  if (auto refused = not_json(request)) return std::move(*refused);
  const auto prepared = [&]() -> Result<std::pair<std::string, Work>> {
    SHERD_TRY(const desk::Given given, desk::Given::json(request.body));
    SHERD_CHECK(desk::check_names(given, {"use_case", "request"}));
    SHERD_TRY(const desk::Given inner, given.object("request"));
    std::string wanted;
    SHERD_CHECK(given.read("use_case", wanted));
    std::vector<std::string> names;
    for (const Route& route : routes_) {
      if (route.verb != "GET") continue;
      names.push_back(route.name);
      if (route.name != wanted) continue;
      SHERD_TRY(Work work, route.prepare(inner, served_.presets()));
      SHERD_CHECK(check_role(visitor, route, work));
      work.as = visitor.recorder;
      return std::pair(route.name, std::move(work));
    }
    Error error{.kind = ErrorKind::usage,
                .code = "bad_request",
                .message = "no use case \"" + shortened(wanted, 40) + "\" can be a job",
                .where = {.column = "use_case"},
                .hint = did_you_mean(wanted, names)};
    if (error.hint.empty()) error.hint = "there are: " + join(names, ", ");
    return fail(std::move(error));
  }();
  if (!prepared) return refusal(prepared.error());
  const auto started = jobs_.start(prepared->first, prepared->second);
  if (started) return reply(started);
  Response busy = error_response(429, started.error(), served_.environment.version);
  busy.headers.emplace_back("Retry-After", "5");
  return busy;
}

Response Router::job(const Request& request, const std::string& id, std::string_view part) {
  if (part == "/events" || part == "/result") {
    if (!is_read(request))
      return wrong_method("GET, HEAD", "a job's " + std::string(part.substr(1)) + " can only be read", "use GET");
    if (part == "/events") return events(request, id);
    const Answer answer = jobs_.result(id);
    if (answer) return json_response(200, *answer);
    const bool too_early = answer.error().code == "job_running" || answer.error().code == "job_stopped";
    return error_response(too_early ? 409 : status_of(answer.error()), answer.error(), served_.environment.version);
  }
  if (!part.empty()) return no_such_path(request.path());
  if (request.method == "DELETE") return reply(jobs_.cancel(id));
  if (is_read(request)) return reply(jobs_.state(id));
  return wrong_method("GET, HEAD, DELETE", "a job can be read and stopped", "use GET or DELETE");
}

Response Router::events(const Request& request, const std::string& id) {
  const auto stream = jobs_.events(id);
  if (!stream) return refusal(stream.error());
  // A browser that heard the end and asks again is told not to come back (WHATWG HTML, section 9.2.3).
  if (request.header("Last-Event-ID") == "done") return {.status = 204, .headers = {}, .body = {}, .events = nullptr};
  return event_response(*stream);
}

Response Router::feed(const Request& request) {
  const auto stream = [&]() -> Result<std::shared_ptr<EventStream>> {
    SHERD_TRY(const desk::Given given, desk::Given::query(request.query()));
    SHERD_CHECK(desk::check_names(given, {"after"}));
    std::optional<std::int64_t> after;
    SHERD_CHECK(given.read("after", after));
    if (const auto heard = request.header("Last-Event-ID"); heard && !heard->empty()) {
      SHERD_TRY(const desk::Given last, desk::Given::query("after=" + std::string(*heard)));
      SHERD_CHECK(last.read("after", after));
    }
    if (after && *after < 0) {
      return fail({.kind = ErrorKind::usage,
                   .code = "bad_request",
                   .message = "after should be the number of a change, but is " + std::to_string(*after),
                   .where = {.column = "after"},
                   .hint = "0 tells all changes"});
    }
    return feed_->listen(after);
  }();
  return stream ? event_response(*stream) : refusal(stream.error());
}

}  // namespace sherd::http
