#include "report/spot_list.h"

#include <fmt/format.h>

#include "base/text.h"
#include "report/html.h"
#include "sherd_report_data.h"

namespace sherd::report {

namespace {

std::string cell(std::string_view label, std::string_view style, const std::string& text) {
  return fmt::format("<td class=\"{}\" data-label=\"{}\">{}</td>", style, label, html_text(text));
}

std::string as_sentence(std::string text) {
  if (!text.empty() && std::string_view(".!?").find(text.back()) == std::string_view::npos) text += '.';
  return text;
}

std::string table_row(const SpotListRow& row) {
  std::string notes = html_text(row.notes);
  std::string comment = html_text(row.comment);
  if (!notes.empty()) notes = "<span class=\"notes\">" + notes + "</span>";
  if (!row.own_reason.empty())
    comment = html_text(as_sentence(row.own_reason)) + (comment.empty() ? "" : " " + comment);
  std::string out =
      fmt::format("<tr{}><th scope=\"row\">{}</th>", row.changed ? " class=\"changed\"" : "", html_text(row.context));
  out += cell("Deposit", "", row.deposit) + cell("Phase", "", row.phase) + cell("Own date", "date", row.own_date);
  out += cell("Terminus", "terminus", row.terminus) + cell("Set by", "why", row.set_by) +
         cell("Spot range", "date", row.spot);
  out += cell("Sherds", "number", row.sherds) + cell("Weight, g", "number", row.weight_g) +
         cell("Vessels", "number", row.vessels);
  out += cell("Confidence", "", row.confidence);
  out += fmt::format("<td data-label=\"Notes\"><div>{}{}{}</div></td>", notes,
                     notes.empty() || comment.empty() ? "" : "<br>", comment);
  return out + cell("Status", "", row.status) + "</tr>\n";
}

std::string table(const SpotList& list) {
  std::string out =
      "<div class=\"sheet\"><table>\n<thead><tr><th scope=\"col\">Context</th><th scope=\"col\">Deposit</th><th "
      "scope=\"col\">Phase</th>"
      "<th scope=\"col\">Own date</th><th scope=\"col\">Terminus</th><th scope=\"col\">Set by</th><th "
      "scope=\"col\">Spot range</th>"
      "<th scope=\"col\" class=\"number\">Sherds</th><th scope=\"col\" class=\"number\">Weight, g</th><th "
      "scope=\"col\" class=\"number\">Vessels</th>"
      "<th scope=\"col\">Confidence</th><th scope=\"col\">Residual, intrusive, comment</th><th "
      "scope=\"col\">Status</th></tr></thead>\n<tbody>\n";
  for (const SpotListRow& row : list.rows) out += table_row(row);
  return out + "</tbody></table></div>\n";
}

std::string changes(const SpotList& list) {
  if (!list.issue || *list.issue < 2) return {};
  std::string out = fmt::format("<h2>Changed since issue {}</h2>\n", *list.issue - 1);
  if (list.changes.empty()) return out + "<p>Nothing.</p>\n";
  out += "<ul>\n";
  const auto shown = [](const std::string& text) {
    return text.empty() ? std::string("nothing") : "\u201C" + html_text(text) + "\u201D";
  };
  for (const SpotListChange& change : list.changes) {
    out += fmt::format("<li>{}, {}: {} was {}</li>\n", html_text(change.context),
                       html_text(replace_all(change.column, "_", " ")), shown(change.now), shown(change.was));
  }
  return out + "</ul>\n";
}

std::string warnings(const SpotList& list) {
  if (list.warnings.empty()) return {};
  std::string out = "<h2>To be looked into</h2>\n<ul>\n";
  for (const std::string& warning : list.warnings) out += "<li>" + html_text(warning) + "</li>\n";
  return out + "</ul>\n";
}

constexpr std::string_view kReading =
    "<h2>How to read it</h2>\n<p><b>Own date</b> is the specialist\u2019s judgement and stands whatever is computed "
    "beside it. "
    "<b>Terminus</b> is the year before which the context cannot have been closed: the latest year in which one of its "
    "sherds, or one from "
    "a context beneath it, began to be made. It is no date of deposition. <b>Spot range</b> is the common range of the "
    "latest group of two or more vessels "
    "that overlap; \u201Cone vessel\u201D says that there is no such group. Lines judged intrusive set no terminus, "
    "and mixed deposits pass none on.</p>\n";

}  // namespace

std::string spot_list_html(const SpotList& list) {
  const std::string issue = list.issue ? std::to_string(*list.issue) : std::string("none: a draft");
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en-GB\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\">\n"
      "<title>Spot dates, {0}</title>\n<style>\n{1}{3}</style></head>\n<body><main>\n<h1>Spot dates</h1>\n<p>{2}</p>\n",
      html_text(list.site), report_style_css,
      html_text(list.title.empty() ? list.site : list.title + " (" + list.site + ")"), report_list_css);
  out += fmt::format(
      "<dl><dt>Issue</dt><dd>{}</dd><dt>Contexts</dt><dd>{}</dd><dt>Lines</dt><dd>{}, {} not yet checked</dd>", issue,
      list.rows.size(), grouped(list.lines), grouped(list.unchecked));
  out += fmt::format("<dt>Rests on</dt><dd class=\"quiet\">record {}, Sherdwright {}</dd></dl>\n",
                     html_text(list.record), html_text(list.version));
  out += table(list) + changes(list) + warnings(list);
  out += kReading;
  return out + "</main></body></html>\n";
}

}  // namespace sherd::report
