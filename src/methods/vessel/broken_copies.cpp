#include "methods/vessel/broken_copies.h"

#include <algorithm>
#include <cmath>

#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

namespace sherd::vessel {

namespace {

constexpr double kTenths = 10;
constexpr double kLeastScore = 1e-4;

/// A smooth wobble along a line: independent values every `reach`, joined by straight pieces.
class Wobble {
 public:
  Wobble(double length, double reach, double sd, Random& random) : reach_(reach) {
    const auto knots = static_cast<std::size_t>(length / reach) + 2;
    for (std::size_t i = 0; i < knots; ++i) values_.push_back(sd * random.normal());
  }
  double at(double length) const {
    const double place = length / reach_;
    const auto i = std::min(static_cast<std::size_t>(place), values_.size() - 2);
    const double t = std::clamp(place - static_cast<double>(i), 0.0, 1.0);
    return values_[i] + t * (values_[i + 1] - values_[i]);
  }

 private:
  double reach_;
  std::vector<double> values_;
};

Outline part_of(const Outline& line, double from, double to) {
  const auto along = lengths_along(line);
  Outline out;
  const auto points = static_cast<std::size_t>(std::max(2.0, (to - from) / 1.5));
  for (std::size_t i = 0; i <= points; ++i)
    out.push_back(point_at(line, along, from + (to - from) * static_cast<double>(i) / static_cast<double>(points)));
  return out;
}

/// The outline moved across itself.
Outline drawn_again(const Outline& line, const CopyErrors& errors, Random& random) {
  const auto along = lengths_along(line);
  const Wobble wobble(along.back(), errors.reach_mm, errors.drawing_mm, random);
  Outline out = line;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const OutlinePoint& before = line[i > 0 ? i - 1 : 0];
    const OutlinePoint& after = line[std::min(i + 1, line.size() - 1)];
    const double length = distance(before, after);
    if (length <= 0) continue;
    const double by = wobble.at(along[i]);
    out[i].r_mm = std::max(0.0, out[i].r_mm + by * (after.z_mm - before.z_mm) / length);
    out[i].z_mm -= by * (after.r_mm - before.r_mm) / length;
  }
  return out;
}

}  // namespace

std::vector<Section> invented_forms(std::size_t count, std::uint64_t seed) {
  std::vector<Section> forms;
  for (std::size_t k = 0; k < count; ++k) {
    Random random(seed, k);
    const auto between = [&random](double low, double high) { return low + (high - low) * random.uniform(); };
    const double height = between(60, 320);
    const double belly = height * between(0.28, 0.75);
    const double base = belly * between(0.35, 0.85);
    const double neck = belly * between(0.4, 1.0);
    const double rim = neck + height * between(0.0, 0.18);
    const double belly_at = between(0.3, 0.75);
    const double neck_at = std::min(0.95, belly_at + between(0.15, 0.4));
    const double wall = between(3.5, 8);
    // A smooth curve through base, belly, neck and rim: radii at heights, monotone between them.
    const std::vector<std::pair<double, double>> knots{{0, base}, {belly_at, belly}, {neck_at, neck}, {1, rim}};
    Section form;
    const auto radius = [&](double share) {
      std::size_t i = 1;
      while (i + 1 < knots.size() && knots[i].first < share) ++i;
      const double t = (share - knots[i - 1].first) / (knots[i].first - knots[i - 1].first);
      const double bend = i == 1 ? std::sin(t * 1.5707963267948966) : t * t * (3 - 2 * t);
      return knots[i - 1].second + bend * (knots[i].second - knots[i - 1].second);
    };
    form.outer.push_back({0, 0});
    form.inner.push_back({0, wall});
    constexpr int kSteps = 90;
    for (int i = 0; i <= kSteps; ++i) {
      const double share = static_cast<double>(i) / kSteps;
      form.outer.push_back({radius(share), share * height});
      const double z = wall + share * (height - wall);
      if (i < kSteps) form.inner.push_back({std::max(1.0, radius(z / height) - wall), z});
    }
    form.inner.push_back(form.outer.back());
    forms.push_back(std::move(form));
  }
  return forms;
}

Section wall_part(const Section& whole, double from_share, double to_share) {
  Section part;
  const double length = length_of(whole.outer);
  part.outer = part_of(whole.outer, from_share * length, to_share * length);
  if (whole.inner.size() > 1) {
    const double inner = length_of(whole.inner);
    const double from = from_share <= 0 ? 0 : nearest_on(whole.inner, part.outer.front()).along;
    const double to = to_share >= 1 ? inner : nearest_on(whole.inner, part.outer.back()).along;
    if (to > from) part.inner = part_of(whole.inner, from, to);
  }
  return tidy_section(part, {.snap_mm = 1e-6}).value_or(part);
}

Section broken_copy(const Section& whole, double share, const CopyErrors& errors, Random& random) {
  const double from = (1 - share) * random.uniform();
  Section copy = wall_part(whole, from, from + share);
  copy.outer = drawn_again(copy.outer, errors, random);
  if (!copy.inner.empty()) copy.inner = drawn_again(copy.inner, errors, random);
  const double radius = copy.outer.back().r_mm * (1 + errors.diameter_percent / 100 * random.normal());
  const double tilt = errors.tilt_deg * random.normal();
  if (auto set = set_up(copy, tilt, std::max(1.0, radius))) return std::move(*set);
  // Near the axis a piece can not be tilted as much: it stays as it was drawn.
  return tidy_section(copy, {.snap_mm = 1e-6}).value_or(copy);
}

CopiesFound find_copies(std::span<const Section> sections, double share, const CopyErrors& errors,
                        const MatchSettings& settings, std::int64_t copies, std::uint64_t seed) {
  MatchSettings wide = settings;
  wide.most = sections.size();
  wide.only_rim_at_rim = false;
  const MatchIndex index(sections);
  NoProgress progress;
  CopiesFound found{.share = share};
  found.claimed.assign(10, 0);
  found.right.assign(10, 0);
  found.in_tenth.assign(10, 0);
  for (std::int64_t i = 0; i < copies; ++i) {
    Random random(seed, static_cast<std::uint64_t>(i));
    const std::size_t own = random.below(static_cast<std::uint32_t>(sections.size()));
    const auto places = index.match(broken_copy(sections[own], share, errors, random), wide, progress);
    if (!places) continue;
    ++found.copies;
    const auto at = std::ranges::find(*places, own, &MatchPlace::reference);
    const auto rank = at - places->begin();
    found.rank_1 += rank == 0 ? 1 : 0;
    found.rank_5 += rank < 5 && at != places->end() ? 1 : 0;
    const double own_score = at == places->end() ? 0.0 : at->score;
    found.log_loss -= std::log(std::max(kLeastScore, own_score));
    const double best = places->front().score;
    const auto tenth = static_cast<std::size_t>(std::min(9.0, std::floor(kTenths * best)));
    found.claimed[tenth] += best;
    found.right[tenth] += rank == 0 ? 1 : 0;
    ++found.in_tenth[tenth];
  }
  const auto n = static_cast<double>(std::max<std::int64_t>(1, found.copies));
  found.rank_1 /= n;
  found.rank_5 /= n;
  found.log_loss /= n;
  for (std::size_t tenth = 0; tenth < 10; ++tenth) {
    const auto in = static_cast<double>(std::max<std::int64_t>(1, found.in_tenth[tenth]));
    found.claimed[tenth] /= in;
    found.right[tenth] /= in;
  }
  return found;
}

}  // namespace sherd::vessel
