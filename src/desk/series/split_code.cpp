#include "desk/series/split_code.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/assemblage/line_fields.h"
#include "desk/series/code_rows.h"
#include "desk/series/rename_code.h"
#include "methods/quantify/natural_order.h"
#include "model/kind_spec.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct ChosenLine {
  std::string uid;
  RecordLine line;
};

class Splitting {
 public:
  Splitting(const Session& session, const SplitRequest& request, Kind kind)
      : session_(session), request_(request), kind_(kind), column_(code_column(kind)), plan_(session) {}

  /// The lines of the code that the rule or the numbers name.
  Result<void> choose() {
    SHERD_TRY(const auto conditions, conditions_of(request_.where));
    std::vector<std::string> asked;
    for (const Condition& condition : conditions) asked.push_back(condition.field);
    std::vector<std::string> always = kind_spec(Kind::sherds).column_names();
    always.emplace_back("uid");
    SHERD_TRY(const LineFields fields, LineFields::read(session_, asked, always));
    std::set<std::string_view> wanted(request_.record.begin(), request_.record.end());
    std::set<std::string_view> met;
    std::vector<std::uint32_t> rows;
    const Column& records = *fields.lines().find("record");
    const Column& codes = *fields.lines().find(column_);
    for (const std::uint32_t row : chosen_lines(fields, conditions)) {
      if (!wanted.empty() && !wanted.contains(records.text(row))) continue;
      met.insert(records.text(row));
      if (codes.text(row) == request_.from)
        rows.push_back(row);
      else if (!wanted.empty())
        return not_of_code(std::string(records.text(row)), std::string(codes.text(row)));
    }
    for (const std::string_view record : wanted) {
      if (!met.contains(record)) {
        return fail("unknown_record", "there is no line " + std::string(record) + " that meets the rule",
                    "find it with: sherdwright lines --where record=" + std::string(record));
      }
    }
    const Table chosen = picked(fields.lines(), rows);
    const auto lines = rows_from<RecordLine>(chosen);
    for (std::size_t row = 0; row < lines.size(); ++row)
      lines_.push_back({std::string(chosen.find("uid")->text(row)), lines[row]});
    return {};
  }

  Result<void> gather() {
    if (lines_.empty())
      return fail("no_lines", "no line of " + request_.from + " is chosen", "look with: sherdwright lines");
    SHERD_TRY(const TextRow there, row_of_code(session_, kind_, request_.into));
    if (there.id.empty()) SHERD_CHECK(add_code());
    for (const ChosenLine& chosen : lines_)
      plan_.set(Kind::sherds, chosen.uid, chosen.line.record, column_, request_.from, request_.into);
    for (const Kind follower : {Kind::specimens, Kind::pictures}) {
      if (kind_spec(follower).column(column_) != nullptr) SHERD_CHECK(follow(follower));
    }
    return {};
  }

  std::vector<PullLine> pull() const {
    std::vector<PullLine> out;
    for (const ChosenLine& chosen : lines_) {
      const RecordLine& line = chosen.line;
      out.push_back({line.box, line.bag, line.context, line.record, line.count, line.weight, line.form, line.part,
                     line.decoration, line.small_find, line.drawing});
    }
    std::ranges::stable_sort(out, [](const PullLine& a, const PullLine& b) {
      for (const auto member : {&PullLine::box, &PullLine::bag, &PullLine::context, &PullLine::record}) {
        if (const auto order = quantify::natural_order(a.*member, b.*member); order != 0) return order < 0;
      }
      return false;
    });
    return out;
  }

  const CodePlan& plan() const { return plan_; }

 private:
  std::unexpected<Error> not_of_code(const std::string& record, const std::string& code) const {
    Error error{.code = "not_of_code",
                .message = "line " + record + " is " + (code.empty() ? "without one" : code) + ", not " + request_.from,
                .where = {.column = column_, .id = record},
                .hint = "leave it out, or split that code"};
    return fail(std::move(error));
  }

  /// A provisional code, what can be taken over from the one that is split with it.
  Result<void> add_code() {
    SHERD_TRY(const TextRow parent, row_of_code(session_, kind_, request_.from));
    const auto of_parent = [&](std::string_view column) {
      return parent.id.empty() ? std::string{} : parent.cells[column_place(kind_, column)];
    };
    if (kind_ == Kind::fabrics) {
      Fabric fabric;
      fabric.fabric = request_.into;
      fabric.name = request_.name;
      fabric.ware_group = of_parent("ware_group");
      fabric.source_area = of_parent("source_area");
      if (request_.variant) fabric.variant_of = request_.from;
      fabric.status = "provisional";
      plan_.add(table_from<Fabric>(kind_, {fabric}), request_.into);
    } else if (kind_ == Kind::forms) {
      Form form;
      form.form = request_.into;
      form.name = request_.name;
      form.vessel_class = of_parent("vessel_class");
      form.status = "provisional";
      plan_.add(table_from<Form>(kind_, {form}), request_.into);
    } else {
      Decoration decoration;
      decoration.decoration = request_.into;
      decoration.name = request_.name;
      decoration.technique = of_parent("technique");
      decoration.status = "provisional";
      plan_.add(table_from<Decoration>(kind_, {decoration}), request_.into);
    }
    return {};
  }

  /// Rows of `kind` that show one of the chosen lines as an example of the code.
  Result<void> follow(Kind kind) {
    SHERD_TRY(const auto rows, rows_having(session_, kind, column_, request_.from));
    const std::size_t record = column_place(kind, "record");
    for (const TextRow& row : rows) {
      const bool chosen = std::ranges::any_of(lines_, [&](const ChosenLine& each) {
        return !row.cells[record].empty() && each.line.record == row.cells[record];
      });
      if (chosen) plan_.set(kind, row.uid, row.id, column_, request_.from, request_.into);
    }
    return {};
  }

  const Session& session_;
  const SplitRequest& request_;
  Kind kind_;
  std::string column_;
  CodePlan plan_;
  std::vector<ChosenLine> lines_;
};

}  // namespace

Result<CodeChangeResponse> split_code(const SplitRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Kind kind, code_kind(request.kind));
  const bool only_list = request.into.empty();
  if (!only_list) SHERD_CHECK(two_codes(request.from, request.into));
  if (!only_list && request.where.empty() && request.record.empty()) {
    return fail(ErrorKind::usage, "nothing_chosen", "no line is chosen that gets " + request.into,
                "by a rule: --where form=jar; one by one: --record 12; all of them: sherdwright rename");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(auto before, done_before(session, request.change, environment));
  CodeChangeResponse response = before ? std::move(*before) : CodeChangeResponse{};
  response.kind = request.kind;
  response.from = {request.from};
  response.into = request.into;
  response.dry_run = request.dry_run || only_list;
  if (before) return response;

  SHERD_CHECK(must_know(session, kind, request.from));
  Splitting splitting(session, request, kind);
  SHERD_CHECK(splitting.choose());
  if (!only_list) SHERD_CHECK(splitting.gather());
  response.pull = splitting.pull();
  return finish(session, splitting.plan(), std::move(response),
                "split " + request.kind + " " + request.from + " " + request.into, request.change, environment);
}

}  // namespace sherd::desk
