#include "desk/frame/schema_openapi_parts.h"

namespace sherd::desk::openapi_parts {

namespace {

constexpr std::string_view kWrong = "what is wrong, and the way out";

void job_operation(Document& document, std::string_view verb, std::string_view id, std::string_view summary,
                   std::string_view in_path, const std::string& response) {
  document.object(verb, [&] {
    document.text("operationId", id);
    document.text("summary", summary);
    if (!in_path.empty()) {
      document.list("parameters", [&] { parameter(document, "path", {"id", {}, std::string(in_path), true}); });
    } else {
      body_text(document, "JobRequest");
    }
    document.object("responses", [&] {
      answer(document, "200", summary, response);
      answer(document, "default", kWrong, {});
    });
  });
}

/// Server-sent events (WHATWG HTML, section 9.2).
void event_answer(Document& document, std::string_view about) {
  document.object("200", [&] {
    document.text("description", about);
    document.object("content", [&] {
      document.object("text/event-stream",
                      [&] { document.object("schema", [&] { document.text("type", "string"); }); });
    });
  });
}

void job_paths(Document& document) {
  document.object("/api/jobs", [&] {
    job_operation(document, "post", "startJob", "starts a use case that reads, beside the requests", "", "JobState");
  });
  document.object("/api/jobs/{id}", [&] {
    job_operation(document, "get", "job", "how far it is", "the job", "JobState");
    job_operation(document, "delete", "cancelJob", "stops it; forgets it where it no longer runs", "the job",
                  "JobState");
  });
  document.object("/api/jobs/{id}/result", [&] {
    job_operation(document, "get", "jobResult", "its answer, as the use case gives it; 409 before it is done",
                  "the job", {});
  });
  document.object("/api/jobs/{id}/events", [&] {
    document.object("get", [&] {
      document.text("operationId", "watchJob");
      document.text("summary", "server-sent events: progress any number of times, then done once, each a JobState");
      document.list("parameters", [&] { parameter(document, "path", {"id", {}, "the job", true}); });
      document.object("responses", [&] {
        event_answer(document, "the events");
        answer(document, "default", kWrong, {});
      });
    });
  });
}

void bytes_content(Document& document, std::string_view type) {
  document.object("content", [&] {
    document.object(type, [&] {
      document.object("schema", [&] {
        document.text("type", "string");
        document.text("format", "binary");
      });
    });
  });
}

void file_path(Document& document) {
  document.object("/api/files", [&] {
    document.object("post", [&] {
      document.text("operationId", "keepFile");
      document.text("summary", "keeps a picture: PNG, JPEG or WebP, by its bytes");
      document.object("requestBody", [&] {
        document.flag("required", true);
        bytes_content(document, "application/octet-stream");
      });
      document.object("responses", [&] {
        answer(document, "200", "the document that holds it", "FileResponse");
        answer(document, "default", kWrong, {});
      });
    });
    document.object("get", [&] {
      document.text("operationId", "file");
      document.text("summary", "the bytes of a picture");
      document.list("parameters", [&] { parameter(document, "query", {"name", {}, "the document", true}); });
      document.object("responses", [&] {
        document.object("200", [&] {
          document.text("description", "the picture");
          bytes_content(document, "image/*");
        });
        answer(document, "default", kWrong, {});
      });
    });
  });
}

void feed_path(Document& document) {
  document.object("/api/feed", [&] {
    document.object("get", [&] {
      document.text("operationId", "feed");
      document.text(
          "summary",
          "server-sent events: each change of the record as a ChangeNews, its number as the event's id; `reset` where "
          "all is to be read anew, `trouble` while changes of others do not come in");
      document.list("parameters", [&] {
        parameter(document, "query",
                  {"after", {.kind = Shape::Kind::integer}, "the changes after this one first; 0 tells all", false});
      });
      document.object("responses", [&] {
        event_answer(document, "the events");
        answer(document, "default", kWrong, {});
      });
    });
  });
}

struct Step {
  std::string_view path, verb, id, summary;
  std::string body, response;
};

/// Signing in, where the server has accounts; without them /api/session alone answers.
void session_paths(Document& document) {
  const Step steps[] = {
      {"/api/session", "get", "session", "who is signed in; without accounts, whose machine it is", "", "Session"},
      {"/api/sign-in", "post", "signIn", "begins a session: the answer sets its cookie", "SignIn", "Session"},
      {"/api/sign-out", "post", "signOut", "ends it", "Nothing", "Session"},
      {"/api/password", "post", "changePassword", "a new password; all other sessions of the account end", "Password",
       "Session"},
      {"/api/sessions", "get", "sessions", "one's own sessions; an owner sees all", "", "Sessions"}};
  for (const Step& step : steps) {
    document.object(step.path, [&] {
      document.object(step.verb, [&] {
        document.text("operationId", step.id);
        document.text("summary", step.summary);
        if (step.id == "signIn") document.list("security", [] {});
        if (!step.body.empty()) body_text(document, step.body);
        document.object("responses", [&] {
          answer(document, "200", step.summary, step.response);
          answer(document, "default", kWrong, {});
        });
      });
    });
  }
  document.object("/api/sessions/{id}", [&] {
    job_operation(document, "delete", "endSession", "ends a session; one's own, an owner any", "the session",
                  "Sessions");
  });
}

}  // namespace

void fixed_paths(Document& document) {
  job_paths(document);
  file_path(document);
  feed_path(document);
  session_paths(document);
}

/// The shapes that no field list gives: the error as `write_json` writes it, and the envelope.
void fixed_definitions(Document& document) {
  const Shape text{}, maybe{.nullable = true}, number{.kind = Shape::Kind::integer, .nullable = true};
  const auto list_of = [](Shape item) {
    return Shape{.kind = Shape::Kind::list, .of = std::make_shared<Shape>(std::move(item))};
  };
  const auto object = [](const char* name) { return Shape{.kind = Shape::Kind::object, .name = name}; };
  definition_text(document, {"ErrorWhere",
                             {{"file", maybe, {}, true},
                              {"sheet", maybe, {}, true},
                              {"row", number, {}, true},
                              {"line", number, {}, true},
                              {"column", maybe, {}, true},
                              {"id", maybe, {}, true}},
                             {}});
  definition_text(document, {"ErrorEntry",
                             {{"code", text, {}, true},
                              {"message", text, {}, true},
                              {"where", object("ErrorWhere"), {}, true},
                              {"hint", maybe, {}, true}},
                             {}});
  definition_text(document, {"Envelope",
                             {{"ok", {.kind = Shape::Kind::boolean}, {}, true},
                              {"errors", list_of(object("ErrorEntry")), {}, true},
                              {"warnings", list_of(text), {}, true},
                              {"provenance", object("Provenance"), {}, true}},
                             {}});
  const Shape flag{.kind = Shape::Kind::boolean}, seconds{.kind = Shape::Kind::integer};
  definition_text(document, {"Nothing", {}, {}});
  definition_text(document, {"SignIn", {{"name", text, "the account", true}, {"password", text, {}, true}}, {}});
  definition_text(document, {"Password", {{"old", text, "the one so far", true}, {"new", text, {}, true}}, {}});
  definition_text(document, {"Session",
                             {{"account", text, "empty without accounts", true},
                              {"recorder", text, {}, true},
                              {"role", text, {}, true},
                              {"must_change", flag, "the password was given by somebody else", true}},
                             {}});
  definition_text(document, {"ListedSession",
                             {{"id", text, {}, true},
                              {"account", text, {}, true},
                              {"peer", text, {}, true},
                              {"began", seconds, "seconds since 1970", true},
                              {"seen", seconds, "seconds since 1970", true},
                              {"this_one", flag, {}, true}},
                             {}});
  definition_text(document, {"Sessions", {{"sessions", list_of(object("ListedSession")), {}, true}}, {}});
}

}  // namespace sherd::desk::openapi_parts
