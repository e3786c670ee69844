#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// The site, its lines, and notations explained.
namespace sherd::cli {

namespace {

template <class T>
std::string shown(const std::optional<T>& value, int places) {
  return value ? format_fixed(static_cast<double>(*value), places) : "-";
}

}  // namespace

std::string text_of(const desk::SiteResponse& response) {
  const Site& sheet = response.sheet;
  std::string out = sheet.code + (sheet.title.empty() ? "" : ", " + sheet.title) + "\n";
  for (const auto& [table, rows] : response.tables) out += fmt::format("  {:<10} {:>8}\n", table, grouped(rows));
  out += fmt::format("{} sherds, {} g, vessels {}, EVE {}\n", shown(response.total.count, 0),
                     shown(response.total.weight_g, 1), shown(response.total.vessels, 0), shown(response.total.eve, 2));
  out += fmt::format("{} of {} checked; pottery in {}\n", grouped(response.checked), counted(response.lines, "line"),
                     counted(response.contexts_with_pottery, "context"));
  if (response.last_change) {
    out += fmt::format("last change {}: {} by {}, {}\n", response.last_change->seq, response.last_change->command,
                       response.last_change->who, response.last_change->at);
  }
  return out;
}

std::string text_of(const desk::LinesResponse& response) {
  TextTable table({"record", "context", "fabric", "form", "part", "sherds", "g", "vessels", "rim %", "decoration",
                   "condition", "vessel", "notes"});
  using desk::csv_cell;
  for (const RecordLine& line : response.lines) {
    table.row({line.record, line.context, line.fabric, line.form, line.part, csv_cell(line.count),
               csv_cell(line.weight), csv_cell(line.vessels), csv_cell(line.rim_percent), line.decoration,
               line.condition, line.vessel, line.notes});
  }
  std::string out = table.text(36);
  if (response.total > 0) {
    out += fmt::format("{}: {} sherds, {} g\n", counted(response.total, "line"),
                       response.count ? grouped(*response.count) : "-",
                       response.weight ? format_fixed(response.weight->g(), 1) : "-");
  }
  const auto shown_lines = static_cast<std::int64_t>(response.lines.size());
  if (shown_lines < response.total)
    out += fmt::format("shown are {} of them; --limit and --offset show others\n", grouped(shown_lines));
  return out;
}

/// Its one line was printed when it opened.
std::string text_of(const desk::ServeResponse&) { return {}; }

CsvRows table_of(const desk::LinesResponse& response) { return desk::csv_rows(response.lines); }

}  // namespace sherd::cli
