#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace sherd::report {

/// What a report is made of, whatever it is printed as. Texts are plain; the printer escapes them.
struct Paragraph {
  std::string text;
  bool quiet = false;  ///< small print: settings, what was left out
};

struct BulletList {
  std::vector<std::string> items;
};

struct Heading {
  std::string text;  ///< beneath a section's own
};

struct TableColumn {
  std::string title;
  bool number = false;  ///< set right
};

struct DocumentTable {
  std::string caption;
  std::vector<TableColumn> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> total;  ///< a last row set apart; empty for none
  std::string note;                ///< under the table
};

struct DocumentFigure {
  std::string caption;
  std::string svg;
};

using Block = std::variant<Paragraph, BulletList, Heading, DocumentTable, DocumentFigure>;

struct Section {
  std::string id;  ///< for links: "quantities"
  std::string title;
  std::vector<Block> blocks;
};

struct Document {
  std::string title, subtitle;
  std::vector<std::pair<std::string, std::string>> facts;  ///< site, date of the record ...
  std::vector<std::string> missing;  ///< what a report of this kind should say and the record does not
  std::vector<Section> sections;
};

/// One self-contained page: style, fonts and figures inside it, no script; tables and figures numbered; prints on A4
/// with page numbers.
std::string document_html(const Document& document);

}  // namespace sherd::report
