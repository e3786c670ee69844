#include "methods/dating/apportion.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "methods/dating/popularity.h"

namespace sherd::dating {

namespace {

constexpr std::int64_t kMostBins = 100'000;

std::int64_t bin_of(std::int64_t year, const CurveSettings& settings) {
  const std::int64_t from_origin = year - settings.origin.value;
  const std::int64_t bin = from_origin / settings.width;
  return from_origin % settings.width < 0 ? bin - 1 : bin;
}

Result<void> check(std::span<const DatedAmount> amounts, const CurveSettings& settings) {
  if (settings.width < 1) {
    return fail("bin_width", fmt::format("A bin of {} years cannot be.", settings.width), "Give 1 year or more.");
  }
  for (const DatedAmount& one : amounts) {
    if (one.range.closed() && *one.range.latest < *one.range.earliest) {
      return fail("reversed_range", fmt::format("The range {} ends before it starts.", range_text(one.range)),
                  "Correct the dates of the row that it comes from.");
    }
    if (settings.shape != CurveShape::flat && one.range.closed() && !is_sound({one.range, one.full})) {
      return fail("full_years",
                  fmt::format("Full production in {} does not lie within the range {}.", range_text(one.full),
                              range_text(one.range)),
                  "Correct full_from and full_to of the row that they come from.");
    }
  }
  return {};
}

/// The parts of one amount that fall into the bins that it touches.
void spread(const DatedAmount& one, std::int64_t first_bin, const CurveSettings& settings, std::vector<Bin>& bins) {
  const std::int64_t from = one.range.earliest->value;
  const std::int64_t to = one.range.latest->value;
  const auto years = static_cast<double>(to - from + 1);
  for (std::int64_t b = bin_of(from, settings); b <= bin_of(to, settings); ++b) {
    Bin& bin = bins[static_cast<std::size_t>(b - first_bin)];
    if (settings.shape != CurveShape::flat) {
      const Production made{one.range, one.full};
      bin.value += one.amount * (made_before(settings.shape, made, bin.to.value + 1) -
                                 made_before(settings.shape, made, bin.from.value));
      continue;
    }
    const std::int64_t shared = std::min(to, bin.to.value) - std::max(from, bin.from.value) + 1;
    bin.value += one.amount * (static_cast<double>(shared) / years);
  }
}

}  // namespace

Result<Curve> apportion(std::span<const DatedAmount> amounts, const CurveSettings& settings) {
  SHERD_CHECK(check(amounts, settings));
  Curve out;
  std::optional<std::int64_t> first;
  std::optional<std::int64_t> last;
  for (const DatedAmount& one : amounts) {
    if (!one.range.closed()) {
      out.undated += one.amount;
      continue;
    }
    out.dated += one.amount;
    const std::int64_t from = bin_of(one.range.earliest->value, settings);
    const std::int64_t to = bin_of(one.range.latest->value, settings);
    first = first ? std::min(*first, from) : from;
    last = last ? std::max(*last, to) : to;
  }
  if (!first) return out;
  if (*last - *first + 1 > kMostBins) {
    return fail("curve_too_fine",
                fmt::format("Bins of {} years over the dates given are {} bins.", settings.width, *last - *first + 1),
                fmt::format("Give wider bins; up to {} are drawn.", kMostBins));
  }
  for (std::int64_t b = *first; b <= *last; ++b) {
    const std::int64_t from = settings.origin.value + b * settings.width;
    out.bins.push_back({.from = {from}, .to = {from + settings.width - 1}});
  }
  for (const DatedAmount& one : amounts) {
    if (one.range.closed()) spread(one, *first, settings, out.bins);
  }
  return out;
}

}  // namespace sherd::dating
