#pragma once

#include <string>
#include <string_view>

namespace sherd::report {

/// Text for the inside of an element or of an attribute in double quotes.
std::string html_text(std::string_view text);

}  // namespace sherd::report
