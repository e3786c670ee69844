#include "desk/recording/record_rows.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kMostCompared = 20'000;  ///< keys that a mistyped one is compared with
constexpr int kMostMistyped = 50;               ///< of one change that are compared
constexpr int kMostVersions = 100;              ///< of a row that are looked through for an author

std::vector<std::string> all_columns(Kind kind) {
  std::vector<std::string> columns = kind_spec(kind).column_names();
  columns.insert(columns.end(), {"uid", "changed"});
  return columns;
}

}  // namespace

std::string namers_text(const std::vector<Namers>& namers) {
  std::vector<std::string> parts;
  for (const Namers& one : namers) {
    constexpr std::size_t kShown = 5;
    const KindSpec& spec = kind_spec(one.kind);
    std::string part = counted(static_cast<long long>(one.names.size()), spec.one);
    if (!spec.key_names().empty()) {
      std::vector<std::string> shown = one.names;
      const bool more = shown.size() > kShown;
      if (more) shown.resize(kShown);
      part += " (" + join(shown, "; ") + (more ? "; ..." : "") + ")";
    }
    parts.push_back(std::move(part));
  }
  return join(parts, ", ");
}

Result<std::vector<FoundRow>> RecordRows::having(Kind kind, std::vector<Having> conditions) {
  SHERD_TRY(const Table table, store_.read({site_, kind, all_columns(kind), {}, std::move(conditions)}));
  std::vector<FoundRow> rows;
  const Column& uid = *table.find("uid");
  const Column& changed = *table.find("changed");
  for (std::size_t row = 0; row < uid.size(); ++row)
    rows.push_back({std::string(uid.text(row)), changed.integer(row), TypedRow::of(table, row)});
  return rows;
}

Result<std::optional<FoundRow>> RecordRows::by_uid(Kind kind, const std::string& uid) {
  SHERD_TRY(auto rows, having(kind, {{"uid", uid}}));
  if (rows.empty()) return std::nullopt;
  return std::move(rows.front());
}

Result<std::vector<FoundRow>> RecordRows::named(Kind kind, const std::string& row) {
  if (row.empty()) return std::vector<FoundRow>{};
  SHERD_TRY(auto rows, having(kind, {{"uid", row}}));
  const auto keys = kind_spec(kind).key_names();
  if (!rows.empty() || keys.empty()) return rows;
  SHERD_TRY(rows, having(kind, {{keys.front(), row}}));
  if (!rows.empty() || keys.size() == 1) return rows;
  std::vector<Having> conditions;
  const auto parts = split(row, ',');
  for (std::size_t i = 0; i < std::min(parts.size(), keys.size()); ++i)
    conditions.push_back({keys[i], std::string(trim(parts[i]))});
  if (parts.size() > keys.size()) return rows;
  return having(kind, std::move(conditions));
}

Result<bool> RecordRows::key_is_taken(const TypedRow& row, const std::string& uid) {
  std::vector<Having> conditions;
  for (const ColumnSpec& column : row.spec().columns) {
    if (column.key) conditions.push_back({column.name, outside_text(column, *row.find(column.name))});
  }
  if (conditions.empty()) return false;
  SHERD_TRY(const Table found, store_.read({site_, row.spec().kind, {"uid"}, {}, std::move(conditions)}));
  const Column& uids = *found.find("uid");
  for (std::size_t i = 0; i < uids.size(); ++i) {
    if (uids.text(i) != uid) return true;
  }
  return false;
}

Result<bool> RecordRows::knows(Kind kind, const std::string& key) {
  std::set<std::string>& known = known_[kind];
  if (known.contains(key)) return true;
  SHERD_TRY(const Table found, store_.read({site_, kind, {"uid"}, {}, {{kind_spec(kind).key_names().front(), key}}}));
  if (found.rows() == 0) return false;
  known.insert(key);
  return true;
}

Result<std::string> RecordRows::near(Kind kind, const std::string& key) {
  if (compared_ >= kMostMistyped) return std::string{};
  ++compared_;
  SHERD_TRY(const std::int64_t rows, store_.count_rows(site_, kind));
  if (rows > kMostCompared) return std::string{};
  const std::string column = kind_spec(kind).key_names().front();
  SHERD_TRY(const Table table, store_.read({site_, kind, {column}, {}}));
  return did_you_mean(key, table.find(column)->words());
}

Result<std::vector<Namers>> RecordRows::who_names(Kind kind, const std::string& key) {
  std::vector<Namers> all;
  for (const KindSpec& spec : all_kinds()) {
    for (const ColumnSpec& column : spec.columns) {
      if (column.refers != kind) continue;
      SHERD_TRY(const auto rows, having(spec.kind, {{column.name, key}}));
      if (rows.empty()) continue;
      Namers namers{spec.kind, column.name, {}, {}};
      for (const FoundRow& row : rows) {
        namers.uids.push_back(row.uid);
        const std::string name = row.row.key_text();
        namers.names.push_back(name.empty() ? row.uid : name);
      }
      all.push_back(std::move(namers));
    }
  }
  return all;
}

Result<std::optional<Change>> RecordRows::author(Kind kind, const FoundRow& row, const std::string& column) {
  std::int64_t seq = row.changed;
  const ColumnSpec* spec = kind_spec(kind).column(column);
  const std::string now = spec == nullptr ? std::string{} : outside_text(*spec, *row.row.find(column));
  for (int i = 0; i < kMostVersions && spec != nullptr; ++i) {
    SHERD_TRY(const Table before, store_.read({site_, kind, {column, "changed"}, seq - 1, {{"uid", row.uid}}}));
    if (before.rows() == 0 || cell_text(*before.find(column), 0) != now) break;
    seq = before.find("changed")->integer(0);
  }
  SHERD_TRY(const auto changes, store_.changes(seq - 1));
  if (changes.empty() || changes.front().seq != seq) return std::nullopt;
  return changes.front();
}

}  // namespace sherd::desk
