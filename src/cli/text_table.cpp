#include "cli/text_table.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::cli {

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

namespace {

bool is_number(const std::string& text) { return text.find_first_not_of("0123456789.,-+ %") == std::string::npos; }

}  // namespace

std::string TextTable::text(std::size_t widest) const {
  const std::size_t columns = rows_.front().size();
  std::vector<std::size_t> widths(columns, 0);
  std::vector<bool> numbers(columns, rows_.size() > 1);
  std::vector<std::vector<std::string>> cells;
  for (const auto& row : rows_) {
    auto& shown = cells.emplace_back(columns);
    for (std::size_t i = 0; i < std::min(columns, row.size()); ++i) {
      shown[i] = shortened(row[i], widest);
      widths[i] = std::max(widths[i], characters(shown[i]));
      if (&row != &rows_.front() && !is_number(row[i])) numbers[i] = false;
    }
  }
  std::string out;
  for (std::size_t r = 0; r < cells.size(); ++r) {
    std::string line;
    for (std::size_t i = 0; i < columns; ++i) {
      const std::string pad(widths[i] - characters(cells[r][i]), ' ');
      line += (i == 0 ? "" : "  ") + (numbers[i] ? pad + cells[r][i] : cells[r][i] + pad);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
    const bool ruled = r == 0 || std::find(rules_.begin(), rules_.end(), r + 1) != rules_.end();
    if (ruled) {
      std::size_t total = 2 * (columns - 1);
      for (const std::size_t width : widths) total += width;
      for (std::size_t i = 0; i < total; ++i) out += "\u2500";
      out += "\n";
    }
  }
  return out;
}

}  // namespace sherd::cli
