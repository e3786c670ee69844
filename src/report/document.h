#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "report/words.h"

namespace sherd::report {

/// What a report is made of, whatever it is printed as. Texts are plain, and the printer escapes them, but for those of
/// a specialist.
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

/// What the specialist wrote: HTML as markdown_html gives it.
struct Prose {
  std::string html;
};

struct TableColumn {
  std::string title;
  bool number = false;  ///< set right
};

struct DocumentTable {
  std::string caption;
  std::vector<TableColumn> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> total;       ///< a last row set apart; empty for none
  std::string note;                     ///< under the table
  std::string id = {};                  ///< by which the prose names it: "fabrics"
  std::vector<std::size_t> heads = {};  ///< rows that name the group beneath them: their first cell alone counts
  std::vector<std::size_t> sums = {};   ///< rows that add a group up
  int number = 0;                       ///< given by number_items
};

struct DocumentFigure {
  std::string caption;
  std::string svg;
  std::string id = {};
  int number = 0;  ///< given by number_items
};

using Block = std::variant<Paragraph, BulletList, Heading, Prose, DocumentTable, DocumentFigure>;

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
  Words words = Words();
};

/// Tables and figures numbered in their order, each kind by itself.
void number_items(Document& document);

/// Of each table and figure by its id: "Table 3".
std::map<std::string, std::string, std::less<>> item_names(const Document& document);

/// One self-contained page: style, fonts and figures inside it, no script; prints on A4 with page numbers.
std::string document_html(const Document& document);

/// The same as plain HTML for pandoc: figures as data: addresses with their width in mm, styles by name, notes as
/// "Small print".
std::string document_pandoc(const Document& document);

/// Width and height of a figure as printed, mm; 0 where its SVG does not say.
std::pair<double, double> printed_size(std::string_view svg);

/// The tables of a document in their order.
std::vector<const DocumentTable*> tables_of(const Document& document);

/// A cell of a column of numbers as a number that other programs read: "1,230" gives "1230", a dash nothing.
std::string plain_number(std::string_view cell);

}  // namespace sherd::report
