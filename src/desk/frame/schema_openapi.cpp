#include <map>
#include <set>

#include "desk/frame/json.h"
#include "desk/frame/schema.h"
#include "desk/frame/schema_shape.h"

namespace sherd::desk {

namespace {

/// Writes JSON in the nested way in which the document is built.
class Document {
 public:
  template <class Body>
  void object(std::string_view name, Body&& body) {
    json_.key(name);
    json_.begin_object();
    body();
    json_.end();
  }
  template <class Body>
  void list(std::string_view name, Body&& body) {
    json_.key(name);
    json_.begin_array();
    body();
    json_.end();
  }
  template <class Body>
  void item(Body&& body) {
    json_.begin_object();
    body();
    json_.end();
  }
  void text(std::string_view name, std::string_view value) {
    json_.key(name);
    json_.value(value);
  }
  void flag(std::string_view name, bool value) {
    json_.key(name);
    json_.value(value);
  }
  void word(std::string_view value) { json_.value(value); }
  JsonWriter& json() { return json_; }

 private:
  JsonWriter json_;
};

void type_text(Document& document, std::string_view type, bool nullable) {
  if (!nullable) return document.text("type", type);
  document.list("type", [&] {
    document.word(type);
    document.word("null");
  });
}

void reference(Document& document, std::string_view name) {
  document.text("$ref", "#/components/schemas/" + std::string(name));
}

void schema_text(Document& document, const Shape& shape) {
  switch (shape.kind) {
    case Shape::Kind::text:
      return type_text(document, "string", shape.nullable);
    case Shape::Kind::boolean:
      return type_text(document, "boolean", shape.nullable);
    case Shape::Kind::integer:
      return type_text(document, "integer", shape.nullable);
    case Shape::Kind::number:
      return type_text(document, "number", shape.nullable);
    case Shape::Kind::year:
      type_text(document, "integer", shape.nullable);
      return document.text("description", "a historical year: 43 BC is -43, and 0 never occurs");
    case Shape::Kind::word:
      type_text(document, "string", shape.nullable);
      return document.list("enum", [&] {
        for (const std::string& word : shape.words) document.word(word);
        if (shape.nullable) document.json().null();
      });
    case Shape::Kind::interval:
      type_text(document, "array", shape.nullable);
      document.text("description", "from, to; both inclusive");
      document.object("items", [&] { document.text("type", "number"); });
      for (const std::string_view bound : {"minItems", "maxItems"}) {
        document.json().key(bound);
        document.json().value(std::int64_t{2});
      }
      return;
    case Shape::Kind::list:
      type_text(document, "array", shape.nullable);
      return document.object("items", [&] { schema_text(document, *shape.of); });
    case Shape::Kind::map:
      type_text(document, "object", shape.nullable);
      return document.object("additionalProperties", [&] { schema_text(document, *shape.of); });
    case Shape::Kind::object:
      break;
  }
  if (!shape.nullable) return reference(document, shape.name);
  document.list("oneOf", [&] {
    document.item([&] { reference(document, shape.name); });
    document.item([&] { document.text("type", "null"); });
  });
}

void property_text(Document& document, const Property& property) {
  document.object(property.name, [&] {
    schema_text(document, property.shape);
    if (!property.help.empty()) document.text("description", property.help);
  });
}

void definition_text(Document& document, const Definition& definition) {
  document.object(definition.name, [&] {
    document.text("type", "object");
    document.object("properties", [&] {
      for (const Property& property : definition.properties) property_text(document, property);
    });
    document.list("required", [&] {
      for (const Property& property : definition.properties) {
        if (property.required) document.word(property.name);
      }
    });
    if (definition.others) document.object("additionalProperties", [&] { schema_text(document, *definition.others); });
  });
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
}

/// An answer: the envelope and, where there is one, the response's own keys.
void answer(Document& document, std::string_view status, std::string_view about, const std::string& response) {
  document.object(status, [&] {
    document.text("description", about);
    document.object("content", [&] {
      document.object("application/json", [&] {
        document.object("schema", [&] {
          document.list("allOf", [&] {
            document.item([&] { reference(document, "Envelope"); });
            if (!response.empty()) document.item([&] { reference(document, response); });
          });
        });
      });
    });
  });
}

void parameter(Document& document, std::string_view in, const Property& property) {
  document.item([&] {
    document.text("name", property.name);
    document.text("in", in);
    document.flag("required", property.required);
    if (!property.help.empty()) document.text("description", property.help);
    Shape shape = property.shape;
    shape.nullable = false;
    document.object("schema", [&] { schema_text(document, shape); });
  });
}

void body_text(Document& document, const std::string& definition) {
  document.object("requestBody", [&] {
    document.flag("required", true);
    document.object("content", [&] {
      document.object("application/json", [&] { document.object("schema", [&] { reference(document, definition); }); });
    });
  });
}

std::string lower_verb(const Operation& operation) {
  std::string verb = operation.verb;
  for (char& c : verb) c = static_cast<char>(c + ('a' - 'A'));
  return verb;
}

void operation_text(Document& document, const Operation& operation, const Definition& request) {
  document.object(lower_verb(operation), [&] {
    document.text("operationId", camel_case(operation.name));
    document.text("summary", operation.help);
    if (!operation.served()) {
      document.text("description", "Answered with 405 in this version: done by the command " + operation.name + ".");
      body_text(document, operation.request);
    } else if (!operation.reads()) {
      body_text(document, operation.request);
    } else {
      document.list("parameters", [&] {
        for (const Property& property : request.properties) parameter(document, "query", property);
      });
    }
    document.object("responses", [&] {
      if (operation.served()) answer(document, "200", operation.help, operation.response);
      answer(document, "default", "what is wrong, and the way out", {});
    });
  });
}

void job_operation(Document& document, std::string_view verb, std::string_view id, std::string_view summary,
                   bool in_path, const std::string& response) {
  document.object(verb, [&] {
    document.text("operationId", id);
    document.text("summary", summary);
    if (in_path) {
      document.list("parameters", [&] { parameter(document, "path", {"id", {}, "the job", true}); });
    } else {
      body_text(document, "JobRequest");
    }
    document.object("responses", [&] {
      answer(document, "200", summary, response);
      answer(document, "default", "what is wrong, and the way out", {});
    });
  });
}

void job_paths(Document& document) {
  document.object("/api/jobs", [&] {
    job_operation(document, "post", "startJob", "starts a use case that reads, beside the requests", false, "JobState");
  });
  document.object("/api/jobs/{id}", [&] {
    job_operation(document, "get", "job", "how far it is", true, "JobState");
    job_operation(document, "delete", "cancelJob", "stops it; forgets it where it no longer runs", true, "JobState");
  });
  document.object("/api/jobs/{id}/result", [&] {
    job_operation(document, "get", "jobResult", "its answer, as the use case gives it; 409 before it is done", true,
                  {});
  });
  document.object("/api/jobs/{id}/events", [&] {
    document.object("get", [&] {
      document.text("operationId", "watchJob");
      document.text("summary", "server-sent events: progress any number of times, then done once, each a JobState");
      document.list("parameters", [&] { parameter(document, "path", {"id", {}, "the job", true}); });
      document.object("responses", [&] {
        document.object("200", [&] {
          document.text("description", "the events");
          document.object("content", [&] {
            document.object("text/event-stream",
                            [&] { document.object("schema", [&] { document.text("type", "string"); }); });
          });
        });
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
        answer(document, "default", "what is wrong, and the way out", {});
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
        answer(document, "default", "what is wrong, and the way out", {});
      });
    });
  });
}

void job_request(Document& document, const Schema& schema) {
  Shape names{.kind = Shape::Kind::word};
  for (const Operation& operation : schema.operations) {
    if (operation.reads()) names.words.push_back(operation.name);
  }
  document.object("JobRequest", [&] {
    document.text("type", "object");
    document.object("properties", [&] {
      property_text(document, {"use_case", names, "the use case", true});
      document.object("request", [&] {
        document.text("type", "object");
        document.text("description", "its request, as GET takes it in the query");
      });
    });
    document.list("required", [&] { document.word("use_case"); });
  });
}

}  // namespace

std::string openapi(const std::string& version) {
  const Schema schema = whole_schema();
  std::map<std::string, const Definition*> definitions;
  for (const Definition& definition : schema.definitions.all()) definitions[definition.name] = &definition;
  Document document;
  document.item([&] {
    document.text("openapi", "3.1.0");
    document.object("info", [&] {
      document.text("title", "Sherdwright");
      document.text("version", version);
      document.text("description",
                    "What the workbench asks of `sherdwright serve`. Made by `sherdwright schema --openapi`.");
    });
    document.object("paths", [&] {
      std::set<std::string> told;
      for (const Operation& first : schema.operations) {
        if (!told.insert(first.path).second) continue;  // one path may be read and written
        document.object(first.path, [&] {
          for (const Operation& operation : schema.operations) {
            if (operation.path == first.path) operation_text(document, operation, *definitions.at(operation.request));
          }
        });
      }
      job_paths(document);
      file_path(document);
    });
    document.object("components", [&] {
      document.object("schemas", [&] {
        fixed_definitions(document);
        for (const auto& [name, definition] : definitions) definition_text(document, *definition);
        job_request(document, schema);
      });
    });
  });
  return document.json().text() + "\n";
}

}  // namespace sherd::desk
