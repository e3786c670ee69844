#include "store/migrations.h"

#include <soci/soci.h>

#include <array>
#include <string>
#include <vector>

#include "base/text.h"
#include "sherd_store_data.h"
#include "store/change_hash.h"

namespace sherd::store {

namespace {

/// Statements end with a semicolon at the end of a line; lines that begin with -- are remarks.
std::vector<std::string> statements(std::string_view text) {
  std::vector<std::string> out;
  std::string statement;
  for (const std::string_view line : split(text, '\n')) {
    const std::string_view words = trim(line);
    if (words.empty() || words.starts_with("--")) continue;
    statement += statement.empty() ? "" : "\n";
    statement += words;
    if (!words.ends_with(';')) continue;
    statement.pop_back();
    out.push_back(std::move(statement));
    statement.clear();
  }
  return out;
}

}  // namespace

std::span<const std::string_view> migrations() {
  static const std::array<std::string_view, 9> kSteps{migration::step_1, migration::step_2, migration::step_3,
                                                      migration::step_4, migration::step_5, migration::step_6,
                                                      migration::step_7, migration::step_8, migration::step_9};
  return kSteps;
}

std::int64_t schema_version(Dialect& dialect) {
  std::string version;
  soci::session& sql = dialect.sql();
  sql << "select value from meta where name = 'schema_version'", soci::into(version);
  return sql.got_data() ? std::stoll(version) : 0;
}

void run_steps(Dialect& dialect, std::span<const std::string_view> steps) {
  soci::session& sql = dialect.sql();
  sql << dialect.ddl("create table if not exists meta (name $text primary key, value $text not null) $strict");
  const std::int64_t from = schema_version(dialect);
  for (std::size_t step = static_cast<std::size_t>(from); step < steps.size(); ++step) {
    for (const std::string& statement : statements(dialect.ddl(steps[step]))) sql << statement;
  }
  const auto to = static_cast<std::int64_t>(steps.size());
  if (from < kHashedSince && kHashedSince <= to) seal_former_changes(dialect);
  const std::string version = std::to_string(steps.size());
  sql << "insert into meta (name, value) values ('schema_version', :v) on conflict (name) do update set value = "
         "excluded.value",
      soci::use(version);
}

Result<void> migrate(Dialect& dialect, std::span<const std::string_view> steps) {
  auto done = guarded(dialect, [&]() -> Result<void> {
    dialect.begin_change();
    run_steps(dialect, steps);
    dialect.sql() << "commit";
    return {};
  });
  if (!done) roll_back(dialect);
  return done;
}

}  // namespace sherd::store
