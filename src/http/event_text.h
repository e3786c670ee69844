#pragma once

#include <string>
#include <string_view>

namespace sherd::http {

/// One event in the stream's format (WHATWG HTML, section 9.2.5): a line of data for each line of the document. No
/// name: "message"; no id: the listener keeps the one that it has.
std::string event_text(std::string_view name, std::string_view id, std::string_view document);

}  // namespace sherd::http
