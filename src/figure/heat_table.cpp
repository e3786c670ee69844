#include "figure/heat_table.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/column_heads.h"
#include "figure/frame.h"
#include "figure/shapes.h"

namespace sherd::figure {
namespace {

constexpr double kNameShare = 0.26, kHeadShare = 0.16;  // of the page's width
constexpr double kNarrowestMm = 1.6, kWidestMm = 17;
constexpr double kLowestMm = 1.6, kHighestMm = 5.4;
constexpr double kTextMm = 3.4;  // a lower row has no room for its name
constexpr double kDarkest = 0.5;
constexpr double kSeamMm = 0.2;
constexpr double kKeyMm = 5;

struct Grid {
  double width = 0, name_mm = 0, n_right = 0, left = 0, top = 0, cell_w = 0, cell_h = 0, height = 0;
  std::size_t rows = 0, columns = 0;
  bool with_text = false;  // of cells: where there is room for the widest
  ColumnHeads heads;
  std::vector<std::string> notes;
};

double widest(const std::vector<HeatSide>& sides, std::string HeatSide::* part) {
  double width = 0;
  for (const HeatSide& side : sides) width = std::max(width, text_width_mm(side.*part, Face::sans, kTickPoints));
  return width;
}

std::string left_out(const char* what, const std::string& word, std::size_t shown, std::size_t all) {
  if (shown >= all) return {};
  const std::string name = word.empty() ? what : word;
  return "Shown are the first " + grouped(static_cast<long long>(shown)) + " of " +
         grouped(static_cast<long long>(all)) + " " + name + ".";
}

std::string n_heading(const HeatTableData& data) { return data.n_word.empty() ? "n" : "n (" + data.n_word + ")"; }

std::vector<std::string> notes_of(const HeatTableData& data, const Grid& grid) {
  std::vector<std::string> sentences{left_out("rows", data.rows_word, grid.rows, data.rows.size()),
                                     left_out("columns", data.columns_word, grid.columns, data.columns.size())};
  if (grid.cell_h < kTextMm) sentences.emplace_back("Rows are too low for their names, which each cell tells.");
  sentences.insert(sentences.end(), data.about.left_out.begin(), data.about.left_out.end());
  return note_lines(sentences, grid.width);
}

Grid place(const HeatTableData& data, const Page& asked) {
  const Page page = usable(asked);
  Grid grid;
  grid.width = page.width_mm;
  grid.name_mm = std::min(widest(data.rows, &HeatSide::name), grid.width * kNameShare);
  double n_mm = widest(data.rows, &HeatSide::n);
  if (n_mm > 0)  // the heading may reach back over the names, not beyond them
    n_mm = std::max(n_mm, text_width_mm(n_heading(data), Face::sans, kNotePoints) - grid.name_mm - 1.9);
  grid.n_right = grid.name_mm + (n_mm > 0 ? 2 + n_mm : 0);
  grid.left = grid.n_right + 2;
  const double room = grid.width - grid.left - 0.7;  // a turned head reaches beyond a narrow last column
  grid.columns = std::min(data.columns.size(), static_cast<std::size_t>(room / kNarrowestMm));
  grid.cell_w = std::min(kWidestMm, room / static_cast<double>(std::max<std::size_t>(grid.columns, 1)));
  std::vector<ColumnHead> heads;
  for (std::size_t j = 0; j < grid.columns; ++j)
    heads.push_back({grid.left + (static_cast<double>(j) + 0.5) * grid.cell_w, grid.cell_w, data.columns[j].name});
  grid.heads = place_heads(std::move(heads), std::max(20.0, grid.width * kHeadShare));
  grid.top =
      (data.key_high.empty() ? 0 : kKeyMm) + (data.title.empty() ? 0 : line_mm(kNotePoints) + 1) + grid.heads.height;
  const double height = page.max_height_mm - grid.top - 18;
  grid.cell_h = std::clamp(height / static_cast<double>(data.rows.size()), kLowestMm,
                           std::min(kHighestMm, std::max(kTextMm + 0.2, grid.cell_w)));
  grid.rows = std::min(data.rows.size(), static_cast<std::size_t>(height / grid.cell_h));
  double text = 0;
  for (std::size_t i = 0; i < grid.rows; ++i) {
    for (std::size_t j = 0; j < std::min(grid.columns, data.cells[i].size()); ++j)
      text = std::max(text, text_width_mm(data.cells[i][j].text, Face::sans, kTickPoints));
  }
  grid.with_text = text <= grid.cell_w - 0.6 && grid.cell_h >= kTextMm - 0.2;
  grid.notes = notes_of(data, grid);
  grid.height = grid.top + grid.cell_h * static_cast<double>(grid.rows) + 1 + notes_mm(grid.notes);
  return grid;
}

double opacity_of(double shade) { return kDarkest * std::min(std::abs(shade), 1.0); }

void draw_shade(Svg& svg, const Box& box, double shade) {
  if (!std::isfinite(shade) || opacity_of(shade) < 0.005) return svg.rect(box, {Paint::plate});
  svg.rect(box, {Paint::plate});
  svg.rect(box, {shade < 0 ? Paint::terminus : Paint::mark, Paint::none, 0.25, false, false, opacity_of(shade)});
  if (shade < 0) svg.lines(hatching(box, Slope::falling, 1.6), Paint::halo, 0.25);
}

void draw_cell(Svg& svg, const HeatCell& cell, const Box& box, bool with_text) {
  svg.begin_mark(cell.words, cell.data_set);
  draw_shade(svg, {box.x, box.y, box.width - kSeamMm, box.height - kSeamMm}, cell.shade);
  const double text = text_width_mm(cell.text, Face::sans, kTickPoints);
  if (with_text && !cell.text.empty()) {
    const Point at{box.x + (box.width - kSeamMm) / 2, box.y + box.height / 2 + 0.85};
    if (cell.shade < 0 && opacity_of(cell.shade) >= 0.005)
      svg.rect({at.x - text / 2 - 0.3, at.y - 2.1, text + 0.6, 2.6},
               {Paint::plate, Paint::none, 0.25, false, false, 0.75});
    svg.text(at, cell.text, {kTickPoints, Face::sans, Paint::ink, Anchor::middle});
  }
  svg.end_mark();
}

// "less" (shades) "more".
void draw_key(Svg& svg, const HeatTableData& data, const Grid& grid) {
  if (data.key_high.empty()) return;
  constexpr double kStep = 4, kHigh = 2.6;
  const double low = text_width_mm(data.key_low, Face::sans, kTickPoints);
  const double high = text_width_mm(data.key_high, Face::sans, kTickPoints);
  const double steps = std::min(7 * kStep, grid.width - low - high - 3);
  double x = std::max(0.0, std::min(grid.left, grid.width - low - high - 3 - steps));
  svg.text({x, 2.7}, data.key_low, {kTickPoints, Face::sans, Paint::quiet});
  x += low + 1.2;
  for (int k = 0; k < 7; ++k) {
    const double shade = data.two_ways ? (k - 3) / 3.0 : k / 6.0;
    draw_shade(svg, {x + k * steps / 7, 0.4, steps / 7 - kSeamMm, kHigh}, shade);
  }
  svg.text({x + steps + 1.2, 2.7}, data.key_high, {kTickPoints, Face::sans, Paint::quiet});
}

void draw_row_name(Svg& svg, const HeatTableData& data, const Grid& grid, std::size_t i, double y) {
  if (grid.cell_h < kTextMm) return;
  const HeatSide& row = data.rows[i];
  const double base = y + grid.cell_h / 2 + 0.85;
  const std::string name = fitted(row.name, Face::sans, kTickPoints, grid.name_mm + 0.01);
  const bool opens = !row.data_set.empty();
  if (opens) svg.begin_mark(row.name + (row.n.empty() ? "" : ", n " + row.n), row.data_set);
  svg.text({0, base}, name, {kTickPoints}, name == row.name ? "" : row.name);
  svg.text({grid.n_right, base}, row.n, {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
  if (opens) svg.end_mark();
}

}  // namespace

std::string heat_table(const HeatTableData& data, const Page& page) {
  if (data.rows.empty() || data.columns.empty()) return empty_figure(data.about, page, data.nothing);
  const Grid grid = place(data, page);
  Svg svg;
  draw_key(svg, data, grid);
  const double above = grid.top - grid.heads.height;
  if (!data.title.empty()) {
    const std::string title = fitted(data.title, Face::sans_strong, kNotePoints, grid.width - grid.left);
    svg.text({grid.left, above - 1.4}, title, {kNotePoints, Face::sans_strong});
    const std::string n = fitted(n_heading(data), Face::sans, kNotePoints, grid.n_right);
    if (grid.n_right > grid.name_mm)
      svg.text({grid.n_right, grid.top - 1}, n, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  }
  draw_heads(svg, grid.heads, grid.top);
  for (std::size_t i = 0; i < grid.rows; ++i) {
    const double y = grid.top + static_cast<double>(i) * grid.cell_h;
    draw_row_name(svg, data, grid, i, y);
    for (std::size_t j = 0; j < grid.columns && j < data.cells[i].size(); ++j)
      draw_cell(svg, data.cells[i][j], {grid.left + static_cast<double>(j) * grid.cell_w, y, grid.cell_w, grid.cell_h},
                grid.with_text);
  }
  draw_notes(svg, grid.notes, grid.height - notes_mm(grid.notes));
  return svg.finish(grid.width, grid.height, data.about.title);
}

}  // namespace sherd::figure
