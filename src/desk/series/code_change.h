#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/fields.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"
#include "desk/site/history.h"
#include "model/quantity.h"

namespace sherd::desk {

/// A line whose sherds are to be taken out of their bag.
struct PullLine {
  std::string box, bag, context, record;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::string form, part, decoration, small_find, drawing;

  template <class V>
  static void fields(V& v) {
    v.field("box", &PullLine::box);
    v.field("bag", &PullLine::bag);
    v.field("context", &PullLine::context);
    v.field("record", &PullLine::record);
    v.field("count", &PullLine::count);
    v.field("weight_g", &PullLine::weight);
    v.field("form", &PullLine::form);
    v.field("part", &PullLine::part);
    v.field("decoration", &PullLine::decoration);
    v.field("small_find", &PullLine::small_find);
    v.field("drawing", &PullLine::drawing);
  }
};

/// Two rows that would have the same key and differ: under the code that goes, and under the one that stays.
struct CodeClash {
  std::string table, id, column, from, into;

  template <class V>
  static void fields(V& v) {
    v.field("table", &CodeClash::table);
    v.field("id", &CodeClash::id);
    v.field("column", &CodeClash::column);
    v.field("from", &CodeClash::from);
    v.field("into", &CodeClash::into);
  }
};

/// What renaming, merging or splitting a code does, or would do.
struct CodeChangeResponse : Reply {
  std::string kind;
  std::vector<std::string> from;
  std::string into;
  bool dry_run = false;
  std::optional<std::int64_t> change;          ///< its number in the history, once it is done
  std::int64_t rows = 0;                       ///< touched
  std::map<std::string, std::int64_t> tables;  ///< of these, by table
  std::vector<HistoryValue> values;            ///< every value; as in the history
  std::vector<CodeClash> clashes;
  std::vector<PullLine> pull;  ///< of a split: by box and bag

  template <class V>
  static void fields(V& v) {
    v.field("kind", &CodeChangeResponse::kind);
    v.field("from", &CodeChangeResponse::from);
    v.field("into", &CodeChangeResponse::into);
    v.field("dry_run", &CodeChangeResponse::dry_run);
    v.field("change", &CodeChangeResponse::change);
    v.field("rows", &CodeChangeResponse::rows);
    v.field("tables", &CodeChangeResponse::tables);
    v.field("values", &CodeChangeResponse::values);
    v.field("clashes", &CodeChangeResponse::clashes);
    v.field("pull", &CodeChangeResponse::pull);
  }
};

/// Steps over rows of the store, gathered first, so that they can be shown, and then done as one change.
class CodePlan {
 public:
  explicit CodePlan(const Session& session) : session_(session) {}

  void set(Kind kind, const std::string& uid, const std::string& id, const std::string& column, const std::string& was,
           const std::string& now);
  void remove(Kind kind, const std::string& uid, const std::string& id);
  /// One row or several of one kind; `id` is what the history calls it.
  void add(Table rows, const std::string& id);

  bool empty() const { return steps_.empty() && added_.empty(); }
  /// Puts rows, tables and values into the answer.
  void tell(CodeChangeResponse& response) const;
  /// All of it as one change. Errors: `conflict` where a row has changed since, those of the store.
  Result<Change> carry_out(Environment& environment, const std::string& label, const std::string& change) const;

 private:
  struct Step {
    Kind kind{};
    std::string uid, id, column, was, now;  ///< no column: the row goes
  };
  const Session& session_;
  std::vector<Step> steps_;
  std::vector<std::pair<Table, std::string>> added_;
};

/// The kind of a series' codes by its name: fabrics, forms or decorations. Error `unknown_kind`.
Result<Kind> code_kind(const std::string& name);
/// "fabric", "form", "decoration": the column that holds the code, in its own table and in those that name it.
std::string code_column(Kind kind);

/// Shows or does what was planned. `change`: the client's own name for it, so that a repeat is not done twice.
Result<CodeChangeResponse> finish(const Session& session, const CodePlan& plan, CodeChangeResponse response,
                                  const std::string& label, const std::string& change, Environment& environment);
/// The first answer again, where a change of that name has been made; nothing otherwise.
Result<std::optional<CodeChangeResponse>> done_before(const Session& session, const std::string& change,
                                                      Environment& environment);

}  // namespace sherd::desk
