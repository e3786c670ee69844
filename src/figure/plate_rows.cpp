#include "figure/plate_rows.h"

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <optional>

namespace sherd::figure {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr double kTouch = 1e-9;
constexpr double kStackedMm = 2.5;         // what it must save at least to put one drawing under another
constexpr std::size_t kHeightsTried = 24;  // heights of the drawings that come next
// How many mm of height a row that is half empty may cost: tried from the evenest rows on.
constexpr std::array kUnevenMm{40.0, 12.0, 3.0, 0.0};

/// A row that starts with a given drawing.
struct Option {
  PlateRow row;
  double price = 0;  // its height, and a little for stacks
};

class Packer {
 public:
  Packer(const std::vector<PlateItem>& items, const PlateRoom& room) : items_(items), room_(room) {
    for (std::size_t first = 0; first < items.size(); ++first) options_.push_back(options_from(first));
  }

  std::vector<std::vector<PlateRow>> pack() const {
    std::vector<std::vector<PlateRow>> pages;
    for (std::size_t first = 0; first < items_.size();) {
      const std::size_t last = furthest(first);
      std::optional<std::vector<PlateRow>> rows;
      for (const double uneven : kUnevenMm) {
        rows = rows_between(first, last, uneven);
        if (rows) break;
      }
      pages.push_back(std::move(*rows));
      first = last;
    }
    return pages;
  }

 private:
  /// As many drawings one under the other as `height` holds.
  PlateColumn column(std::size_t first, double height) const {
    PlateColumn out{first, first + 1, items_[first].width, items_[first].height()};
    for (; out.last < items_.size(); ++out.last) {
      const double taller = out.height + room_.row_gap + items_[out.last].height();
      if (taller > height + kTouch) break;
      out.height = taller;
      out.width = std::max(out.width, items_[out.last].width);
    }
    return out;
  }

  /// The lowest row for each drawing that it may end before.
  std::map<std::size_t, Option> options_from(std::size_t first) const {
    std::map<std::size_t, Option> out;
    const std::size_t tried = std::min(items_.size(), first + kHeightsTried);
    for (std::size_t tallest = first; tallest < tried; ++tallest) {
      for (const bool stacked : {false, true}) add_rows(out, first, items_[tallest].height(), stacked);
    }
    return out;
  }

  void add_rows(std::map<std::size_t, Option>& out, std::size_t first, double height, bool stacked) const {
    PlateRow row{first, first, {}, 0, 0};
    double saved = 0, above = 0, below = 0;
    while (row.last < items_.size()) {
      if (items_[row.last].height() > height + kTouch) return;
      const PlateColumn next = column(row.last, stacked ? height : 0);
      const double gaps = room_.gap * static_cast<double>(row.columns.size());
      if (row.width + next.width + gaps > room_.width + kTouch) return;
      row.columns.push_back(next);
      row.width += next.width;
      // Rims on one line: what rises above it and what hangs below it, each at its most.
      above = std::max(above, items_[next.first].above);
      below = std::max(below, next.height - items_[next.first].above);
      row.height = above + below;
      row.last = next.last;
      saved += kStackedMm * static_cast<double>(next.last - next.first - 1);
      Option& known = out[row.last];
      if (known.row.columns.empty() || row.height + saved < known.price - kTouch) known = {row, row.height + saved};
    }
  }

  /// The first drawing that does not go on a page which begins with `first`.
  std::size_t furthest(std::size_t first) const {
    std::map<std::size_t, double> height{{first, -room_.row_gap}};
    std::size_t out = first;
    for (auto at = height.begin(); at != height.end(); ++at) {
      out = std::max(out, at->first);
      if (at->first >= items_.size()) continue;
      for (const auto& [last, option] : options_[at->first]) {
        const double taken = at->second + room_.row_gap + option.row.height;
        if (taken > room_.height + kTouch) continue;
        const auto [known, is_new] = height.emplace(last, taken);
        if (!is_new) known->second = std::min(known->second, taken);
      }
    }
    return out;
  }

  /// The rows with the least price that hold just these drawings; nothing where they are higher than the page.
  std::optional<std::vector<PlateRow>> rows_between(std::size_t first, std::size_t end, double uneven) const {
    struct Best {
      double price = kNever, height = 0;
      std::size_t from = 0;
    };
    std::map<std::size_t, Best> best{{first, {0, -room_.row_gap, first}}};
    for (auto at = best.begin(); at != best.end() && at->first < end; ++at) {
      for (const auto& [last, option] : options_[at->first]) {
        if (last > end) break;
        const double gaps = room_.gap * static_cast<double>(option.row.columns.size() - 1);
        const double free = std::max(0.0, 1 - (option.row.width + gaps) / room_.width);
        const double height = uneven > 0 ? option.price : option.row.height;
        const double price = at->second.price + height + uneven * 4 * free * free;
        Best& to = best[last];
        if (price < to.price - kTouch) to = {price, at->second.height + room_.row_gap + option.row.height, at->first};
      }
    }
    if (!best.contains(end) || (uneven > 0 && best[end].height > room_.height + kTouch)) return std::nullopt;
    std::vector<PlateRow> rows;
    for (std::size_t last = end; last > first; last = best[last].from) {
      rows.push_back(options_[best[last].from].at(last).row);
    }
    std::ranges::reverse(rows);
    return rows;
  }

  const std::vector<PlateItem>& items_;
  PlateRoom room_;
  std::vector<std::map<std::size_t, Option>> options_;
};

}  // namespace

std::vector<std::vector<PlateRow>> packed_rows(const std::vector<PlateItem>& items, const PlateRoom& room) {
  return Packer(items, room).pack();
}

std::vector<std::vector<double>> rim_lines(const std::vector<PlateItem>& items, const PlateRow& row, double row_gap) {
  std::size_t tiers = 0;
  for (const PlateColumn& c : row.columns) tiers = std::max(tiers, c.last - c.first);
  // The line of each tier: low enough for all columns that have it.
  std::vector<double> line(tiers, 0), end(row.columns.size(), 0);
  for (std::size_t tier = 0; tier < tiers; ++tier) {
    for (std::size_t k = 0; k < row.columns.size(); ++k) {
      const PlateColumn& c = row.columns[k];
      if (c.first + tier >= c.last) continue;
      line[tier] = std::max(line[tier], end[k] + (tier > 0 ? row_gap : 0) + items[c.first + tier].above);
    }
    for (std::size_t k = 0; k < row.columns.size(); ++k) {
      const PlateColumn& c = row.columns[k];
      if (c.first + tier < c.last) end[k] = line[tier] + items[c.first + tier].below;
    }
  }
  const double highest = *std::ranges::max_element(end);
  std::vector<std::vector<double>> out;
  for (const PlateColumn& c : row.columns) {
    std::vector<double>& lines = out.emplace_back();
    double y = 0;
    for (std::size_t i = c.first; i < c.last; ++i) {
      const bool common = highest <= row.height + 1e-6 || i == c.first;
      lines.push_back(common ? line[i - c.first] : y + row_gap + items[i].above);
      y = lines.back() + items[i].below;
    }
  }
  return out;
}

}  // namespace sherd::figure
