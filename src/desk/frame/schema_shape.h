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
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// Shapes of JSON values, derived from field lists the same way as `write_json` writes them.
namespace sherd::desk {

struct Shape {
  enum class Kind { text, boolean, integer, number, year, word, interval, list, map, object };
  Kind kind = Kind::text;
  bool nullable = false;
  std::vector<std::string> words;   ///< of a word
  std::shared_ptr<const Shape> of;  ///< items of a list, values of a map
  std::string name;                 ///< of an object: its definition
};

struct Property {
  std::string name;
  Shape shape;
  std::string help;
  bool required = true;
};

/// A struct under its name.
struct Definition {
  std::string name;
  std::vector<Property> properties;
  std::optional<Shape> others;  ///< named values that stand in the object itself
};

/// Definitions in the order in which they were met, each type once.
class Definitions {
 public:
  /// A name for the type whose full C++ name this is: its last part, with the module before it where that is taken.
  std::string name_of(std::string_view full_name);
  bool begin(const std::string& name);  ///< false: known, or being defined
  void add(Definition definition);
  const std::vector<Definition>& all() const { return all_; }

 private:
  std::map<std::string, std::string> full_names_;
  std::vector<std::string> begun_;
  std::vector<Definition> all_;
};

template <class T>
constexpr std::string_view type_name() {
  const std::string_view text = __PRETTY_FUNCTION__;  // "... [with T = sherd::desk::Finding; ...]"
  const std::size_t start = text.find("T = ") + 4;
  return text.substr(start, text.find_first_of(";]", start) - start);
}

namespace detail {

template <class T>
struct ShapeOf;

template <Shape::Kind K>
struct Plain {
  static Shape shape(Definitions&) { return {.kind = K}; }
};
template <>
struct ShapeOf<std::string> : Plain<Shape::Kind::text> {};
template <>
struct ShapeOf<bool> : Plain<Shape::Kind::boolean> {};
template <>
struct ShapeOf<int> : Plain<Shape::Kind::integer> {};
template <>
struct ShapeOf<std::int64_t> : Plain<Shape::Kind::integer> {};
template <>
struct ShapeOf<std::uint64_t> : Plain<Shape::Kind::integer> {};
template <>
struct ShapeOf<double> : Plain<Shape::Kind::number> {};
template <>
struct ShapeOf<Weight> : Plain<Shape::Kind::number> {};
template <>
struct ShapeOf<Length> : Plain<Shape::Kind::number> {};
template <>
struct ShapeOf<Percent> : Plain<Shape::Kind::number> {};
template <>
struct ShapeOf<Volume> : Plain<Shape::Kind::number> {};
template <>
struct ShapeOf<Year> : Plain<Shape::Kind::year> {};
template <>
struct ShapeOf<std::array<double, 2>> : Plain<Shape::Kind::interval> {};

template <WordList E>
struct ShapeOf<E> {
  static Shape shape(Definitions&) {
    return {.kind = Shape::Kind::word, .words = {Words<E>::kNames.begin(), Words<E>::kNames.end()}};
  }
};
template <class T>
struct ShapeOf<std::optional<T>> {
  static Shape shape(Definitions& definitions) {
    Shape shape = ShapeOf<T>::shape(definitions);
    shape.nullable = true;
    return shape;
  }
};
template <class T>
struct ShapeOf<std::vector<T>> {
  static Shape shape(Definitions& definitions) {
    return {.kind = Shape::Kind::list, .of = std::make_shared<Shape>(ShapeOf<T>::shape(definitions))};
  }
};
template <class T>
struct ShapeOf<std::map<std::string, T>> {
  static Shape shape(Definitions& definitions) {
    return {.kind = Shape::Kind::map, .of = std::make_shared<Shape>(ShapeOf<T>::shape(definitions))};
  }
};
template <>
struct ShapeOf<Error> {
  static Shape shape(Definitions&) { return {.kind = Shape::Kind::object, .name = "ErrorEntry"}; }
};

struct PropertyFields {
  Definitions& definitions;
  Definition& definition;

  template <class M, class B>
  void field(std::string_view name, M B::*) {
    definition.properties.push_back({std::string(name), ShapeOf<M>::shape(definitions), {}, true});
  }
  template <class M, class B, class N>
  void field(std::string_view name, M B::* member, const N&) {
    field(name, member);
  }
  template <class M, class B>
  void field(std::string_view name, M B::*, const Note& note) {
    definition.properties.push_back(
        {std::string(name), ShapeOf<M>::shape(definitions), std::string(note.help), note.required});
  }
  template <class M, class B>
  void flatten(std::vector<std::pair<std::string, M>> B::*) {
    definition.others = ShapeOf<M>::shape(definitions);
  }
};

template <HasFields T>
struct ShapeOf<T> {
  static Shape shape(Definitions& definitions) {
    const std::string name = definitions.name_of(type_name<T>());
    if (definitions.begin(name)) {
      Definition definition{name, {}, {}};
      PropertyFields fields{definitions, definition};
      T::fields(fields);
      definitions.add(std::move(definition));
    }
    return {.kind = Shape::Kind::object, .name = name};
  }
};

}  // namespace detail

/// The shape of any type that `write_json` takes; structs are added to `definitions`.
template <class T>
Shape shape_of(Definitions& definitions) {
  return detail::ShapeOf<T>::shape(definitions);
}

/// One use case as the API shows it.
struct Operation {
  std::string name, verb, path, help, request, response;
  bool from_page = false;
  bool reads() const { return verb == "GET"; }
  /// What writes is done by its command, unless pages do it, too.
  bool served() const { return reads() || from_page; }
};

struct Schema {
  Definitions definitions;
  std::vector<Operation> operations;
};

/// Of all use cases, the job's state and the envelope.
Schema whole_schema();

/// "spot-dates" -> "spotDates"
std::string camel_case(std::string_view name);

}  // namespace sherd::desk
