#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "model/words.h"

namespace sherd::desk {

/// What does not fit. no_line: the record has no such line; too_many: more sherds are out than the line has; no_slip: a
/// line or specimen is away without a loan; overdue: out beyond the day; no_day: back, and no day says when.
enum class LoanTrouble { no_line, too_many, no_slip, overdue, no_day };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::LoanTrouble> {
  static constexpr std::array<std::string_view, 5> kNames{"no_line", "too_many", "no_slip", "overdue", "no_day"};
};
}  // namespace sherd

namespace sherd::desk {

struct LoansRequest {
  std::string store, on, site;
  bool all = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &LoansRequest::store, argument("the store"));
    v.field("all", &LoansRequest::all, option("also what is back, used up or stays where it is"));
    v.field("on", &LoansRequest::on, option("the day on which to say what is overdue, YYYY-MM-DD; today unless said"));
    v.field("site", &LoansRequest::site, option("the site, where the store holds several"));
  }
};

struct LoanEntry {
  std::string loan, uid, record, context, fabric, form, bag, box;
  std::optional<std::int64_t> count, of;  ///< sherds taken, of those of the line
  std::optional<Purpose> purpose;
  std::string reference, holder, place, taken_on, taken_by, due_on;
  Return standing = Return::out;
  std::string returned_on;
  std::vector<LoanTrouble> troubles;
  std::string message;  ///< what does not fit, in words; "" where all does

  template <class V>
  static void fields(V& v) {
    v.field("loan", &LoanEntry::loan);
    v.field("uid", &LoanEntry::uid);
    v.field("record", &LoanEntry::record);
    v.field("context", &LoanEntry::context);
    v.field("fabric", &LoanEntry::fabric);
    v.field("form", &LoanEntry::form);
    v.field("bag", &LoanEntry::bag);
    v.field("box", &LoanEntry::box);
    v.field("count", &LoanEntry::count);
    v.field("of", &LoanEntry::of);
    v.field("purpose", &LoanEntry::purpose);
    v.field("reference", &LoanEntry::reference);
    v.field("holder", &LoanEntry::holder);
    v.field("place", &LoanEntry::place);
    v.field("taken_on", &LoanEntry::taken_on);
    v.field("taken_by", &LoanEntry::taken_by);
    v.field("due_on", &LoanEntry::due_on);
    v.field("standing", &LoanEntry::standing);
    v.field("returned_on", &LoanEntry::returned_on);
    v.field("troubles", &LoanEntry::troubles);
    v.field("message", &LoanEntry::message);
  }
};

struct LoansResponse : Reply {
  std::int64_t out = 0, back = 0, used_up = 0, kept = 0, lost = 0, without_slip = 0, overdue = 0;
  std::vector<LoanEntry> loans;

  template <class V>
  static void fields(V& v) {
    v.field("out", &LoansResponse::out);
    v.field("back", &LoansResponse::back);
    v.field("used_up", &LoansResponse::used_up);
    v.field("kept", &LoansResponse::kept);
    v.field("lost", &LoansResponse::lost);
    v.field("without_slip", &LoansResponse::without_slip);
    v.field("overdue", &LoansResponse::overdue);
    v.field("loans", &LoansResponse::loans);
  }
};

/// What is out of its bag, and what is away without a slip: lines that someone else has (`passed_to`), specimens,
/// samples that were sent and are not back, and sherds that a drawing has elsewhere, of which no loan speaks. In the
/// order of loans, those without a slip last. Error `bad_day`.
Result<LoansResponse> list_loans(const LoansRequest& request, Environment& environment, Progress& progress);
/// The same within a session; `today` blank: nothing is overdue.
Result<std::vector<LoanEntry>> all_loans(const Session& session, const std::string& today);

}  // namespace sherd::desk
