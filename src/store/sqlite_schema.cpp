#include "store/sqlite_schema.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <functional>
#include <map>
#include <mutex>

#include "base/numbers.h"
#include "store/migrations.h"
#include "store/sqlite_dialect.h"

namespace sherd::store {

namespace {

/// "table sherds" -> its table and the statement that made it.
using Schema = std::map<std::string, std::string>;
/// Rows of two columns.
using Pairs = std::function<void(const std::string& query, const std::function<void(std::string, std::string)>& row)>;

const std::string kSchemaQuery = "select type || ' ' || name, tbl_name || ': ' || coalesce(sql, '') from sqlite_schema";
const std::string kVersionQuery = "select name, value from meta where name = 'schema_version'";

Pairs by_dialect(Dialect& dialect) {
  return [&](const std::string& query, const std::function<void(std::string, std::string)>& row) {
    Table rows;
    for (const char* name : {"key", "value"}) rows.add(name, CellType::text);
    dialect.fetch(query, {}, rows);
    for (std::size_t i = 0; i < rows.rows(); ++i) {
      row(std::string(rows.columns()[0].text(i)), std::string(rows.columns()[1].text(i)));
    }
  };
}

Pairs by_handle(Handle handle) {
  return [=](const std::string& query, const std::function<void(std::string, std::string)>& row) {
    const Statement select = prepare(handle, query);
    const auto text = [&](int column) {
      const unsigned char* bytes = sqlite_api::sqlite3_column_text(select.get(), column);
      const int size = sqlite_api::sqlite3_column_bytes(select.get(), column);
      return bytes == nullptr ? std::string()
                              : std::string(reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size));
    };
    while (step(handle, select.get())) row(text(0), text(1));
  };
}

Schema schema_in(const Pairs& pairs) {
  Schema schema;
  pairs(kSchemaQuery, [&](const std::string& name, std::string text) { schema[name] = std::move(text); });
  return schema;
}

/// As the steps up to that version make it.
const Schema& schema_of(std::size_t version) {
  static std::mutex mutex;
  static std::map<std::size_t, Schema> known;
  const std::scoped_lock lock(mutex);
  if (const auto found = known.find(version); found != known.end()) return found->second;
  const auto dialect = connect_sqlite_in_memory();
  if (!dialect) throw soci::soci_error(dialect.error().message);
  if (const auto made = migrate(**dialect, migrations().first(version)); !made) {
    throw soci::soci_error(made.error().message);
  }
  return known.emplace(version, schema_in(by_dialect(**dialect))).first->second;
}

std::vector<std::string> problems_in(const Pairs& pairs) {
  std::int64_t version = 0;
  pairs(kVersionQuery, [&](const std::string&, const std::string& value) {
    if (const auto number = parse_scaled(value, 0)) version = *number;
  });
  if (version < 1) return {"it does not say which version it is"};
  if (version > static_cast<std::int64_t>(migrations().size())) return {};
  std::vector<std::string> problems;
  const Schema there = schema_in(pairs);
  for (const auto& [name, text] : schema_of(static_cast<std::size_t>(version))) {
    const auto found = there.find(name);
    if (found == there.end()) problems.push_back(fmt::format("the {} is not there", name));
    if (found != there.end() && found->second != text) {
      problems.push_back(fmt::format("the {} is not as it should be", name));
    }
  }
  return problems;
}

}  // namespace

std::vector<std::string> schema_problems(Handle handle) { return problems_in(by_handle(handle)); }
std::vector<std::string> schema_problems(Dialect& dialect) { return problems_in(by_dialect(dialect)); }

}  // namespace sherd::store
