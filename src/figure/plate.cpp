#include "figure/plate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "figure/frame.h"
#include "figure/plate_rows.h"

namespace sherd::figure {
namespace {

constexpr double kCaptionPoints = 9;
constexpr double kCaptionGapMm = 2.5;  // between scale bar and caption
constexpr double kFootGapMm = 4;       // between drawings and scale bar
constexpr double kWidestGapMm = 14;    // of a row whose drawings do not fill it
constexpr double kWidestRowGapMm = 11;
constexpr double kNarrowestMm = 60, kLowestMm = 60;

class Plater {
 public:
  Plater(const std::vector<VesselDrawing>& drawings, const PlateSettings& settings) : settings_(settings) {
    settings_.width_mm = std::max(settings.width_mm, kNarrowestMm);
    settings_.height_mm = std::max(settings.height_mm, kLowestMm);
    if (!(settings_.drawing.scale > 0)) settings_.drawing.scale = 4;
    const double room = settings_.height_mm - foot_mm();
    for (std::size_t i = 0; i < drawings.size(); ++i) {
      DrawnVessel vessel(drawings[i], settings_.drawing);
      const VesselExtent& e = vessel.extent();
      if (e.width() > settings_.width_mm || e.height() > room) {
        out_.too_large.push_back(i);
        const double least = std::max(e.width() / settings_.width_mm, e.height() / room);
        out_.scale_that_fits = std::max(out_.scale_that_fits, std::ceil(settings_.drawing.scale * least));
        continue;
      }
      which_.push_back(i);
      vessels_.push_back(std::move(vessel));
    }
  }

  Plates make() {
    for (const DrawnVessel& v : vessels_) items_.push_back({v.extent().width(), v.extent().above, v.extent().below});
    const std::vector<std::vector<PlateRow>> pages = packed_rows(
        items_, {settings_.width_mm, settings_.height_mm - foot_mm(), settings_.gap_mm, settings_.row_gap_mm});
    for (std::size_t page = 0; page < pages.size(); ++page) draw_page(pages[page], page);
    return std::move(out_);
  }

 private:
  std::string caption(std::size_t page) const {
    std::string out;
    if (settings_.first_figure > 0) out = fmt::format("Fig. {}. ", settings_.first_figure + static_cast<int>(page));
    out += settings_.caption;
    if (page > 0 && !settings_.caption.empty()) out += " (continued)";
    if (!out.empty() && !out.ends_with('.') && !out.ends_with(' ')) out += '.';
    if (!out.empty() && !out.ends_with(' ')) out += ' ';
    return out + "Scale " + scale_text(settings_.drawing.scale) + ".";
  }
  std::vector<std::string> caption_lines(std::size_t page) const {
    return wrapped(caption(page), Face::serif, kCaptionPoints, settings_.width_mm, 6);
  }
  /// What scale bar and caption take at the foot, the longest caption reckoned.
  double foot_mm() const {
    const double lines = static_cast<double>(caption_lines(1).size());
    return kFootGapMm + ScaleBar::kHeightMm + kCaptionGapMm + lines * line_mm(kCaptionPoints);
  }

  void draw_page(const std::vector<PlateRow>& rows, std::size_t page) {
    Svg svg;
    double taken = 0;
    for (const PlateRow& row : rows) taken += row.height;
    const auto gaps = static_cast<double>(rows.size() - 1);
    const double room = settings_.height_mm - foot_mm();
    const double gap = gaps > 0 ? std::clamp((room - taken) / gaps, settings_.row_gap_mm, kWidestRowGapMm) : 0;
    double y = 0;
    std::vector<std::size_t>& shown = out_.shown.emplace_back();
    for (const PlateRow& row : rows) {
      draw_row(svg, row, y);
      for (std::size_t i = row.first; i < row.last; ++i) shown.push_back(which_[i]);
      y += row.height + gap;
    }
    draw_foot(svg, page);
    out_.pages.push_back(svg.finish(settings_.width_mm, settings_.height_mm, caption(page)));
  }

  /// Equal gaps; a row that is far from full stands in the middle.
  void draw_row(Svg& svg, const PlateRow& row, double top) {
    const auto n = static_cast<double>(row.columns.size());
    const double free = settings_.width_mm - row.width;
    const double gap = n > 1 ? std::clamp(free / (n - 1), 0.0, std::max(kWidestGapMm, settings_.gap_mm)) : 0;
    const std::vector<std::vector<double>> lines = rim_lines(items_, row, settings_.row_gap_mm);
    double x = std::max(0.0, (free - gap * (n - 1)) / 2);
    for (std::size_t k = 0; k < row.columns.size(); ++k) {
      const PlateColumn& column = row.columns[k];
      for (std::size_t i = column.first; i < column.last; ++i) {
        const VesselExtent& e = vessels_[i].extent();
        const double aside = (column.width - e.width()) / 2;
        vessels_[i].draw(svg, {x + aside + e.left, top + lines[k][i - column.first]});
      }
      x += column.width + gap;
    }
  }

  void draw_foot(Svg& svg, std::size_t page) {
    const std::vector<std::string> lines = caption_lines(page);
    const double line = line_mm(kCaptionPoints);
    double y = settings_.height_mm - static_cast<double>(lines.size()) * line;
    const ScaleBar bar(settings_.drawing.scale);
    bar.draw(svg, {(settings_.width_mm - bar.width_mm()) / 2, y - kCaptionGapMm - ScaleBar::kHeightMm});
    for (const std::string& text : lines) {
      y += line;
      svg.text({0, y - 1}, text, {kCaptionPoints, Face::serif});
    }
  }

  PlateSettings settings_;
  std::vector<DrawnVessel> vessels_;
  std::vector<PlateItem> items_;
  std::vector<std::size_t> which_;
  Plates out_;
};

}  // namespace

Plates plates(const std::vector<VesselDrawing>& drawings, const PlateSettings& settings) {
  return Plater(drawings, settings).make();
}

}  // namespace sherd::figure
