#include "figure/entity_diagram.h"

#include <algorithm>
#include <cstdint>
#include <set>
#include <utility>

#include "figure/frame.h"
#include "figure/shapes.h"
#include "figure/svg.h"

namespace sherd::figure {
namespace {

constexpr double kTitlePoints = 9;
constexpr double kTitleMm = 5.4, kRowMm = 3.7, kPadMm = 1.6, kGapMm = 6;
constexpr double kLeastMm = 30;

std::string column_words(const EntityColumn& column) {
  return column.name + (column.refers.empty() ? "" : " \u2192 " + column.refers);
}

std::string others_words(const EntityTable& table) {
  if (table.others == 0) return {};
  return "and " + std::to_string(table.others) + (table.others == 1 ? " other" : " others");
}

double width_of(const EntityTable& table) {
  double width = text_width_mm(table.name, Face::sans_strong, kTitlePoints) + 3 +
                 text_width_mm(table.rows, Face::sans, kNotePoints);
  for (const EntityColumn& column : table.columns) {
    width =
        std::max(width, text_width_mm(column_words(column), column.key ? Face::sans_strong : Face::sans, kNamePoints));
  }
  return std::max(kLeastMm, width + 2 * kPadMm + 1);
}

double height_of(const EntityTable& table) {
  const std::size_t lines = table.columns.size() + (table.others > 0 ? 1 : 0);
  return kTitleMm + static_cast<double>(lines) * kRowMm + kPadMm;
}

std::size_t place_of(const EntityFigure& figure, const std::string& name) {
  const auto found = std::ranges::find(figure.tables, name, &EntityTable::name);
  return static_cast<std::size_t>(found - figure.tables.begin());
}

/// Pairs of tables, from the one that refers to the other; a table that refers to itself is no pair.
std::vector<std::pair<std::size_t, std::size_t>> pairs_of(const EntityFigure& figure) {
  std::vector<std::pair<std::size_t, std::size_t>> out;
  for (std::size_t from = 0; from < figure.tables.size(); ++from) {
    for (const EntityColumn& column : figure.tables[from].columns) {
      const std::size_t to = column.refers.empty() ? figure.tables.size() : place_of(figure, column.refers);
      const std::pair pair(from, to);
      if (to < figure.tables.size() && to != from && std::ranges::find(out, pair) == out.end()) out.push_back(pair);
    }
  }
  return out;
}

/// The tables of the drawing, and those that stand alone.
struct Parts {
  std::vector<std::size_t> joined, alone;
};
Parts parts_of(const EntityFigure& figure) {
  std::set<std::size_t> named;
  for (const auto& [from, to] : pairs_of(figure)) named.insert({from, to});
  Parts parts;
  for (std::size_t i = 0; i < figure.tables.size(); ++i) (named.contains(i) ? parts.joined : parts.alone).push_back(i);
  return parts;
}

void draw_table(Svg& svg, const EntityTable& table, const Box& box) {
  svg.rect(box, {Paint::plate, Paint::ink_line, 0.3});
  svg.line({box.x, box.y + kTitleMm}, {box.right(), box.y + kTitleMm}, Paint::ink_line, 0.2);
  const double base = box.y + kTitleMm - 1.7;
  svg.text({box.x + kPadMm, base}, table.name, {kTitlePoints, Face::sans_strong});
  svg.text({box.right() - kPadMm, base}, table.rows, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  double y = box.y + kTitleMm + kRowMm - 0.9;
  for (const EntityColumn& column : table.columns) {
    svg.text({box.x + kPadMm, y}, column_words(column), {kNamePoints, column.key ? Face::sans_strong : Face::sans});
    y += kRowMm;
  }
  if (table.others > 0) svg.text({box.x + kPadMm, y}, others_words(table), {kNotePoints, Face::sans, Paint::quiet});
}

/// The line of a reference, with its head at the table referred to.
void draw_line(Svg& svg, std::vector<Point> points) {
  if (points.size() < 2) return;
  const Point tip = points.back();
  const bool down = points[points.size() - 2].y < tip.y;
  constexpr double kLength = 2, kHalf = 0.9;
  const double back = down ? tip.y - kLength : tip.y + kLength;
  points.back().y = back;
  svg.polyline(points, Paint::ink_line, 0.25);
  const std::vector<Point> head{{tip.x, tip.y}, {tip.x - kHalf, back}, {tip.x + kHalf, back}};
  svg.polygon(head, {Paint::ink, Paint::none, 0});
}

/// Tables that stand alone, in rows of the width that there is; returns the lowest point.
double draw_alone(Svg& svg, const EntityFigure& figure, const std::vector<std::size_t>& alone, double left, double top,
                  double width) {
  double x = left, y = top, tallest = 0;
  for (const std::size_t i : alone) {
    const EntityTable& table = figure.tables[i];
    const Box size{0, 0, width_of(table), height_of(table)};
    if (x > left && x + size.width > width) {
      x = left;
      y += tallest + kGapMm;
      tallest = 0;
    }
    draw_table(svg, table, {x, y, size.width, size.height});
    x += size.width + kGapMm;
    tallest = std::max(tallest, size.height);
  }
  return y + tallest;
}

}  // namespace

layout::Drawing drawing_of(const EntityFigure& figure) {
  const Parts parts = parts_of(figure);
  layout::Drawing drawing;
  for (const std::size_t i : parts.joined) {
    drawing.nodes.push_back({width_of(figure.tables[i]), height_of(figure.tables[i]), 0, {}});
  }
  const auto number = [&](std::size_t table) {
    return static_cast<std::uint32_t>(std::ranges::find(parts.joined, table) - parts.joined.begin());
  };
  for (const auto& [from, to] : pairs_of(figure)) drawing.edges.push_back({number(from), number(to), true});
  return drawing;
}

std::string entity_diagram(const EntityFigure& figure, const layout::Placed& placed) {
  const Parts parts = parts_of(figure);
  Svg svg;
  constexpr double kRim = 0.5;
  const double width = std::max(placed.width_mm + 2 * kRim, kDoubleColumnMm);
  for (const layout::Route& route : placed.edges) {
    std::vector<Point> points;
    for (const layout::Point& p : route.points) points.push_back({p.x + kRim, p.y + kRim});
    draw_line(svg, std::move(points));
  }
  for (std::size_t i = 0; i < parts.joined.size() && i < placed.nodes.size(); ++i) {
    const layout::Box& box = placed.nodes[i];
    draw_table(svg, figure.tables[parts.joined[i]], {box.x + kRim, box.y + kRim, box.width, box.height});
  }
  double bottom = placed.height_mm + 2 * kRim;
  if (!parts.alone.empty()) bottom = draw_alone(svg, figure, parts.alone, kRim, bottom + kGapMm, width - kRim);
  const auto notes = note_lines(figure.about.left_out, width);
  draw_notes(svg, notes, bottom + 2);
  return svg.finish(width, bottom + 2 + notes_mm(notes), figure.about.title);
}

}  // namespace sherd::figure
