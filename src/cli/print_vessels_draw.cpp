#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Drawings of vessels: single ones, plates, the register, the brief, the rim chart.
namespace sherd::cli {

namespace {

std::string sentences(const std::vector<std::string>& list, std::string_view heading) {
  if (list.empty()) return {};
  std::string out = fmt::format("\n{} ({})\n", heading, list.size());
  for (const std::string& one : list) out += "  " + one + "\n";
  return out;
}

std::string number_text(const std::optional<std::int64_t>& n) { return n ? std::to_string(*n) : "none"; }

}  // namespace

std::string text_of(const desk::DrawResponse& response) {
  return fmt::format("Wrote {}, {} by {} mm, at {}.\n", response.file, format_fixed(response.width_mm, 1),
                     format_fixed(response.height_mm, 1), response.scale) +
         sentences(response.left_out, "Not drawn");
}

std::string text_of(const desk::PlateResponse& response) {
  std::string out =
      fmt::format("{} of {} by {} mm, at {}.\n", counted(static_cast<long long>(response.pages.size()), "page"),
                  format_fixed(response.width_mm, 0), format_fixed(response.height_mm, 0), response.scale);
  for (const desk::PlatePage& page : response.pages)
    out += fmt::format("  {}, page {}: {}\n", page.file, page.page, join(page.drawings, ", "));
  if (!response.not_drawn.empty()) out += fmt::format("\nNot on a page ({})\n", response.not_drawn.size());
  for (const desk::NotDrawn& one : response.not_drawn) out += fmt::format("  {}: {}\n", one.drawing, one.because);
  return out + sentences(response.left_out, "Not drawn");
}

CsvRows table_of(const desk::PlateResponse& response) { return desk::csv_rows(response.pages); }

std::string text_of(const desk::RimChartResponse& response) {
  return fmt::format(
      "Wrote {}, {} by {} mm: diameters {} to {} mm.\nPrint it at 100 %, and measure the line of 100 mm on it before "
      "use.\n",
      response.file, format_double(response.width_mm), format_double(response.height_mm),
      format_double(response.from_mm), format_double(response.to_mm));
}

std::string text_of(const desk::DrawingsResponse& response) {
  TextTable table(
      {"no", "drawing", "status", "piece", "context", "fabric", "form", "diameter", "%", "section", "place"});
  for (const desk::DrawingRow& row : response.rows) {
    table.row({row.catalogue ? std::to_string(*row.catalogue) : "", row.drawing,
               replace_all(row.status ? std::string(word(*row.status)) : "", "_", " "), row.piece, row.context,
               row.fabric, row.form, desk::csv_cell(row.rim_diameter), desk::csv_cell(row.rim_percent),
               row.section ? "yes" : "", row.place});
  }
  std::vector<std::string> counts;
  for (const desk::StatusCount& one : response.counts)
    counts.push_back(fmt::format("{} {}", one.drawings, replace_all(one.status, "_", " ")));
  std::string out = response.rows.empty() ? std::string("No drawings.\n") : table.text();
  if (!counts.empty()) out += "\nThe register: " + join(counts, ", ") + "\n";
  return out + sentences(response.questions, "To be looked into");
}

CsvRows table_of(const desk::DrawingsResponse& response) { return desk::csv_rows(response.rows); }

std::string text_of(const desk::RenumberResponse& response) {
  std::string out = response.change ? fmt::format("Renumbered as change {}; {} numbered.\n", *response.change,
                                                  counted(response.numbered, "drawing"))
                    : response.renumbered.empty() ? std::string("The numbers stand as they should.\n")
                                                  : std::string("Nothing is changed.\n");
  for (const desk::Renumbered& one : response.renumbered)
    out += fmt::format("  {}: {} becomes {}\n", one.drawing, number_text(one.was), number_text(one.now));
  return out;
}

CsvRows table_of(const desk::RenumberResponse& response) { return desk::csv_rows(response.renumbered); }

std::string text_of(const desk::BriefResponse& response) {
  return fmt::format("Wrote {} for {}: {}.\n", response.file,
                     counted(static_cast<long long>(response.drawings.size()), "drawing"),
                     join(response.drawings, ", ")) +
         sentences(response.missing, "The illustrator will ask for");
}

}  // namespace sherd::cli
