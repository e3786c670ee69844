#pragma once

#include "http/handler.h"
#include "http/route.h"

namespace sherd::http {

/// `POST /api/files`: the body is a picture; the answer names the document that holds it. `GET /api/files?name=`: its
/// bytes. Statuses: 200, 304, 400, 403, 404, 405, 413, 415 and those of the store.
Response answer_files(const Request& request, const Served& served, const Visitor& visitor);

}  // namespace sherd::http
