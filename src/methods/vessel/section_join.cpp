#include <algorithm>
#include <cmath>
#include <limits>

#include "base/numbers.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

namespace sherd::vessel {

namespace {

constexpr double kStep = 1;  // mm between the shifts that are tried first
constexpr int kRefinements = 40;
constexpr std::size_t kBridge = 12;      // points of a conjectured stretch
constexpr double kFewSamples = 3;        // what a fit of the shift costs of them
constexpr double kDrawingSquare = 0.25;  // mm^2: gaps below half a millimetre tell nothing

double lowest(const Outline& side) { return std::ranges::min_element(side, {}, &OutlinePoint::z_mm)->z_mm; }
double highest(const Outline& side) { return std::ranges::max_element(side, {}, &OutlinePoint::z_mm)->z_mm; }

Outline moved(Outline side, double by) {
  for (OutlinePoint& point : side) point.z_mm += by;
  return side;
}

/// How the lower piece, moved up by some height, lies on the upper one.
struct Fit {
  double shift = 0;
  double score = std::numeric_limits<double>::infinity();
  double rms = 0, overlap = 0;
};

/// Points of the outer and inner side of the lower piece, a millimetre apart.
Outline samples_of(const Outline& side) {
  if (side.size() < 2) return {};
  return resampled(side, std::max<std::size_t>(2, static_cast<std::size_t>(length_of(side)) + 1));
}

class Laying {
 public:
  Laying(const Section& upper, const Section& lower)
      : upper_(upper), outer_(samples_of(lower.outer)), inner_(samples_of(lower.inner)) {}

  Fit at(double shift) const {
    double squares = 0;
    double n = 0;
    Fit fit{.shift = shift};
    for (const auto& [side, on] : {std::pair(&outer_, &upper_.outer), std::pair(&inner_, &upper_.inner)}) {
      if (side->empty() || on->size() < 2) continue;
      const double from = lowest(*on);
      for (const OutlinePoint& sample : *side) {
        OutlinePoint point = sample;
        point.z_mm += shift;
        if (point.z_mm < from) continue;
        const double gap = nearest_on(*on, point).distance;
        squares += gap * gap;
        n += 1;
      }
    }
    fit.overlap = top() + shift - bottom();
    if (n <= kFewSamples) return fit;
    fit.rms = std::sqrt(squares / n);
    fit.score = (squares + kFewSamples * kDrawingSquare) / (n - kFewSamples);
    return fit;
  }

  /// The best shift at which the two show at least so much of the same height.
  Fit best(double least_overlap) const {
    const double from = bottom() - top() + least_overlap;
    const double to = highest(upper_.outer.empty() ? upper_.inner : upper_.outer) - top();
    Fit found;
    for (double shift = from; shift <= to; shift += kStep) {
      const Fit fit = at(shift);
      if (fit.score < found.score) found = fit;
    }
    double width = kStep;
    for (int i = 0; i < kRefinements && std::isfinite(found.score); ++i) {
      width *= 0.7;
      for (const double shift : {found.shift - width, found.shift + width}) {
        const Fit fit = at(shift);
        if (shift >= from && fit.score < found.score) found = fit;
      }
    }
    return found;
  }

 private:
  double bottom() const { return lowest(upper_.outer.empty() ? upper_.inner : upper_.outer); }
  double top() const { return highest(outer_.empty() ? inner_ : outer_); }

  const Section& upper_;
  Outline outer_, inner_;
};

/// Up to where the line last rises through that height.
Outline head(const Outline& line, double z) {
  std::size_t last = line.size();
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (line[i - 1].z_mm < z && line[i].z_mm >= z) last = i;
  }
  if (last == line.size()) return line;
  Outline out(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(last));
  const double t = (z - line[last - 1].z_mm) / (line[last].z_mm - line[last - 1].z_mm);
  out.push_back({line[last - 1].r_mm + t * (line[last].r_mm - line[last - 1].r_mm), z, line[last].conjectured});
  return out;
}

/// From where the line first rises through that height.
Outline tail(const Outline& line, double z) {
  for (std::size_t i = 1; i < line.size(); ++i) {
    if (line[i - 1].z_mm < z && line[i].z_mm >= z) return {line.begin() + static_cast<std::ptrdiff_t>(i), line.end()};
  }
  return line;
}

/// A smooth curve from the top of the lower line to the bottom of the upper one, in their directions.
Outline bridge(const Outline& lower, const Outline& upper) {
  const OutlinePoint a = lower.back();
  const OutlinePoint b = upper.front();
  const double span = distance(a, b);
  const auto direction = [span](const OutlinePoint& from, const OutlinePoint& to) {
    const double length = std::max(distance(from, to), 1e-9);
    return OutlinePoint{(to.r_mm - from.r_mm) / length * span, (to.z_mm - from.z_mm) / length * span};
  };
  const OutlinePoint out_of_a = direction(lower[lower.size() - 2], a);
  const OutlinePoint into_b = direction(b, upper[1]);
  Outline line;
  for (std::size_t i = 1; i <= kBridge; ++i) {
    const double t = static_cast<double>(i) / (kBridge + 1);
    const double h00 = (1 + 2 * t) * (1 - t) * (1 - t);
    const double h10 = t * (1 - t) * (1 - t);
    const double h01 = t * t * (3 - 2 * t);
    const double h11 = t * t * (t - 1);
    const auto mix = [&](double p, double m, double q, double n) { return h00 * p + h10 * m + h01 * q + h11 * n; };
    line.push_back({std::max(0.0, mix(a.r_mm, out_of_a.r_mm, b.r_mm, into_b.r_mm)),
                    mix(a.z_mm, out_of_a.z_mm, b.z_mm, into_b.z_mm), true});
  }
  return line;
}

Outline joined_side(const Outline& lower, const Outline& upper, std::optional<double> seam) {
  if (lower.size() < 2 || upper.size() < 2) return {};
  Outline line = seam ? head(lower, *seam) : lower;
  Outline rest = seam ? tail(upper, *seam) : upper;
  if (!seam) {
    const Outline between = bridge(lower, upper);
    line.insert(line.end(), between.begin(), between.end());
    rest.front().conjectured = true;
  }
  line.insert(line.end(), rest.begin(), rest.end());
  return line;
}

}  // namespace

Result<JoinedSections> join_sections(const Section& upper, const Section& lower, const JoinSettings& settings) {
  const bool outer = upper.outer.size() > 1 && lower.outer.size() > 1;
  const bool inner = upper.inner.size() > 1 && lower.inner.size() > 1;
  if (!outer && !inner)
    return fail("no_side", "the two sections share neither outer nor inner side", "draw the same side of both");
  const Outline& up = outer ? upper.outer : upper.inner;
  const Outline& low = outer ? lower.outer : lower.inner;
  JoinedSections joined;
  double shift = 0;
  if (settings.height_mm) {
    shift = lowest(low) + *settings.height_mm - highest(up);  // of the upper piece
    if (lowest(up) + shift < lowest(low) - kStep || highest(low) > highest(up) + shift + kStep)
      return fail("too_low",
                  "a vessel of " + format_fixed(*settings.height_mm, 1) + " mm is lower than one of its two pieces",
                  "check the height, and which piece is the upper one");
    joined.overlap_mm = highest(low) - (lowest(up) + shift);
    joined.overlapped = joined.overlap_mm > 0;
  } else {
    const Fit fit = Laying(upper, lower).best(settings.least_overlap_mm);
    if (!std::isfinite(fit.score) || fit.rms > settings.most_gap_mm)
      return fail("no_height",
                  "the two sections do not lie on each other anywhere" +
                      (std::isfinite(fit.score) ? " (best gap " + format_fixed(fit.rms, 1) + " mm)" : std::string()),
                  "give the height of the whole vessel, and what lies between is drawn as conjecture");
    shift = -fit.shift;
    joined.overlapped = true;
    joined.overlap_mm = fit.overlap;
  }
  Section above = upper;
  for (Outline* side : {&above.outer, &above.inner, &above.handle}) *side = moved(std::move(*side), shift);
  std::optional<double> seam;
  if (joined.overlapped) {
    joined.gap_rms_mm = Laying(above, lower).at(0).rms;
    seam = highest(low) - joined.overlap_mm / 2;
  } else {
    joined.conjectured_mm = -joined.overlap_mm;
    joined.overlap_mm = 0;
  }
  joined.section.name = upper.name;
  if (outer) joined.section.outer = joined_side(lower.outer, above.outer, seam);
  if (inner) joined.section.inner = joined_side(lower.inner, above.inner, seam);
  joined.section.handle = above.handle.empty() ? lower.handle : above.handle;
  joined.section.handle_section = above.handle_section.empty() ? lower.handle_section : above.handle_section;
  joined.lower_up_mm = -std::min(joined.section.outer.empty() ? HUGE_VAL : lowest(joined.section.outer),
                                 joined.section.inner.empty() ? HUGE_VAL : lowest(joined.section.inner));
  joined.upper_up_mm = shift + joined.lower_up_mm;
  SHERD_TRY(joined.section, tidy_section(std::move(joined.section), {.snap_mm = 1e-6}));
  return joined;
}

}  // namespace sherd::vessel
