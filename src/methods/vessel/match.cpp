#include "methods/vessel/match.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/numbers.h"
#include "methods/vessel/match_parts.h"

namespace sherd::vessel {

namespace {

constexpr std::size_t kPoints = 24;  // of a fragment's side
constexpr double kShortest = 10;     // mm
constexpr double kSizeStep = 0.05;   // between the sizes tried
constexpr std::size_t kProgressStep = 500;
constexpr double kSamePlace = 1e-6;

bool ends_together(const Section& section) {
  return !section.inner.empty() && distance(section.outer.back(), section.inner.back()) < kSamePlace;
}

Result<FragmentParts> parts_of(const Section& fragment) {
  if (fragment.outer.size() < 2)
    return fail("no_outer_side", "the fragment has no outer side", "match needs the outer outline of the fragment");
  FragmentParts parts;
  parts.length_mm = length_of(fragment.outer);
  if (parts.length_mm < kShortest)
    return fail("fragment_too_short",
                "the fragment's outline is " + format_fixed(parts.length_mm, 1) + " mm long, which tells no form",
                "at least " + format_fixed(kShortest, 0) + " mm are needed, and three times that says more");
  parts.outer = resampled(fragment.outer, kPoints);
  if (fragment.inner.size() > 1) parts.inner = resampled(fragment.inner, kPoints);
  const auto n = static_cast<double>(kPoints);
  for (const OutlinePoint& point : parts.outer) {
    parts.middle.r_mm += point.r_mm / n;
    parts.middle.z_mm += point.z_mm / n;
  }
  parts.has_rim = ends_together(fragment);
  parts.has_base = fragment.outer.front().r_mm <= 0;
  parts.rim = fragment.outer.back();
  parts.base = fragment.outer.front();
  return parts;
}

std::vector<double> sizes_of(const MatchSettings& settings) {
  std::vector<double> sizes{1};
  for (double size = 1 + kSizeStep; size <= 1 + settings.size_percent / 100 + 1e-9; size += kSizeStep) {
    sizes.push_back(size);
    sizes.push_back(1 / size);
  }
  return sizes;
}

Result<void> check_settings(const MatchSettings& settings) {
  const auto bad = [](const char* message, const char* hint) {
    return fail(ErrorKind::usage, "bad_setting", message, hint);
  };
  if (!(settings.tilt_deg > 0 && settings.tilt_deg <= 45))
    return bad("tilt is not above 0 and up to 45 degrees", "say the most that a fragment may be tilted, such as 10");
  if (!(settings.diameter_percent > 0))
    return bad("diameter is not above 0 %", "say the most that a fragment's diameter may be off, such as 20");
  if (!(settings.size_percent >= 0 && settings.size_percent <= 100))
    return bad("size is not between 0 and 100 %", "say by how much vessels of one form may differ, such as 15");
  if (!(settings.gap_mm > 0 && settings.gap_reach_mm > 0))
    return bad("gap is not above 0 mm", "say how far two drawings of one vessel lie apart, such as 0.25");
  if (settings.most < 1 || settings.refine < 1) return bad("most is below 1", "say how many places are wanted");
  return {};
}

using Found = std::pair<Laying, const Reference*>;

bool cheaper(const Found& a, const Found& b) {
  return a.first.cost != b.first.cost ? a.first.cost < b.first.cost : a.second->index < b.second->index;
}

Result<std::vector<Found>> first_pass(const FragmentParts& piece, const std::vector<Reference>& references,
                                      const Limits& limits, const MatchSettings& settings, Progress& progress) {
  const std::vector<double> sizes = sizes_of(settings);
  std::vector<Found> found;
  for (std::size_t i = 0; i < references.size(); ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(references.size());
    if (i % kProgressStep == 0 && !progress.step(share, "comparing sections"))
      return fail(ErrorKind::stopped, "stopped", "stopped");
    std::optional<Laying> best;
    for (const double size : sizes) {
      const auto laying = best_position(piece, references[i], size, limits, settings);
      if (laying && (!best || laying->cost < best->cost)) best = laying;
    }
    if (best) found.emplace_back(*best, &references[i]);
  }
  return found;
}

std::vector<MatchPlace> places_of(const FragmentParts& piece, const std::vector<Found>& found, std::size_t most) {
  double weights = 0;
  const double least = found.front().first.cost;
  for (const auto& [laying, reference] : found) weights += std::exp((least - laying.cost) / 2);
  std::vector<MatchPlace> places;
  for (const auto& [laying, reference] : found) {
    if (places.size() == most) break;
    MatchPlace place;
    place.reference = reference->index;
    place.distance_mm = laying.gap_mm;
    place.score = std::exp((least - laying.cost) / 2) / weights;
    place.from_share = std::clamp(laying.along, 0.0, 1.0);
    place.to_share = std::min(1.0, place.from_share + piece.length_mm / (reference->length_mm * laying.size));
    place.tilt_deg = laying.tilt * 180 / std::numbers::pi;
    place.diameter_change_percent = piece.middle.r_mm > 0 ? 100 * laying.r / piece.middle.r_mm : 0;
    place.size_percent = 100 * laying.size;
    place.shift_r_mm = laying.r;
    place.shift_z_mm = laying.z;
    places.push_back(place);
  }
  return places;
}

}  // namespace

Limits limits_of(const FragmentParts& fragment, const MatchSettings& settings) {
  Limits limits;
  limits.tilt_most = settings.tilt_deg * std::numbers::pi / 180;
  limits.tilt_sd = limits.tilt_most / 2;
  limits.shift_most = std::max(1.0, fragment.middle.r_mm * settings.diameter_percent / 100);
  limits.shift_sd = limits.shift_most / 2;
  limits.gap_sd = settings.gap_mm;
  limits.independent = std::max(1.0, fragment.length_mm / settings.gap_reach_mm);
  return limits;
}

struct MatchIndex::Parts {
  std::vector<Reference> references;
};

MatchIndex::MatchIndex(std::span<const Section> references) : parts_(std::make_unique<Parts>()) {
  for (std::size_t i = 0; i < references.size(); ++i) {
    const Section& section = references[i];
    if (section.outer.size() < 2) continue;
    Reference reference;
    reference.index = i;
    reference.outer = KnownSide(section.outer);
    reference.inner = KnownSide(section.inner);
    reference.length_mm = reference.outer.along.back();
    reference.has_rim = ends_together(section);
    reference.has_base = section.outer.front().r_mm <= 0;
    if (reference.length_mm > 0) parts_->references.push_back(std::move(reference));
  }
}
MatchIndex::~MatchIndex() = default;
MatchIndex::MatchIndex(MatchIndex&&) noexcept = default;

Result<std::vector<MatchPlace>> MatchIndex::match(const Section& fragment, const MatchSettings& settings,
                                                  Progress& progress) const {
  SHERD_CHECK(check_settings(settings));
  SHERD_TRY(const FragmentParts piece, parts_of(fragment));
  const Limits limits = limits_of(piece, settings);
  SHERD_TRY(std::vector<Found> found, first_pass(piece, parts_->references, limits, settings, progress));
  if (parts_->references.empty())
    return fail("nothing_to_match", "there are no known sections to hold the fragment against",
                "bring some in: sherdwright section FILE --in STORE --piece NAME, or import --as sections");
  if (found.empty())
    return fail("nothing_to_match", "no known section is as long as the fragment",
                "match needs sections of whole profiles, or of pieces longer than the fragment");
  const std::size_t refined = std::min(settings.refine, found.size());
  std::ranges::partial_sort(found, found.begin() + static_cast<std::ptrdiff_t>(refined), cheaper);
  found.resize(refined);
  for (auto& [laying, reference] : found) laying = lay_over(piece, *reference, laying, limits);
  std::ranges::sort(found, cheaper);
  return places_of(piece, found, settings.most);
}

bool fits_nothing(double distance_mm, const MatchSettings& settings) { return distance_mm > 4 * settings.gap_mm; }

Section laid_over(const Section& fragment, const MatchPlace& place) {
  Section out = fragment;
  OutlinePoint middle;
  const Outline even = resampled(fragment.outer, kPoints);
  for (const OutlinePoint& point : even) {
    middle.r_mm += point.r_mm / static_cast<double>(kPoints);
    middle.z_mm += point.z_mm / static_cast<double>(kPoints);
  }
  const Laying laying{.tilt = place.tilt_deg * std::numbers::pi / 180, .r = place.shift_r_mm, .z = place.shift_z_mm};
  for (Outline* side : {&out.outer, &out.inner, &out.handle}) {
    for (OutlinePoint& point : *side) point = moved(point, middle, laying);
  }
  return out;
}

}  // namespace sherd::vessel
