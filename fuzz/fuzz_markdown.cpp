#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "report/markdown.h"

namespace {

/// What a text of the report may become, and nothing else.
bool is_ours(std::string_view tag) {
  constexpr std::array<std::string_view, 25> kTags{
      "p",  "h4", "h5", "h6",  "em",    "strong", "del",   "code", "pre", "blockquote", "ul",      "ol", "li",
      "hr", "br", "a",  "sup", "table", "thead",  "tbody", "tr",   "th",  "td",         "section", "!--"};
  return std::ranges::find(kTags, tag) != kTags.end();
}

}  // namespace

/// A specialist's text made HTML: only tags of ours, no address that runs or reads a file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string html = sherd::report::markdown_html({reinterpret_cast<const char*>(data), size});
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    const std::size_t from = at + (html.compare(at, 2, "</") == 0 ? 2 : 1);
    const std::size_t end = html.find_first_of(" \n/>", from);
    if (end == std::string::npos || !is_ours(std::string_view(html).substr(from, end - from))) __builtin_trap();
  }
  for (std::size_t at = html.find("href=\""); at != std::string::npos; at = html.find("href=\"", at + 1)) {
    const std::string_view address = std::string_view(html).substr(at + 6);
    if (!address.starts_with("http://") && !address.starts_with("https://") && !address.starts_with("mailto:") &&
        !address.starts_with("#"))
      __builtin_trap();
  }
  return 0;
}
