#include "calibration_figure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "figure/frame.h"
#include "figure/svg.h"

namespace sherd::stratigraphy {
namespace {

using namespace figure;

constexpr double kWidth = 174, kEdge = 1.5, kGap = 7, kPlot = 34, kAxis = 9, kNumbers = 8;
constexpr std::size_t kTenths = 10;
/// Two-sided 99 % point of the normal distribution.
constexpr double kNormal99 = 2.576;

std::array<double, kTenths> tenths_of(const std::vector<double>& ranks) {
  std::array<double, kTenths> out{};
  for (const double rank : ranks) ++out[std::min<std::size_t>(kTenths - 1, static_cast<std::size_t>(rank * kTenths))];
  return out;
}

/// One histogram in its box; counts go up from the box's lower edge.
void draw_histogram(Svg& svg, const RankRow& row, const Box& box) {
  const auto counts = tenths_of(row.ranks);
  const auto n = static_cast<double>(row.ranks.size());
  const double expected = n / kTenths;
  const double reach = kNormal99 * std::sqrt(n * 0.1 * 0.9);
  const double most = 1.08 * std::max(*std::ranges::max_element(counts), expected + reach);
  const auto y = [&](double count) { return box.bottom() - count / most * box.height; };
  const double step = box.width / kTenths;
  svg.text({box.x, box.y - 2.2}, row.name, {kNamePoints});
  for (std::size_t i = 0; i < kTenths; ++i) {
    const double x = box.x + static_cast<double>(i) * step;
    svg.rect({x + 0.25, y(counts[i]), step - 0.5, box.bottom() - y(counts[i])}, {Paint::mark});
  }
  for (const double limit : {expected - reach, expected + reach}) {
    std::vector<Segment> dashes;
    for (double x = box.x; x < box.right(); x += 1.8)
      dashes.push_back({{x, y(limit)}, {std::min(x + 1, box.right()), y(limit)}});
    svg.lines(dashes, Paint::ink_line, 0.2);
  }
  svg.line({box.x, y(expected)}, {box.right(), y(expected)}, Paint::ink_line, 0.35);
  svg.line({box.x, box.bottom()}, {box.right(), box.bottom()}, Paint::axis, 0.25);
  svg.text({box.x - 1, y(expected) + 0.9}, fmt::format("{:.0f}", expected),
           {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  svg.text({box.x - 1, box.bottom() + 0.5}, "0", {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  for (const auto& [words, at] : {std::pair{"0", 0.0}, std::pair{"½", 0.5}, std::pair{"1", 1.0}})
    svg.text({box.x + at * box.width, box.bottom() + 3.4}, words,
             {kNotePoints, Face::sans, Paint::quiet, Anchor::middle});
}

}  // namespace

std::string calibration_figure(const std::vector<RankRow>& rows) {
  const auto n = static_cast<double>(std::max<std::size_t>(1, rows.size()));
  const double each = (kWidth - 2 * kEdge - (n - 1) * kGap) / n;
  const std::vector<std::string> notes =
      note_lines({"How many of the true dates lie in each tenth of the draws.",
                  "Line: the number expected of each; dashed: the limits within which 99 of 100 tenths stay."},
                 kWidth - 2 * kEdge);
  const double top = 7;
  const double height = top + kPlot + kAxis + notes_mm(notes) + 1;
  Svg svg;
  svg.rect({0, 0, kWidth, height}, {Paint::plate});
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double left = kEdge + static_cast<double>(i) * (each + kGap);
    draw_histogram(svg, rows[i], {left + kNumbers, top, each - kNumbers, kPlot});
  }
  draw_notes(svg, notes, top + kPlot + kAxis);
  return svg.finish(kWidth, height, "Calibration of the dates in sequence");
}

}  // namespace sherd::stratigraphy
