#include "desk/stratigraphy/preview_tables.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "desk/dates/dated_record.h"
#include "desk/dates/kept_dates.h"
#include "desk/frame/issues.h"
#include "desk/frame/session.h"
#include "exchange/record_reader.h"
#include "methods/stratigraphy/reduce.h"
#include "model/kind_spec.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

using Key = std::tuple<std::string, std::string, std::string>;

/// What tells one relation from another; a relation without a kind is `later`.
Key key_of(const Relation& relation) {
  return {relation.later, std::string(word(relation.kind.value_or(RelationKind::later))), relation.earlier};
}

stratigraphy::RecordedRelation recorded(const Relation& relation) {
  return {relation.later, relation.kind.value_or(RelationKind::later), relation.earlier};
}

/// A table file with the rows of the store that it is compared with.
struct NewTable {
  Kind kind{};
  Table rows;
};

class Rephasing {
 public:
  Rephasing(const RephaseRequest& request, Environment& environment, Progress& progress, Session session)
      : request_(request), environment_(environment), progress_(progress), session_(std::move(session)) {}

  Result<RephaseResponse> run() {
    if (request_.apply) {
      SHERD_TRY(writing_, session_.store->begin(change_note(environment_, "rephase")));
    }
    SHERD_TRY(before_, load_record(session_));
    after_ = before_;
    if (!request_.phases.empty()) SHERD_CHECK(compare_rows(Kind::phases, request_.phases));
    if (!request_.contexts.empty()) SHERD_CHECK(compare_rows(Kind::contexts, request_.contexts));
    if (!request_.relations.empty()) SHERD_CHECK(compare_relations());
    SHERD_CHECK(compare_dates());
    SHERD_CHECK(look_at_issues());
    if (request_.apply) SHERD_CHECK(apply());
    SHERD_TRY(response_.provenance, session_.provenance(environment_));
    return std::move(response_);
  }

 private:
  Result<exchange::NameSet> keys_of(Kind kind) {
    exchange::NameSet names;
    const KindSpec& spec = kind_spec(kind);
    SHERD_TRY(const Table table, session_.store->read({session_.site.code, kind, spec.key_names()}));
    for (std::size_t row = 0; row < table.rows(); ++row) names.add(exchange::key_text(spec, table, row));
    for (const std::string& name : new_names_[kind]) names.add(name);
    return names;
  }

  /// All good rows of a file; the others go to the problems.
  Result<Table> read_table(Kind kind, const std::string& file) {
    SHERD_TRY(const std::string bytes, environment_.files->read(file));
    exchange::ReadOptions options;
    options.update = true;
    for (const ColumnSpec& column : kind_spec(kind).columns) {
      if (!column.refers || options.known.contains(*column.refers)) continue;
      SHERD_TRY(options.known[*column.refers], keys_of(*column.refers));
    }
    SHERD_TRY(auto reader, exchange::RecordReader::open(kind, bytes, file, std::move(options)));
    Table all(kind);
    for (;;) {
      SHERD_TRY(const Table rows, reader->next(20'000));
      if (rows.rows() == 0) break;
      if (all.columns().empty()) {
        for (std::size_t i = 0; i < rows.names().size(); ++i) all.add(rows.names()[i], rows.columns()[i].type());
      }
      for (std::size_t i = 0; i < rows.columns().size(); ++i) {
        for (std::size_t row = 0; row < rows.rows(); ++row) push_cell(all.columns()[i], rows.columns()[i], row);
      }
      if (!progress_.step(0, "reading " + file)) return fail(ErrorKind::stopped, "stopped", "stopped");
    }
    response_.problems.insert(response_.problems.end(), reader->problems().begin(), reader->problems().end());
    return all;
  }

  static void push_cell(Column& to, const Column& from, std::size_t row) {
    if (is_text(from.type())) {
      to.push_text(from.text(row));
    } else {
      to.push_integer(from.integer(row));
    }
  }

  /// Contexts or phases: new rows, and the values that differ in the columns that the file has.
  Result<void> compare_rows(Kind kind, const std::string& file) {
    SHERD_TRY(Table rows, read_table(kind, file));
    std::vector<std::string> columns{"uid"};
    for (const std::string& name : rows.names()) {
      if (name != "extra") columns.push_back(name);
    }
    const std::string key = kind_spec(kind).key_names().front();
    if (std::ranges::find(columns, key) == columns.end()) return {};
    SHERD_TRY(const Table stored, session_.store->read({session_.site.code, kind, columns}));
    std::map<std::string, std::size_t, std::less<>> at;
    for (std::size_t row = 0; row < stored.rows(); ++row) at.emplace(stored.find(key)->text(row), row);
    Table fresh(kind);
    for (const std::string& name : columns) {
      if (name != "uid") fresh.add(name, rows.find(name)->type());
    }
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      const std::string name(rows.find(key)->text(row));
      const auto there = at.find(name);
      if (there == at.end()) {
        for (std::size_t i = 0; i < fresh.names().size(); ++i)
          push_cell(fresh.columns()[i], *rows.find(fresh.names()[i]), row);
        response_.values.push_back({kind_spec(kind).name, name, "", "", name});
        new_names_[kind].push_back(name);
        continue;
      }
      for (const std::string& column : columns) {
        if (column == "uid" || column == key) continue;
        const std::string was = cell_text(*stored.find(column), there->second);
        const std::string now = cell_text(*rows.find(column), row);
        if (was == now) continue;
        response_.values.push_back({kind_spec(kind).name, name, column, was, now});
        edits_.push_back({kind, {std::string(stored.find("uid")->text(there->second)), column, was, now}});
      }
    }
    if (kind == Kind::contexts) {
      merge_into(after_.contexts, rows, &Context::context);
    } else {
      merge_into(after_.phases, rows, &Phase::phase);
    }
    if (fresh.rows() > 0) fresh_.push_back(std::move(fresh));
    return {};
  }

  /// The record as it would be: rows of the table in place of those with the same key, columns that it lacks kept.
  template <class T>
  void merge_into(std::vector<T>& list, const Table& rows, std::string T::* key) {
    Table now = table_from(rows.kind(), list);
    std::map<std::string, std::size_t, std::less<>> at;
    for (std::size_t i = 0; i < list.size(); ++i) at.emplace(list[i].*key, i);
    for (const T& row : rows_from<T>(rows)) {
      if (!at.contains(row.*key)) list.push_back(row);
    }
    now = table_from(rows.kind(), list);
    at.clear();
    for (std::size_t i = 0; i < list.size(); ++i) at.emplace(list[i].*key, i);
    const std::string key_name = kind_spec(rows.kind()).key_names().front();
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      const std::size_t to = at.find(rows.find(key_name)->text(row))->second;
      for (const std::string& name : rows.names()) {
        Column* cells = now.find(name);
        if (cells == nullptr || name == "extra") continue;
        if (is_text(cells->type())) {
          cells->set_text(to, rows.find(name)->text(row));
        } else {
          cells->set_integer(to, rows.find(name)->integer(row));
        }
      }
    }
    list = rows_from<T>(now);
  }

  Result<void> compare_relations() {
    SHERD_TRY(Table rows, read_table(Kind::relations, request_.relations));
    after_.relations = rows_from<Relation>(rows);
    std::map<Key, std::size_t> now;
    for (std::size_t row = 0; row < after_.relations.size(); ++row) now.emplace(key_of(after_.relations[row]), row);
    SHERD_TRY(const Table stored, session_.store->read({session_.site.code, Kind::relations, {"uid"}}));
    std::set<Key> was;
    for (std::size_t row = 0; row < before_.relations.size(); ++row) {
      const Key key = key_of(before_.relations[row]);
      was.insert(key);
      if (now.contains(key)) continue;
      response_.relations_gone.push_back(recorded(before_.relations[row]));
      gone_.emplace_back(stored.find("uid")->text(row));
    }
    Table fresh(Kind::relations);
    for (std::size_t i = 0; i < rows.names().size(); ++i) fresh.add(rows.names()[i], rows.columns()[i].type());
    for (const auto& [key, row] : now) {
      if (was.contains(key)) continue;
      response_.relations_added.push_back(recorded(after_.relations[row]));
      for (std::size_t i = 0; i < rows.columns().size(); ++i) push_cell(fresh.columns()[i], rows.columns()[i], row);
    }
    if (fresh.rows() > 0) fresh_.push_back(std::move(fresh));
    return {};
  }

  Result<void> compare_dates() {
    SHERD_TRY(const DatedRecord was, date_record(before_, {}, progress_));
    SHERD_TRY(DatedRecord now, date_record(after_, {}, progress_));
    response_.loops = std::move(now.loops);
    for (const DatedContext& context : now.contexts) {
      const DatedContext* former = was.find(context.context->context);
      const std::optional<Year> before = former == nullptr ? std::nullopt : former->effective.year;
      if (before == context.effective.year) continue;
      response_.moved.push_back({context.context->context, before, context.effective.year,
                                 former == nullptr ? "" : former->effective.because, context.effective.because});
    }
    return {};
  }

  Result<void> look_at_issues() {
    std::set<std::string> touched;
    for (const MovedDate& moved : response_.moved) touched.insert(moved.context);
    for (const RephasedValue& value : response_.values) {
      if (value.table == "contexts") touched.insert(value.key);
    }
    const bool any = !touched.empty() || !response_.relations_added.empty() || !response_.relations_gone.empty();
    std::vector<std::string> some(touched.begin(),
                                  std::next(touched.begin(), std::min<std::ptrdiff_t>(8, std::ssize(touched))));
    const std::string which =
        some.empty() ? "its relations" : "contexts " + join(some, ", ") + (some.size() < touched.size() ? " ..." : "");
    for (const char* kind : {"spot-dates", "report"}) {
      SHERD_TRY(const std::int64_t newest, newest_issue(session_, kind));
      if (any && newest > 0) response_.stale.push_back({std::string(kind) + "/" + std::to_string(newest), which});
    }
    SHERD_TRY(const KeptDates kept, kept_dates(session_, environment_));
    if (any && kept.state.change) response_.stale.push_back({"dates in sequence", which});
    return {};
  }

  Result<void> apply() {
    if (!response_.problems.empty()) {
      return fail("rows_refused",
                  counted(static_cast<std::int64_t>(response_.problems.size()), "problem") + " in the new tables",
                  "leave out --apply to see them, mend the tables, and apply them again");
    }
    for (const std::string& uid : gone_) SHERD_CHECK(writing_->remove(session_.site.code, Kind::relations, uid));
    for (const Table& rows : fresh_) SHERD_CHECK(writing_->insert(session_.site.code, rows));
    for (const auto& [kind, edit] : edits_) SHERD_CHECK(writing_->edit(session_.site.code, kind, edit));
    SHERD_TRY(const Change change, writing_->commit());
    response_.change = change.seq;
    return {};
  }

  const RephaseRequest& request_;
  Environment& environment_;
  Progress& progress_;
  Session session_;
  std::unique_ptr<Writing> writing_;
  Record before_, after_;
  std::map<Kind, std::vector<std::string>> new_names_;
  std::vector<Table> fresh_;
  std::vector<std::string> gone_;
  std::vector<std::pair<Kind, Edit>> edits_;
  RephaseResponse response_;
};

}  // namespace

Result<RephaseResponse> rephase(const RephaseRequest& request, Environment& environment, Progress& progress) {
  if (request.contexts.empty() && request.relations.empty() && request.phases.empty()) {
    return fail(ErrorKind::usage, "no_tables", "no new table is given",
                "say --relations FILE, --contexts FILE or --phases FILE");
  }
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  return Rephasing(request, environment, progress, std::move(session)).run();
}

}  // namespace sherd::desk
