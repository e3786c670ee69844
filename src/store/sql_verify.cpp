#include <fmt/format.h>

#include <string>
#include <vector>

#include "store/change_hash.h"
#include "store/sql_store.h"
#include "store/sql_writing.h"

// What must hold in every store, whatever the database checks by itself.
namespace sherd::store {

namespace {

constexpr int kMostProblems = 100;

void add_texts(Dialect& dialect, const std::string& query, std::vector<std::string>& to) {
  Table rows;
  rows.add("text", CellType::text);
  dialect.fetch(query, {}, rows);
  for (std::size_t row = 0; row < rows.rows(); ++row) to.emplace_back(rows.columns()[0].text(row));
}

/// The versions of a row follow one another: each begins before it ends, ends no later than the next begins, and only
/// the last is current.
void check_versions(Dialect& dialect, const Versioned& table, std::vector<std::string>& problems) {
  add_texts(dialect,
            fmt::format("select 'row ' || uid || ' of {0} has a version that ends before it begins' from {0} where "
                        "to_change <= from_change order by uid limit {1}",
                        table.table, kMostProblems),
            problems);
  add_texts(
      dialect,
      fmt::format("select distinct 'row ' || uid || ' of {0} has two versions at a time' from (select uid, "
                  "to_change, lead(from_change) over (partition by site, uid order by from_change) as next from "
                  "{0}) v where next is not null and (to_change is null or to_change > next) order by 1 limit {1}",
                  table.table, kMostProblems),
      problems);
}

void check_changes(Dialect& dialect, std::vector<std::string>& problems) {
  add_texts(dialect,
            "select 'change ' || seq || ' takes back a change that is not before it' from change where undoes >= seq "
            "order by seq",
            problems);
  add_texts(
      dialect,
      "select 'the numbers of the changes have gaps: ' || count(*) || ' changes, the newest is ' || max(seq) from "
      "change having count(*) <> coalesce(max(seq), 0) or min(seq) < 1",
      problems);
}

}  // namespace

Result<std::vector<std::string>> SqlStore::verify() {
  // Its checks open transactions of their own.
  if (connection_->writing) return fail(writing_open());
  SHERD_TRY(std::vector<std::string> problems, dialect().verify());
  bool reading = false;
  const auto checked = guarded(dialect(), [&]() -> Result<void> {
    dialect().begin_reading();
    reading = true;
    for (const Versioned& table : versioned_tables()) check_versions(dialect(), table, problems);
    check_changes(dialect(), problems);
    const std::vector<std::string> more = content_problems(scan_of(dialect()), hashed_tables());
    problems.insert(problems.end(), more.begin(), more.end());
    return {};
  });
  if (reading) roll_back(dialect());
  if (!checked && problems.empty()) return std::unexpected(checked.error());
  return problems;
}

}  // namespace sherd::store
