#include <fmt/format.h>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Copies that are taken away, what merging did, and what it left open.
namespace sherd::cli {

namespace {

/// What stands behind the row of a conflict, in a sentence of its own.
std::string about(const desk::ConflictEntry& one) {
  if (one.sort == "removed") return "removed in the copy; altered or named here since";
  if (one.sort == "gone") return "altered in the copy; removed here";
  if (one.sort == "named") return "named by a row of the copy; removed here";
  if (one.sort == "renamed") return "what it names has another name now";
  if (one.sort == "same_key") return "two rows have this key";
  return {};
}

std::string side(const char* name, const std::string& value, const std::string& who, const std::string& at,
                 const std::string& copy) {
  std::string out = fmt::format("      {:<7} {}", name, value.empty() ? "(blank)" : value);
  if (!who.empty()) out += fmt::format("   {}, {}", who, at);
  return out + (copy.empty() ? "" : ", " + copy) + "\n";
}

std::string conflict_text(const desk::ConflictEntry& one) {
  std::string out = fmt::format("{:>4}  {} {} {}", one.id, one.site, one.table, one.row);
  if (!one.column.empty()) out += ", " + one.column;
  if (const std::string what = about(one); !what.empty()) out += ": " + what;
  out += "\n";
  if (one.sort == "value") out += side("before", one.base, {}, {}, {});
  return out + side("here", one.here, one.here_who, one.here_at, {}) +
         side("there", one.there, one.there_who, one.there_at, one.copy);
}

}  // namespace

std::string text_of(const desk::CopyResponse& response) {
  std::string out = fmt::format("Wrote {}, verified: a copy called {}, of the store up to change {}.\n", response.file,
                                response.name, response.change);
  for (const desk::LeasedBlock& block : response.leased) {
    out += fmt::format("  {}: record numbers {} to {}\n", block.site, block.first, block.last);
  }
  return out + "Bring it back with: sherdwright merge " + response.file + " STORE\n";
}

std::string text_of(const desk::MergeResponse& response) {
  std::string out =
      fmt::format("{} {} of {}: {} added, {} altered, {} removed{}\n", response.dry_run ? "Would merge" : "Merged",
                  counted(response.changes, "change"), response.copy, counted(response.rows_added, "row"),
                  grouped(response.rows_changed), grouped(response.rows_removed),
                  response.passed_over > 0 ? fmt::format("; {} merged before", counted(response.passed_over, "change"))
                                           : std::string());
  if (response.conflicts.empty()) return out;
  out += counted(static_cast<std::int64_t>(response.conflicts.size()), "conflict") + " to settle\n";
  for (const desk::ConflictEntry& one : response.conflicts) out += conflict_text(one);
  return response.dry_run ? out : out + "Settle each with: sherdwright settle STORE ID --take here|there|VALUE\n";
}

std::string text_of(const desk::ConflictsResponse& response) {
  if (response.conflicts.empty()) return "No open conflicts.\n";
  std::string out;
  for (const desk::ConflictEntry& one : response.conflicts) out += conflict_text(one);
  return out + "Settle each with: sherdwright settle STORE ID --take here|there|VALUE\n";
}

std::string text_of(const desk::SettleResponse& response) {
  const desk::ConflictEntry& one = response.conflict;
  return fmt::format("Settled conflict {} ({} {}{}) by change {}; {} left\n", one.id, one.table, one.row,
                     one.column.empty() ? "" : ", " + one.column, response.change, response.left);
}

CsvRows table_of(const desk::ConflictsResponse& response) { return desk::csv_rows(response.conflicts); }

}  // namespace sherd::cli
