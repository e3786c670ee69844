#include <map>
#include <set>

#include "desk/frame/schema.h"
#include "desk/frame/schema_openapi_examples.h"
#include "desk/frame/schema_openapi_parts.h"

namespace sherd::desk {

namespace openapi_parts {

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

void parameter(Document& document, std::string_view in, const Property& property, std::string_view example) {
  document.item([&] {
    document.text("name", property.name);
    document.text("in", in);
    document.flag("required", property.required);
    if (!property.help.empty()) document.text("description", property.help);
    Shape shape = property.shape;
    shape.nullable = false;
    document.object("schema", [&] { schema_text(document, shape); });
    if (example.empty()) return;
    if (shape.kind == Shape::Kind::list) {
      document.list("example", [&] { document.word(example); });
    } else {
      document.text("example", example);
    }
  });
}

void body_text(Document& document, const std::string& definition) {
  document.object("requestBody", [&] {
    document.flag("required", true);
    document.object("content", [&] {
      document.object("application/json", [&] {
        document.object("schema", [&] { reference(document, definition); });
        body_example(document, definition);
      });
    });
  });
}

}  // namespace openapi_parts

namespace {

using namespace openapi_parts;

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
        for (const Property& property : request.properties)
          parameter(document, "query", property, example_of(operation.name, property.name));
      });
    }
    document.object("responses", [&] {
      if (operation.served()) answer(document, "200", operation.help, operation.response);
      answer(document, "default", "what is wrong, and the way out", {});
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
      document.object("license", [&] {
        document.text("name", "Apache License 2.0");
        document.text("identifier", "Apache-2.0");
      });
    });
    document.list("servers", [&] {
      document.item([&] {
        document.text("url", "http://127.0.0.1:8620");
        document.text("description", "the usual address of `sherdwright serve`; it says its own when it starts");
      });
    });
    document.list("security", [&] { document.item([&] { document.list("session", [] {}); }); });
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
      fixed_paths(document);
    });
    document.object("components", [&] {
      document.object("schemas", [&] {
        fixed_definitions(document);
        for (const auto& [name, definition] : definitions) definition_text(document, *definition);
        job_request(document, schema);
      });
      document.object("securitySchemes", [&] {
        document.object("session", [&] {
          document.text("type", "apiKey");
          document.text("in", "cookie");
          document.text("name", "sherdwright-PORT");
          document.text(
              "description",
              "Set by opening the printed address with its token, or by POST /api/sign-in; the name ends with the "
              "server's port. Where connections are encrypted it begins with __Host-.");
        });
      });
    });
  });
  return document.json().text() + "\n";
}

}  // namespace sherd::desk
