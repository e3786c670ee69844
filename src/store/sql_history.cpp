#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "store/cell.h"
#include "store/sql_store.h"
#include "store/sql_writing.h"

namespace sherd::store {

namespace {

void add_cells(const Versioned& table, const Table& was, std::size_t row_was, const Table& now, std::size_t row_now,
               std::vector<Difference>& to) {
  const std::string name = row_name(table, now, row_now);
  for (const StoredColumn& column : table.columns) {
    std::string before = cell_text(*was.find(column.name), row_was);
    std::string after = cell_text(*now.find(column.name), row_now);
    if (before != after) to.push_back({*table.kind, name, column.name, std::move(before), std::move(after)});
  }
}

/// Both tables are in the order of their uids: one walk over them.
void add_table(const Versioned& table, const Table& was, const Table& now, std::vector<Difference>& to) {
  const Column& uid_was = *was.find("uid");
  const Column& uid_now = *now.find("uid");
  std::size_t a = 0, b = 0;
  while (a < was.rows() || b < now.rows()) {
    const bool only_was = b == now.rows() || (a < was.rows() && uid_was.text(a) < uid_now.text(b));
    const bool only_now = a == was.rows() || (b < now.rows() && uid_now.text(b) < uid_was.text(a));
    if (only_was) {
      const std::string name = row_name(table, was, a++);
      to.push_back({*table.kind, name, "", name, ""});
    } else if (only_now) {
      const std::string name = row_name(table, now, b++);
      to.push_back({*table.kind, name, "", "", name});
    } else {
      add_cells(table, was, a++, now, b++, to);
    }
  }
}

Result<void> check_change(Dialect& dialect, std::int64_t seq) {
  if (!load_changes(dialect, seq - 1, true).empty()) return {};
  return fail("no_change", fmt::format("there is no change {}", seq),
              "\"sherdwright history\" lists the changes with their numbers");
}

}  // namespace

Result<std::vector<Difference>> SqlStore::differences(std::int64_t seq) {
  return reading([&]() -> Result<std::vector<Difference>> {
    SHERD_CHECK(check_change(dialect(), seq));
    std::vector<Difference> out;
    for (const Versioned& table : versioned_tables()) {
      if (!table.kind) continue;
      const Table was = fetch_versions(dialect(), table, fmt::format("to_change = {}", seq));
      const Table now = fetch_versions(dialect(), table, fmt::format("from_change = {}", seq));
      add_table(table, was, now, out);
    }
    return out;
  });
}

Result<Change> SqlStore::undo(std::int64_t seq, const ChangeNote& note) {
  SHERD_CHECK(reading([&]() -> Result<void> { return check_change(dialect(), seq); }));
  SHERD_TRY(const auto writing, SqlWriting::begin(connection_, note, seq));
  SHERD_CHECK(writing->take_back(seq));
  return writing->commit();
}

}  // namespace sherd::store
