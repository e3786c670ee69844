#include "desk/archive/check_deposit.h"

#include <algorithm>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_about.h"
#include "desk/archive/archive_csv.h"
#include "desk/archive/list_boxes.h"
#include "desk/archive/list_loans.h"
#include "desk/archive/reconcile_selection.h"
#include "desk/frame/session.h"

namespace sherd::desk {

namespace {

std::string kg(Weight weight) { return format_fixed(weight.g() / 1000, 2) + " kg"; }

class DepositCheck {
 public:
  DepositCheck(const Session& session, std::string today, DepositResponse& response)
      : session_(session), today_(std::move(today)), response_(response) {}

  Result<void> run() {
    SHERD_CHECK(look_at_loans());
    SHERD_CHECK(look_at_selection());
    SHERD_CHECK(look_at_boxes());
    SHERD_CHECK(look_at_pictures());
    SHERD_CHECK(look_at_papers());
    return {};
  }

 private:
  void find(Severity severity, const char* code, FindingPlace where, std::string message, std::string hint) {
    response_.findings.push_back({severity, code, std::move(message), std::move(where), std::move(hint)});
  }

  Result<void> look_at_loans() {
    SHERD_TRY(const auto loans, all_loans(session_, today_));
    for (const LoanEntry& loan : loans) {
      const bool has_slip = !loan.loan.empty();
      const std::string name = has_slip ? "loan " + loan.loan : "line " + loan.record;
      if (has_slip && loan.standing == Return::out) {
        ++response_.out;
        const std::string with = loan.holder.empty() ? loan.place : loan.holder;
        find(Severity::error, "not_back", {"loans", loan.loan, "returned"},
             name + " (line " + loan.record + ") is not back" + (with.empty() ? "" : ": it is with " + with),
             "put it back and say returned: back, or used_up or kept where it does not come back");
      }
      if (loan.standing == Return::lost)
        find(Severity::warning, "lost", {"loans", loan.loan, "returned"}, name + " (line " + loan.record + ") is lost",
             "leave its slip in the bag, and say so in the report");
      for (const LoanTrouble trouble : loan.troubles) look_at(loan, name, trouble);
    }
    return {};
  }

  void look_at(const LoanEntry& loan, const std::string& name, LoanTrouble trouble) {
    switch (trouble) {
      case LoanTrouble::no_slip:
        return find(Severity::error, "no_slip", {"sherds", loan.record, "passed_to"}, name + " " + loan.message,
                    "add a loan for it, and lay its slip into the bag: sherdwright labels STORE --of slips");
      case LoanTrouble::no_line:
        return find(Severity::error, "loan_of_no_line", {"loans", loan.loan, "record"}, name + ": " + loan.message,
                    "correct the number of the line");
      case LoanTrouble::too_many:
        return find(Severity::error, "more_out_than_there_are", {"loans", loan.loan, "count"},
                    name + ": " + loan.message, "correct the counts of the loans or of the line");
      case LoanTrouble::no_day:
        return find(Severity::note, "no_day_of_return", {"loans", loan.loan, "returned_on"}, name + " " + loan.message,
                    "say the day");
      case LoanTrouble::overdue:
        return find(Severity::warning, "overdue", {"loans", loan.loan, "due_on"}, name + " " + loan.message,
                    "ask for it");
    }
  }

  Result<void> look_at_selection() {
    SHERD_TRY(const Reconciled selection, reconcile(session_));
    response_.deselected = selection.total.deselected + selection.total.deselected_before;
    response_.undecided = selection.decisions > 0 ? selection.total.undecided : 0;
    for (const SelectionTrouble& trouble : selection.troubles)
      find(Severity::error, "decision_does_not_fit", {"selections", trouble.selection, {}},
           "decision " + trouble.selection + ": " + trouble.message, "correct the decision");
    for (const SelectionRow& row : selection.contexts) {
      const std::int64_t odd = row.unaccounted.value_or(0);
      if (odd == 0) continue;
      const std::string how = odd > 0 ? counted(odd, "sherd") + " of the finds list are neither recorded nor deselected"
                                      : counted(-odd, "sherd") + " more than the finds list says";
      find(Severity::warning, "counts_do_not_reconcile", {"contexts", row.context, {}},
           "context " + row.context + ": " + how, "count again, or add a decision for what was not recorded");
    }
    if (response_.undecided > 0)
      find(Severity::note, "undecided", {"selections", {}, {}},
           "nothing was decided about " + counted(response_.undecided, "sherd"),
           "they are kept unless someone decides otherwise; a decision for a whole context takes one row");
    return {};
  }

  Result<void> look_at_boxes() {
    SHERD_TRY(const BoxesResponse boxes, boxes_of(session_));
    response_.boxes = std::ssize(boxes.boxes);
    response_.over = boxes.over;
    for (const BoxEntry& box : boxes.boxes) {
      if (box.over)
        find(Severity::error, "box_over_limit", {"sherds", box.box, "box"},
             "box " + box.box + " holds " + kg(box.weight) + ", over the limit of " + kg(*boxes.limit) + " by " +
                 boxes.limit_of,
             "divide it into two boxes");
    }
    if (boxes.without_box > 0)
      find(Severity::warning, "without_box", {"sherds", {}, "box"}, counted(boxes.without_box, "line") + " name no box",
           "say the box, on the lines or on their bags");
    if (!boxes.limit)
      find(Severity::note, "no_limit", {"repositories", {}, "box_limit_g"}, "nothing says what a box may weigh",
           "put the repository's limit into box_limit_g");
    return {};
  }

  Result<void> look_at_pictures() {
    SHERD_TRY(const Table pictures,
              session_.store->read({session_.site.code, Kind::pictures, {"picture", "file", "small_file"}}));
    SHERD_TRY(const auto names, session_.store->document_names(session_.site.code, ""));
    const std::set<std::string> there(names.begin(), names.end());
    for (std::size_t row = 0; row < pictures.rows(); ++row) {
      for (std::size_t i : {std::size_t{1}, std::size_t{2}}) {
        const std::string file(pictures.columns()[i].text(row));
        const std::string picture(pictures.columns()[0].text(row));
        if (file.empty() ? i == 2 : there.contains(file)) continue;
        find(Severity::error, "picture_missing", {"pictures", picture, i == 1 ? "file" : "small_file"},
             "picture " + picture + (file.empty() ? " has no file" : ": the store does not have " + file),
             "give the picture its file, or remove its row");
      }
    }
    return {};
  }

  Result<void> look_at_papers() {
    SHERD_TRY(const auto repository, repository_of(session_));
    if (!repository) {
      find(Severity::warning, "no_repository", {"repositories", {}, {}},
           "nothing says where the archive goes and by whose rules",
           "add a row to repositories, and its name to the project sheet");
      return {};
    }
    const auto ask = [&](const std::string& value, const char* column, const char* words) {
      if (value.empty())
        find(Severity::warning, "not_said", {"repositories", repository->repository, column},
             std::string("the archive should say ") + words, std::string("put it into ") + column);
    };
    ask(repository->accession, "accession", "its accession number");
    ask(repository->creator, "creator", "who made it");
    ask(repository->copyright_holder, "copyright_holder", "who holds the copyright");
    ask(repository->licence, "licence", "under which licence others may use it");
    return {};
  }

  const Session& session_;
  std::string today_;
  DepositResponse& response_;
};

}  // namespace

Result<DepositResponse> check_deposit(const DepositRequest& request, Environment& environment, Progress&) {
  const std::string today = request.on.empty() ? environment.now().substr(0, 10) : request.on;
  if (!is_day(today))
    return fail(ErrorKind::usage, "bad_day", "\"" + today + "\" is not a day", "write it as 2026-03-02");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  DepositResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.provenance.settings["on"] = today;
  response.warnings = session.store->warnings();
  SHERD_CHECK(DepositCheck(session, today, response).run());
  std::ranges::stable_sort(response.findings, {}, &Finding::severity);
  const auto count = [&](Severity severity) {
    return std::ranges::count(response.findings, severity, &Finding::severity);
  };
  response.error_count = count(Severity::error);
  response.warning_count = count(Severity::warning);
  response.note_count = count(Severity::note);
  response.ready = response.error_count == 0;
  if (!response.ready) {
    response.errors.push_back(
        {.code = "not_ready",
         .message = "the archive cannot be handed over: " + counted(response.error_count, "error"),
         .hint = "each finding says its way out"});
  }
  return response;
}

}  // namespace sherd::desk
