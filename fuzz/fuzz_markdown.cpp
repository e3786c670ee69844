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

bool is_safe(std::string_view address) {
  return address.starts_with("http://") || address.starts_with("https://") || address.starts_with("mailto:") ||
         address.starts_with("#");
}

/// A tag is one of ours, its attributes stand in double quotes, and none but `href` bears an address: read attribute by
/// attribute, since the text of an address may itself end in `href=`. Gives where the tag ends.
std::size_t check_tag(std::string_view html, std::size_t at) {
  const std::size_t from = at + (html.substr(at).starts_with("</") ? 2 : 1);
  const std::size_t end = html.find_first_of(" \n/>", from);
  if (end == std::string_view::npos || !is_ours(html.substr(from, end - from))) __builtin_trap();
  if (html.substr(from, end - from) == "!--") return html.find("-->", end);
  at = end;
  while (at < html.size() && html[at] != '>') {
    const std::size_t word = html.find_first_not_of(" \n/", at);
    const std::size_t stop = html.find_first_of("= \n/>", word);
    if (word == std::string_view::npos || stop == std::string_view::npos) __builtin_trap();
    const std::string_view name = html.substr(word, stop - word);
    at = stop;
    if (html[stop] != '=') continue;
    const std::size_t close = html.find('"', stop + 2);
    if (html[stop + 1] != '"' || close == std::string_view::npos) __builtin_trap();
    if (name == "src" || name == "style" || name.starts_with("on")) __builtin_trap();
    if (name == "href" && !is_safe(html.substr(stop + 2, close - stop - 2))) __builtin_trap();
    at = close + 1;
  }
  return at;
}

}  // namespace

/// A specialist's text made HTML: only tags of ours, no address that runs or reads a file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string html = sherd::report::markdown_html({reinterpret_cast<const char*>(data), size});
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at)) {
    at = check_tag(html, at);
    if (at == std::string::npos) __builtin_trap();
  }
  return 0;
}
