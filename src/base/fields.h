#pragma once

#include <string_view>

/// The vocabulary of field lists. A struct names its members once,
///
///     template <class V> static void fields(V& v) {
///       v.field("store", &ImportRequest::store, argument("the store"));
///       v.field("keep_good", &ImportRequest::keep_good, option("let the good rows in"));
///     }
///
/// and every reader of it (command line, JSON, CSV, tables of the store) is one visitor with a member
/// `field(name, pointer to member, note)`.
namespace sherd {

/// Where a request's field stands on the command line.
enum class Place { argument, option };

/// What the command line and the reference pages say of a field.
struct Note {
  std::string_view help;
  Place place = Place::option;
  bool required = false;
};

constexpr Note argument(std::string_view help) { return {help, Place::argument, true}; }
constexpr Note optional_argument(std::string_view help) { return {help, Place::argument, false}; }
constexpr Note option(std::string_view help) { return {help, Place::option, false}; }
constexpr Note required_option(std::string_view help) { return {help, Place::option, true}; }

/// A struct that has a field list.
struct AnyVisitor_ {
  template <class... A>
  void field(A&&...) {}
  template <class... A>
  void flatten(A&&...) {}
};
template <class T>
concept HasFields = requires(AnyVisitor_& v) { T::fields(v); };

}  // namespace sherd
