#include "notation/date.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/text.h"
#include "notation/date_meaning.h"
#include "notation/date_parser.h"
#include "notation/date_radiocarbon.h"
#include "notation/edtf.h"
#include "notation/period.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 120;  ///< bytes of a date that is worth reading

/// EDTF met among other notations: its ways differ from theirs, and that is said.
Result<DateReading> edtf_among_others(std::string_view text, const DateStyle& style) {
  std::string places(text);
  std::ranges::replace(places, 'x', 'X');  // 20xx
  SHERD_TRY(DateReading reading, read_edtf(places, false));
  reading.style = style.name;
  const auto before_christ = [](const std::optional<Year>& year) { return year && year->value < 1; };
  if (before_christ(reading.range.earliest) || before_christ(reading.range.latest)) {
    reading.warnings.emplace_back("this is EDTF, whose year 0000 is 1 BC: -0119 is 120 BC");
  }
  if (reading.circa) {
    reading.warnings.emplace_back("this is EDTF, which gives no width to ~ and %: the years stand as written");
  }
  return reading;
}

std::expected<DateReading, DateTrouble> by_words(std::string_view text, const DateContext& context) {
  const std::vector<DateToken> tokens = date_tokens(text);
  if (speaks_of_radiocarbon(tokens)) return read_radiocarbon(text, tokens, context.style);
  SHERD_TRY(const WrittenDate written, parse_date(tokens, context.periods));
  return date_meaning(written, context);
}

Result<DateReading> read(std::string_view text, const DateContext& context) {
  text = trim(text);
  if (text.empty()) return unreadable_date(text, {0, "there is nothing here"});
  if (text.size() > kLongest) return unreadable_date(text, {0, "this is too long for a date"});
  if (context.style.edtf) return read_edtf(text);
  if (looks_like_edtf(text)) return edtf_among_others(text, context.style);
  auto reading = by_words(text, context);
  if (!reading) return unreadable_date(text, reading.error());
  if (!reading->age) {
    reading->edtf = reading->either.empty() ? edtf_text(reading->range, reading->certainty, reading->circa)
                                            : edtf_one_of(reading->either, reading->certainty, reading->circa);
  }
  return std::move(*reading);
}

}  // namespace

std::string_view date_kind_text(DateKind kind) {
  constexpr std::array<std::string_view, 4> kTexts{"calendar", "calibrated", "uncalibrated", "radiocarbon age"};
  return kTexts[static_cast<std::size_t>(kind)];
}

Result<DateReading> read_date(std::string_view text, const DateStyle& style) {
  SHERD_TRY(DateReading reading, read(text, DateContext{.style = style}));
  if (reading.age) return unreadable_date(trim(text), {0, reading.warnings.front()});
  return reading;
}

DateReader::DateReader(DateSettings settings, std::shared_ptr<const PeriodIndex> periods)
    : settings_(std::move(settings)), periods_(std::move(periods)) {}

Result<DateReader> DateReader::with(PeriodTable periods, DateSettings settings) {
  const std::vector<std::string> known = period_authorities(periods);
  if (settings.authority.empty() && !known.empty()) settings.authority = known.front();
  if (!settings.authority.empty() && std::ranges::find(known, settings.authority) == known.end()) {
    const std::string near = did_you_mean(settings.authority, known);
    return fail("unknown_period_authority",
                "There is no table of periods by \"" + shortened(settings.authority, 40) + "\".",
                (near.empty() ? std::string{} : near + " ") + "Known authorities: " + join(known, ", ") + ".");
  }
  auto index = std::make_shared<const PeriodIndex>(std::move(periods), settings.authority);
  return DateReader(std::move(settings), std::move(index));
}

Result<DateReading> DateReader::read(std::string_view text) const {
  return notation::read(text, DateContext{.style = settings_.style,
                                          .slash_is_either = settings_.slash_is_either,
                                          .small_letters_uncalibrated = settings_.small_letters_uncalibrated,
                                          .periods = periods_.get()});
}

}  // namespace sherd::notation
