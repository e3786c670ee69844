#include "desk/vessels/section_view.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "base/text.h"
#include "methods/vessel/section.h"

namespace sherd::desk {

namespace {

bool says(const std::string& text, std::initializer_list<std::string_view> words) {
  const std::string low = lower(text);
  for (const std::string_view word : words) {
    if (low.find(word) != std::string::npos) return true;
  }
  return false;
}

/// What a piece must have by its part, and how its section came here.
vessel::SectionFacts facts_of(const Piece& piece) {
  vessel::SectionFacts facts;
  const bool whole = says(piece.part, {"profile", "whole", "complete"});
  facts.should_have_rim = whole || says(piece.part, {"rim"});
  facts.should_have_base = whole || says(piece.part, {"base"});
  facts.read_from_picture = piece.source == SectionSource::traced || piece.source == SectionSource::svg;
  facts.has_scale = !piece.scale.empty();
  if (piece.rim_least) facts.rim_least_mm = piece.rim_least->mm();
  if (piece.rim_most) facts.rim_most_mm = piece.rim_most->mm();
  if (piece.rim_diameter && !piece.rim_least && !piece.rim_most) {
    facts.rim_least_mm = piece.rim_diameter->mm();
    facts.rim_most_mm = piece.rim_diameter->mm();
  }
  return facts;
}

}  // namespace

std::vector<OutlineEntry> entries_of(const std::vector<OutlinePoint>& outline) {
  std::vector<OutlineEntry> entries;
  entries.reserve(outline.size());
  for (const OutlinePoint& point : outline) entries.push_back({point.r_mm, point.z_mm, point.conjectured});
  return entries;
}

SectionView view_of(const Section& section, const Piece& piece, bool outlines) {
  SectionView view{.section = section.name, .measures = vessel::measure_section(section)};
  view.findings = vessel::check_section(section, facts_of(piece));
  if (!outlines) return view;
  view.outer = entries_of(section.outer);
  view.inner = entries_of(section.inner);
  view.handle = entries_of(section.handle);
  view.handle_section = entries_of(section.handle_section);
  return view;
}

Result<void> sound(const SectionView& view) {
  const auto worst = std::ranges::find(view.findings, "error", &vessel::SectionFinding::severity);
  if (worst == view.findings.end()) return {};
  return fail("section_not_sound", worst->message + "; nothing was kept", worst->hint);
}

}  // namespace sherd::desk
