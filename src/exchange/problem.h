#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sherd::exchange {

/// Of a table that holds nothing more: a warning, since a form may be brought in before it is filled.
inline constexpr std::string_view kOnlyHeadings = "the table has headings and no rows below them: nothing came in";

/// Why a row was refused, one a cause; a row may have several.
struct Problem {
  std::int64_t row = 0;
  std::optional<std::int64_t> line;
  std::string column;  ///< canonical name
  std::string code;
  std::string text;  ///< what stood in the cell
  std::string message;
  std::string hint;

  template <class V>
  static void fields(V& v) {
    v.field("row", &Problem::row);
    v.field("line", &Problem::line);
    v.field("column", &Problem::column);
    v.field("code", &Problem::code);
    v.field("text", &Problem::text);
    v.field("message", &Problem::message);
    v.field("hint", &Problem::hint);
  }
};

}  // namespace sherd::exchange
