#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "methods/vessel/result.h"
#include "model/record_vessels.h"
#include "model/section.h"

namespace sherd::desk {

struct OutlineEntry {
  double r_mm = 0, z_mm = 0;
  bool conjectured = false;

  template <class V>
  static void fields(V& v) {
    v.field("r_mm", &OutlineEntry::r_mm);
    v.field("z_mm", &OutlineEntry::z_mm);
    v.field("conjectured", &OutlineEntry::conjectured);
  }
};
std::vector<OutlineEntry> entries_of(const std::vector<OutlinePoint>& outline);

/// A section as answers tell it.
struct SectionView {
  std::string section;
  vessel::SectionMeasures measures;
  std::vector<vessel::SectionFinding> findings;
  std::vector<OutlineEntry> outer, inner, handle, handle_section;

  template <class V>
  static void fields(V& v) {
    v.field("section", &SectionView::section);
    v.field("measures", &SectionView::measures);
    v.field("findings", &SectionView::findings);
    v.field("outer", &SectionView::outer);
    v.field("inner", &SectionView::inner);
    v.field("handle", &SectionView::handle);
    v.field("handle_section", &SectionView::handle_section);
  }
};
/// With what is known of its piece for the checks. `outlines` false: without its points.
SectionView view_of(const Section& section, const Piece& piece, bool outlines);
/// The first finding that keeps a section out, as error `section_not_sound`.
Result<void> sound(const SectionView& view);

}  // namespace sherd::desk
