#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "methods/compare/result.h"

namespace sherd::desk {

/// The result of whichever way of comparing was asked for; the others are absent. In a document its keys stand beside
/// those of the answer, as in `{"how": "similarity", "labels": [...], "matrix": [...]}`.
struct ComparisonResult {
  std::optional<compare::Ordination> ordination;
  std::optional<compare::Similarity> similarity;
  std::optional<compare::Ordering> order;
  std::optional<compare::Diversity> diversity;
  std::optional<compare::Clusters> clusters;
  std::optional<compare::Difference> difference;
  std::optional<compare::FallOff> distance;
  std::optional<compare::Breakage> breakage;
  std::optional<compare::Residuality> residuality;
  std::optional<compare::JoinNetwork> joins;
  std::optional<compare::KeyGroups> key_groups;
  std::optional<compare::SampleSize> sample_size;

  template <class Visit>
  static void each(Visit visit) {
    visit(&ComparisonResult::ordination);
    visit(&ComparisonResult::similarity);
    visit(&ComparisonResult::order);
    visit(&ComparisonResult::diversity);
    visit(&ComparisonResult::clusters);
    visit(&ComparisonResult::difference);
    visit(&ComparisonResult::distance);
    visit(&ComparisonResult::breakage);
    visit(&ComparisonResult::residuality);
    visit(&ComparisonResult::joins);
    visit(&ComparisonResult::key_groups);
    visit(&ComparisonResult::sample_size);
  }
};

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

/// A row of an ordination or of diversity, for the schema.
struct ComparedRow {
  template <class V>
  static void fields(V& v) {
    compare::Point::fields(v);
    compare::DiversityRow::fields(v);
    if constexpr (requires { v.definition.properties; }) detail::join_names(v.definition.properties, 0);
  }
};
struct ComparedRows {
  std::vector<ComparedRow> rows;
};

/// The field list of an answer with a `ComparisonResult` as its base: a writer of documents gets the keys of the result
/// that is there, the schema all of them.
template <class V>
void comparison_fields(V& v) {
  if constexpr (requires { v.json; }) {
    ComparisonResult::each([&](auto member) {
      if (const auto& result = v.object.*member) detail::write_beside(v, *result);
    });
  } else if constexpr (requires { v.definition.properties; }) {
    const std::size_t own = v.definition.properties.size();
    v.field("rows", &ComparedRows::rows);
    ComparisonResult::each([&]<class Part>(std::optional<Part> ComparisonResult::*) { Part::fields(v); });
    detail::join_names(v.definition.properties, own);
  }
}

}  // namespace sherd::desk
