#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

/// Answers that hold one result of several kinds, its keys beside their own.
namespace sherd::desk {

namespace detail {

/// Properties of one name become one, null where any of them may be null; none is required.
template <class Properties>
void join_names(Properties& properties, std::size_t from) {
  Properties joined(properties.begin(), properties.begin() + static_cast<std::ptrdiff_t>(from));
  for (std::size_t i = from; i < properties.size(); ++i) {
    properties[i].required = false;
    const auto same = std::find_if(joined.begin() + static_cast<std::ptrdiff_t>(from), joined.end(),
                                   [&](const auto& known) { return known.name == properties[i].name; });
    if (same == joined.end()) {
      joined.push_back(properties[i]);
    } else {
      same->shape.nullable = same->shape.nullable || properties[i].shape.nullable;
    }
  }
  properties = std::move(joined);
}

template <template <class> class Writer, class Answer, class Part>
void write_beside(Writer<Answer>& writer, const Part& part) {
  Writer<Part> fields{writer.json, part};
  Part::fields(fields);
}

}  // namespace detail

/// The field list of an answer with `Results` as its base, whose `each` visits optional parts: a writer of documents
/// gets the keys of the part that is there, the schema all of them.
template <class Results, class V>
void fields_beside(V& v) {
  if constexpr (requires { v.json; }) {
    Results::each([&](auto member) {
      if (const auto& result = v.object.*member) detail::write_beside(v, *result);
    });
  } else if constexpr (requires { v.definition.properties; }) {
    const std::size_t own = v.definition.properties.size();
    Results::each([&]<class Part>(std::optional<Part> Results::*) { Part::fields(v); });
    detail::join_names(v.definition.properties, own);
  }
}

}  // namespace sherd::desk
