#include "figure/date_curve.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/frame.h"
#include "figure/words.h"
#include "figure/year_rows.h"

namespace sherd::figure {
namespace {

constexpr double kOnePanelMm = 36, kPanelMm = 17;  // height of the plot of one panel, alone or among others
constexpr double kHeaderMm = 4.4;                  // name above a panel
constexpr double kGapMm = 2.4;                     // beneath a panel
constexpr double kColumnGapMm = 6;
constexpr double kTwoColumnsMm = 150;  // pages from this width on set small multiples in two columns
constexpr double kTitleMm = 3;         // of the axis of years, beneath its labels
constexpr double kAxisGapMm = 1.2;
constexpr std::int64_t kUnequalYears = 10;
constexpr double kLargest = 1e100;  // beyond, sums are no longer numbers

Year end_of(const DateBin& bin) { return std::max(bin.from, bin.to); }
double amount(const DateBin& bin) { return bin.value > 0 && bin.value <= kLargest ? bin.value : 0; }
std::int64_t years_of(const DateBin& bin) { return end_of(bin).value - bin.from.value + 1; }

// The years that a height stands for: those of a bin where all are equal.
std::int64_t years_per_height(const DateCurveData& data) {
  std::int64_t years = 0;
  for (const DatePanel& panel : data.panels) {
    for (const DateBin& bin : panel.bins) {
      if (years != 0 && years != years_of(bin)) return kUnequalYears;
      years = years_of(bin);
    }
  }
  return years == 0 ? kUnequalYears : years;
}

struct Layout {
  double width = 0, plot_width = 0;
  double label_width = 0;  // of the labels of the upward axis
  double panel_mm = 0, header_mm = 0, top = 0;
  std::size_t columns = 1, rows = 1, drawn = 0;
  std::int64_t years = 1;
  double highest = 1;
  std::vector<double> up;  // ticks
  YearSpan span;
  std::vector<std::string> title, notes;

  double height(const DateBin& bin) const {
    return amount(bin) * static_cast<double>(years) / static_cast<double>(years_of(bin));
  }
  double left(std::size_t panel) const {
    return label_width + kAxisGapMm +
           static_cast<double>(panel % columns) * (plot_width + kColumnGapMm + label_width + kAxisGapMm);
  }
  double panel_top(std::size_t panel) const {
    const std::size_t row = panel / columns;
    return top + static_cast<double>(row) * (header_mm + panel_mm + kGapMm) + header_mm;
  }
  double bottom() const { return top + static_cast<double>(rows) * (header_mm + panel_mm + kGapMm) - kGapMm; }
};

void measure_data(const DateCurveData& data, Layout& layout) {
  layout.years = years_per_height(data);
  layout.highest = 0;
  for (const DatePanel& panel : data.panels) {
    for (const DateBin& bin : panel.bins) {
      layout.highest = std::max(layout.highest, layout.height(bin));
      layout.span.add(YearRange{bin.from, end_of(bin)});
    }
  }
  if (!(layout.highest > 0)) layout.highest = 1;
  layout.up = ticks(0, layout.highest, layout.panel_mm > kPanelMm ? 6 : 4);
  for (const double tick : layout.up) {
    layout.label_width =
        std::max(layout.label_width, text_width_mm(tick_label(tick, layout.up), Face::sans, kTickPoints));
  }
}

Layout layout_of(const DateCurveData& data, const Page& page) {
  Layout layout;
  layout.width = page.width_mm;
  const bool single = data.panels.size() == 1;
  layout.panel_mm = single ? kOnePanelMm : kPanelMm;
  const bool has_header = !single || !data.panels[0].name.empty() || data.panels[0].n;
  layout.header_mm = has_header ? kHeaderMm : 0;
  layout.columns = data.panels.size() > 1 && page.width_mm >= kTwoColumnsMm ? 2 : 1;
  measure_data(data, layout);
  const auto columns = static_cast<double>(layout.columns);
  layout.plot_width =
      (layout.width - columns * (layout.label_width + kAxisGapMm) - (columns - 1) * kColumnGapMm) / columns;
  const std::string per = data.measure + " per " + counted(layout.years, "year");
  layout.title = wrapped(per, Face::sans_strong, kNotePoints, layout.width, 2);
  layout.top = static_cast<double>(layout.title.size()) * line_mm(kNotePoints) + 0.8;

  layout.notes = note_lines(data.about.left_out, layout.width);
  const double pitch = layout.header_mm + layout.panel_mm + kGapMm;
  const double room = page.max_height_mm - layout.top - 2 * kAxisMm - notes_mm(layout.notes) - 2 * line_mm(kNotePoints);
  const auto most = static_cast<std::size_t>(std::max(1.0, std::floor(room / pitch))) * layout.columns;
  layout.drawn = std::min(most, data.panels.size());
  layout.rows = (layout.drawn + layout.columns - 1) / layout.columns;
  if (layout.drawn < data.panels.size()) {
    std::vector<std::string> sentences = data.about.left_out;
    sentences.push_back("Shown: the first " + grouped(static_cast<long long>(layout.drawn)) + " of " +
                        grouped(static_cast<long long>(data.panels.size())) + " curves.");
    layout.notes = note_lines(sentences, layout.width);
  }
  return layout;
}

void draw_header(Svg& svg, const DateCurveData& data, const DatePanel& panel, double left, const Layout& layout,
                 double base) {
  std::string quiet = n_text(panel.n, data.n_word);
  if (!panel.note.empty()) quiet += (quiet.empty() ? "" : ", ") + panel.note;
  quiet = fitted(quiet, Face::sans, kNotePoints, layout.plot_width * 0.6);
  const double taken = text_width_mm(quiet, Face::sans, kNotePoints) + 2;
  const std::string name = fitted(panel.name, Face::sans_strong, kNamePoints, layout.plot_width - taken);
  svg.text({left, base}, name, {kNamePoints, Face::sans_strong}, name == panel.name ? "" : panel.name);
  svg.text({left + layout.plot_width, base}, quiet, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
}

void draw_up_axis(Svg& svg, double left, double base, const Layout& layout) {
  const LinearScale up(0, layout.highest, base, base - layout.panel_mm);
  std::vector<Segment> rules;
  for (const double tick : layout.up) {
    const double y = up.mm(tick);
    if (tick > 0) rules.push_back({{left, y}, {left + layout.plot_width, y}});
    svg.text({left - kAxisGapMm, y + 0.9}, tick_label(tick, layout.up),
             {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
  }
  svg.lines(rules, Paint::rule, 0.25);
}

// The outline of the bins as one shape, so that no seam shows between them.
void draw_shape(Svg& svg, const DatePanel& panel, const YearScale& across, const LinearScale& up,
                const Layout& layout) {
  std::vector<Point> corners;
  double x = -1;
  for (const DateBin& bin : panel.bins) {
    const double left = across.start_mm(bin.from), right = across.end_mm(end_of(bin));
    if (!corners.empty() && left > x + 1e-9) corners.insert(corners.end(), {{x, up.mm(0)}, {left, up.mm(0)}});
    if (corners.empty()) corners.push_back({left, up.mm(0)});
    const double y = up.mm(layout.height(bin));
    corners.insert(corners.end(), {{left, y}, {right, y}});
    x = right;
  }
  if (corners.empty()) return;
  corners.push_back({x, up.mm(0)});
  svg.polygon(corners, {Paint::mark});
}

void draw_bins(Svg& svg, const DateCurveData& data, const DatePanel& panel, const YearScale& across, double base,
               const Layout& layout) {
  for (const DateBin& bin : panel.bins) {
    if (!(amount(bin) > 0)) continue;
    const int decimals = amount(bin) < 10 ? 2 : 0;
    svg.begin_mark(
        range_text({bin.from, bin.to}) + ": " + number_text(amount(bin), decimals) + " " + lower(data.measure),
        bin.data_set);
    const double left = across.start_mm(bin.from);
    svg.target({left, base - layout.panel_mm, across.end_mm(end_of(bin)) - left, layout.panel_mm});
    svg.end_mark();
  }
}

void draw_panel(Svg& svg, const DateCurveData& data, std::size_t i, const Layout& layout) {
  const DatePanel& panel = data.panels[i];
  const double left = layout.left(i), base = layout.panel_top(i) + layout.panel_mm;
  const YearScale across(layout.span.first(), layout.span.last(), left, left + layout.plot_width);
  const LinearScale up(0, layout.highest, base, base - layout.panel_mm);
  if (layout.header_mm > 0) draw_header(svg, data, panel, left, layout, layout.panel_top(i) - 1.4);
  draw_up_axis(svg, left, base, layout);
  draw_shape(svg, panel, across, up, layout);
  draw_bins(svg, data, panel, across, base, layout);
  const bool any = std::ranges::any_of(panel.bins, [](const DateBin& bin) { return amount(bin) > 0; });
  if (!any) {
    svg.text({left + layout.plot_width / 2, base - layout.panel_mm / 2}, "No dated pottery",
             {kNotePoints, Face::sans, Paint::quiet, Anchor::middle, true});
  }
  svg.line({left, base}, {left + layout.plot_width, base}, Paint::axis, 0.25);
  const bool lowest = i + layout.columns >= layout.drawn;
  if (lowest) draw_labels_below(svg, year_axis(across, left - 4, left + layout.plot_width), base);
}

}  // namespace

std::string date_curve(const DateCurveData& data, const Page& page) {
  if (data.panels.empty()) return empty_figure(data.about, page);
  const Layout layout = layout_of(data, usable(page));
  if (layout.span.empty()) return empty_figure(data.about, page, "No dated pottery");
  Svg svg;
  double y = 0;
  for (const std::string& line : layout.title) {
    y += line_mm(kNotePoints);
    svg.text({0, y - 0.7}, line, {kNotePoints, Face::sans_strong});
  }
  for (std::size_t i = 0; i < layout.drawn; ++i) draw_panel(svg, data, i, layout);
  const double end = layout.bottom() + kAxisMm;
  svg.text({layout.width, end + 2.3}, year_axis_title(layout.span.first(), layout.span.last()),
           {kNotePoints, Face::sans_strong, Paint::ink, Anchor::end});
  draw_notes(svg, layout.notes, end + kTitleMm);
  return svg.finish(layout.width, end + kTitleMm + notes_mm(layout.notes), data.about.title);
}

}  // namespace sherd::figure
