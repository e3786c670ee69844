#include "desk/series/lens_values.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "notation/munsell.h"
#include "notation/scale.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

const Scale& usual_scale(Attribute attribute) {
  const auto& scales = reference::scales().scales;
  return *std::ranges::find_if(scales, [&](const Scale& one) { return one.attribute == attribute && one.usual; });
}

bool has_scale(Attribute attribute, std::string_view name) {
  return std::ranges::any_of(reference::scales().scales,
                             [&](const Scale& one) { return one.attribute == attribute && one.name == name; });
}

std::optional<series::Span> places_of(const Scale& scale, const std::vector<std::string>& words) {
  std::optional<series::Span> span;
  for (std::size_t i = 0; i < scale.classes.size(); ++i) {
    if (std::ranges::find(words, scale.classes[i].word) == words.end()) continue;
    const double place = static_cast<double>(i) + 1;
    if (!span) span = series::Span{place, place};
    span->high = place;
  }
  return span;
}

Result<notation::ScaleReading> read_on(Attribute attribute, const std::string& text, const std::string& scale) {
  return notation::read_scale(attribute, text, has_scale(attribute, scale) ? scale : std::string{}, "",
                              reference::scales());
}

std::string size_text(std::optional<double> least, std::optional<double> most) {
  const auto number = [](double mm) { return format_double(mm); };
  if (least && most) return *least == *most ? number(*most) + " mm" : number(*least) + "-" + number(*most) + " mm";
  if (most) return "to " + number(*most) + " mm";
  return "from " + number(*least) + " mm";
}

bool is_none(const std::string& text) { return text == "none" || text == "absent" || text == "not seen"; }

bool starts_like_a_size(const std::string& part) {
  return part.find_first_of("0123456789") != std::string::npos && part.find('%') == std::string::npos;
}

Length length_of(double mm) { return {static_cast<std::int64_t>(std::llround(mm * 100))}; }

/// "to 2 mm" as "up to 2 mm".
std::string as_size(const std::string& text) { return text.starts_with("to ") ? "up " + text : text; }

bool take_size(const std::string& part, Inclusion& row) {
  const auto size = read_on(Attribute::size, as_size(part), "");
  if (!size) return false;
  if (size->measure.low && *size->measure.low > 0) row.size_least = length_of(*size->measure.low);
  if (size->measure.high) row.size_most = length_of(*size->measure.high);
  return true;
}

/// Puts one part of an inclusion where it belongs; false where it is none of these.
bool take_part(const std::string& part, Inclusion& row) {
  if (is_none(part)) {
    row.frequency = "none";
    return true;
  }
  if (starts_like_a_size(part)) return take_size(part, row);
  for (const auto& [attribute, member] :
       {std::pair{Attribute::frequency, &Inclusion::frequency}, std::pair{Attribute::sorting, &Inclusion::sorting},
        std::pair{Attribute::rounding, &Inclusion::rounding}}) {
    if (!(row.*member).empty() || !read_on(attribute, part, "")) continue;
    row.*member = part;
    return true;
  }
  return take_size(part, row);
}

}  // namespace

std::string inclusion_name(std::string_view text) { return lower(trim(text)); }

double range_of(Attribute attribute) { return static_cast<double>(usual_scale(attribute).classes.size()) - 1; }

Result<series::Value> place_on_scale(Attribute attribute, const std::string& text, const std::string& scale) {
  SHERD_TRY(const notation::ScaleReading reading, read_on(attribute, text, scale));
  const Scale& usual = usual_scale(attribute);
  std::optional<series::Span> span;
  if (reading.scale == usual.name) span = places_of(usual, reading.words);
  for (const notation::Conversion& also : reading.also) {
    if (also.scale == usual.name) span = places_of(usual, also.words);
  }
  if (!span) {
    return fail("unreadable_seen", "\"" + text + "\" has no place on the scale " + usual.name,
                "say it in the words of that scale");
  }
  return series::Value{.text = text, .words = {}, .span = *span, .colours = {}};
}

series::Value size_value(std::optional<double> least_mm, std::optional<double> most_mm) {
  constexpr double kSmallest = 0.001;  // so that a least size of 0 has a phi
  const double coarse = notation::phi_of_mm(std::max(most_mm.value_or(*least_mm), kSmallest));
  // "to 0.8 mm" says how coarse it gets and nothing of how fine.
  const double fine = least_mm ? notation::phi_of_mm(std::max(*least_mm, kSmallest)) : coarse;
  return {.text = size_text(least_mm, most_mm),
          .words = {},
          .span = {std::min(coarse, fine), std::max(coarse, fine)},
          .colours = {}};
}

Result<series::Value> size_of(const std::string& text) {
  SHERD_TRY(const notation::ScaleReading reading, read_on(Attribute::size, as_size(text), ""));
  series::Value value = size_value(reading.measure.low, reading.measure.high);
  value.text = text;
  return value;
}

Result<series::Value> colour_of(const std::string& text) {
  SHERD_TRY(const notation::ColourReading reading, notation::read_colour(text, reference::munsell()));
  series::Value value{.text = text, .words = {}, .span = {}, .colours = {}};
  value.colours.push_back({reading.from.hue, reading.from.value, reading.from.chroma});
  if (reading.to) value.colours.push_back({reading.to->hue, reading.to->value, reading.to->chroma});
  return value;
}

series::Value words_of(const std::string& text) {
  series::Value value{.text = text, .words = {}, .span = {}, .colours = {}};
  std::string plain = lower(text);
  for (const std::string_view between : {" to ", " or ", " and ", "/", ";"}) plain = replace_all(plain, between, ",");
  for (const std::string_view part : split(plain, ',')) {
    if (const std::string_view word = trim(part); !word.empty()) value.words.emplace_back(word);
  }
  return value;
}

Result<Inclusion> inclusion_of(const std::string& text) {
  const std::vector<std::string_view> parts = split(text, ',');
  Inclusion row;
  row.inclusion = inclusion_name(parts.front());
  if (row.inclusion.empty()) {
    return fail(ErrorKind::usage, "unreadable_seen", "\"" + text + "\" names no inclusion",
                "first its kind, then what is seen of it: quartz, common, 0.3-0.8 mm, well sorted, subrounded");
  }
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const std::string part = lower(trim(parts[i]));
    if (part.empty() || take_part(part, row)) continue;
    return fail(ErrorKind::usage, "unreadable_seen",
                "\"" + part + "\" of " + row.inclusion + " is no frequency, size, sorting or rounding",
                "for example: quartz, common, 0.3-0.8 mm, well sorted, subrounded");
  }
  return row;
}

}  // namespace sherd::desk
