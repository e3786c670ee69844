#pragma once

#include <memory>
#include <optional>

#include "exchange/sheets/encoding.h"
#include "exchange/sheets/row_source.h"

namespace sherd::exchange {

/// Delimited text (RFC 4180, and what people make of it). Rows end with LF, CR LF or CR. A cell that starts with a
/// quotation mark runs to the closing one; two marks inside stand for one; rows may break inside. Bytes between the
/// closing mark and the delimiter are kept at the end of the cell, which then has a problem. A mark inside an unquoted
/// cell is an ordinary character (`6" nail`). A first line `sep=;` names the delimiter and is no row. `delimiter`
/// nullopt: the one of tab, semicolon, pipe and comma that cuts most of the first rows into the same number (more than
/// one) of cells; between equals, in that order, since a comma may be a decimal point. Where none does, tab for a file
/// name in .tsv or .tab and comma otherwise. Never fails but for what `next` reports.
std::unique_ptr<RowSource> open_delimited(DecodedText text, std::optional<char> delimiter, std::string_view file_name,
                                          const ReadLimits& limits);

/// The delimiter that `open_delimited` would take.
char detect_delimiter(std::string_view text, std::string_view file_name);

}  // namespace sherd::exchange
