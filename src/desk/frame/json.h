#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// JSON of any struct that has a field list.
namespace sherd::desk {

/// Builds one JSON document, keys in the order written.
class JsonWriter {
 public:
  JsonWriter();
  ~JsonWriter();
  JsonWriter(const JsonWriter&) = delete;
  JsonWriter& operator=(const JsonWriter&) = delete;

  void begin_object();
  void begin_array();
  void end();
  void key(std::string_view name);
  void null();
  void value(bool value);
  void value(std::int64_t value);
  void value(std::uint64_t value);
  void value(double value);  ///< not finite: null
  void value(std::string_view value);

  std::string text() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

inline void write_json(JsonWriter& json, bool value) { json.value(value); }
inline void write_json(JsonWriter& json, std::int64_t value) { json.value(value); }
inline void write_json(JsonWriter& json, std::uint64_t value) { json.value(value); }
inline void write_json(JsonWriter& json, int value) { json.value(static_cast<std::int64_t>(value)); }
inline void write_json(JsonWriter& json, double value) { json.value(value); }
inline void write_json(JsonWriter& json, const std::string& value) { json.value(std::string_view(value)); }
/// Historical: 43 BC is -43.
inline void write_json(JsonWriter& json, Year year) { json.value(historical(year)); }
/// In the units of the canonical columns: g, mm, percent, litres.
inline void write_json(JsonWriter& json, Weight value) { json.value(value.g()); }
inline void write_json(JsonWriter& json, Length value) { json.value(value.mm()); }
inline void write_json(JsonWriter& json, Percent value) { json.value(value.percent()); }
inline void write_json(JsonWriter& json, Volume value) { json.value(value.litres()); }
template <WordList E>
void write_json(JsonWriter& json, E value) {
  json.value(word(value));
}
/// An interval: [from, to].
inline void write_json(JsonWriter& json, const std::array<double, 2>& ends) {
  json.begin_array();
  json.value(ends[0]);
  json.value(ends[1]);
  json.end();
}
void write_json(JsonWriter& json, const Error& error);
template <class T>
void write_json(JsonWriter& json, const std::optional<T>& value);
template <class T>
void write_json(JsonWriter& json, const std::vector<T>& values);
template <class T>
void write_json(JsonWriter& json, const std::map<std::string, T>& values);
template <HasFields T>
void write_json(JsonWriter& json, const T& value);

namespace detail {

template <class T>
struct JsonFields {
  JsonWriter& json;
  const T& object;

  template <class M, class B, class... N>
  void field(std::string_view name, M B::* member, const N&...) {
    json.key(name);
    write_json(json, object.*member);
  }
  /// Named values that stand in the object itself: the group's fields of a tally row.
  template <class M, class B>
  void flatten(std::vector<std::pair<std::string, M>> B::* member) {
    for (const auto& [name, value] : object.*member) {
      json.key(name);
      write_json(json, value);
    }
  }
};

}  // namespace detail

template <class T>
void write_json(JsonWriter& json, const std::optional<T>& value) {
  if (value) {
    write_json(json, *value);
  } else {
    json.null();
  }
}

template <class T>
void write_json(JsonWriter& json, const std::vector<T>& values) {
  json.begin_array();
  for (const auto& value : values) write_json(json, value);
  json.end();
}

template <class T>
void write_json(JsonWriter& json, const std::map<std::string, T>& values) {
  json.begin_object();
  for (const auto& [name, value] : values) {
    json.key(name);
    write_json(json, value);
  }
  json.end();
}

template <HasFields T>
void write_json(JsonWriter& json, const T& value) {
  json.begin_object();
  detail::JsonFields<T> fields{json, value};
  T::fields(fields);
  json.end();
}

/// The contract's envelope around a response: ok, its own keys, errors, warnings, provenance.
template <class Response>
std::string envelope(const Response& response) {
  JsonWriter json;
  json.begin_object();
  json.key("ok");
  json.value(response.ok());
  detail::JsonFields<Response> fields{json, response};
  Response::fields(fields);
  json.key("errors");
  write_json(json, response.errors);
  json.key("warnings");
  write_json(json, response.warnings);
  json.key("provenance");
  write_json(json, response.provenance);
  json.end();
  return json.text();
}

/// The envelope of an error that left no response.
std::string error_envelope(const Error& error, const std::string& version);

}  // namespace sherd::desk
