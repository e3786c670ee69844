#pragma once

#include <concepts>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fields.h"
#include "base/result.h"

/// Named values from outside into any request that has a field list. Every error is `bad_request` (usage) and names
/// its place: where.column is the field ("by[1]" an item of a list), where.line the line of JSON that does not parse.
namespace sherd::desk {

/// What came from outside: a JSON object or the query of an address.
class Given {
 public:
  /// One JSON object in UTF-8; a name given twice is refused. "" is an object without names.
  static Result<Given> json(std::string_view text);
  /// "by=fabric,context.phase&where=context%3D1013"; a leading "?" is allowed, + is a space.
  static Result<Given> query(std::string_view text);

  Given(Given&&) noexcept;
  Given& operator=(Given&&) noexcept;
  ~Given();

  std::vector<std::string> names() const;
  bool has(std::string_view name) const;

  /// Each puts the value of that name, where there is one, into the second argument. A query's text becomes whatever
  /// is asked for; JSON must have the right type, except that null is as good as absent.
  Result<void> read(std::string_view name, std::string& value) const;
  Result<void> read(std::string_view name, bool& value) const;
  Result<void> read(std::string_view name, std::int64_t& value) const;
  Result<void> read(std::string_view name, double& value) const;
  /// In a query by repeating the name; "by" also by commas, as on the command line.
  Result<void> read(std::string_view name, std::vector<std::string>& values) const;
  /// An object of texts; JSON only.
  Result<void> read(std::string_view name, std::map<std::string, std::string>& values) const;
  /// A list of objects, each by the field list of its type; JSON only.
  template <HasFields T>
  Result<void> read(std::string_view name, std::vector<T>& values) const;
  template <class T>
  Result<void> read(std::string_view name, std::optional<T>& value) const {
    if (!has(name)) return {};
    T one{};
    if (auto done = read(name, one); !done) return done;
    value = std::move(one);
    return {};
  }
  /// An object within a JSON object; one without names where there is none.
  Result<Given> object(std::string_view name) const;
  /// A list of objects within a JSON object; none where there is no list.
  Result<std::vector<Given>> objects(std::string_view name) const;

 private:
  struct State;
  explicit Given(std::unique_ptr<State> state);
  static Error within(std::string_view list, std::size_t place, Error error);
  std::unique_ptr<State> state_;
};

/// A field that the program fills, and no one outside.
struct Preset {
  std::string_view name;
  std::string value;
};

namespace detail {

Error missing_field(std::string_view name, std::string_view help);

/// The names that a request knows.
struct FieldNames {
  std::vector<std::string> names;
  template <class M, class B, class... N>
  void field(std::string_view name, M B::*, const N&...) {
    names.emplace_back(name);
  }
};

template <class Request>
struct GivenFields {
  const Given& given;
  const std::vector<Preset>& presets;
  Request& request;
  std::optional<Error> error;

  template <class M, class B>
  void field(std::string_view name, M B::* member, const Note& note) {
    for (const Preset& preset : presets) {
      if (preset.name != name) continue;
      if constexpr (std::same_as<M, std::string>) request.*member = preset.value;
      return;
    }
    if (error) return;
    if (auto done = given.read(name, request.*member); !done) {
      error = std::move(done).error();
    } else if (note.required && !given.has(name)) {
      error = missing_field(name, note.help);
    }
  }
};

/// The error of a name that the request does not know or may not be given, if there is one.
std::optional<Error> refused_name(const Given& given, std::vector<std::string> known,
                                  const std::vector<Preset>& presets);

}  // namespace detail

/// Refuses a name that is not among the known ones, with "did you mean".
Result<void> check_names(const Given& given, std::vector<std::string> known);

/// A request by its field list. Unknown names are refused with "did you mean", missing required ones with their help;
/// a preset field is filled with its value and refused where it was given.
template <class Request>
Result<Request> read_request(const Given& given, const std::vector<Preset>& presets = {}) {
  detail::FieldNames known;
  Request::fields(known);
  if (auto error = detail::refused_name(given, std::move(known.names), presets)) return fail(std::move(*error));
  Request request;
  detail::GivenFields<Request> fields{given, presets, request, {}};
  Request::fields(fields);
  if (fields.error) return fail(std::move(*fields.error));
  return request;
}

template <HasFields T>
Result<void> Given::read(std::string_view name, std::vector<T>& values) const {
  auto given = objects(name);
  if (!given) return std::unexpected(std::move(given).error());
  for (std::size_t i = 0; i < given->size(); ++i) {
    auto one = read_request<T>((*given)[i]);
    if (!one) return fail(within(name, i, std::move(one).error()));
    values.push_back(std::move(*one));
  }
  return {};
}

}  // namespace sherd::desk
