#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/frame/beside.h"
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
