#include <fmt/format.h>
#include <soci/soci.h>

#include "base/text.h"
#include "store/cell.h"
#include "store/sql_store.h"
#include "store/sql_undo.h"

// What an undo would leave behind: keys that are referred to and no longer there, and keys held twice.
namespace sherd::store {

namespace {

/// The key column of a kind that others refer to; it is the first of its columns.
const StoredColumn& key_of(Kind kind) { return versioned(kind).columns.front(); }

/// Keys of `kind` that versions with `end` held and that no current row holds.
std::string vanished_keys(Kind kind, long long site, const std::string& end) {
  const std::string key = quoted(key_of(kind).stored);
  // Of the current rows only those that hold such a key: a site may have very many.
  return fmt::format(
      "select {0} from {1} where site = {2} and {3} and {0} is not null and {0} not in (select {0} from {1} "
      "where site = {2} and to_change is null and {0} is not null and {0} in (select {0} from {1} where site = {2} and "
      "{3}))",
      key, versioned(kind).table, site, end);
}

}  // namespace

bool Undo::keys_vanish(long long site, Kind kind) {
  Table any;
  any.add("key", CellType::text);
  dialect_.fetch(vanished_keys(kind, site, fmt::format("to_change = {}", seq_)) + " limit 1", {}, any);
  return any.rows() > 0;
}

Result<void> Undo::check_still_used(long long site, const Versioned& table, const StoredColumn& column) {
  const Kind kind = *column.spec->refers;
  const std::string vanished = vanished_keys(kind, site, fmt::format("to_change = {}", seq_));
  Table used;
  used.add("key", CellType::text);
  used.add("rows", CellType::count);
  dialect_.fetch(
      fmt::format("select {0}, count(*) from {1} where site = {2} and to_change is null and {0} in ({3}) group "
                  "by {0} order by 2 desc, 1 limit 1",
                  quoted(column.stored), table.table, site, vanished),
      {}, used);
  if (used.rows() == 0) return {};
  const std::string key(used.columns()[0].text(0));
  const std::int64_t rows = used.columns()[1].integer(0);
  Error error{
      ErrorKind::data,
      "still_used",
      fmt::format("change {} cannot be undone: {} {} would go, and {} it", undone_, versioned(kind).one, key,
                  rows == 1 ? fmt::format("1 {} names", table.one) : fmt::format("{} {} name", rows, table.table)),
      {},
      fmt::format("Change {} of those rows first, or undo the change that added them", column.name)};
  error.where.id = key;
  error.where.column = column.name;
  return fail(std::move(error));
}

Result<void> Undo::check_still_there(long long site, const Versioned& table, const StoredColumn& column) {
  const Kind kind = *column.spec->refers;
  Table lost;
  for (const std::string& name : {std::string("uid"), column.name}) lost.add(name, CellType::text);
  // A name that was unknown all along may come back as it was; only one that was there and went stands in the way.
  dialect_.fetch(
      fmt::format("select uid, {0} from {1} where site = {2} and from_change = {3} and to_change is null and "
                  "{0} in ({4}) order by 1 limit 1",
                  quoted(column.stored), table.table, site, seq_,
                  vanished_keys(kind, site, fmt::format("to_change > {}", undone_))),
      {}, lost);
  if (lost.rows() == 0) return {};
  const std::string key(lost.columns()[1].text(0));
  Error error{ErrorKind::data,
              "no_longer_there",
              fmt::format("change {} cannot be undone: a {} would name {} {} again, which is no longer there", undone_,
                          table.one, versioned(kind).one, key),
              {},
              fmt::format("Undo the change that removed {} {} first", versioned(kind).one, key)};
  error.where.id = key;
  error.where.column = column.name;
  return fail(std::move(error));
}

/// A key that the undo brings back may have been given to another row since.
Result<void> Undo::check_key_free(long long site, const Versioned& table) {
  std::string same;
  for (const StoredColumn& column : table.columns) {
    if (column.spec != nullptr && column.spec->key) same += fmt::format(" and b.{0} = a.{0}", quoted(column.stored));
  }
  if (same.empty()) return {};
  Table taken;
  taken.add("from_change", CellType::count);
  dialect_.fetch(
      fmt::format("select b.from_change from {0} a join {0} b on b.site = a.site and b.to_change is null and "
                  "b.uid <> a.uid and b.from_change > {3}{4} where a.site = {1} and a.from_change = {2} and "
                  "a.to_change is null and b.from_change <> {2} order by 1 limit 1",
                  table.table, site, seq_, undone_, same),
      {}, taken);
  if (taken.rows() == 0) return {};
  return fail(
      named(taken.columns()[0].integer(0), fmt::format("has since given the same name to another {}", table.one)));
}

}  // namespace sherd::store
