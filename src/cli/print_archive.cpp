#include <fmt/format.h>

#include <map>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/archive/list_boxes.h"
#include "desk/frame/csv.h"

/// What hands the record over: loans, decisions, boxes, labels, the deposit check, the archive.
namespace sherd::cli {

namespace {

using desk::csv_cell;

constexpr std::size_t kWidest = 40;

std::string kg(Weight weight) { return format_fixed(weight.g() / 1000, 2); }

std::string words_of(const std::string& code) { return replace_all(code, "_", " "); }

}  // namespace

CsvRows table_of(const desk::LoansResponse& response) { return desk::csv_rows(response.loans); }

std::string text_of(const desk::LoansResponse& response) {
  TextTable table({"loan", "record", "context", "fabric", "sherds", "for", "with", "taken", "due", "standing", ""});
  for (const desk::LoanEntry& loan : response.loans) {
    std::string count = csv_cell(loan.count ? loan.count : loan.of);
    if (loan.of) count += " of " + csv_cell(loan.of);
    table.row({loan.loan, loan.record, loan.context, loan.fabric, count, words_of(csv_cell(loan.purpose)), loan.holder,
               loan.taken_on, loan.due_on, loan.loan.empty() ? "no slip" : words_of(csv_cell(loan.standing)),
               loan.loan.empty() ? "" : loan.message});
  }
  std::string out = response.loans.empty() ? std::string() : table.text(kWidest);
  out += fmt::format("{} out, {} back, {} used up, {} kept elsewhere, {} lost; {} overdue, {} without a slip\n",
                     response.out, response.back, response.used_up, response.kept, response.lost, response.overdue,
                     response.without_slip);
  return out;
}

CsvRows table_of(const desk::SelectionResponse& response) { return desk::csv_rows(response.contexts); }

std::string text_of(const desk::SelectionResponse& response) {
  TextTable table({"context", "found", "not recorded", "recorded", "kept", "deselected", "undecided", "unaccounted"});
  const auto put = [&](const desk::SelectionRow& row, const std::string& name) {
    table.row({name, row.found ? grouped(*row.found) : "-", grouped(row.deselected_before), grouped(row.recorded),
               grouped(row.kept), grouped(row.deselected), grouped(row.undecided),
               row.unaccounted ? grouped(*row.unaccounted) : "-"});
  };
  for (const desk::SelectionRow& row : response.contexts) put(row, row.context);
  put(response.total, "all");
  std::string out = table.text();
  for (const desk::SelectionReason& reason : response.reasons) {
    out += counted(reason.sherds, "sherd") + " not kept: " + reason.reason +
           (reason.disposal.empty() ? "" : " (" + reason.disposal + ")") + "\n";
  }
  for (const desk::SelectionTrouble& trouble : response.troubles)
    out += "decision " + trouble.selection + ": " + trouble.message + "\n";
  return out + (response.reconciles ? "The counts reconcile.\n" : "The counts do not reconcile.\n");
}

CsvRows table_of(const desk::BoxesResponse& response) { return desk::csv_rows(response.boxes); }

std::string text_of(const desk::BoxesResponse& response) {
  TextTable table({"box", "contexts", "bags", "material", "sherds", "kg", "out", ""});
  for (const desk::BoxEntry& box : response.boxes) {
    table.row({box.box, desk::in_ranges(box.contexts), grouped(std::ssize(box.bags)), join(box.materials, ", "),
               grouped(box.sherds), kg(box.weight), box.out == 0 ? "" : grouped(box.out), box.over ? "over" : ""});
  }
  std::string out =
      table.text(kWidest) + counted(std::ssize(response.boxes), "box", "boxes") + ", " + kg(response.weight) + " kg";
  if (response.limit) {
    out += fmt::format("; {} over the limit of {} kg by {}", response.over == 0 ? "none" : grouped(response.over),
                       kg(*response.limit), response.limit_of);
  }
  out += "\n";
  if (response.without_box > 0) out += counted(response.without_box, "line") + " name no box\n";
  if (!response.file.empty()) out += "Wrote " + response.file + ".\n";
  return out;
}

std::string text_of(const desk::LabelsResponse& response) {
  return fmt::format("Wrote {}: {} of {} by {} mm on {}{}.\nPrint at 100 %: the line at the foot is 50 mm long.\n",
                     response.file, counted(response.labels, "label"), format_fixed(response.width_mm, 0),
                     format_fixed(response.height_mm, 0), counted(response.sheets, "sheet"),
                     response.rules.empty() ? "" : ", by the rules of " + response.rules);
}

CsvRows table_of(const desk::DepositResponse& response) {
  CsvRows rows{{"severity", "code", "message", "table", "id", "column", "hint"}};
  for (const desk::Finding& finding : response.findings) {
    rows.push_back({csv_cell(finding.severity), finding.code, finding.message, finding.where.table, finding.where.id,
                    finding.where.column, finding.hint});
  }
  return rows;
}

std::string text_of(const desk::DepositResponse& response) {
  std::string out;
  for (const desk::Finding& finding : response.findings) {
    out += csv_cell(finding.severity) + ": " + finding.message + "\n";
    if (!finding.hint.empty()) out += "  " + finding.hint + "\n";
  }
  out += fmt::format("{}, {}, {}: {}\n", counted(response.error_count, "error"),
                     counted(response.warning_count, "warning"), counted(response.note_count, "note"),
                     response.ready ? "ready to be handed over" : "not ready to be handed over");
  out += fmt::format("{} out of the bags; {}, {} over the limit; {} not kept\n", response.out,
                     counted(response.boxes, "box", "boxes"), response.over, counted(response.deselected, "sherd"));
  return out;
}

CsvRows table_of(const desk::ArchiveResponse& response) { return desk::csv_rows(response.files); }

std::string text_of(const desk::ArchiveResponse& response) {
  std::map<std::string, std::pair<std::int64_t, std::int64_t>> folders;  // files, bytes
  for (const desk::ArchiveFile& file : response.files) {
    const std::size_t slash = file.path.find('/');
    auto& [files, bytes] = folders[slash == std::string::npos ? "" : file.path.substr(0, slash + 1)];
    ++files;
    bytes += file.bytes;
  }
  TextTable table({"", "files", "bytes"});
  for (const auto& [folder, sums] : folders)
    table.row({folder.empty() ? "(top)" : folder, grouped(sums.first), grouped(sums.second)});
  std::string out = "Wrote " + response.folder + "\n" + table.text();
  for (const std::string& one : response.missing) out += "not in the record: " + one + "\n";
  return out + "Seal: " + response.sha256 + "\nNote the seal down: sherdwright verify " + response.folder +
         " --sha256 SEAL proves the archive by it.\n";
}

}  // namespace sherd::cli
