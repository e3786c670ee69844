#include "desk/archive/archive_words.h"

#include <map>
#include <utility>

#include "base/csv.h"
#include "base/text.h"
#include "sherd_desk_data.h"

namespace sherd::desk {

namespace {

using Words = std::map<std::pair<std::string, std::string>, std::string, std::less<>>;

/// Two columns by which a third is found. The tables are built in: what cannot be read is left out.
Words words_of(std::string_view text) {
  Words words;
  const auto rows = parse_csv(text);
  if (!rows) return words;
  for (const auto& row : *rows) {
    if (row.size() == 3) words[{row[0], row[1]}] = row[2];
  }
  return words;
}

std::string look_up(const Words& words, std::string_view first, std::string_view second) {
  const auto found = words.find(std::pair(std::string(first), std::string(second)));
  return found == words.end() ? std::string() : found->second;
}

/// Table and sentence.
constexpr std::pair<std::string_view, std::string_view> kTables[]{
    {"contexts", "Units of the ground: layers, fills, cuts, walls."},
    {"relations", "Which context is later than which."},
    {"phases", "Phases of the site, in order."},
    {"fabrics", "The fabrics of the series: what the pots are made of."},
    {"forms", "The forms of the series."},
    {"dates", "Dated combinations of fabric, form, decoration and region."},
    {"evidence", "What is seen on a piece, and the years that go with it."},
    {"sherds", "The record lines: one distinct combination of attributes within one context."},
    {"rims", "Single rims under a line."},
    {"joins", "Lines that belong together."},
    {"scans", "Contexts looked through, in one line each."},
    {"bags", "Bags of finds, as the finds list has them and as they came."},
    {"decorations", "The decorations of the series."},
    {"inclusions", "What is seen in the paste of a fabric, on named scales."},
    {"equivalents", "What a fabric is called in other series."},
    {"specimens", "Sherds kept as examples of a fabric or form."},
    {"pictures", "Photographs and drawings."},
    {"trays", "Lines laid aside until a second opinion settles them."},
    {"people", "Who records, checks or is asked."},
    {"pieces", "Sherds and vessels measured for their shape."},
    {"sections", "Their outlines, point by point."},
    {"bands", "Bands of decoration or treatment around vessels."},
    {"drawings", "Drawings of the publication, from the wish to the page."},
    {"measures", "Measures of former times, by which the content of vessels is told."},
    {"standards", "Reference materials that were measured with the samples."},
    {"certified", "What reference materials are certified to hold."},
    {"samples", "Samples taken of lines for analysis."},
    {"sources", "Clays and kilns that samples are compared with."},
    {"readings", "Readings of an instrument."},
    {"concentrations", "What each reading found of each element or oxide."},
    {"petrology", "Thin sections as described."},
    {"point_counts", "Points counted in thin sections."},
    {"analytes", "Elements and oxides, with what may be done with them."},
    {"repositories", "Where the archive goes, by whose rules, and whose it is."},
    {"loans", "Sherds that are or were out of their bag."},
    {"selections", "What is kept or not, and why."},
    {"texts", "What the specialist writes for the report, with fields for its numbers."},
    {"report_items", "Tables and figures of the report as the specialist places them."},
    {"bibliography", "Works that the report cites."},
    {"rates", "What a day of each task costs, and how fast it goes."},
    {"estimates", "Lines of the quotes made for the work."},
    {"hours", "Hours that were worked."},
    {"site_sheet", "The project sheet."},
    {"document", "Files kept with the record, such as issued lists, pictures and kept results."},
    {"import_file", "Files that were read in, by their SHA-256."},
    {"merge_conflict", "What merging copies of the record has left open."},
    {"row_alias", "Rows that a copy knew under another name."},
};

}  // namespace

std::string table_words(std::string_view table) {
  for (const auto& [name, words] : kTables) {
    if (name == table) return std::string(words);
  }
  return "Rows of " + replace_all(std::string(table), "_", " ") + ".";
}

std::string field_words(std::string_view table, std::string_view field, std::string_view help) {
  static const Words kWords = words_of(archive_fields_csv);
  std::string found = look_up(kWords, table, field);
  if (found.empty()) found = look_up(kWords, "", field);
  if (found.empty() && help.empty()) return replace_all(std::string(field), "_", " ");
  if (found.empty() || help.empty() || found == help) return found.empty() ? std::string(help) : found;
  return found + "; " + std::string(help);
}

std::string code_words(std::string_view field, std::string_view code) {
  static const Words kWords = words_of(archive_codes_csv);
  const std::string found = look_up(kWords, field, code);
  return found.empty() ? replace_all(std::string(code), "_", " ") : found;
}

std::string_view unit_of(CellType type) {
  switch (type) {
    case CellType::weight:
      return "g";
    case CellType::length:
    case CellType::coordinate:
      return "mm";
    case CellType::percent:
      return "percent";
    case CellType::volume:
      return "litres";
    case CellType::year:
      return "year";
    case CellType::text:
    case CellType::word:
    case CellType::day:
    case CellType::count:
    case CellType::decimal:
      break;
  }
  return {};
}

}  // namespace sherd::desk
