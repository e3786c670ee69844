#include "notation/diamond.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "notation/caret.h"
#include "notation/diamond_decode.h"
#include "notation/diamond_text.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 200;  ///< bytes
constexpr std::string_view kStart = "cannot read the mark";
constexpr std::string_view kHint =
    "Write what stands in each corner: diamond top=X left=B right=12 bottom=4 class=IV. Leave out or write ? for what "
    "is "
    "illegible; where the corners are not known: diamond X B 12 4 class IV.";

std::string taken_for(const Placing& placing) {
  std::vector<std::string> parts;
  const auto add = [&parts](std::string_view name, const std::optional<DiamondSign>& sign) {
    if (sign) parts.push_back(std::string(name) + " " + sign->text());
  };
  add("year", placing.year);
  add("month", placing.month);
  add("day", placing.day);
  add("parcel", placing.parcel);
  return join(parts, ", ");
}

MarkAnswer answer(const Decoded& decoded, const Placing& placing, const DiamondSeries& series) {
  MarkAnswer out;
  out.mark = "diamond";
  out.dates = MarkDates::design;
  out.nature = Nature::limit;
  out.source = decoded.source;
  out.known = decoded.known;
  const std::string parcel = placing.parcel ? ", parcel " + placing.parcel->text() : "";
  if (!decoded.trouble.empty()) {
    out.reads = fmt::format("{}: {}", series_text(series), taken_for(placing));
    out.ruled_out = decoded.trouble;
    out.likely = false;
    return out;
  }
  if (decoded.day.year == 0) {
    const std::string day = day_text(decoded.day);
    out.reads = fmt::format("design registered {}in a year of {}{}", day.empty() ? "" : "on " + day + " ",
                            series_text(series), parcel);
    out.range = {Year{series.first_year}, std::nullopt};
    return out;
  }
  out.reads = fmt::format("design registered {} {}{}, {}", decoded.day.day > 0 && decoded.day.month > 0 ? "on" : "in",
                          day_text(decoded.day), parcel, series_text(series));
  if (!decoded.note.empty()) out.reads += ": " + decoded.note;
  out.range = {Year{decoded.day.year}, std::nullopt};
  if (decoded.day.month > 0 && decoded.day.day > 0) out.on = decoded.day;
  return out;
}

/// All answers of both series; those that can be first. `at`: the first trouble's place.
std::vector<MarkAnswer> all_answers(const WrittenDiamond& written, const DiamondTables& tables, std::size_t& at) {
  std::vector<MarkAnswer> out;
  std::optional<std::size_t> place;
  for (const DiamondSeries& series : tables.series) {
    const auto ways = placings(written, series);
    if (!ways) {
      MarkAnswer none;
      none.mark = "diamond";
      none.reads = series_text(series);
      none.dates = MarkDates::design;
      none.likely = false;
      none.source = series.cited.source;
      none.ruled_out = ways.error().why;
      if (!place || place == 0U) place = ways.error().at;
      out.push_back(std::move(none));
      continue;
    }
    for (const Placing& way : *ways) {
      for (const Decoded& decoded : decode(way, series, tables)) {
        if (!decoded.trouble.empty() && (!place || place == 0U || written.series == series.series)) place = decoded.at;
        out.push_back(answer(decoded, way, series));
      }
    }
  }
  likely_first(out);
  at = place.value_or(0);
  return out;
}

/// The class; a warning where it is not that of pottery. Error where the tables do not have it.
std::expected<std::string, DiamondTrouble> class_text(const WrittenDiamond& written, const DiamondTables& tables,
                                                      MarkReading& reading) {
  if (written.numeral.empty()) return std::string{};
  std::vector<const DiamondClass*> fitting;
  for (const DiamondClass& one : tables.classes) {
    if (one.numeral == written.numeral || one.numeral.starts_with(written.numeral + " ")) fitting.push_back(&one);
  }
  if (fitting.empty()) return std::unexpected(DiamondTrouble{written.numeral_at, "no such class is known"});
  std::vector<std::string> materials;
  for (const DiamondClass* one : fitting) materials.push_back(one->material);
  std::string text = "class " + written.numeral + ": " + join(materials, " or ");
  reading.because.push_back(text + " " + cited_text(fitting.front()->cited.source, fitting.front()->cited.known));
  if (fitting.front()->material != "ceramics")
    reading.warnings.push_back(text + "; on pottery, look at the numeral again");
  return text;
}

void sum_up(MarkReading& reading, const std::string& klass) {
  std::vector<std::string> texts;
  for (const MarkAnswer& one : reading.answers) {
    if (!one.ruled_out.empty()) continue;
    texts.push_back(one.reads);
    if (!reading.range.earliest || *one.range.earliest < *reading.range.earliest)
      reading.range.earliest = one.range.earliest;
    reading.because.push_back(one.reads + " " + cited_text(one.source, one.known));
    if (one.known == Known::memory) reading.warnings.push_back("rests on a value from memory: " + one.reads);
  }
  for (const MarkAnswer& one : reading.answers) {
    if (!one.ruled_out.empty()) reading.because.push_back("not " + one.reads + ": " + one.ruled_out);
  }
  reading.reads = join(texts, "; or ") + (klass.empty() ? "" : "; " + klass);
  if (texts.size() > 1) {
    reading.certainty = Certainty::possible;
    reading.warnings.push_back(counted(static_cast<long long>(texts.size()), "reading") +
                               " are possible; the earliest sets the year");
  }
  reading.not_said = {
      "the day of registration is the earliest for the design, not the year of the vessel: wares were made by it for "
      "years afterwards (protected for three)"};
}

}  // namespace

bool is_diamond_text(std::string_view text) {
  const std::string low = lower(trim(text));
  for (const std::string_view name : {"registration diamond ", "diamond "}) {
    if (low.starts_with(name) && low != "diamond mark") return true;
  }
  return false;
}

Result<MarkReading> read_diamond(std::string_view text, const DiamondTables& tables) {
  text = trim(text);
  if (text.size() > kLongest)
    return unreadable("unreadable_mark", kStart, text, 0, "this is too long for a diamond", kHint);
  const auto written = parse_diamond(text);
  if (!written) return unreadable("unreadable_mark", kStart, text, written.error().at, written.error().why, kHint);
  MarkReading reading;
  const auto klass = class_text(*written, tables, reading);
  if (!klass) return unreadable("impossible_mark", kStart, text, klass.error().at, klass.error().why, kHint);
  std::size_t at = 0;
  reading.answers = all_answers(*written, tables, at);
  if (std::ranges::none_of(reading.answers, [](const MarkAnswer& one) { return one.ruled_out.empty(); })) {
    std::vector<std::string> reasons;
    for (const MarkAnswer& one : reading.answers) {
      const std::string reason = one.reads + ": " + one.ruled_out;
      if (std::ranges::find(reasons, reason) == reasons.end()) reasons.push_back(reason);
    }
    return unreadable("impossible_mark", kStart, text, at, "no day fits. " + join(reasons, "; "), kHint);
  }
  sum_up(reading, *klass);
  return reading;
}

}  // namespace sherd::notation
