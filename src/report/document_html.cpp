#include <fmt/format.h>

#include <algorithm>

#include "report/document.h"
#include "report/fonts_css.h"
#include "report/html.h"
#include "sherd_report_data.h"

namespace sherd::report {

namespace {

class Printer {
 public:
  explicit Printer(const Words& words) : words_(words) {}
  std::string out;

  void operator()(const Paragraph& paragraph) {
    out += fmt::format("<p{}>{}</p>\n", paragraph.quiet ? " class=\"quiet\"" : "", html_text(paragraph.text));
  }

  void operator()(const BulletList& list) {
    out += "<ul>\n";
    for (const std::string& item : list.items) out += "<li>" + html_text(item) + "</li>\n";
    out += "</ul>\n";
  }

  void operator()(const Heading& heading) { out += "<h3>" + html_text(heading.text) + "</h3>\n"; }

  void operator()(const Prose& prose) { out += "<div class=\"prose\">\n" + prose.html + "</div>\n"; }

  void operator()(const DocumentTable& table) {
    out += fmt::format(
        "<figure class=\"table\"{}><figcaption><b>{} {}.</b> {}</figcaption>\n<div class=\"sheet\" "
        "tabindex=\"0\" role=\"region\" aria-label=\"{} {}\"><table>\n",
        anchor(table.id), words_("table"), table.number, html_text(table.caption), words_("table"), table.number);
    out += "<thead><tr>";
    for (const TableColumn& column : table.columns) {
      out +=
          fmt::format("<th scope=\"col\"{}>{}</th>", column.number ? " class=\"number\"" : "", html_text(column.title));
    }
    out += "</tr></thead>\n";
    body(table);
    if (!table.total.empty()) {
      out += "<tbody class=\"total\">\n";
      row(table, table.total);
      out += "</tbody>\n";
    }
    out += "</table></div>\n";
    if (!table.note.empty()) out += "<p class=\"quiet\">" + html_text(table.note) + "</p>\n";
    out += "</figure>\n";
  }

  void operator()(const DocumentFigure& figure) {
    out += fmt::format("<figure class=\"drawing\"{}>\n{}\n<figcaption><b>{} {}.</b> {}</figcaption></figure>\n",
                       anchor(figure.id), figure.svg, words_("figure"), figure.number, html_text(figure.caption));
  }

 private:
  static std::string anchor(const std::string& id) {
    return id.empty() ? std::string() : fmt::format(" id=\"item-{}\"", html_text(id));
  }

  /// Each group of rows a tbody of its own.
  void body(const DocumentTable& table) {
    out += "<tbody>\n";
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (std::ranges::find(table.heads, i) != table.heads.end()) {
        if (i > 0) out += "</tbody>\n<tbody>\n";
        out += fmt::format("<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"{}\">{}</th></tr>\n",
                           table.columns.size(), html_text(table.rows[i].front()));
      } else {
        row(table, table.rows[i], std::ranges::find(table.sums, i) != table.sums.end());
      }
    }
    out += "</tbody>\n";
  }

  void row(const DocumentTable& table, const std::vector<std::string>& cells, bool sum = false) {
    out += sum ? "<tr class=\"sum\">" : "<tr>";
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const bool number = i < table.columns.size() && table.columns[i].number;
      const std::string label = i < table.columns.size() ? html_text(table.columns[i].title) : std::string{};
      if (i == 0) {
        out += "<th scope=\"row\">" + html_text(cells[i]) + "</th>";
      } else {
        out += fmt::format("<td{} data-label=\"{}\">{}</td>", number ? " class=\"number\"" : "", label,
                           html_text(cells[i]));
      }
    }
    out += "</tr>\n";
  }

  const Words& words_;
};

std::string contents(const Document& document) {
  std::string out = fmt::format("<nav aria-label=\"{}\"><ol>\n", document.words("contents"));
  for (const Section& section : document.sections) {
    out += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", html_text(section.id), html_text(section.title));
  }
  return out + "</ol></nav>\n";
}

std::string missing(const Document& document) {
  if (document.missing.empty()) return {};
  std::string out = fmt::format("<aside aria-labelledby=\"missing\"><h2 id=\"missing\">{}</h2>\n<p>{}</p>\n<ul>\n",
                                document.words("missing.title"), document.words("missing.lead"));
  for (const std::string& item : document.missing) out += "<li>" + html_text(item) + "</li>\n";
  return out + "</ul></aside>\n";
}

}  // namespace

std::string document_html(const Document& document) {
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width, "
      "initial-scale=1\">\n<title>{}</title>\n<style>\n{}{}{}{}</style></head>\n<body "
      "class=\"report\"><main>\n<header><h1>{}</h1>\n<p>{}</p>\n<dl>",
      document.words.language(), html_text(document.title), font_faces(), report_style_css, report_pages_css,
      report_figures_css, html_text(document.title), html_text(document.subtitle));
  for (const auto& [name, value] : document.facts)
    out += fmt::format("<dt>{}</dt><dd>{}</dd>", html_text(name), html_text(value));
  out += "</dl></header>\n" + contents(document) + missing(document);
  Printer printer(document.words);
  int number = 0;
  for (const Section& section : document.sections) {
    printer.out +=
        fmt::format("<section id=\"{}\"><h2>{}. {}</h2>\n", html_text(section.id), ++number, html_text(section.title));
    for (const Block& block : section.blocks) std::visit(printer, block);
    printer.out += "</section>\n";
  }
  return out + printer.out + "</main></body></html>\n";
}

}  // namespace sherd::report
