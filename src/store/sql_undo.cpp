#include "store/sql_undo.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include <string_view>
#include <unordered_map>

#include "store/cell.h"
#include "store/sql_store.h"

namespace sherd::store {

namespace {

using Index = std::unordered_map<std::string_view, std::size_t>;

Index by_uid(const Table& rows) {
  Index index;
  const Column& uids = *rows.find("uid");
  for (std::size_t row = 0; row < rows.rows(); ++row) index.emplace(uids.text(row), row);
  return index;
}

bool same_cell(const Column& a, std::size_t row_a, const Column& b, std::size_t row_b) {
  return is_text(a.type()) ? a.text(row_a) == b.text(row_b) : a.integer(row_a) == b.integer(row_b);
}

void push_cell(Column& to, const Column& from, std::size_t row) {
  if (is_text(to.type())) {
    to.push_text(from.text(row));
  } else {
    to.push_integer(from.integer(row));
  }
}

std::optional<std::size_t> place(const Index& index, std::string_view uid) {
  const auto found = index.find(uid);
  return found == index.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

/// The rows of one table and site that the change altered: before it, after it, and today.
struct Undo::Rows {
  const Versioned& table;
  long long site;
  Table was, now, today;
  Index was_at, now_at, today_at;
};

bool Undo::same_row(const Rows& rows, std::size_t was, std::size_t now) {
  for (const StoredColumn& column : rows.table.columns) {
    if (!same_cell(*rows.was.find(column.name), was, *rows.now.find(column.name), now)) return false;
  }
  return true;
}

struct Undo::Plan {
  std::vector<std::string> end;  ///< rows whose current version ends
  Table put_back;                ///< uid and columns of versions to begin
};

Result<void> Undo::run() {
  for (const Versioned& table : versioned_tables()) {
    for (const long long site : sites_touched(table)) SHERD_CHECK(take_back(table, site));
  }
  if (sites_.empty()) {
    return fail("nothing_to_undo", fmt::format("change {} altered nothing", undone_), "There is nothing to take back");
  }
  for (const long long site : sites_) SHERD_CHECK(check_site(site));
  return {};
}

std::vector<long long> Undo::sites_touched(const Versioned& table) {
  Table rows;
  rows.add("site", CellType::count);
  dialect_.fetch(
      fmt::format("select site from {0} where from_change = {1} union select site from {0} where to_change = "
                  "{1} order by 1",
                  table.table, undone_),
      {}, rows);
  return {rows.columns()[0].integers().begin(), rows.columns()[0].integers().end()};
}

/// The common case, an import whose rows no one has touched since, in one statement.
bool Undo::end_untouched_additions(const Versioned& table, long long site) {
  soci::statement end =
      (dialect_.sql().prepare << fmt::format(
           "update {0} set to_change = {3} where site = {1} and from_change = {2} and to_change is null and uid not in "
           "(select uid from {0} where site = {1} and to_change = {2})",
           table.table, site, undone_, seq_));
  end.execute(true);
  const bool any = end.get_affected_rows() > 0;
  if (any) dialect_.ended_in(table.table);
  return any;
}

Result<void> Undo::take_back(const Versioned& table, long long site) {
  if (end_untouched_additions(table, site)) sites_.insert(site);
  const std::string here = fmt::format("site = {}", site);
  const std::string before = fmt::format("{} and to_change = {}", here, undone_);
  const std::string after =
      fmt::format("{} and from_change = {} and (to_change is null or to_change <> {})", here, undone_, seq_);
  const std::string today = fmt::format(
      "{0} and to_change is null and uid in (select uid from {1} where {2} union select uid from {1} where {3})", here,
      table.table, before, after);
  Rows rows{table,
            site,
            fetch_versions(dialect_, table, before),
            fetch_versions(dialect_, table, after),
            fetch_versions(dialect_, table, today),
            {},
            {},
            {}};
  rows.was_at = by_uid(rows.was);
  rows.now_at = by_uid(rows.now);
  rows.today_at = by_uid(rows.today);
  Plan plan;
  plan.put_back.add("uid", CellType::text);
  for (const StoredColumn& column : table.columns) plan.put_back.add(column.name, column.type);
  for (std::size_t row = 0; row < rows.was.rows(); ++row) {
    SHERD_CHECK(plan_row(rows, std::string(rows.was.find("uid")->text(row)), plan));
  }
  for (std::size_t row = 0; row < rows.now.rows(); ++row) {
    const std::string uid(rows.now.find("uid")->text(row));
    if (!rows.was_at.contains(uid)) SHERD_CHECK(plan_row(rows, uid, plan));
  }
  if (plan.end.empty() && plan.put_back.rows() == 0) return {};
  sites_.insert(site);
  apply(table, site, plan);
  return {};
}

Result<void> Undo::plan_row(const Rows& rows, const std::string& uid, Plan& plan) {
  const auto was = place(rows.was_at, uid);
  const auto now = place(rows.now_at, uid);
  const auto today = place(rows.today_at, uid);
  if (was && now && same_row(rows, *was, *now)) return {};
  // Added or changed, and gone since; or removed, and back since.
  if (now.has_value() != today.has_value()) return later_change(rows, uid, nullptr);
  if (today) plan.end.push_back(uid);
  if (was) plan.put_back.find("uid")->push_text(uid);
  for (const StoredColumn& column : rows.table.columns) {
    const Column& cells_was = *rows.was.find(column.name);
    const Column& cells_now = *rows.now.find(column.name);
    const Column& cells_today = *rows.today.find(column.name);
    const bool altered = !was || !now || !same_cell(cells_was, *was, cells_now, *now);
    if (altered && today && !same_cell(cells_now, *now, cells_today, *today)) return later_change(rows, uid, &column);
    if (!was) continue;
    Column& to = *plan.put_back.find(column.name);
    if (altered) {
      push_cell(to, cells_was, *was);
    } else {
      push_cell(to, cells_today, *today);
    }
  }
  return {};
}

void Undo::apply(const Versioned& table, long long site, const Plan& plan) {
  if (!plan.end.empty()) {
    dialect_.ended_in(table.table);
    std::string uid;
    soci::statement end = (dialect_.sql().prepare << fmt::format(
                               "update {} set to_change = {} where site = {} and uid = :u and to_change is null",
                               table.table, seq_, site),
                           soci::use(uid));
    for (const std::string& each : plan.end) {
      uid = each;
      end.execute(true);
    }
  }
  const Column& uids = plan.put_back.columns().front();
  NewVersions versions{table.table, site, seq_, {}, [&](std::size_t row) { return uids.text(row); }, uids.size()};
  for (const StoredColumn& column : table.columns) {
    versions.columns.emplace_back(column.stored, plan.put_back.find(column.name));
  }
  if (versions.rows > 0) dialect_.add_versions(versions);
}

Error Undo::named(std::int64_t later, const std::string& what) {
  const std::vector<Change> found = load_changes(dialect_, later - 1, true);
  const Change change = found.empty() ? Change{} : found.front();
  Error error{ErrorKind::data,
              "later_change",
              fmt::format("change {} cannot be undone: change {} by {} ({}) {}", undone_, later, change.who,
                          change.command, what),
              {},
              fmt::format("Undo change {} first", later)};
  error.where.id = std::to_string(later);
  return error;
}

/// Which change it was: the newest that gave `column` (or, without one, the row's being there) its value of today.
std::unexpected<Error> Undo::later_change(const Rows& rows, const std::string& uid, const StoredColumn* column) {
  const std::vector<std::string> texts{uid};
  Table versions;
  versions.add("from_change", CellType::count);
  versions.add("to_change", CellType::count);
  versions.add("value", column == nullptr ? CellType::text : column->type);
  dialect_.fetch(fmt::format("select from_change, to_change, {} from {} where site = {} and uid = :t1 and from_change "
                             ">= {} order by from_change",
                             column == nullptr ? "uid" : quoted(column->stored), rows.table.table, rows.site, undone_),
                 texts, versions);
  const auto& from = versions.columns()[0].integers();
  const auto& to = versions.columns()[1].integers();
  const Column& value = versions.columns()[2];
  const bool there = !to.empty() && to.back() == Column::kNull;
  std::int64_t later = to.empty() ? undone_ : (there ? from.back() : to.back());
  for (std::size_t i = from.size(); there && i-- > 1;) {
    later = from[i];
    if (to[i - 1] != from[i] || !same_cell(value, i, value, i - 1)) break;
  }
  const Table& known = rows.now_at.contains(uid) ? rows.now : rows.was;
  const std::string name =
      row_name(rows.table, known, *place(rows.now_at.contains(uid) ? rows.now_at : rows.was_at, uid));
  std::string what =
      fmt::format("has since altered {} of {} {}", column == nullptr ? "" : column->name, rows.table.one, name);
  if (column == nullptr) {
    what = fmt::format("has since {} {} {}", there ? "put back" : "removed", rows.table.one, name);
  }
  return fail(named(later, what));
}

/// Only tables that the undo itself wrote to can have lost keys, names again what is gone, or hold a key twice.
Result<void> Undo::check_site(long long site) {
  const auto wrote_to = [&](const Versioned& table) { return dialect_.touched(table.table); };
  std::set<Kind> vanishing;
  for (const KindSpec& spec : all_kinds()) {
    if (wrote_to(versioned(spec.kind)) && keys_vanish(site, spec.kind)) vanishing.insert(spec.kind);
  }
  for (const Versioned& table : versioned_tables()) {
    if (!table.kind) continue;
    for (const StoredColumn& column : table.columns) {
      if (column.spec == nullptr || !column.spec->refers) continue;
      if (vanishing.contains(*column.spec->refers)) SHERD_CHECK(check_still_used(site, table, column));
      if (wrote_to(table)) SHERD_CHECK(check_still_there(site, table, column));
    }
    if (wrote_to(table)) SHERD_CHECK(check_key_free(site, table));
  }
  return {};
}

}  // namespace sherd::store
