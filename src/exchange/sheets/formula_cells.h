#pragma once

#include <string_view>

/// A spreadsheet that opens a text file takes some cells for formulas, and a formula may fetch from elsewhere or start
/// a program (OWASP, "CSV Injection"). Such a cell is written with an apostrophe before it; reading takes that one
/// away. Whatever was written comes back: a cell that has apostrophes of its own before a formula gets one more.
namespace sherd::exchange {

/// Begins with = or @, a tab or a carriage return, or with + or - and has more in it than figures and
/// their signs.
bool looks_like_formula(std::string_view text);
/// Whether it is to be written with an apostrophe before it.
bool needs_mark(std::string_view text);
/// Without that apostrophe.
std::string_view without_mark(std::string_view text);

}  // namespace sherd::exchange
