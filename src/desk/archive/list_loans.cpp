#include "desk/archive/list_loans.h"

#include <algorithm>
#include <map>

#include "base/text.h"
#include "desk/archive/archive_csv.h"
#include "methods/quantify/natural_order.h"
#include "model/chemistry.h"
#include "model/kind_spec.h"
#include "model/record_deposit.h"
#include "model/record_more.h"
#include "model/record_vessels.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

bool away(Return standing) { return standing == Return::out || standing == Return::lost; }
/// Those sherds that are no longer to come back to the bag.
bool gone(Return standing) { return standing == Return::used_up || standing == Return::kept; }

struct Line {
  std::string context, fabric, form, bag, box, passed_to;
  std::optional<std::int64_t> count;
  std::int64_t taken = 0;  ///< sherds that are out, lost, used up or stay elsewhere
};

Result<std::map<std::string, Line>> lines_of(const Session& session) {
  SHERD_TRY(const Table table,
            session.store->read({session.site.code,
                                 Kind::sherds,
                                 {"record", "context", "fabric", "form", "bag", "box", "passed_to", "count"}}));
  std::map<std::string, Line> lines;
  const auto text = [&](std::size_t column, std::size_t row) { return std::string(table.columns()[column].text(row)); };
  for (std::size_t row = 0; row < table.rows(); ++row) {
    Line line{text(1, row), text(2, row), text(3, row), text(4, row), text(5, row), text(6, row), {}};
    const Column& count = table.columns()[7];
    if (!count.is_null(row)) line.count = count.integer(row);
    lines.emplace(text(0, row), std::move(line));
  }
  return lines;
}

void say(LoanEntry& entry, LoanTrouble trouble, std::string message) {
  entry.troubles.push_back(trouble);
  entry.message += (entry.message.empty() ? "" : "; ") + std::move(message);
}

LoanEntry entry_of(const Loan& loan, const std::string& today) {
  LoanEntry entry;
  entry.loan = loan.loan;
  entry.record = loan.record;
  entry.count = loan.count;
  entry.purpose = loan.purpose;
  entry.reference = loan.reference;
  entry.holder = loan.holder;
  entry.place = loan.place;
  entry.taken_on = loan.taken_on;
  entry.taken_by = loan.taken_by;
  entry.due_on = loan.due_on;
  entry.standing = loan.returned.value_or(Return::out);
  entry.returned_on = loan.returned_on;
  const bool late = !today.empty() && is_day(entry.due_on) && entry.due_on < today && entry.standing == Return::out;
  if (late) say(entry, LoanTrouble::overdue, "was due on " + entry.due_on);
  if (entry.standing == Return::back && entry.returned_on.empty())
    say(entry, LoanTrouble::no_day, "is back, and no day says when");
  return entry;
}

void put_line(LoanEntry& entry, const Line& line) {
  entry.context = line.context;
  entry.fabric = line.fabric;
  entry.form = line.form;
  entry.bag = line.bag;
  entry.box = line.box;
  entry.of = line.count;
}

/// Lines and specimens that are away and have no loan.
Result<void> add_without_slip(const Session& session, const std::map<std::string, Line>& lines,
                              const std::map<std::string, bool>& on_loan, std::vector<LoanEntry>& entries) {
  const auto add = [&](const std::string& record, const Line* line, Purpose purpose, std::string where,
                       std::string why) {
    LoanEntry entry;
    entry.record = record;
    if (line != nullptr) put_line(entry, *line);
    entry.purpose = purpose;
    entry.holder = std::move(where);
    say(entry, LoanTrouble::no_slip, std::move(why));
    entries.push_back(std::move(entry));
  };
  for (const auto& [record, line] : lines) {
    if (!line.passed_to.empty() && !on_loan.contains(record))
      add(record, &line, Purpose::study, line.passed_to, "is with " + line.passed_to + " and has no slip");
  }
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::specimens, {}}));
  for (const Specimen& specimen : rows_from<Specimen>(table)) {
    if (specimen.record.empty() || on_loan.contains(specimen.record)) continue;
    const auto line = lines.find(specimen.record);
    add(specimen.record, line == lines.end() ? nullptr : &line->second, Purpose::type_series, specimen.place,
        "is specimen " + specimen.specimen + " and has no slip");
  }
  const auto add_named = [&](const std::string& record, Purpose purpose, const std::string& where,
                             const std::string& why) {
    if (record.empty() || on_loan.contains(record)) return;
    const auto line = lines.find(record);
    add(record, line == lines.end() ? nullptr : &line->second, purpose, where, why);
  };
  SHERD_TRY(const Table samples, session.store->read({session.site.code, Kind::samples, {}}));
  for (const Sample& sample : rows_from<Sample>(samples)) {
    const bool away = !sample.sent_on.empty() && sample.returned_on.empty() &&
                      sample.remainder.value_or(Remainder::held) == Remainder::held;
    if (away)
      add_named(sample.record, Purpose::sample, sample.laboratory,
                "was sent as sample " + sample.sample + " and has no slip");
  }
  SHERD_TRY(const Table drawings, session.store->read({session.site.code, Kind::drawings, {}}));
  for (const Drawing& drawing : rows_from<Drawing>(drawings)) {
    if (!drawing.place.empty())
      add_named(drawing.record, Purpose::drawing, drawing.place,
                "is at " + drawing.place + " for drawing " + drawing.drawing + " and has no slip");
  }
  return {};
}

}  // namespace

Result<std::vector<LoanEntry>> all_loans(const Session& session, const std::string& today) {
  SHERD_TRY(auto lines, lines_of(session));
  std::vector<std::string> columns = kind_spec(Kind::loans).column_names();
  columns.emplace_back("uid");
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::loans, columns}));
  const auto loans = rows_from<Loan>(table);
  std::vector<LoanEntry> entries;
  std::map<std::string, bool> on_loan;
  for (std::size_t row = 0; row < loans.size(); ++row) {
    LoanEntry entry = entry_of(loans[row], today);
    entry.uid = table.find("uid")->text(row);
    const auto line = lines.find(entry.record);
    if (line == lines.end()) {
      say(entry, LoanTrouble::no_line, "the record has no line " + entry.record);
    } else {
      put_line(entry, line->second);
      if (away(entry.standing) || gone(entry.standing)) {
        on_loan[entry.record] = true;
        line->second.taken += entry.count.value_or(entry.of.value_or(0));
        if (entry.of && line->second.taken > *entry.of)
          say(entry, LoanTrouble::too_many,
              counted(line->second.taken, "sherd") + " taken of " + std::to_string(*entry.of));
      }
    }
    entries.push_back(std::move(entry));
  }
  std::ranges::stable_sort(
      entries, [](const LoanEntry& a, const LoanEntry& b) { return quantify::natural_order(a.loan, b.loan) < 0; });
  SHERD_CHECK(add_without_slip(session, lines, on_loan, entries));
  return entries;
}

Result<LoansResponse> list_loans(const LoansRequest& request, Environment& environment, Progress&) {
  const std::string today = request.on.empty() ? environment.now().substr(0, 10) : request.on;
  if (!is_day(today))
    return fail(ErrorKind::usage, "bad_day", "\"" + today + "\" is not a day", "write it as 2026-03-02");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  LoansResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.provenance.settings["on"] = today;
  response.warnings = session.store->warnings();
  SHERD_TRY(auto entries, all_loans(session, today));
  for (LoanEntry& entry : entries) {
    const bool no_slip = std::ranges::find(entry.troubles, LoanTrouble::no_slip) != entry.troubles.end();
    response.overdue += std::ranges::find(entry.troubles, LoanTrouble::overdue) != entry.troubles.end() ? 1 : 0;
    if (no_slip) {
      ++response.without_slip;
    } else {
      std::int64_t* const count[]{&response.out, &response.back, &response.used_up, &response.kept, &response.lost};
      ++*count[static_cast<std::size_t>(entry.standing)];
    }
    if (request.all || away(entry.standing) || !entry.troubles.empty()) response.loans.push_back(std::move(entry));
  }
  return response;
}

}  // namespace sherd::desk
