#include "http/files.h"

#include <exception>

#include "base/text.h"
#include "desk/frame/json.h"
#include "desk/recording/keep_file.h"
#include "http/roles.h"
#include "http/status.h"

namespace sherd::http {

namespace {

Response refusal(const Error& error, const Served& served) {
  int status = status_of(error);
  if (error.code == "not_a_picture") status = 415;
  if (error.code == "too_large") status = 413;
  if (error.code == "no_file") status = 404;
  return error_response(status, error, served.environment.version);
}

/// The names that may stand in the query, and the site where the client may say it.
struct FileQuery {
  std::string name, site;

  template <class V>
  static void fields(V& v) {
    v.field("name", &FileQuery::name, option("the document"));
    v.field("site", &FileQuery::site, option("the site, where the store holds several"));
  }
};

Result<FileQuery> query_of(const Request& request, const Served& served) {
  SHERD_TRY(const desk::Given given, desk::Given::query(request.query()));
  return desk::read_request<FileQuery>(given, served.presets());
}

Response keep(const Request& request, const Served& served, const Visitor& visitor) {
  if (const auto may = check_role_of_files(visitor); !may) return refusal(may.error(), served);
  const auto query = query_of(request, served);
  if (!query) return refusal(query.error(), served);
  desk::Environment environment = served.environment_of(visitor);
  const auto kept = desk::keep_file(served.store, query->site, request.body, environment);
  return kept ? json_response(200, desk::envelope(*kept)) : refusal(kept.error(), served);
}

Response give(const Request& request, const Served& served) {
  const auto query = query_of(request, served);
  if (!query) return refusal(query.error(), served);
  const std::string tag = "\"" + query->name + "\"";  // by its hash: what stands under a name never changes
  Response response;
  response.headers = {{"ETag", tag}, {"Cache-Control", "private, max-age=31536000, immutable"}};
  desk::Environment environment = served.environment;
  const auto document = desk::kept_file(served.store, query->site, query->name, environment);
  if (!document) return refusal(document.error(), served);
  if (request.header("If-None-Match") == tag) {
    response.status = 304;
    return response;
  }
  response.headers.emplace_back("Content-Type", document->mime);
  response.headers.emplace_back("Content-Disposition", "inline");
  response.body = document->bytes;
  return response;
}

}  // namespace

Response answer_files(const Request& request, const Served& served, const Visitor& visitor) {
  try {
    if (request.method == "POST") return keep(request, served, visitor);
    if (request.method == "GET" || request.method == "HEAD") return give(request, served);
  } catch (const std::exception& error) {
    return refusal({.kind = ErrorKind::internal,
                    .code = "internal",
                    .message = std::string("internal error: ") + error.what(),
                    .where = {},
                    .hint = "this is our fault; please report what you did"},
                   served);
  }
  Response response = refusal({.kind = ErrorKind::usage,
                               .code = "wrong_method",
                               .message = "pictures are kept and given out here",
                               .where = {},
                               .hint = "use POST or GET"},
                              served);
  response.status = 405;
  response.headers.emplace_back("Allow", "GET, HEAD, POST");
  return response;
}

}  // namespace sherd::http
