#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sherd::cli {

/// Columns of text for a terminal, two blanks between them; columns of numbers are set right.
class TextTable {
 public:
  explicit TextTable(std::vector<std::string> headings) { rows_.push_back(std::move(headings)); }
  void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  /// A line between this row and the next.
  void rule() { rules_.push_back(rows_.size()); }
  /// Cells longer than `widest` characters are cut with an ellipsis.
  std::string text(std::size_t widest = 60) const;

 private:
  std::vector<std::vector<std::string>> rows_;
  std::vector<std::size_t> rules_;
};

/// Number of characters of UTF-8 text.
std::size_t characters(std::string_view text);

}  // namespace sherd::cli
