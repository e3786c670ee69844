#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/base64.h"
#include "report/document.h"
#include "report/html.h"

/// The document as plain HTML that another program turns into a word processor's file.
namespace sherd::report {

namespace {

constexpr double kWidestMm = 174;               ///< between the margins of A4, 18 mm each
constexpr std::size_t kCharactersAcross = 120;  ///< of a table's type, between the margins
constexpr std::size_t kLongestLine = 40;        ///< longer cells are broken
constexpr std::size_t kSpaceBetween = 5;

/// Shares of the page's width, so that a column of remarks is wider than one of numbers.
std::string columns(const DocumentTable& table) {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    std::size_t longest = table.columns[i].title.size();
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      if (i < table.rows[row].size() && std::ranges::find(table.heads, row) == table.heads.end())
        longest = std::max(longest, table.rows[row][i].size());
    }
    widths.push_back(std::min(longest, kLongestLine) + kSpaceBetween);
  }
  const std::size_t across = std::max(kCharactersAcross, std::accumulate(widths.begin(), widths.end(), std::size_t{0}));
  std::string out = "<colgroup>";
  for (const std::size_t width : widths) out += fmt::format("<col style=\"width: {}%\" />", 100 * width / across);
  return out + "</colgroup>\n";
}

class Printer {
 public:
  explicit Printer(const Words& words) : words_(words) {}
  std::string out;

  void operator()(const Paragraph& paragraph) { say(paragraph.quiet ? "Small print" : "", paragraph.text); }

  void operator()(const BulletList& list) {
    out += "<ul>\n";
    for (const std::string& item : list.items) out += "<li>" + html_text(item) + "</li>\n";
    out += "</ul>\n";
  }

  void operator()(const Heading& heading) { out += "<h2>" + html_text(heading.text) + "</h2>\n"; }

  void operator()(const Prose& prose) {
    // The headings of prose begin at the fourth level, which is the third one here.
    std::string html = prose.html;
    for (const char* level : {"4", "5", "6"}) {
      const char lower = static_cast<char>(level[0] - 1);
      for (const char* slash : {"<h", "</h"}) replace(html, std::string(slash) + level, std::string(slash) + lower);
    }
    out += html;
  }

  void operator()(const DocumentTable& table) {
    out += "<table>\n<caption>" + mark(table.id) +
           html_text(fmt::format("{} {}. {}", words_("table"), table.number, table.caption)) + "</caption>\n" +
           columns(table) + "<thead><tr>";
    for (const TableColumn& column : table.columns) out += cell("th", column, html_text(column.title));
    out += "</tr></thead>\n<tbody>\n";
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const bool head = std::ranges::find(table.heads, i) != table.heads.end();
      if (head) {
        out += fmt::format("<tr><td colspan=\"{}\"><strong>{}</strong></td></tr>\n", table.columns.size(),
                           html_text(table.rows[i].front()));
      } else {
        row(table, table.rows[i], std::ranges::find(table.sums, i) != table.sums.end());
      }
    }
    if (!table.total.empty()) row(table, table.total, true);
    out += "</tbody></table>\n";
    if (!table.note.empty()) say("Small print", table.note);
  }

  void operator()(const DocumentFigure& figure) {
    const double width = std::min(kWidestMm, printed_size(figure.svg).first > 0 ? printed_size(figure.svg).first : 160);
    out += fmt::format(
        "<figure><img src=\"data:image/svg+xml;base64,{}\" width=\"{:.1f}mm\" "
        "alt=\"\"><figcaption>{}{}</figcaption></figure>\n",
        base64(figure.svg), width, mark(figure.id),
        html_text(fmt::format("{} {}. {}", words_("figure"), figure.number, figure.caption)));
  }

  void say(const std::string& style, const std::string& text) {
    const std::string words = "<p>" + html_text(text) + "</p>\n";
    out += style.empty() ? words : "<div data-custom-style=\"" + style + "\">" + words + "</div>\n";
  }

 private:
  static void replace(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
      text.replace(at, from.size(), to);
  }
  static std::string mark(const std::string& id) {
    return id.empty() ? std::string() : "<span id=\"item-" + html_text(id) + "\"></span>";
  }
  static std::string cell(const char* tag, const TableColumn& column, const std::string& html) {
    return fmt::format("<{0}{1}>{2}</{0}>", tag, column.number ? " style=\"text-align: right\"" : "", html);
  }
  void row(const DocumentTable& table, const std::vector<std::string>& cells, bool strong) {
    out += "<tr>";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const std::string html = i < cells.size() ? html_text(cells[i]) : std::string();
      out += cell("td", table.columns[i], strong && !html.empty() ? "<strong>" + html + "</strong>" : html);
    }
    out += "</tr>\n";
  }

  const Words& words_;
};

}  // namespace

std::string document_pandoc(const Document& document) {
  Printer printer(document.words);
  printer.out =
      fmt::format("<!DOCTYPE html>\n<html lang=\"{}\"><head><meta charset=\"utf-8\"><title>{}</title></head>\n<body>\n",
                  document.words.language(), html_text(document.title));
  printer.out += "<div data-custom-style=\"Subtitle\"><p>" + html_text(document.subtitle) + "</p></div>\n";
  for (const auto& [name, value] : document.facts) printer.say("Fact", fmt::format("{}: {}", name, value));
  if (!document.missing.empty()) {
    printer.say("Small print", document.words("missing.title") + ". " + document.words("missing.lead"));
    printer(BulletList{document.missing});
  }
  int number = 0;
  for (const Section& section : document.sections) {
    printer.out +=
        fmt::format("<h1 id=\"{}\">{}. {}</h1>\n", html_text(section.id), ++number, html_text(section.title));
    for (const Block& block : section.blocks) std::visit(printer, block);
  }
  return printer.out + "</body></html>\n";
}

}  // namespace sherd::report
