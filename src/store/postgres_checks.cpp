#include "store/postgres_checks.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include "store/postgres_address.h"
#include "store/versioned.h"

namespace sherd::store {

namespace {

/// The first column of a query, whole numbers as text.
std::vector<std::string> texts_of(Dialect& dialect, const std::string& query) {
  Table rows;
  rows.add("text", CellType::text);
  dialect.fetch(query, {}, rows);
  std::vector<std::string> texts;
  for (std::size_t row = 0; row < rows.rows(); ++row) texts.emplace_back(rows.columns()[0].text(row));
  return texts;
}

std::int64_t number_of(Dialect& dialect, const std::string& query) {
  Table rows;
  rows.add("number", CellType::count);
  dialect.fetch(query, {}, rows);
  return rows.rows() == 0 || rows.columns()[0].is_null(0) ? 0 : rows.columns()[0].integer(0);
}

void append(std::vector<std::string>& to, const std::vector<std::string>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

/// Rows are counted by reading the table, and by reading the index that has them all: both read every page.
void compare_index(Dialect& dialect, const Versioned& table, std::vector<std::string>& problems) {
  soci::session& sql = dialect.sql();
  const auto counted = [&](const char* off) {
    for (const char* scan : {"enable_seqscan", "enable_indexscan", "enable_indexonlyscan", "enable_bitmapscan"}) {
      const bool is_sequential = std::string_view(scan) == "enable_seqscan";
      const bool is_off = is_sequential == (std::string_view(off) == "table");
      sql << fmt::format("set local {} = {}", scan, is_off ? "off" : "on");
    }
    return number_of(dialect, fmt::format("select count(*) from {} where from_change >= 0", table.table));
  };
  const std::int64_t by_index = counted("table");
  const std::int64_t by_table = counted("index");
  if (by_index == by_table) return;
  problems.push_back(fmt::format("the index {0}_from finds {1} rows of {0}, which has {2}: reindex table {3}.{0}",
                                 table.table, by_index, by_table, kSchema));
}

void check_references(Dialect& dialect, const Versioned& table, std::vector<std::string>& problems) {
  for (const auto& [column, target, key] :
       {std::tuple{"site", "site", "id"}, std::tuple{"from_change", "change", "seq"},
        std::tuple{"to_change", "change", "seq"}}) {
    append(
        problems,
        texts_of(dialect, fmt::format("select 'row ' || uid || ' of {0} names a {2} that is not there' from {0} where "
                                      "{1} is not null and not exists (select 1 from {2} t where t.{3} = {0}.{1}) "
                                      "order by uid limit 100",
                                      table.table, column, target, key)));
  }
}

}  // namespace

std::vector<std::string> postgres_problems(Dialect& dialect) {
  std::vector<std::string> problems;
  const std::string ours = fmt::format("n.nspname = '{}'", kSchema);
  append(problems, texts_of(dialect,
                            "select 'the server found ' || checksum_failures || ' damaged pages in this "
                            "database' from pg_stat_database where datname = current_database() and "
                            "checksum_failures > 0"));
  append(problems,
         texts_of(dialect, fmt::format("select 'the index ' || c.relname || ' is not valid: reindex it' from "
                                       "pg_index i join pg_class c on c.oid = i.indexrelid join pg_namespace n "
                                       "on n.oid = c.relnamespace where {} and not i.indisvalid order by 1",
                                       ours)));
  append(
      problems,
      texts_of(dialect, fmt::format("select 'the constraint ' || x.conname || ' is not checked' from pg_constraint x "
                                    "join pg_namespace n on n.oid = x.connamespace where {} and not x.convalidated "
                                    "order by 1",
                                    ours)));
  soci::session& sql = dialect.sql();
  sql << "begin isolation level repeatable read read only";
  try {
    for (const Versioned& table : versioned_tables()) {
      compare_index(dialect, table, problems);
      check_references(dialect, table, problems);
    }
  } catch (...) {
    roll_back(dialect);
    throw;
  }
  sql << "commit";
  return problems;
}

}  // namespace sherd::store
