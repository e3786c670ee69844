#include "report/document.h"

#include <algorithm>
#include <cstdlib>

#include "base/text.h"

namespace sherd::report {

namespace {

constexpr std::string_view kDash = "\u2013";

double attribute(std::string_view svg, std::string_view name) {
  const std::string_view head = svg.substr(0, svg.find('>'));
  const std::size_t at = head.find(" " + std::string(name) + "=\"");
  if (at == std::string_view::npos) return 0;
  const std::string value(head.substr(at + name.size() + 3, 16));
  return value.find("mm") == std::string::npos ? 0 : std::strtod(value.c_str(), nullptr);
}

struct Number {
  int tables = 0, figures = 0;
  void operator()(DocumentTable& table) { table.number = ++tables; }
  void operator()(DocumentFigure& figure) { figure.number = ++figures; }
  void operator()(auto&) {}
};

struct Name {
  const Words& words;
  std::map<std::string, std::string, std::less<>> names = {};
  void operator()(const DocumentTable& table) {
    if (!table.id.empty()) names.emplace(table.id, words("table") + " " + std::to_string(table.number));
  }
  void operator()(const DocumentFigure& figure) {
    if (!figure.id.empty()) names.emplace(figure.id, words("figure") + " " + std::to_string(figure.number));
  }
  void operator()(const auto&) {}
};

}  // namespace

void number_items(Document& document) {
  Number number;
  for (Section& section : document.sections) {
    for (Block& block : section.blocks) std::visit(number, block);
  }
}

std::map<std::string, std::string, std::less<>> item_names(const Document& document) {
  Name name{document.words};
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) std::visit(name, block);
  }
  return std::move(name.names);
}

std::pair<double, double> printed_size(std::string_view svg) {
  return {attribute(svg, "width"), attribute(svg, "height")};
}

std::vector<const DocumentTable*> tables_of(const Document& document) {
  std::vector<const DocumentTable*> tables;
  for (const Section& section : document.sections) {
    for (const Block& block : section.blocks) {
      if (const auto* table = std::get_if<DocumentTable>(&block)) tables.push_back(table);
    }
  }
  return tables;
}

std::string plain_number(std::string_view cell) {
  if (cell == kDash || cell == "-") return {};
  return replace_all(std::string(cell), ",", "");
}

}  // namespace sherd::report
