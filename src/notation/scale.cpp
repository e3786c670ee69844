#include "notation/scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "notation/caret.h"
#include "notation/scale_classes.h"
#include "notation/scale_text.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 120;  ///< bytes

struct Found {
  const Scale* scale = nullptr;
  std::vector<const ScaleClass*> classes;
};

/// The scales of an attribute, the usual one first.
std::vector<const Scale*> scales_of(Attribute attribute, const ScaleTables& tables) {
  std::vector<const Scale*> out;
  for (const bool usual : {true, false}) {
    for (const Scale& scale : tables.scales) {
      if (scale.attribute == attribute && scale.usual == usual) out.push_back(&scale);
    }
  }
  return out;
}

Result<const Scale*> scale_named(Attribute attribute, std::string_view name, const ScaleTables& tables) {
  std::vector<std::string> names;
  for (const Scale* scale : scales_of(attribute, tables)) {
    if (scale->name == lower(trim(name))) return scale;
    names.push_back(scale->name);
  }
  const std::string near = did_you_mean(name, names);
  return fail(ErrorKind::usage, "unknown_scale", fmt::format("there is no scale \"{}\" of {}", name, word(attribute)),
              (near.empty() ? "" : near + " ") + "the scales are " + join(names, ", "));
}

std::string_view unit_of(std::string_view written) {
  if (written == "%" || written == "per cent" || written == "percent") return "%";
  if (written == "mohs") return "Mohs";
  if (written == "\u03C6" || written == "sigma") return "phi";
  if (written == "cm" || written == "um" || written.starts_with("micron") || written.ends_with("m")) return "mm";
  return written;
}

double factor_of(std::string_view written) {
  if (written == "cm") return 10;
  return unit_of(written) == "mm" && written != "mm" ? 0.001 : 1;
}

/// The written number in the scale's unit; the reason where it is of another.
std::expected<Measure, MeasureTrouble> in_unit(const WrittenMeasure& written, const Scale& scale,
                                               ScaleReading& reading) {
  const std::string unit(unit_of(written.unit));
  Measure out{written.low, written.high, scale.unit};
  if (scale.attribute == Attribute::size && unit == "phi") {
    const auto mm = [](std::optional<double> phi) { return phi ? std::optional(mm_of_phi(*phi)) : std::nullopt; };
    out.low = mm(written.high);
    out.high = mm(written.low);
    reading.because.push_back("phi = -log2 mm (Krumbein)");
  } else if (unit.empty()) {
    reading.because.push_back("no unit is given: taken as " + scale.unit);
  } else if (unit != scale.unit) {
    return std::unexpected(
        MeasureTrouble{written.unit_at, fmt::format("the scale {} is in {}", scale.name, scale.unit)});
  }
  const double factor = factor_of(written.unit);
  if (out.low) *out.low *= factor;
  if (out.high) *out.high *= factor;
  const bool from_nought = scale.attribute != Attribute::size || unit != "phi";
  if (from_nought && ((out.low && *out.low < 0) || (out.high && *out.high < 0)))
    return std::unexpected(MeasureTrouble{0, "it can not be below 0"});
  const std::optional<double> most = scale.attribute == Attribute::frequency ? std::optional(100.0)
                                     : scale.attribute == Attribute::rounding && scale.unit == "r" ? std::optional(1.0)
                                     : scale.attribute == Attribute::rounding                      ? std::optional(6.0)
                                     : scale.attribute == Attribute::hardness                      ? std::optional(10.0)
                                                                                                   : std::nullopt;
  if (most && ((out.low && *out.low > *most) || (out.high && *out.high > *most)))
    return std::unexpected(MeasureTrouble{0, fmt::format("it can not be above {}", format_double(*most))});
  return out;
}

/// The scale for a number: the chosen one, else the first with limits in its unit.
const Scale* numeric_scale(const std::vector<const Scale*>& scales, std::string_view unit) {
  for (const Scale* scale : scales) {
    if (has_limits(*scale) && (unit.empty() || unit == scale->unit)) return scale;
  }
  for (const Scale* scale : scales) {
    if (has_limits(*scale)) return scale;
  }
  return nullptr;
}

std::string known_words(const Scale& scale) {
  std::vector<std::string> words;
  for (const ScaleClass& one : scale.classes) words.push_back(one.word);
  return join(words, ", ");
}

std::string joined(const std::vector<std::string>& words) { return join(words, " to "); }

class Reader {
 public:
  Reader(Attribute attribute, std::string_view text, const ScaleTables& tables)
      : text_(text), scales_(scales_of(attribute, tables)) {
    reading_.attribute = attribute;
  }

  /// `chosen`: only this scale; null: any.
  Result<ScaleReading> read(const Scale* chosen, const Scale* to) {
    if (chosen != nullptr)
      scales_by_order_ = {chosen};
    else
      scales_by_order_ = scales_;
    Found found = by_word();
    if (found.scale == nullptr) {
      auto measured = by_number(chosen);
      if (!measured) return refuse(measured.error().at, measured.error().why, hint_scale(chosen));
      found = std::move(*measured);
    } else {
      reading_.measure = spanned(found.classes, found.scale->unit);
    }
    describe(found);
    for (const Scale* scale : scales_) {
      if (scale != found.scale && (to == nullptr || to == scale)) reading_.also.push_back(convert(reading_, *scale));
    }
    same_word_elsewhere(found);
    return std::move(reading_);
  }

 private:
  const Scale& hint_scale(const Scale* chosen) const { return chosen != nullptr ? *chosen : *scales_.front(); }

  std::unexpected<Error> refuse(std::size_t at, std::string_view why, const Scale& scale) const {
    std::string hint = fmt::format("The classes of {} are {}.", scale.name, known_words(scale));
    std::vector<std::string> words;
    for (const ScaleClass& one : scale.classes) words.push_back(one.word);
    if (const std::string near = did_you_mean(text_, words); !near.empty()) hint = near + " " + hint;
    return unreadable("unreadable_scale", "cannot read the " + std::string(word(reading_.attribute)), text_, at, why,
                      hint);
  }

  Found by_word() const {
    for (const Scale* scale : scales_by_order_) {
      if (const ScaleClass* one = class_named(*scale, text_)) return {scale, {one}};
    }
    return {};
  }

  std::expected<Found, MeasureTrouble> by_number(const Scale* chosen) {
    const auto written = parse_measure(text_);
    if (!written) return std::unexpected(written.error());
    if (!*written) return std::unexpected(MeasureTrouble{0, "neither a class of the scale nor a number"});
    const Scale* scale = chosen != nullptr ? chosen : numeric_scale(scales_by_order_, unit_of((*written)->unit));
    if (scale == nullptr || !has_limits(*scale))
      return std::unexpected(
          MeasureTrouble{0, fmt::format("the scale {} has words and no numbers", hint_scale(chosen).name)});
    auto measure = in_unit(**written, *scale, reading_);
    if (!measure) return std::unexpected(measure.error());
    reading_.measure = *measure;
    Found found{scale, classes_over(*scale, *measure)};
    if (found.classes.empty())
      return std::unexpected(
          MeasureTrouble{0, measure_text(*measure) + " lies in a gap of the scale " + scale->name + ", or beyond it"});
    return found;
  }

  void describe(const Found& found) {
    reading_.scale = found.scale->name;
    reading_.version = found.scale->version;
    reading_.source = found.scale->source;
    reading_.words = words_of(found.classes);
    for (const ScaleClass* one : found.classes) {
      if (one->known == Known::memory) reading_.known = Known::memory;
      if (one->known == Known::calculated && reading_.known == Known::read) reading_.known = Known::calculated;
      if (!one->exact) reading_.warnings.push_back("the limits of \"" + one->word + "\" are rough equivalents");
    }
    if (reading_.known == Known::memory)
      reading_.warnings.push_back("the limits of the scale " + reading_.scale + " are from memory");
    reading_.because.insert(
        reading_.because.begin(),
        fmt::format("{} on the scale {} {}: {} ({}, {})", joined(reading_.words), reading_.scale, reading_.version,
                    measure_text(reading_.measure), reading_.source, word(reading_.known)));
    if (reading_.attribute != Attribute::size) return;
    if (reading_.measure.high && *reading_.measure.high > 0) reading_.phi = phi_of_mm(*reading_.measure.high);
    if (reading_.measure.low && *reading_.measure.low > 0) reading_.phi_high = phi_of_mm(*reading_.measure.low);
  }

  /// The trap of the trade: one word, other numbers.
  void same_word_elsewhere(const Found& found) {
    for (const Scale* scale : scales_) {
      const ScaleClass* one = scale == found.scale ? nullptr : class_named(*scale, text_);
      if (one == nullptr || scale->unit != found.scale->unit) continue;
      const Measure there = spanned({one}, scale->unit);
      if (there.low == reading_.measure.low && there.high == reading_.measure.high) continue;
      reading_.warnings.push_back(fmt::format("\"{}\" is {} on the scale {}; say which scale was used", one->word,
                                              measure_text(there), scale->name));
    }
  }

  std::string_view text_;
  std::vector<const Scale*> scales_;
  std::vector<const Scale*> scales_by_order_;
  ScaleReading reading_;
};

}  // namespace

Result<ScaleReading> read_scale(Attribute attribute, std::string_view text, std::string_view scale, std::string_view to,
                                const ScaleTables& tables) {
  const Scale* chosen = nullptr;
  const Scale* target = nullptr;
  if (!scale.empty()) {
    SHERD_TRY(chosen, scale_named(attribute, scale, tables));
  }
  if (!to.empty()) {
    SHERD_TRY(target, scale_named(attribute, to, tables));
  }
  text = trim(text);
  const std::string start = "cannot read the " + std::string(word(attribute));
  if (text.empty()) return unreadable("unreadable_scale", start, text, 0, "there is nothing here", "");
  if (text.size() > kLongest) return unreadable("unreadable_scale", start, text, 0, "this is too long for a class", "");
  if (!is_utf8(text)) return unreadable("unreadable_scale", start, text, 0, "this is no readable text", "");
  if (scales_of(attribute, tables).empty())
    return fail(ErrorKind::internal, "bad_table", "there is no scale of " + std::string(word(attribute)));
  return Reader(attribute, text, tables).read(chosen, target);
}

}  // namespace sherd::notation