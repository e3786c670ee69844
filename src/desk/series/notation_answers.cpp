#include "desk/series/notation_answers.h"

#include "base/text.h"

namespace sherd::desk {

namespace {

NotationColour colour_of(const notation::Munsell& colour, const std::optional<notation::ColourValues>& values,
                         const std::string& words) {
  NotationColour out;
  out.reads = notation::munsell_text(colour);
  out.words = words;
  if (!values) {
    out.in_gamut = false;
    return out;
  }
  out.x = values->x;
  out.y = values->y;
  out.luminance = values->Y;
  out.srgb = values->srgb;
  out.in_gamut = values->in_gamut;
  out.interpolated = values->interpolated;
  return out;
}

}  // namespace

void show(const notation::DateReading& reading, NotationResponse& response) {
  response.reads = range_text(reading.range);
  response.earliest = reading.range.earliest;
  response.latest = reading.range.latest;
  response.certainty = reading.certainty;
  response.circa = reading.circa;
  response.style = reading.style;
  response.because = reading.because;
  response.warnings = reading.warnings;
  response.kind = notation::date_kind_text(reading.kind);
  response.edtf = reading.edtf;
  response.period_authority = reading.period_authority;
  response.lab = reading.lab;
  response.probability = reading.probability;
  if (!reading.age) return;
  const notation::RadiocarbonAge& age = *reading.age;
  response.age = NotationAge{age.older, age.younger, age.sd};
  response.reads = age.older == age.younger ? std::to_string(age.older)
                                            : std::to_string(age.older) + "-" + std::to_string(age.younger);
  if (age.sd) response.reads += " \u00B1 " + std::to_string(*age.sd);
  response.reads += " radiocarbon years before 1950, not calibrated";
}

void show(const notation::MarkReading& reading, NotationResponse& response) {
  response.reads = reading.reads;
  response.earliest = reading.range.earliest;
  response.latest = reading.range.latest;
  response.certainty = reading.certainty;
  response.because = reading.because;
  response.warnings = reading.warnings;
  response.not_said = reading.not_said;
  for (const notation::MarkAnswer& one : reading.answers) {
    response.readings.push_back({one.mark, one.reads, one.range.earliest, one.range.latest,
                                 one.on ? notation::iso_text(*one.on) : "", one.dates, one.nature, one.source,
                                 one.known, one.likely, one.ruled_out});
  }
}

void show(const notation::ColourReading& reading, NotationResponse& response) {
  response.reads = (reading.near ? "near " : "") + notation::munsell_text(reading.from);
  response.colour = colour_of(reading.from, reading.values, reading.words);
  if (reading.to) {
    response.reads += " to " + notation::munsell_text(*reading.to);
    response.colour_to = colour_of(*reading.to, reading.to_values, reading.to_words);
  }
  response.reads += ": " + reading.words;
  if (reading.to && reading.to_words != reading.words) response.reads += " to " + reading.to_words;
  response.because = reading.because;
  response.because.push_back(
      "CIE values: Newhall, Nickerson & Judd 1943, illuminant C; swatch: sRGB, adapted to D65 after Bradford");
  response.warnings = reading.warnings;
}

void show(const notation::FiringReading& reading, NotationResponse& response) {
  response.reads = reading.words;
  for (std::size_t i = 0; i < reading.zones.size(); ++i) {
    if (reading.zones[i])
      response.zones.push_back({std::string(word(static_cast<FiringZone>(i))), std::string(word(*reading.zones[i]))});
  }
  response.because = reading.because;
  response.warnings = reading.warnings;
}

void show(const notation::ScaleReading& reading, NotationResponse& response) {
  response.reads = join(reading.words, " to ");
  response.style = reading.scale;
  response.grade = NotationGrade{reading.scale,        reading.version,      response.reads, reading.measure.low,
                                 reading.measure.high, reading.measure.unit, true,           {}};
  response.phi_low = reading.phi;
  response.phi_high = reading.phi_high;
  for (const notation::Conversion& one : reading.also) {
    response.also.push_back({one.scale, one.version, join(one.words, " to "), one.measure.low, one.measure.high,
                             one.measure.unit, one.exact, one.loss});
  }
  response.because = reading.because;
  response.warnings = reading.warnings;
}

}  // namespace sherd::desk
