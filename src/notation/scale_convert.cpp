#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "notation/scale_classes.h"

namespace sherd::notation {

namespace {

/// Lower case, dashes as spaces, one space between words.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : lower(trim(text))) {
    const char plain = c == '-' || c == '_' || c == '\t' ? ' ' : c;
    if (plain != ' ' || (!out.empty() && out.back() != ' ')) out += plain;
  }
  return out;
}

bool overlap(const ScaleClass& one, double low, double high) {
  if (low == high) {  // a limit belongs to the class above it; the last class keeps its upper limit
    return low_of(one) <= low && (low < high_of(one) || (low == high_of(one) && low_of(one) == high_of(one)));
  }
  if (low_of(one) == high_of(one)) return low <= low_of(one) && low_of(one) <= high;
  return low_of(one) < high && low < high_of(one);
}

/// How much of `inside` lies in `measure`, where both are closed and longer than a point.
std::string shares(const std::vector<const ScaleClass*>& classes, const Measure& measure) {
  if (!measure.low || !measure.high || measure.point()) return {};
  std::vector<std::string> out;
  for (const ScaleClass* one : classes) {
    const double part = std::min(high_of(*one), *measure.high) - std::max(low_of(*one), *measure.low);
    out.push_back(fmt::format("{} {} %", one->word, std::lround(100 * part / (*measure.high - *measure.low))));
  }
  return join(out, ", ");
}

/// By the same word, where limits do not help.
void by_word(const ScaleReading& reading, const Scale& to, Conversion& out) {
  std::vector<const ScaleClass*> classes;
  for (const std::string& one : reading.words) {
    const ScaleClass* same = class_named(to, one);
    if (same == nullptr) {
      out.loss = fmt::format("can not be carried over: {} has no limits to compare and no \"{}\"", to.name, one);
      return;
    }
    classes.push_back(same);
  }
  out.words = words_of(classes);
  out.measure = spanned(classes, to.unit);
  out.loss = "by the word alone: the limits of the two scales can not be compared";
}

void by_limits(const ScaleReading& reading, const Scale& to, Conversion& out) {
  const auto classes = classes_over(to, reading.measure);
  if (classes.empty()) {
    out.loss = measure_text(reading.measure) + " lies in a gap of this scale, or beyond it";
    return;
  }
  out.words = words_of(classes);
  out.measure = spanned(classes, to.unit);
  const bool same_limits = out.measure.low == reading.measure.low && out.measure.high == reading.measure.high;
  out.exact = classes.size() == 1 && (same_limits || reading.measure.point());
  if (out.exact) return;
  const std::string parts = shares(classes, reading.measure);
  if (classes.size() > 1) {
    out.loss = "falls into " + counted(static_cast<long long>(classes.size()), "class", "classes") +
               (parts.empty() ? "" : " by length: " + parts);
  } else {
    out.loss = fmt::format("{} becomes {}", measure_text(reading.measure), measure_text(out.measure));
  }
  const double covered_low = low_of(*classes.front());
  const double covered_high = high_of(*classes.back());
  if ((reading.measure.low.value_or(-kNever) < covered_low) || (covered_high < reading.measure.high.value_or(kNever)))
    out.loss += "; a part lies outside its classes";
}

}  // namespace

std::string measure_text(const Measure& measure) {
  const std::string unit = measure.unit.empty() ? "" : " " + measure.unit;
  if (measure.point()) return format_double(*measure.low) + unit;
  if (measure.low && measure.high) return format_double(*measure.low) + "-" + format_double(*measure.high) + unit;
  if (measure.low) return "over " + format_double(*measure.low) + unit;
  return measure.high ? "up to " + format_double(*measure.high) + unit : "no limits given";
}

Measure spanned(const std::vector<const ScaleClass*>& classes, const std::string& unit) {
  double low = kNever;
  double high = -kNever;
  for (const ScaleClass* one : classes) {
    low = std::min(low, low_of(*one));
    high = std::max(high, high_of(*one));
  }
  Measure out{std::nullopt, std::nullopt, unit};
  if (std::isfinite(low)) out.low = low;
  if (std::isfinite(high)) out.high = high;
  return out;
}

const ScaleClass* class_named(const Scale& scale, std::string_view text) {
  const std::string word = plain(text);
  for (const ScaleClass& one : scale.classes) {
    if (plain(one.word) == word) return &one;
    for (const std::string& also : one.also) {
      if (plain(also) == word) return &one;
    }
  }
  return nullptr;
}

std::vector<const ScaleClass*> classes_over(const Scale& scale, const Measure& measure) {
  const double low = measure.low.value_or(-kNever);
  const double high = measure.high.value_or(kNever);
  std::vector<const ScaleClass*> out;
  for (const ScaleClass& one : scale.classes) {
    if (overlap(one, low, high)) out.push_back(&one);
  }
  if (out.empty()) {  // exactly the upper limit of a class with a gap, or with nothing, above it
    for (const ScaleClass& one : scale.classes) {
      if (low == high && high_of(one) == low) out.push_back(&one);
    }
  }
  return out;
}

std::vector<std::string> words_of(const std::vector<const ScaleClass*>& classes) {
  std::vector<std::string> out;
  for (const ScaleClass* one : classes) out.push_back(one->word);
  return out;
}

double phi_of_mm(double mm) { return -std::log2(mm); }
double mm_of_phi(double phi) { return std::exp2(-phi); }

Conversion convert(const ScaleReading& reading, const Scale& to) {
  Conversion out;
  out.scale = to.name;
  out.version = to.version;
  const bool comparable =
      has_limits(to) && reading.measure.unit == to.unit && (reading.measure.low || reading.measure.high);
  comparable ? by_limits(reading, to, out) : by_word(reading, to, out);
  if (std::ranges::any_of(to.classes, [](const ScaleClass& one) { return !one.exact; }) && !out.words.empty()) {
    out.exact = false;
    out.loss += (out.loss.empty() ? "" : "; ") + std::string("the limits of this scale are rough equivalents");
  }
  return out;
}

}  // namespace sherd::notation
