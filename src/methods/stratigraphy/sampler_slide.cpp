// A stretch of years slides by one with all that lies in it.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "methods/stratigraphy/sampler_state.h"

namespace sherd::stratigraphy {

namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();

/// How far from a boundary the parted year is looked for.
constexpr std::int32_t kReach = 24;

}  // namespace

/// Where a unit or boundary begins and ends; with years counted backward where things slide towards later years, so
/// that one rule serves both ways.
std::pair<std::int32_t, std::int32_t> Sampler::State::extent(std::size_t at, bool earlier) const {
  const bool unit = at < all_.size();
  const std::int32_t b = unit ? began[at] : boundary[at - all_.size()];
  const std::int32_t t = unit ? completed[at] : b;
  return earlier ? std::pair{b, t} : std::pair{-t, -b};
}

/// The likelihood of a unit or boundary so many years from where it stands.
double Sampler::State::like_at(std::size_t at, std::int32_t by) const {
  if (at >= all_.size()) {
    const Boundary& one = boundaries_.all[at - all_.size()];
    const std::int32_t year = boundary[at - all_.size()] + by;
    return one.first <= year && year <= one.last ? 1 : 0;
  }
  const std::int32_t year = completed[at] + by;
  if (began[at] + by < 0 || year >= static_cast<std::int32_t>(problem_.years)) return 0;
  return problem_.tables[at].like[duration_[at]][static_cast<std::size_t>(year)];
}

double Sampler::State::log_prior() const {
  double sum = 0;
  for (std::size_t s = 0; s < problem_.stretches.size(); ++s) {
    sum += weights_[s][static_cast<std::size_t>(boundary[boundaries_.beta[s]] - boundary[boundaries_.alpha[s]])];
  }
  return sum;
}

/// Marks what slides. What ends in the last year goes or stays by chance, as its likelihood says and the order allows;
/// everything between goes. The logarithm of the likelihoods' ratio over the chance of these choices, or kNever.
double Sampler::State::mark_sliding(std::int32_t first, std::int32_t last, bool earlier) {
  const std::int32_t by = earlier ? -1 : 1;
  const auto& before = earlier ? order_of_all_.below : order_of_all_.above;
  const std::size_t n = sequence_.size();
  double ratio = 0;
  ++slide_;
  sliding_.clear();
  joined_.clear();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t at = sequence_[earlier ? i : n - 1 - i];
    const auto [b, t] = extent(at, earlier);
    if (b < first || t > last) continue;
    if (b == first) {
      if (t < last) joined_.push_back(at);
      continue;
    }
    const bool held = std::ranges::any_of(
        before[at], [&](std::size_t other) { return slides_[other] != slide_ && extent(other, earlier).second >= b; });
    const double here = like_at(at, 0);
    const double there = like_at(at, by);
    if (t < last) {
      if (held || !(there > 0)) return kNever;
    } else {
      if (held) continue;
      const double goes = there / (here + there);
      const bool chosen = random_.uniform() < goes;
      ratio -= std::log(chosen ? goes : 1 - goes);
      if (!chosen) continue;
    }
    ratio += std::log(there / here);
    slides_[at] = slide_;
    sliding_.push_back(at);
    if (b == first + 1) joined_.push_back(at);
  }
  return ratio;
}

/// The logarithm of the chance that what was joined would be parted again in the same way.
double Sampler::State::parted_again(bool earlier) const {
  const std::int32_t by = earlier ? -1 : 1;
  const auto& after = earlier ? order_of_all_.above : order_of_all_.below;
  double sum = 0;
  for (const std::size_t at : joined_) {
    const bool slid = slides_[at] == slide_;
    const std::int32_t end = extent(at, earlier).second - (slid ? 1 : 0);
    const bool held = std::ranges::any_of(
        after[at], [&](std::size_t other) { return slides_[other] != slide_ && extent(other, earlier).first <= end; });
    if (held) continue;
    const double here = like_at(at, slid ? by : 0);
    const double back = like_at(at, slid ? 0 : -by);
    sum += std::log((slid ? back : here) / (here + back));
  }
  return sum;
}

void Sampler::State::move_sliding(std::int32_t by) {
  for (const std::size_t at : sliding_) {
    if (at >= all_.size()) {
      boundary[at - all_.size()] += by;
      continue;
    }
    completed[at] += by;
    began[at] += by;
  }
}

/// All that lies in (first, last) goes one year earlier, and of the year `last` a part; so that the year after `first`
/// is joined to it, and `last` is parted. Or the same the other way round, with years counted backward. It is taken
/// back or not (Metropolis and Hastings): the way back joins what was parted and parts what was joined.
/// `tied` is a boundary that must not slide.
bool Sampler::State::slide(std::int32_t first, std::int32_t last, bool earlier, std::size_t tied) {
  const double accept = std::log(1 - random_.uniform());
  double ratio = mark_sliding(first, last, earlier);
  if (ratio == kNever || sliding_.empty()) return false;
  if (tied != kNone && slides_[all_.size() + tied] == slide_) return false;
  ratio += parted_again(earlier);
  const std::int32_t by = earlier ? -1 : 1;
  const bool ends = std::ranges::any_of(sliding_, [&](std::size_t at) { return at >= all_.size(); });
  if (ends) ratio -= log_prior();
  move_sliding(by);
  if (ends) ratio += log_prior();
  if (accept < ratio) return true;
  move_sliding(-by);
  return false;
}

/// A slide between two years anywhere, or near a boundary.
void Sampler::State::slide_somewhere() {
  constexpr std::array<std::int32_t, 8> kWidths{2, 3, 4, 8, 16, 32, 64, 128};
  const auto years = static_cast<std::int32_t>(problem_.years);
  const bool earlier = random_.below(2) == 0;
  const std::int32_t width = kWidths[random_.below(kWidths.size())];
  if (used_.empty() || random_.below(2) == 0) {
    const auto last = static_cast<std::int32_t>(random_.below(static_cast<std::uint32_t>(problem_.years)));
    const std::int32_t first = last - width;
    earlier ? slide(first, last, true, kNone) : slide(-last, -first, false, kNone);
    return;
  }
  const std::size_t k = used_[random_.below(static_cast<std::uint32_t>(used_.size()))];
  const std::int32_t off = static_cast<std::int32_t>(random_.below(2 * kReach + 1)) - kReach;
  const std::int32_t year = boundary[k] + off;
  const bool open = random_.below(2) == 0;
  const bool year_last = random_.below(2) == 0;
  const std::int32_t first = !year_last ? year : open ? -1 : year - width;
  const std::int32_t last = year_last ? year : open ? years : year + width;
  // Where the boundary slid too far from the year the way back could not be chosen.
  const std::size_t tied = std::abs(off + (earlier ? 1 : -1)) > kReach ? k : kNone;
  earlier ? slide(first, last, true, tied) : slide(-last, -first, false, tied);
}

}  // namespace sherd::stratigraphy
