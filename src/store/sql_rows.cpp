#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>
#include <limits>

#include "store/cell.h"
#include "store/sql_store.h"
#include "store/sql_writing.h"

/// The rows of a change: added, altered, removed, and the numbers of records that come with them.
namespace sherd::store {

namespace {

// Labels longer than this are not our numbers; they do not push the counter.
constexpr std::size_t kMostDigits = 9;

/// The highest number among labels; of those that are not above `at_most`.
std::int64_t highest_number(const Column& records, std::int64_t at_most) {
  std::int64_t highest = 0;
  for (const std::string& word : records.words()) {
    if (word.empty() || word.size() > kMostDigits) continue;
    if (!std::ranges::all_of(word, [](char c) { return c >= '0' && c <= '9'; })) continue;
    if (const std::int64_t number = std::stoll(word); number <= at_most) highest = std::max(highest, number);
  }
  return highest;
}

Result<void> check_rows(const Versioned& table, const Table& rows) {
  for (std::size_t i = 0; i < rows.names().size(); ++i) {
    const std::string& name = rows.names()[i];
    const Column& cells = rows.columns()[i];
    const StoredColumn* column = table.column(name);
    if (column == nullptr || is_text(column->type) != is_text(cells.type()) || cells.size() != rows.rows()) {
      return fail(ErrorKind::internal, "bad_table", fmt::format("column \"{}\" does not fit {}", name, table.table));
    }
    for (const std::string& word : cells.words()) SHERD_CHECK(check_text(name, word));
  }
  if (table.kind != Kind::sherds || rows.rows() == 0) return {};
  const Column* records = rows.find("record");
  const bool named = records != nullptr && std::ranges::find(records->codes(), 0U) == records->codes().end();
  if (named) return {};
  return fail(ErrorKind::internal, "no_record", "a line of pottery came to the store without a record number");
}

}  // namespace

Result<void> SqlWriting::insert(const std::string& site, const Table& rows) {
  return doing([&]() -> Result<void> {
    const Versioned& table = versioned(rows.kind());
    SHERD_CHECK(check_rows(table, rows));
    SHERD_TRY(const long long id, site_id(dialect(), site));
    return add_rows(id, table, rows);
  });
}

Result<void> SqlWriting::add_rows(long long site, const Versioned& table, const Table& rows) {
  const auto count = static_cast<std::int64_t>(rows.rows());
  if (rows_named_ + count > RowUids::kMostRows) {
    return fail("too_many_rows", fmt::format("a change may add at most {} rows", RowUids::kMostRows),
                "Make several changes of it");
  }
  NewVersions versions{table.table, site, change_.seq, {}, {}, rows.rows()};
  for (std::size_t i = 0; i < rows.names().size(); ++i) {
    versions.columns.emplace_back(table.column(rows.names()[i])->stored, &rows.columns()[i]);
  }
  versions.uid = [this](std::size_t row) { return uids_.at(rows_named_ + static_cast<std::int64_t>(row)); };
  dialect().add_versions(versions);
  rows_named_ += count;
  if (const Column* records = rows.find("record"); records != nullptr && table.kind == Kind::sherds) {
    note_records(site, *records);
  }
  return {};
}

Result<void> SqlWriting::edit(const std::string& site, Kind kind, const Edit& edit) {
  return doing([&]() -> Result<void> {
    const Versioned& table = versioned(kind);
    const StoredColumn* column = table.column(edit.column);
    if (column == nullptr) {
      return fail("unknown_column", fmt::format("{} have no column \"{}\"", table.table, edit.column));
    }
    SHERD_TRY(const long long id, site_id(dialect(), site));
    return set_cell(id, table, *column, edit);
  });
}

Result<void> SqlWriting::set_cell(long long site, const Versioned& table, const StoredColumn& column,
                                  const Edit& edit) {
  const std::vector<std::string> uid{edit.uid};
  Table row;
  if (check_text("uid", edit.uid)) {
    row = fetch_versions(dialect(), table, fmt::format("site = {} and uid = :t1 and to_change is null", site), uid);
  }
  if (row.rows() == 0) {
    Error gone{
        ErrorKind::data, "not_found", fmt::format("the {} is no longer there", table.one), {}, "Read the record again"};
    gone.where.id = edit.uid;
    return fail(std::move(gone));
  }
  Column& cells = *row.find(column.name);
  const std::string name = row_name(table, row, 0);
  const std::string now = cell_text(cells, 0);
  auto value = parse_cell(column, edit.value);
  if (value && now == outside_text(column, *value) && now == edit.seen) return {};
  if (now != edit.seen) {
    Error conflict{
        ErrorKind::data,
        "conflict",
        fmt::format("{} of {} {} is \"{}\" by now, not \"{}\"", column.name, table.one, name, now, edit.seen),
        {},
        fmt::format("Yours was \"{}\": look at both and decide", edit.value)};
    conflict.where.id = name;
    conflict.where.column = column.name;
    return fail(std::move(conflict));
  }
  if (!value) {
    value.error().where.id = name;
    return std::unexpected(value.error());
  }
  copy_cell(column, *value, cells);
  set_row(site, table, edit.uid, row);
  if (table.kind == Kind::sherds && column.name == "record") note_records(site, cells);
  return {};
}

void SqlWriting::set_row(long long site, const Versioned& table, const std::string& uid, const Table& row) {
  end_row(site, table, uid);
  NewVersions version{table.table, site, change_.seq, {}, [&](std::size_t) { return std::string_view(uid); }, 1};
  for (const StoredColumn& column : table.columns) version.columns.emplace_back(column.stored, row.find(column.name));
  dialect().add_versions(version);
}

bool SqlWriting::end_row(long long site, const Versioned& table, const std::string& uid) {
  soci::session& sql = dialect().sql();
  const std::string current = "site = :s and uid = :u and to_change is null";
  long long from = 0;
  sql << fmt::format("select from_change from {} where {}", table.table, current), soci::use(site), soci::use(uid),
      soci::into(from);
  if (!sql.got_data()) return false;
  // A version that this very change made was never seen by anyone: it goes without a trace.
  const bool own = from == change_.seq;
  own ? dialect().dropped_from(table.table) : dialect().ended_in(table.table);
  sql << (own ? fmt::format("delete from {} where {}", table.table, current)
              : fmt::format("update {} set to_change = {} where {}", table.table, change_.seq, current)),
      soci::use(site), soci::use(uid);
  return true;
}

Result<void> SqlWriting::remove(const std::string& site, Kind kind, const std::string& uid) {
  return doing([&]() -> Result<void> {
    SHERD_TRY(const long long id, site_id(dialect(), site));
    if (check_text("uid", uid) && end_row(id, versioned(kind), uid)) return {};
    Error gone{ErrorKind::data,
               "not_found",
               fmt::format("the {} is no longer there", versioned(kind).one),
               {},
               "Read the record again"};
    gone.where.id = uid;
    return fail(std::move(gone));
  });
}

void SqlWriting::note_records(long long site, const Column& records) {
  raise_counter(site, highest_number(records, std::numeric_limits<std::int64_t>::max()) + 1);
  long long last = 0;
  soci::session& sql = dialect().sql();
  sql << "select last from record_lease where site = :s", soci::use(site), soci::into(last);
  if (!sql.got_data()) return;
  const long long next = highest_number(records, last) + 1;
  sql << "update record_lease set next = :n where site = :s and next < :m", soci::use(next), soci::use(site),
      soci::use(next);
}

}  // namespace sherd::store
