#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/mark_tables.h"
#include "notation/mark_tokens.h"

namespace sherd::notation {

/// One mark found in a text, not yet explained.
struct FoundMark {
  std::string mark;    ///< the key of its rules; "registered" for a design number
  std::string also;    ///< a second mark that the same words stand for: the reign beside the stamp
  std::size_t at = 0;  ///< bytes of the text
  std::size_t end = 0;
  std::optional<std::int64_t> number;  ///< of the design, or of a verification district; with digits lost the least
  std::optional<std::int64_t> most;    ///< with digits of a design's number lost: the greatest that it may be
};

struct FoundMarks {
  std::vector<FoundMark> marks;
  std::vector<MarkToken> unread;
  bool fired_in = false;               ///< the mark is said to be as old as the vessel
  std::optional<std::size_t> torn_at;  ///< a design's number of which it is not said how many digits are lost
};

/// Numbers of designs, ciphers with crown and number, and the wordings of the tables, the longest first.
FoundMarks find_marks(std::string_view text, const MarkTables& tables);

}  // namespace sherd::notation
