#include <fmt/format.h>

#include "report/document.h"
#include "report/fonts_css.h"
#include "report/html.h"
#include "sherd_report_data.h"

namespace sherd::report {

namespace {

class Printer {
 public:
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

  void operator()(const DocumentTable& table) {
    out += fmt::format(
        "<figure class=\"table\"><figcaption><b>Table {}.</b> {}</figcaption>\n<div class=\"sheet\"><table>\n",
        ++tables_, html_text(table.caption));
    out += "<thead><tr>";
    for (const TableColumn& column : table.columns) {
      out +=
          fmt::format("<th scope=\"col\"{}>{}</th>", column.number ? " class=\"number\"" : "", html_text(column.title));
    }
    out += "</tr></thead>\n<tbody>\n";
    for (const auto& cells : table.rows) row(table, cells);
    out += "</tbody>\n";
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
    out += fmt::format("<figure class=\"drawing\">\n{}\n<figcaption><b>Figure {}.</b> {}</figcaption></figure>\n",
                       figure.svg, ++figures_, html_text(figure.caption));
  }

 private:
  void row(const DocumentTable& table, const std::vector<std::string>& cells) {
    out += "<tr>";
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

  int tables_ = 0;
  int figures_ = 0;
};

std::string contents(const Document& document) {
  std::string out = "<nav aria-label=\"Contents\"><ol>\n";
  for (const Section& section : document.sections) {
    out += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", html_text(section.id), html_text(section.title));
  }
  return out + "</ol></nav>\n";
}

std::string missing(const Document& document) {
  if (document.missing.empty()) return {};
  std::string out = "<aside><h2>Not in the record</h2>\n<p>A report of this kind should also say:</p>\n<ul>\n";
  for (const std::string& item : document.missing) out += "<li>" + html_text(item) + "</li>\n";
  return out + "</ul></aside>\n";
}

}  // namespace

std::string document_html(const Document& document) {
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en-GB\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width, "
      "initial-scale=1\">\n<title>{}</title>\n<style>\n{}{}{}{}</style></head>\n<body "
      "class=\"report\"><main>\n<header><h1>{}</h1>\n<p>{}</p>\n<dl>",
      html_text(document.title), font_faces(), report_style_css, report_pages_css, report_figures_css,
      html_text(document.title), html_text(document.subtitle));
  for (const auto& [name, value] : document.facts)
    out += fmt::format("<dt>{}</dt><dd>{}</dd>", html_text(name), html_text(value));
  out += "</dl></header>\n" + contents(document) + missing(document);
  Printer printer;
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
