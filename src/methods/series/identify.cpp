#include "methods/series/identify.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sherd::series {

namespace {

double hue_distance(double a, double b) {
  const double apart = std::fabs(a - b);
  return std::min(apart, 100 - apart);
}

double fading(double chroma, const Colour& a, const Colour& b) {
  return 0.4 * chroma * hue_distance(a.hue, b.hue) + 6 * std::fabs(a.value - b.value) +
         3 * std::fabs(a.chroma - b.chroma);
}

double gap(const Span& a, const Span& b) { return std::max({0.0, a.low - b.high, b.low - a.high}); }

double least_colour_distance(const Value& a, const Value& b, double none) {
  double least = none;
  for (const Colour& one : a.colours) {
    for (const Colour& other : b.colours) least = std::min(least, colour_distance(one, other));
  }
  return least;
}

/// How readily a fabric described so is seen so.
double readiness(const Feature& feature, const Value& seen, const Value& described) {
  return std::pow(std::max(likeness(feature, seen, described), kDoubt), feature.weight);
}

/// The mean of those that say; 1 where none does.
void let_the_silent_follow(std::vector<std::optional<double>>& said) {
  double sum = 0;
  double speakers = 0;
  for (const auto& one : said) {
    if (!one) continue;
    sum += *one;
    speakers += 1;
  }
  for (auto& one : said) {
    if (!one) one = speakers > 0 ? sum / speakers : 1.0;
  }
}

double entropy_bits(const std::vector<double>& shares) {
  double bits = 0;
  for (const double share : shares) {
    if (share > 0) bits -= share * std::log2(share);
  }
  return bits;
}

/// The shares of the fabrics by all that is seen.
std::vector<double> shares_of(const Question& question) {
  std::vector<double> logs(question.fabrics.size(), 0.0);
  for (std::size_t f = 0; f < question.features.size(); ++f) {
    if (!question.seen[f]) continue;
    std::vector<std::optional<double>> said;
    for (const Described& fabric : question.fabrics) {
      const auto& value = fabric.values[f];
      said.push_back(value ? std::optional(readiness(question.features[f], *question.seen[f], *value)) : std::nullopt);
    }
    let_the_silent_follow(said);
    for (std::size_t i = 0; i < logs.size(); ++i) logs[i] += std::log(*said[i]);
  }
  std::vector<double> shares;
  const double most = logs.empty() ? 0 : *std::ranges::max_element(logs);
  for (const double each : logs) shares.push_back(std::exp(each - most));
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  for (double& share : shares) share /= sum;
  return shares;
}

Fit fit_of(const Question& question, std::size_t fabric) {
  Fit out;
  out.fabric = fabric;
  double seen = 0;
  double heard = 0;
  double alike = 0;
  for (std::size_t f = 0; f < question.features.size(); ++f) {
    if (!question.seen[f]) continue;
    const Feature& feature = question.features[f];
    seen += feature.weight;
    const auto& described = question.fabrics[fabric].values[f];
    if (!described) continue;
    const double likeness_here = likeness(feature, *question.seen[f], *described);
    heard += feature.weight;
    alike += feature.weight * likeness_here;
    out.features.push_back({f, likeness_here});
  }
  if (heard > 0) out.fit = alike / heard;
  if (seen > 0) out.heard = heard / seen;
  return out;
}

/// What the fabrics are described with, each wording once, in the order in which they come.
std::vector<const Value*> answers_to(const Question& question, std::size_t feature) {
  std::vector<const Value*> answers;
  for (const Described& fabric : question.fabrics) {
    const auto& value = fabric.values[feature];
    if (!value) continue;
    const bool known = std::ranges::any_of(answers, [&](const Value* one) { return one->text == value->text; });
    if (!known) answers.push_back(&*value);
  }
  return answers;
}

/// chances[answer][fabric]: how likely that fabric gives that answer.
std::vector<std::vector<double>> chances_of(const Question& question, std::size_t f,
                                            const std::vector<const Value*>& answers) {
  std::vector<std::vector<std::optional<double>>> said(answers.size());
  for (const Described& fabric : question.fabrics) {
    double sum = 0;
    std::vector<double> ready;
    for (const Value* answer : answers) {
      ready.push_back(fabric.values[f] ? readiness(question.features[f], *answer, *fabric.values[f]) : 0.0);
      sum += ready.back();
    }
    for (std::size_t a = 0; a < answers.size(); ++a)
      said[a].push_back(fabric.values[f] ? std::optional(ready[a] / sum) : std::nullopt);
  }
  std::vector<std::vector<double>> chances;
  for (auto& row : said) {
    let_the_silent_follow(row);
    std::vector<double>& plain = chances.emplace_back();
    for (const auto& one : row) plain.push_back(*one);
  }
  return chances;
}

NextLook look_at(const Question& question, std::size_t f, const std::vector<double>& shares, double bits_now) {
  NextLook out;
  out.feature = f;
  const std::vector<const Value*> answers = answers_to(question, f);
  if (answers.size() < 2) return out;
  const auto chances = chances_of(question, f, answers);
  double left = 0;
  for (std::size_t a = 0; a < answers.size(); ++a) {
    std::vector<double> then(shares.size());
    for (std::size_t i = 0; i < shares.size(); ++i) then[i] = shares[i] * chances[a][i];
    const double chance = std::accumulate(then.begin(), then.end(), 0.0);
    if (chance <= 0) continue;
    for (double& share : then) share /= chance;
    left += chance * entropy_bits(then);
    const auto likeliest = static_cast<std::size_t>(std::ranges::max_element(then) - then.begin());
    out.answers.push_back({answers[a]->text, chance, likeliest});
  }
  out.bits = std::max(0.0, bits_now - left);
  std::ranges::stable_sort(out.answers, [](const Answer& a, const Answer& b) { return a.share > b.share; });
  return out;
}

}  // namespace

double nickerson(const Colour& first, const Colour& second) { return fading(first.chroma, first, second); }

double colour_distance(const Colour& a, const Colour& b) { return fading(std::min(a.chroma, b.chroma), a, b); }

double likeness(const Feature& feature, const Value& a, const Value& b) {
  switch (feature.compared) {
    case Compared::words:
      return std::ranges::find_first_of(a.words, b.words) != a.words.end() ? 1 : 0;
    case Compared::ordered:
      return std::max(0.0, 1 - gap(a.span, b.span) / feature.range);
    case Compared::colour:
      return std::max(0.0, 1 - least_colour_distance(a, b, feature.range) / feature.range);
  }
  return 0;
}

Identification identify(const Question& question) {
  Identification out;
  if (question.fabrics.empty()) return out;
  const std::vector<double> shares = shares_of(question);
  out.bits = entropy_bits(shares);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    out.fits.push_back(fit_of(question, i));
    out.fits.back().share = shares[i];
  }
  std::ranges::stable_sort(out.fits, [](const Fit& a, const Fit& b) {
    if (a.share != b.share) return a.share > b.share;
    return a.fit.value_or(-1) > b.fit.value_or(-1);
  });
  constexpr double kNothing = 1e-9;
  for (std::size_t f = 0; f < question.features.size(); ++f) {
    if (question.seen[f]) continue;
    NextLook look = look_at(question, f, shares, out.bits);
    if (look.bits > kNothing) out.next.push_back(std::move(look));
  }
  std::ranges::stable_sort(out.next, [](const NextLook& a, const NextLook& b) { return a.bits > b.bits; });
  return out;
}

}  // namespace sherd::series
