#pragma once

#include <string>
#include <string_view>

namespace sherd::report {

/// Markdown (CommonMark with tables, strikethrough and footnotes) as HTML that may stand in a page: HTML of the writer
/// is left out, links lead to http, https, mailto and places of the page alone, a picture is its words. Headings begin
/// at the fourth level, beneath those of the report.
std::string markdown_html(std::string_view markdown);

/// Text in which nothing is taken as Markdown.
std::string markdown_text(std::string_view text);

}  // namespace sherd::report
