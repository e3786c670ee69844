#include "desk/frame/json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace sherd::desk {

using Json = nlohmann::ordered_json;

struct JsonWriter::State {
  Json root;
  std::vector<Json*> open;
  std::string key;

  Json* put(Json value) {
    if (open.empty()) {
      root = std::move(value);
      return &root;
    }
    Json& parent = *open.back();
    if (parent.is_array()) {
      parent.push_back(std::move(value));
      return &parent.back();
    }
    return &(parent[key] = std::move(value));
  }
};

JsonWriter::JsonWriter() : state_(std::make_unique<State>()) {}
JsonWriter::~JsonWriter() = default;

void JsonWriter::begin_object() { state_->open.push_back(state_->put(Json::object())); }
void JsonWriter::begin_array() { state_->open.push_back(state_->put(Json::array())); }
void JsonWriter::end() { state_->open.pop_back(); }
void JsonWriter::key(std::string_view name) { state_->key = name; }
void JsonWriter::null() { state_->put(nullptr); }
void JsonWriter::value(bool value) { state_->put(value); }
void JsonWriter::value(std::int64_t value) { state_->put(value); }
void JsonWriter::value(std::uint64_t value) { state_->put(value); }
void JsonWriter::value(double value) { state_->put(std::isfinite(value) ? Json(value) : Json(nullptr)); }
void JsonWriter::value(std::string_view value) { state_->put(std::string(value)); }

std::string JsonWriter::text() const { return state_->root.dump(2, ' ', false, Json::error_handler_t::replace); }

void write_json(JsonWriter& json, const Error& error) {
  json.begin_object();
  json.key("code");
  write_json(json, error.code);
  json.key("message");
  write_json(json, error.message);
  json.key("where");
  json.begin_object();
  const auto text = [&](std::string_view name, const std::string& value) {
    json.key(name);
    write_json(json, value.empty() ? std::optional<std::string>{} : std::optional<std::string>{value});
  };
  text("file", error.where.file);
  text("sheet", error.where.sheet);
  json.key("row");
  write_json(json, error.where.row);
  json.key("line");
  write_json(json, error.where.line);
  text("column", error.where.column);
  text("id", error.where.id);
  json.end();
  text("hint", error.hint);
  json.end();
}

namespace {

struct Nothing : Reply {
  template <class V>
  static void fields(V&) {}
};

}  // namespace

std::string error_envelope(const Error& error, const std::string& version) {
  Nothing nothing;
  nothing.errors.push_back(error);
  nothing.provenance.version = version;
  return envelope(nothing);
}

}  // namespace sherd::desk
