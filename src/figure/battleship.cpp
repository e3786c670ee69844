#include "figure/battleship.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/column_heads.h"
#include "figure/frame.h"
#include "figure/scale.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kNameShare = 0.22;
constexpr double kGapMm = 1.6;    // between the widest bars of neighbours
constexpr double kLeastMm = 1.4;  // a type's column
constexpr double kLowestMm = 0.9, kHighestMm = 5.6, kTextMm = 3.3;
constexpr double kScaleMm = 6;
constexpr std::size_t kMostTypes = 40;

double share_of(const BattleshipRow& row, std::size_t type) {
  const double percent = type < row.percent.size() ? row.percent[type] : 0;
  return percent > 0 && percent <= 100.5 ? percent : 0;
}

struct Column {
  std::size_t type = 0;
  double most = 0, middle = 0, width = 0;
};

struct Fleet {
  double width = 0, name_mm = 0, n_right = 0, left = 0, right = 0, top = 0, row_mm = 0, height = 0, mm_a_percent = 0;
  std::size_t rows = 0;
  double place_mm = 0;
  std::vector<Column> columns;
  ColumnHeads heads;
  std::vector<std::string> notes;
};

// The types that any row has, those of smallest shares left out where there are too many, in the order given.
std::vector<Column> chosen(const BattleshipData& data, double room, std::vector<std::string>& missing) {
  std::vector<Column> all;
  for (std::size_t t = 0; t < data.types.size(); ++t) {
    Column column{.type = t};
    for (const BattleshipRow& row : data.rows) column.most = std::max(column.most, share_of(row, t));
    if (column.most > 0) all.push_back(column);
  }
  const auto most = std::min(kMostTypes, static_cast<std::size_t>(room / (kLeastMm + kGapMm)));
  if (all.size() <= most) return all;
  std::vector<Column> by_size = all;
  std::ranges::stable_sort(by_size, std::greater{}, &Column::most);
  const double least = by_size[most - 1].most;
  std::size_t kept = 0;
  std::vector<Column> out;
  for (const Column& column : all) {
    const bool keeps = column.most > least || (column.most == least && kept < most);
    if (keeps && out.size() < most) {
      out.push_back(column);
      ++kept;
    } else {
      missing.push_back(data.types[column.type]);
    }
  }
  return out;
}

// As wide as the page allows, with at least `kLeastMm` for each type.
void give_widths(Fleet& fleet) {
  const double room = fleet.right - fleet.left - kGapMm * static_cast<double>(fleet.columns.size());
  double low = 0, high = room;
  for (int step = 0; step < 60; ++step) {
    const double scale = (low + high) / 2;
    double sum = 0;
    for (const Column& column : fleet.columns) sum += std::max(kLeastMm, column.most * scale);
    (sum > room ? high : low) = scale;
  }
  fleet.mm_a_percent = std::min(low, 0.6);
  double x = fleet.left;
  for (Column& column : fleet.columns) {
    column.width = std::max(kLeastMm, column.most * fleet.mm_a_percent);
    column.middle = x + kGapMm / 2 + column.width / 2;
    x += column.width + kGapMm;
  }
}

double widest(const BattleshipData& data, std::string BattleshipRow::* part) {
  double width = 0;
  for (const BattleshipRow& row : data.rows) width = std::max(width, text_width_mm(row.*part, Face::sans, kTickPoints));
  return width;
}

std::string n_heading(const BattleshipData& data) { return data.n_word.empty() ? "n" : "n (" + data.n_word + ")"; }

std::string missing_note(const BattleshipData& data, const std::vector<std::string>& missing) {
  if (missing.empty()) return {};
  constexpr std::size_t kMostNames = 12;
  const std::string word = data.types_word.empty() ? "types" : data.types_word;
  std::string note =
      grouped(static_cast<long long>(missing.size())) + " " + word +
      " of smallest shares are left out: " + join(std::span(missing).first(std::min(missing.size(), kMostNames)), ", ");
  return note + (missing.size() > kMostNames ? " and more." : ".");
}

Fleet place(const BattleshipData& data, const Page& asked) {
  const Page page = usable(asked);
  Fleet fleet;
  fleet.width = page.width_mm;
  fleet.name_mm = std::min(widest(data, &BattleshipRow::name), fleet.width * kNameShare);
  const double heading = text_width_mm(n_heading(data), Face::sans, kNotePoints);
  fleet.n_right = std::max(fleet.name_mm + 2 + widest(data, &BattleshipRow::n), heading + 0.1);
  fleet.left = fleet.n_right + 2;
  const double place_mm = widest(data, &BattleshipRow::place);
  fleet.place_mm = place_mm > 0 ? std::max(place_mm, text_width_mm("place", Face::sans, kNotePoints)) + 1.5 : 0;
  fleet.right = fleet.width - fleet.place_mm;
  std::vector<std::string> missing;
  fleet.columns = chosen(data, fleet.right - fleet.left, missing);
  give_widths(fleet);
  std::vector<ColumnHead> heads;
  for (const Column& column : fleet.columns)
    heads.push_back({column.middle, column.width + kGapMm, data.types[column.type]});
  fleet.heads = place_heads(std::move(heads), std::max(20.0, fleet.width * 0.16));
  fleet.top = fleet.heads.height + 1;
  const double room = page.max_height_mm - fleet.top - kScaleMm - 16;
  fleet.row_mm = std::clamp(room / static_cast<double>(data.rows.size()), kLowestMm, kHighestMm);
  fleet.rows = std::min(data.rows.size(), static_cast<std::size_t>(room / fleet.row_mm));
  std::vector<std::string> sentences{missing_note(data, missing)};
  if (fleet.rows < data.rows.size()) {
    sentences.push_back("Shown are the first " + grouped(static_cast<long long>(fleet.rows)) + " of " +
                        grouped(static_cast<long long>(data.rows.size())) + " " +
                        (data.rows_word.empty() ? "rows" : data.rows_word) + ".");
  }
  if (fleet.row_mm < kTextMm) sentences.emplace_back("Rows are too low for their names, which each bar tells.");
  sentences.insert(sentences.end(), data.about.left_out.begin(), data.about.left_out.end());
  fleet.notes = note_lines(sentences, fleet.width);
  fleet.height = fleet.top + fleet.row_mm * static_cast<double>(fleet.rows) + kScaleMm + notes_mm(fleet.notes);
  return fleet;
}

void draw_scale(Svg& svg, const Fleet& fleet, double top) {
  for (const double percent : {50.0, 25.0, 20.0, 10.0, 5.0}) {
    const double length = percent * fleet.mm_a_percent;
    if (length > 30 && percent > 5) continue;
    const double x = fleet.left + kGapMm / 2, y = top + 2;
    const std::vector<Segment> strokes{
        {{x, y}, {x + length, y}}, {{x, y - 0.9}, {x, y + 0.9}}, {{x + length, y - 0.9}, {x + length, y + 0.9}}};
    svg.lines(strokes, Paint::ink_line, 0.3);
    svg.text({x + length + 1.5, y + 0.9}, number_text(percent, 0) + " % of the row",
             {kNotePoints, Face::sans, Paint::quiet});
    return;
  }
}

void draw_row(Svg& svg, const BattleshipData& data, const Fleet& fleet, std::size_t i) {
  const BattleshipRow& row = data.rows[i];
  const double y = fleet.top + static_cast<double>(i) * fleet.row_mm, base = y + fleet.row_mm / 2 + 0.85;
  if (fleet.row_mm >= kTextMm) {
    const std::string name = fitted(row.name, Face::sans, kTickPoints, fleet.name_mm + 0.01);
    if (!row.data_set.empty()) svg.begin_mark(row.name + ", n " + row.n, row.data_set);
    svg.text({0, base}, name, {kTickPoints}, name == row.name ? "" : row.name);
    svg.text({fleet.n_right, base}, row.n, {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
    if (!row.data_set.empty()) svg.end_mark();
    svg.text({fleet.width, base}, row.place, {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
  }
  for (const Column& column : fleet.columns) {
    const double percent = share_of(row, column.type);
    if (!(percent > 0)) continue;
    const double width = std::max(percent * fleet.mm_a_percent, 0.3);
    svg.begin_mark(row.name + ", " + data.types[column.type] + ": " +
                       (percent < 0.1 ? "under 0.1" : number_text(percent, 1)) + " %",
                   column.type < row.data_sets.size() ? row.data_sets[column.type] : "");
    svg.rect({column.middle - width / 2, y + 0.15, width, std::max(fleet.row_mm - 0.3, 0.8)}, {Paint::mark});
    svg.end_mark();
  }
}

}  // namespace

std::string battleship(const BattleshipData& data, const Page& page) {
  const bool any = std::ranges::any_of(data.rows, [](const BattleshipRow& row) {
    return std::ranges::any_of(row.percent, [](double percent) { return percent > 0; });
  });
  if (!any) return empty_figure(data.about, page);
  const Fleet fleet = place(data, page);
  Svg svg;
  draw_heads(svg, fleet.heads, fleet.top - 0.5);
  const double bottom = fleet.top + static_cast<double>(fleet.rows) * fleet.row_mm;
  std::vector<Segment> middles;
  for (const Column& column : fleet.columns) middles.push_back({{column.middle, fleet.top}, {column.middle, bottom}});
  svg.lines(middles, Paint::rule, 0.25);
  if (fleet.row_mm >= kTextMm) {
    const std::string n = fitted(n_heading(data), Face::sans, kNotePoints, fleet.n_right);
    svg.text({fleet.n_right, fleet.top - 1.5}, n, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
    if (fleet.place_mm > 0)
      svg.text({fleet.width, fleet.top - 1.5}, "place", {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  }
  for (std::size_t i = 0; i < fleet.rows; ++i) draw_row(svg, data, fleet, i);
  draw_scale(svg, fleet, bottom + 1);
  draw_notes(svg, fleet.notes, fleet.height - notes_mm(fleet.notes));
  return svg.finish(fleet.width, fleet.height, data.about.title);
}

}  // namespace sherd::figure
