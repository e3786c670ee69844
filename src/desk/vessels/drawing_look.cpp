#include "desk/vessels/drawing_look.h"

#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"

namespace sherd::desk {

namespace {

Result<double> number(std::string_view text) {
  SHERD_TRY(const std::int64_t thousandths, parse_scaled(trim(text), 3));
  return static_cast<double>(thousandths) / 1000;
}

/// One of two words; false is the first and what a blank stands for.
Result<bool> second_word(std::string_view name, const std::string& text, std::string_view first,
                         std::string_view second) {
  if (text.empty() || text == first) return false;
  if (text == second) return true;
  return fail(ErrorKind::usage, "bad_word", fmt::format("{} is \"{}\"", name, text),
              fmt::format("say {} or {}", first, second));
}

Result<std::optional<figure::SectionFill>> fill_of(const std::string& text) {
  if (text.empty()) return std::nullopt;
  if (text == "solid") return figure::SectionFill::solid;
  if (text == "hatched") return figure::SectionFill::hatched;
  if (text == "open") return figure::SectionFill::open;
  return fail(ErrorKind::usage, "bad_word", "fill is \"" + text + "\"", "say solid, hatched or open");
}

}  // namespace

Result<double> read_scale(std::string_view text) {
  const auto bad = [&] {
    return fail(ErrorKind::usage, "bad_scale", fmt::format("\"{}\" is no scale that drawings are printed at", text),
                "write it as 1:4; from 2:1 to 1:20");
  };
  text = trim(text);
  if (text.empty()) return 4.0;
  const std::size_t at = text.find_first_of(":/");
  const auto first = at == std::string_view::npos ? Result<double>(1.0) : number(text.substr(0, at));
  const auto second = number(at == std::string_view::npos ? text : text.substr(at + 1));
  if (!first || !second || !(*first > 0) || !(*second > 0)) return bad();
  const double scale = *second / *first;
  if (scale < 0.5 || scale > 20) return bad();
  return scale;
}

Result<double> read_mm(std::string_view name, std::string_view text, double unless, double low, double high) {
  if (trim(text).empty()) return unless;
  const auto value = number(text);
  if (value && *value >= low && *value <= high) return *value;
  return fail(ErrorKind::usage, "bad_number", fmt::format("{} is \"{}\"", name, text),
              fmt::format("say a length from {} to {} mm", format_double(low), format_double(high)));
}

Result<LookSettings> look_settings(const DrawingLook& look) {
  LookSettings out;
  SHERD_TRY(out.drawing.scale, read_scale(look.scale));
  SHERD_TRY(const bool right, second_word("side", look.side, "left", "right"));
  SHERD_TRY(out.drawing.dashed_conjecture, second_word("conjecture", look.conjecture, "dotted", "broken"));
  SHERD_TRY(out.drawing.flat_tint, second_word("tint", look.tint, "dots", "flat"));
  SHERD_TRY(out.fill, fill_of(look.fill));
  SHERD_TRY(out.drawing.outline_mm, read_mm("outline_mm", look.outline_mm, 0.35, 0.25, 2));
  SHERD_TRY(out.drawing.line_mm, read_mm("line_mm", look.line_mm, 0.25, 0.25, 2));
  out.drawing.section_left = !right;
  out.drawing.edges = !look.no_edges;
  out.drawing.smooth = !look.no_curve;
  out.drawing.measures = !look.no_measures;
  return out;
}

}  // namespace sherd::desk
