#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::exchange {

/// Text as UTF-8 without byte order mark. `text` is a view into `owned` where the bytes had to be changed, otherwise
/// into the bytes given.
struct DecodedText {
  std::string encoding;  ///< "UTF-8", "UTF-16LE", "UTF-16BE" or "Windows-1252"
  std::optional<std::string> owned;
  std::string_view borrowed;

  std::string_view text() const { return owned ? std::string_view(*owned) : borrowed; }
};

/// Tells the encoding of a text: by its byte order mark; else UTF-16 where every second byte of the beginning is mostly
/// zero; else UTF-8 where it is valid; else Windows-1252. Text that is UTF-8 but for a few bytes is refused rather than
/// read as Windows-1252, which would spoil its other letters. Errors: `bad_encoding` with the line; `not_a_table` where
/// it is no text at all.
Result<DecodedText> decode_text(std::string_view bytes);

/// Appends `code_point` (at most U+10FFFF) as UTF-8.
void append_utf8(std::string& out, char32_t code_point);

}  // namespace sherd::exchange
