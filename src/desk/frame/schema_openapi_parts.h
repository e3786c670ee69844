#pragma once

#include <string>
#include <string_view>

#include "desk/frame/json.h"
#include "desk/frame/schema_shape.h"

/// The parts of the OpenAPI document, for the files that write it.
namespace sherd::desk::openapi_parts {

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

void reference(Document& document, std::string_view name);
void schema_text(Document& document, const Shape& shape);

/// An answer: the envelope and, where there is one, the response's own keys.
void answer(Document& document, std::string_view status, std::string_view about, const std::string& response);
/// `example`: "" is none.
void parameter(Document& document, std::string_view in, const Property& property, std::string_view example = {});
/// `definition` is the name of a schema.
void body_text(Document& document, const std::string& definition);

/// The routes beside the use cases: jobs, pictures, the feed of changes, signing in.
void fixed_paths(Document& document);
/// The shapes of what these take and give, which no field list of the desk has.
void fixed_definitions(Document& document);

void definition_text(Document& document, const Definition& definition);

}  // namespace sherd::desk::openapi_parts
