#include "desk/assemblage/compare_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/assemblage/field_words.h"
#include "figure/axis_dates.h"
#include "figure/battleship.h"
#include "figure/heat_table.h"
#include "figure/words.h"
#include "figure/xy.h"

namespace sherd::desk {

namespace {

std::string place_text(const compare::Placing& one) {
  const std::string low = fmt::format("{:.0f}", one.low95), high = fmt::format("{:.0f}", one.high95);
  return low == high ? low : low + " to " + high;
}

constexpr std::size_t kMostRings = 30;

/// A ring is drawn where it does not make the points small.
bool is_of_size(const compare::Ellipse& ellipse, double span) { return ellipse.major <= 0.6 * span; }

double span_of(const compare::Ordination& found) {
  double low = 0, high = 0;
  for (const auto* list : {&found.rows, &found.columns}) {
    for (const compare::Point& point : *list) {
      for (std::size_t k = 0; k < std::min<std::size_t>(2, point.principal.size()); ++k) {
        low = std::min(low, point.principal[k]);
        high = std::max(high, point.principal[k]);
      }
    }
  }
  return high - low;
}

class Map {
 public:
  Map(const compare::Ordination& found, const FigureWords& words)
      : found_(found), words_(words), span_(span_of(found)) {}

  figure::XyData draw(figure::About about) {
    data_.about = std::move(about);
    data_.x_title = axis_title(0);
    data_.y_title = found_.eigenvalues.size() > 1 ? axis_title(1) : "";
    data_.same_scale = true;
    data_.axes_through_zero = true;
    add(found_.columns, true, false);  // the names of types come first: they are what the axes are read by
    add(found_.rows, false, false);
    add(found_.supplementary_rows, false, true);
    add(found_.supplementary_columns, true, true);
    data_.legend.push_back({words_.rows, 0, figure::Symbol::dot, false});
    data_.legend.push_back({words_.columns, 1, figure::Symbol::triangle, false});
    if (!found_.supplementary_rows.empty())
      data_.legend.push_back({words_.rows + " beside", 0, figure::Symbol::dot, true});
    if (!found_.supplementary_columns.empty())
      data_.legend.push_back({words_.columns + " beside", 1, figure::Symbol::triangle, true});
    say_rings();
    if (!found_.arch_note.empty()) data_.about.left_out.insert(data_.about.left_out.begin(), found_.arch_note);
    return std::move(data_);
  }

 private:
  std::string axis_title(std::size_t k) const {
    if (k >= found_.inertia_shares.size()) return "";
    return fmt::format("Axis {} ({:.1f} % of the inertia)", k + 1, 100 * found_.inertia_shares[k]);
  }

  void add(const std::vector<compare::Point>& points, bool column, bool beside) {
    std::vector<const compare::Point*> order;
    for (const compare::Point& point : points) order.push_back(&point);
    std::ranges::stable_sort(order, std::greater{}, [](const compare::Point* point) { return point->mass; });
    for (const compare::Point* point : order) {
      const auto at = [&](const std::vector<double>& values, std::size_t k) {
        return k < values.size() ? values[k] : 0.0;
      };
      figure::XyPoint mark{.label = point->label, .x = at(point->principal, 0), .y = at(point->principal, 1)};
      mark.colour = column ? 1 : 0;
      mark.symbol = column ? figure::Symbol::triangle : figure::Symbol::dot;
      mark.hollow = beside;
      mark.words = fmt::format("{:.2f}, {:.2f}; these two axes show {:.0f} % of it", mark.x, mark.y,
                               100 * (at(point->quality, 0) + at(point->quality, 1)));
      if (!beside) mark.words += fmt::format("; {:.1f} % of all", 100 * point->mass);
      mark.data_set = column ? words_.records.column(point->label) : words_.records.row(point->label);
      add_ring(*point, points.size(), mark);
      data_.points.push_back(std::move(mark));
    }
  }

  void add_ring(const compare::Point& point, std::size_t points, figure::XyPoint& mark) {
    if (!point.ellipse) return;
    if (points > kMostRings) {
      too_many_ = true;
      return;
    }
    if (!is_of_size(*point.ellipse, span_)) {
      wide_.push_back(point.label);
      return;
    }
    const compare::Ellipse& e = *point.ellipse;
    mark.ring = figure::Ring{e.centre[0], e.centre[1], e.major, e.minor, e.angle_degrees};
    resamples_ = std::max(resamples_, e.resamples);
  }

  void say_rings() {
    auto& notes = data_.about.left_out;
    std::vector<std::string> said;
    if (resamples_ > 0) said.push_back(fmt::format("Ellipses hold 95 of 100 of {} resamples.", grouped(resamples_)));
    if (!wide_.empty()) said.push_back("Wider than the figure, and not drawn, are those of " + join(wide_, ", ") + ".");
    if (too_many_) said.push_back(fmt::format("Ellipses of more than {} points are not drawn.", kMostRings));
    notes.insert(notes.begin(), said.begin(), said.end());
  }

  const compare::Ordination& found_;
  const FigureWords& words_;
  double span_;
  figure::XyData data_;
  std::int64_t resamples_ = 0;
  std::vector<std::string> wide_;
  bool too_many_ = false;
};

Year year_of(double historical) {
  return Year{static_cast<std::int64_t>(std::llround(historical < 0 ? historical + 1 : historical))};
}

DrawnPicture dates_picture(const CompareResponse& response, const compare::AxisDates& dates, const FigureWords& words) {
  figure::AxisDatesData data;
  const std::string title = "Dates of " + words.rows + " by regression on the axes";
  data.about = about_figure(response, words, title);
  data.about.left_out.insert(data.about.left_out.begin(), dates.note);
  data.rows_word = words.rows;
  std::vector<const compare::AxisDate*> order;
  for (const compare::AxisDate& date : dates.rows) order.push_back(&date);
  std::ranges::stable_sort(order, {}, [](const compare::AxisDate* date) { return date->year; });
  for (const compare::AxisDate* date : order) {
    figure::AxisDateRow row{date->label, year_of(date->year), year_of(date->low95), year_of(date->high95)};
    if (date->given) row.given = year_of(*date->given);
    row.data_set = words.records.row(date->label);
    data.rows.push_back(std::move(row));
  }
  return {"dates", title, figure::axis_dates(data, words.page)};
}

}  // namespace

FigureWords figure_words(const CompareRequest& request, const CompareResponse& response, std::string row_field,
                         std::string column_field, RecordFilter records) {
  FigureWords words;
  words.rows = plural_of(row_field, "rows");
  words.columns = plural_of(column_field, "columns");
  words.measure = measure_word(response.table.measure);
  words.records = std::move(records);
  words.page = {static_cast<double>(request.width.value_or(174)), 235, 0};
  return words;
}

figure::About about_figure(const CompareResponse& response, const FigureWords& words, std::string title) {
  figure::About about{std::move(title), {}};
  const ComparedTable& table = response.table;
  if (response.distance) {
    about.left_out.push_back(counted(table.rows, "place") + ".");
    about.left_out.push_back(response.caution);
    return about;
  }
  const std::string total =
      figure::number_text(table.total, table.total == std::round(table.total) ? 0 : 2) + " " + words.measure;
  const std::string columns = table.columns > 0 ? fmt::format(" by {} {}", grouped(table.columns), words.columns) : "";
  about.left_out.push_back(fmt::format("{} {}{}, {}.", grouped(table.rows), words.rows, columns, total));
  const auto left = [&](std::int64_t lines, const char* what) {
    if (lines > 0) about.left_out.push_back(fmt::format("Left out: {} {}.", counted(lines, "line"), what));
  };
  left(table.doubtful_lines, "that are doubtful");
  left(table.unchecked_lines, "that nobody has checked");
  left(table.blank_lines, "without one of the fields");
  const auto empty = [&](const std::vector<std::string>& names, const char* what) {
    if (!names.empty())
      about.left_out.push_back(fmt::format("Left out: {} that {}.", counted(static_cast<long long>(names.size()), what),
                                           names.size() == 1 ? "is empty" : "are empty"));
  };
  empty(table.empty_rows, "row");
  empty(table.empty_columns, "column");
  if (!table.merged.empty()) about.left_out.push_back("Counted as one: " + join(table.merged, "; ") + ".");
  about.left_out.push_back(response.caution);
  return about;
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Ordination& found,
                                      const FigureWords& words) {
  const std::string title = "Ordination of " + words.rows + " by " + words.columns;
  std::vector<DrawnPicture> out{
      {"map", title, figure::xy(Map(found, words).draw(about_figure(response, words, title)), words.page)}};
  if (found.dates) out.push_back(dates_picture(response, *found.dates, words));
  return out;
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Similarity& found,
                                      const FigureWords& words) {
  figure::HeatTableData data;
  const std::string title = "Similarity of " + words.rows + " by " + words.columns;
  data.about = about_figure(response, words, title);
  data.title = "Similarity: 200 less the differences in percent";
  data.rows_word = data.columns_word = words.rows;
  data.key_low = "0, nothing in common";
  data.key_high = "200, the same";
  bool any_doubt = false;
  constexpr std::size_t kMostCells = 260;  // on a side: no page has room for more
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    const std::string set = words.records.row(found.labels[i]);
    data.rows.push_back({found.labels[i], "", set});
    data.columns.push_back({found.labels[i], "", set});
    if (i >= kMostCells) continue;
    auto& cells = data.cells.emplace_back();
    for (std::size_t j = 0; j < std::min(kMostCells, found.labels.size()); ++j) {
      const bool doubt = i != j && found.p[i][j] && *found.p[i][j] > 0.05;
      any_doubt = any_doubt || doubt;
      figure::HeatCell cell{found.matrix[i][j] / 200, fmt::format("{:.0f}{}", found.matrix[i][j], doubt ? "?" : ""), "",
                            set};
      cell.words = fmt::format("{} and {}: {:.1f} of 200", found.labels[i], found.labels[j], found.matrix[i][j]);
      if (found.p[i][j] && i != j) cell.words += fmt::format(", p {:.3f}", *found.p[i][j]);
      cells.push_back(std::move(cell));
    }
  }
  if (any_doubt)
    data.about.left_out.insert(data.about.left_out.begin(),
                               "?: samples of one population are so unlike in more than 1 of 20 draws.");
  return {{"heat", title, figure::heat_table(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const compare::Ordering& found,
                                      const FigureWords& words) {
  figure::BattleshipData data;
  const std::string title = "Order of " + words.rows + " by " + words.columns;
  data.about = about_figure(response, words, title);
  data.rows_word = words.rows;
  data.types_word = words.columns;
  data.n_word = words.measure;
  data.types = found.types;
  std::vector<std::string> by_axis;
  for (const compare::Placing& one : found.stability) by_axis.push_back(one.label);
  const bool same = by_axis == found.order;
  for (std::size_t i = 0; i < found.bars.size(); ++i) {
    const compare::Bars& bars = found.bars[i];
    figure::BattleshipRow row{bars.label,
                              figure::number_text(bars.total, bars.total == std::round(bars.total) ? 0 : 2)};
    if (same) row.place = place_text(found.stability[i]);
    row.percent = bars.percent;
    for (const std::string& type : found.types) row.data_sets.push_back(words.records.cell(bars.label, type));
    row.data_set = words.records.row(bars.label);
    data.rows.push_back(std::move(row));
  }
  std::vector<std::string> said{fmt::format("In the order found by {}: {} of {} possible events against it.",
                                            found.method, grouped(found.anti_robinson_events),
                                            grouped(found.events_possible))};
  if (same)
    said.push_back(fmt::format("Place: where 95 of 100 of {} resamples put the row.", grouped(found.resamples)));
  if (!same && found.agreement)
    said.push_back(fmt::format("Orders by axis of {} resamples agree with one another at Kendall's tau {:.2f}.",
                               grouped(found.resamples), *found.agreement));
  data.about.left_out.insert(data.about.left_out.begin(), said.begin(), said.end());
  return {{"battleship", title, figure::battleship(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const CompareResponse& response, const FigureWords& words) {
  std::vector<DrawnPicture> out;
  ComparisonResult::each([&](auto member) {
    if (const auto& found = response.*member) out = pictures_of(response, *found, words);
  });
  return out;
}

}  // namespace sherd::desk
