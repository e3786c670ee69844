#include <fmt/format.h>

#include "base/numbers.h"
#include "cli/print.h"

namespace sherd::cli {

namespace {

std::string lines(std::string_view heading, const std::vector<std::string>& texts) {
  if (texts.empty()) return {};
  std::string out = heading.empty() ? "" : std::string(heading) + "\n";
  for (const std::string& text : texts) out += "  " + text + "\n";
  return out;
}

std::string colour_line(const desk::NotationColour& colour) {
  if (!colour.x) return "  " + colour.reads + ": no values\n";
  return fmt::format("  {}: x {} y {} Y {}, sRGB {}{}\n", colour.reads, format_fixed(*colour.x, 4),
                     format_fixed(*colour.y, 4), format_fixed(*colour.luminance, 2), colour.srgb,
                     colour.in_gamut ? "" : " (out of the screen's gamut)");
}

std::string limits_text(const desk::NotationGrade& grade) {
  if (!grade.low && !grade.high) return {};
  const std::string unit = grade.unit.empty() ? "" : " " + grade.unit;
  if (!grade.low) return ", up to " + format_double(*grade.high) + unit;
  if (!grade.high) return ", over " + format_double(*grade.low) + unit;
  if (*grade.low == *grade.high) return ", " + format_double(*grade.low) + unit;
  return ", " + format_double(*grade.low) + "-" + format_double(*grade.high) + unit;
}

std::string grade_line(const desk::NotationGrade& grade) {
  std::string out = fmt::format("  {} {}: {}{}", grade.scale, grade.version, grade.reads.empty() ? "-" : grade.reads,
                                limits_text(grade));
  if (!grade.loss.empty()) out += "; " + grade.loss;
  return out + "\n";
}

std::string phi_line(const desk::NotationResponse& response) {
  if (!response.phi_low && !response.phi_high) return {};
  const std::string low = response.phi_low ? format_fixed(*response.phi_low, 2) : "";
  const std::string high = response.phi_high ? format_fixed(*response.phi_high, 2) : "";
  if (low == high) return "  phi " + low + "\n";
  return "  phi " + (low.empty() ? "below " + high : high.empty() ? "over " + low : low + " to " + high) + "\n";
}

}  // namespace

std::string text_of(const desk::NotationResponse& response) {
  std::string out = response.text + ": " + response.reads;
  if (response.certainty != Certainty::sure) out += ", " + std::string(word(response.certainty));
  if (!response.style.empty()) out += fmt::format(" ({} {})", response.grade ? "scale" : "style", response.style);
  out += "\n" + lines("", response.because);
  for (const auto& colour : {response.colour, response.colour_to}) {
    if (colour) out += colour_line(*colour);
  }
  out += phi_line(response);
  if (!response.also.empty()) out += "On other scales\n";
  for (const desk::NotationGrade& grade : response.also) out += grade_line(grade);
  return out + lines("It does not say", response.not_said);
}

}  // namespace sherd::cli
