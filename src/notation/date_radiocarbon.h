#pragma once

#include <expected>
#include <span>
#include <string_view>

#include "notation/date.h"
#include "notation/date_tokens.h"
#include "notation/date_trouble.h"

namespace sherd::notation {

/// True where the pieces hold cal, BP, uncal or a plus-minus sign.
bool speaks_of_radiocarbon(std::span<const DateToken> tokens);

/// A calibrated span (cal BC 3650-3520 (95%)) or a radiocarbon age (OxA-1234, 2450 +- 65 BP). `tokens` are those of
/// `text`. Source: Internet Archaeology, notes for contributors (cal, bp and BP; bc = bp - 1949, ad = 1950 - bp), and
/// Radiocarbon, instructions for authors (N cal BP is AD 1950 - N).
std::expected<DateReading, DateTrouble> read_radiocarbon(std::string_view text, std::span<const DateToken> tokens,
                                                         const DateStyle& style);

}  // namespace sherd::notation
