#include "figure/frame.h"

#include <algorithm>

namespace sherd::figure {
namespace {

constexpr double kNarrowestMm = 60, kWidestMm = 400, kLowestMm = 40;
constexpr double kNotesGapMm = 1.5;
constexpr Box kSample = {0, 0, 6, 2.4};
constexpr double kSampleGapMm = 1.2, kItemGapMm = 4, kLegendLineMm = 3.8;

}  // namespace

double line_mm(double points) { return points * kMmPerPoint * 1.25; }

Page usable(const Page& page) {
  Page out = page;
  out.width_mm = page.width_mm > kNarrowestMm ? std::min(page.width_mm, kWidestMm) : kNarrowestMm;
  out.max_height_mm = page.max_height_mm > kLowestMm ? page.max_height_mm : kLowestMm;
  return out;
}

std::string empty_figure(const About& about, const Page& page, std::string_view words) {
  const double width = usable(page).width_mm;
  constexpr double kHeight = 12;
  const std::vector<std::string> notes = note_lines(about.left_out, width);
  Svg svg;
  svg.text({width / 2, kHeight / 2 + 1}, words, {kNamePoints, Face::sans, Paint::quiet, Anchor::middle});
  draw_notes(svg, notes, kHeight);
  return svg.finish(width, kHeight + notes_mm(notes), about.title);
}

std::vector<std::string> note_lines(const std::vector<std::string>& sentences, double width_mm) {
  constexpr std::size_t kMostLines = 12;
  std::string text;
  for (const std::string& sentence : sentences) {
    if (!sentence.empty()) text += (text.empty() ? "" : " ") + sentence;
  }
  return wrapped(text, Face::sans, kNotePoints, width_mm, kMostLines);
}

double notes_mm(const std::vector<std::string>& lines) {
  return lines.empty() ? 0 : kNotesGapMm + static_cast<double>(lines.size()) * line_mm(kNotePoints);
}

void draw_notes(Svg& svg, const std::vector<std::string>& lines, double top) {
  double y = top + kNotesGapMm;
  for (const std::string& line : lines) {
    y += line_mm(kNotePoints);
    svg.text({0, y - 0.7}, line, {kNotePoints, Face::sans, Paint::quiet});
  }
}

Legend place_legend(std::vector<LegendItem> items, double width_mm) {
  Legend legend;
  double x = 0, y = 0;
  for (LegendItem& item : items) {
    const double room = width_mm - kSample.width - kSampleGapMm;
    item.words = fitted(item.words, Face::sans, kNotePoints, room);
    const double width = kSample.width + kSampleGapMm + text_width_mm(item.words, Face::sans, kNotePoints);
    if (x > 0 && x + width > width_mm) {
      x = 0;
      y += kLegendLineMm;
    }
    legend.places.push_back({x, y});
    x += width + kItemGapMm;
  }
  legend.height = items.empty() ? 0 : y + kLegendLineMm;
  legend.items = std::move(items);
  return legend;
}

void draw_legend(Svg& svg, const Legend& legend, double top) {
  for (std::size_t i = 0; i < legend.items.size(); ++i) {
    const Point at = {legend.places[i].x, legend.places[i].y + top};
    legend.items[i].draw(svg, {at.x, at.y + 0.4, kSample.width, kSample.height});
    svg.text({at.x + kSample.width + kSampleGapMm, at.y + 2.5}, legend.items[i].words, {kNotePoints});
  }
}

}  // namespace sherd::figure
