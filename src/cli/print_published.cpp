#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Published assemblages.
namespace sherd::cli {

std::string text_of(const desk::PublishedResponse& response) {
  if (response.assemblages.empty()) return "no published assemblages are kept\n";
  TextTable table({"assemblage", "types", "by", "measure", "total", "rounded to", "source"});
  for (const desk::PublishedAssemblage& one : response.assemblages) {
    table.row({one.assemblage, std::to_string(one.totals.size()), one.field, one.measure, format_double(one.total()),
               one.rounded_to > 0 ? format_double(one.rounded_to) : "-", one.source});
  }
  return table.text(40);
}

std::string text_of(const desk::AddPublishedResponse& response) {
  std::string out;
  const auto add = [&](const char* what, const std::vector<std::string>& names) {
    if (!names.empty()) out += std::string(what) + ": " + join(names, ", ") + "\n";
  };
  add("added", response.added);
  add("replaced", response.replaced);
  add("as it was", response.same);
  add("taken out", response.removed);
  return out;
}

CsvRows table_of(const desk::PublishedResponse& response) {
  CsvRows rows{{"assemblage", "field", "measure", "source", "rounded_to", "code", "amount", "notes", "east", "north"}};
  for (const desk::PublishedAssemblage& one : response.assemblages) {
    for (const desk::PublishedTotal& total : one.totals) {
      rows.push_back({one.assemblage, one.field, one.measure, one.source,
                      one.rounded_to > 0 ? format_double(one.rounded_to) : "", total.code, format_double(total.amount),
                      one.notes, desk::csv_cell(one.east), desk::csv_cell(one.north)});
    }
  }
  return rows;
}

}  // namespace sherd::cli
