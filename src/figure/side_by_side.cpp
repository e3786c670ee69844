#include "figure/side_by_side.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "figure/axis.h"
#include "figure/rows.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kBarMm = 2.8, kGapMm = 3, kValueGapMm = 0.9, kNoteMm = 2.9, kNoteInMm = 0.7;
constexpr double kLargest = 1e100;
constexpr std::string_view kNotRecorded = "not recorded";

std::optional<double> drawable(const SideBySideRow& row, std::size_t column) {
  if (column >= row.cells.size()) return std::nullopt;
  const auto& value = row.cells[column].value;
  return value && *value >= 0 && *value <= kLargest ? value : std::nullopt;
}

RowsRequest request_of(const SideBySideData& data, const Page& page) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.axis_title = data.title;
  request.ticks_above = true;  // room for the heads of the columns
  bool notes = false;
  for (const SideBySideRow& row : data.rows) {
    request.rows.push_back({"", row.name, ""});
    notes = notes || std::ranges::any_of(row.cells, [](const SideBySideCell& cell) { return !cell.note.empty(); });
  }
  request.mark_mm = kBarMm + (notes ? kNoteMm : 0);
  return request;
}

/// Where the columns lie and how long a value is.
struct Columns {
  double left = 0, width = 0, mm_a_unit = 0;
  double at(std::size_t column) const { return left + static_cast<double>(column) * (width + kGapMm); }
};

Columns columns_of(const SideBySideData& data, const RowFrame& frame) {
  Columns out{.left = frame.plot_left};
  const auto n = static_cast<double>(data.columns.size());
  out.width = (frame.width - frame.plot_left - kGapMm * (n - 1)) / n;
  double most = 0, label = 0;
  for (const SideBySideRow& row : data.rows) {
    for (std::size_t j = 0; j < data.columns.size(); ++j) {
      const auto value = drawable(row, j);
      if (!value) continue;
      most = std::max(most, *value);
      label = std::max(label, text_width_mm(number_text(*value, data.decimals), Face::sans, kNotePoints));
    }
  }
  out.mm_a_unit = most > 0 ? std::max(out.width - label - kValueGapMm, 2.0) / most : 0;
  return out;
}

void draw_cell(Svg& svg, const SideBySideData& data, const SideBySideRow& row, std::size_t column, const Box& box,
               double mm_a_unit) {
  const auto value = drawable(row, column);
  const std::string note = value && column < row.cells.size() ? row.cells[column].note : "";
  const std::string number = value ? number_text(*value, data.decimals) : "";
  svg.begin_mark(row.name + ", " + data.columns[column] + ": " +
                     (value ? with_unit(number, data.unit) : std::string(kNotRecorded)) +
                     (note.empty() ? "" : " (" + note + ")"),
                 row.data_set);
  if (value) {
    const double length = std::max(*value * mm_a_unit, *value > 0 ? 0.2 : 0.0);
    if (length > 0) svg.rect({box.x, box.y, length, kBarMm}, {Paint::mark});
    svg.text({box.x + length + kValueGapMm, box.y + kBarMm - 0.5}, number, {kNotePoints});
    if (!note.empty())
      svg.text({box.x + kNoteInMm, box.y + kBarMm + kNoteMm - 0.4},
               fitted(note, Face::sans, kNotePoints, box.width + kGapMm / 2), {kNotePoints, Face::sans, Paint::quiet});
  } else {
    const bool has_room = text_width_mm(kNotRecorded, Face::sans, kNotePoints) <= box.width;
    svg.text({box.x + kNoteInMm, box.y + kBarMm - 0.5}, has_room ? kNotRecorded : "\u2013",
             {kNotePoints, Face::sans, Paint::quiet}, has_room ? "" : kNotRecorded);
  }
  svg.end_mark();
}

}  // namespace

std::string side_by_side(const SideBySideData& data, const Page& page) {
  if (data.rows.empty() || data.columns.empty()) return empty_figure(data.about, page);
  const RowsRequest request = request_of(data, page);
  const RowFrame frame = place_rows(request);
  const Columns columns = columns_of(data, frame);
  Svg svg;
  draw_frame(svg, request, frame);
  for (std::size_t j = 0; j < data.columns.size(); ++j) {
    const std::string head = fitted(data.columns[j], Face::sans_strong, kNotePoints, columns.width + kGapMm / 2);
    svg.text({columns.at(j), frame.plot_top - 1.2}, head, {kNotePoints, Face::sans_strong},
             head == data.columns[j] ? "" : data.columns[j]);
    for (const PlacedRow& row : frame.rows) {
      const Box box{columns.at(j), row.middle() - request.mark_mm / 2, columns.width, request.mark_mm};
      draw_cell(svg, data, data.rows[row.index], j, box, columns.mm_a_unit);
    }
    svg.line({columns.at(j), frame.plot_top}, {columns.at(j), frame.plot_bottom}, Paint::axis, 0.25);
  }
  return svg.finish(frame.width, frame.height, data.about.title);
}

}  // namespace sherd::figure
