#include "desk/dates/spot_list_rows.h"

#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/dates/flags.h"
#include "desk/frame/csv.h"
#include "exchange/sheets/row_source.h"

namespace sherd::desk {

namespace {

using report::SpotListRow;

struct Amounts {
  std::int64_t sherds = 0, weight_mg = 0, vessels = 0, unchecked = 0;
  bool any_count = false, any_weight = false, any_vessels = false;
};

Amounts amounts_of(const Record& record, const DatedContext& context) {
  Amounts amounts;
  std::set<std::string_view> vessels;
  for (const std::size_t i : context.lines) {
    const RecordLine& line = record.lines[i];
    amounts.sherds += line.count.value_or(0);
    amounts.weight_mg += line.weight.value_or(Weight{}).mg;
    amounts.any_count = amounts.any_count || line.count;
    amounts.any_weight = amounts.any_weight || line.weight;
    amounts.any_vessels = amounts.any_vessels || line.vessels || !line.vessel.empty();
    if (line.vessel.empty()) {
      amounts.vessels += line.vessels.value_or(0);
    } else {
      vessels.insert(line.vessel);
    }
    if (line.checked_by.empty()) ++amounts.unchecked;
  }
  amounts.vessels += static_cast<std::int64_t>(vessels.size());
  return amounts;
}

std::string terminus_source(const DatedContext& context) {
  const stratigraphy::EffectiveTerminus& effective = context.effective;
  if (context.mixed || !effective.year) return {};
  return effective.because;
}

std::string spot_text(const DatedContext& context) {
  if (context.mixed) return "mixed";
  if (!context.spot) return {};
  const std::string range = range_text({context.spot->earliest, context.spot->latest});
  return context.spot->single ? range + " (one vessel)" : range;
}

SpotListRow row_of(const Record& record, const DatedContext& context) {
  const Context& sheet = *context.context;
  const Amounts amounts = amounts_of(record, context);
  SpotListRow row;
  row.context = sheet.context;
  if (sheet.deposit) row.deposit = replace_all(std::string(word(*sheet.deposit)), "_", "-");
  row.phase = sheet.phase;
  if (amounts.any_count) row.sherds = std::to_string(amounts.sherds);
  if (amounts.any_weight) row.weight_g = format_scaled(amounts.weight_mg, Weight::kDecimals);
  if (amounts.any_vessels) row.vessels = std::to_string(amounts.vessels);
  const YearRange own{sheet.my_earliest, sheet.my_latest};
  if (!own.empty()) row.own_date = range_text(own);
  row.own_reason = sheet.my_reason;
  row.confidence = sheet.my_confidence;
  if (!context.mixed && context.effective.year) row.terminus = year_text(*context.effective.year);
  row.set_by = terminus_source(context);
  row.spot = spot_text(context);
  row.notes = join(flags_of(context), "; ");
  row.comment = sheet.notes;
  row.status = amounts.unchecked == 0 ? "final" : "provisional";
  return row;
}

/// Of a context that was looked through and not yet recorded.
SpotListRow row_of(const Context& sheet, const Scan& scan) {
  SpotListRow row;
  row.context = sheet.context;
  if (sheet.deposit) row.deposit = replace_all(std::string(word(*sheet.deposit)), "_", "-");
  row.phase = sheet.phase;
  if (scan.count) row.sherds = std::to_string(*scan.count);
  if (scan.weight) row.weight_g = format_scaled(scan.weight->mg, Weight::kDecimals);
  const YearRange own{sheet.my_earliest, sheet.my_latest};
  if (!own.empty()) row.own_date = range_text(own);
  row.own_reason = sheet.my_reason;
  row.confidence = sheet.my_confidence;
  const YearRange years{scan.earliest, scan.latest};
  if (!years.empty()) row.spot = range_text(years) + " (scan)";
  std::vector<std::string> notes{"scanned, not recorded"};
  if (!scan.wares.empty()) notes.push_back(scan.wares);
  if (scan.amount) notes.push_back("amount " + std::string(word(*scan.amount)));
  row.notes = join(notes, "; ");
  row.comment = scan.comment.empty() ? sheet.notes : scan.comment;
  row.status = "provisional";
  return row;
}

std::map<std::string, const SpotListRow*> by_context(const std::vector<SpotListRow>& rows) {
  std::map<std::string, const SpotListRow*> out;
  for (const SpotListRow& row : rows) out[row.context] = &row;
  return out;
}

/// Fills a row from named cells.
struct FromCells {
  SpotListRow& row;
  const std::map<std::string, std::string>& cells;

  void field(std::string_view name, std::string SpotListRow::* member) {
    if (const auto found = cells.find(std::string(name)); found != cells.end()) row.*member = found->second;
  }
};

}  // namespace

std::vector<SpotListRow> spot_list_rows(const Record& record, const DatedRecord& dated,
                                        const std::vector<Scan>& scans) {
  std::map<std::string_view, const Scan*> scanned;
  for (const Scan& scan : scans) scanned[scan.context] = &scan;
  std::vector<SpotListRow> rows;
  for (const DatedContext& context : dated.contexts) {
    const auto scan = scanned.find(context.context->context);
    if (!context.lines.empty()) {
      rows.push_back(row_of(record, context));
    } else if (scan != scanned.end()) {
      rows.push_back(row_of(*context.context, *scan->second));
    }
  }
  return rows;
}

std::vector<report::SpotListChange> spot_list_changes(const std::vector<SpotListRow>& before,
                                                      const std::vector<SpotListRow>& now) {
  std::vector<report::SpotListChange> changes;
  const auto old_rows = by_context(before);
  const auto new_rows = by_context(now);
  for (const SpotListRow& row : now) {
    const auto old = old_rows.find(row.context);
    if (old == old_rows.end()) {
      changes.push_back({row.context, "context", "", row.context});
      continue;
    }
    const auto cells = csv_rows(std::vector<SpotListRow>{*old->second, row});
    for (std::size_t i = 0; i < cells[0].size(); ++i) {
      if (cells[1][i] != cells[2][i]) changes.push_back({row.context, cells[0][i], cells[1][i], cells[2][i]});
    }
  }
  for (const SpotListRow& row : before) {
    if (!new_rows.contains(row.context)) changes.push_back({row.context, "context", row.context, ""});
  }
  return changes;
}

std::string spot_list_csv(const std::vector<SpotListRow>& rows) { return csv_text(csv_rows(rows)); }

namespace {

Result<std::vector<SpotListRow>> read_list(std::string_view csv) {
  SHERD_TRY(const auto source, exchange::open_table(csv, "spot-dates.csv"));
  std::vector<std::string> names;
  std::vector<SpotListRow> rows;
  exchange::SheetRow row;
  for (;;) {
    SHERD_TRY(const bool any, source->next(row));
    if (!any) return rows;
    if (names.empty()) {
      for (const exchange::Cell& cell : row.cells) names.emplace_back(cell.text);
      if (names.front() != "context") return fail("no_list", "its first column is not context");
      continue;
    }
    std::map<std::string, std::string> cells;
    for (std::size_t i = 0; i < std::min(names.size(), row.cells.size()); ++i) cells[names[i]] = row.cells[i].text;
    FromCells reader{rows.emplace_back(), cells};
    SpotListRow::fields(reader);
  }
}

}  // namespace

Result<std::vector<SpotListRow>> spot_list_from_csv(std::string_view csv) {
  auto rows = read_list(csv);
  if (!rows) {
    return fail("damaged_document",
                "the last issue of the list, as the store keeps it, cannot be read: " + rows.error().message,
                "undo the change that kept it; history tells which");
  }
  return rows;
}

}  // namespace sherd::desk
