#pragma once

#include <optional>

#include "desk/frame/beside.h"
#include "methods/chemistry/result.h"
#include "methods/statistics/result.h"

namespace sherd::desk {

/// What a method that looks for structure found; the others are absent. In a document its keys stand beside those of
/// the answer.
struct StructureResult {
  std::optional<chemistry::Preparation> preparation;
  std::optional<chemistry::Components> components;
  std::optional<statistics::Clusters> clusters;
  std::optional<chemistry::Membership> membership;
  std::optional<chemistry::Discriminant> discriminant;
  std::optional<chemistry::Manova> manova;
  std::optional<chemistry::Variation> variation;
  std::optional<chemistry::Outliers> outliers;
  std::optional<chemistry::Dilution> dilution;
  std::optional<chemistry::Origin> origin;

  template <class Visit>
  static void each(Visit visit) {
    visit(&StructureResult::components);
    visit(&StructureResult::clusters);
    visit(&StructureResult::membership);
    visit(&StructureResult::discriminant);
    visit(&StructureResult::manova);
    visit(&StructureResult::variation);
    visit(&StructureResult::outliers);
    visit(&StructureResult::dilution);
    visit(&StructureResult::origin);
  }
};

/// The field list of an answer with a `StructureResult` as its base.
template <class V>
void structure_fields(V& v) {
  v.field("preparation", &StructureResult::preparation);
  fields_beside<StructureResult>(v);
}

}  // namespace sherd::desk
