#include "store/sqlite_dialect.h"

#include <fmt/format.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <unordered_map>

#include "base/text.h"
#include "store/feed_hub.h"
#include "store/sqlite_errors.h"
#include "store/sqlite_file.h"
#include "store/sqlite_raw.h"

namespace sherd::store {

namespace {

// The pages of a large change stay in memory until it is committed (in KiB).
constexpr int kCacheKib = 65536;
constexpr std::size_t kMostKept = 32;

class SqliteDialect final : public Dialect {
 public:
  /// `path` empty: in memory.
  SqliteDialect(std::string path, std::string_view mode, const SqliteOptions& options)
      : path_(std::move(path)), options_(options), sql_(soci::sqlite3, "db=" + address(path_, mode)) {
    sqlite_api::sqlite3_busy_timeout(handle(), options.busy_ms);
    refuse_unknown_names(handle());
  }
  ~SqliteDialect() override {
    // Closing goes on whether or not this succeeds: what is in the log stays there and is read again.
    if (!path_.empty())
      sqlite_api::sqlite3_wal_checkpoint_v2(handle(), "main", SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr);
  }
  SqliteDialect(const SqliteDialect&) = delete;
  SqliteDialect& operator=(const SqliteDialect&) = delete;

  void configure();
  Handle handle() { return static_cast<soci::sqlite3_session_backend*>(sql_.get_backend())->conn_; }

  soci::session& sql() override { return sql_; }
  std::string ddl(std::string_view text) const override;
  void begin_reading() override { sql_ << "begin"; }
  void fetch(const std::string& query, std::span<const std::string> texts, Table& into) override;
  void put_chunk(const std::string& sha256, std::int64_t ordinal, std::string_view bytes) override;
  void append_chunk(const std::string& sha256, std::int64_t ordinal, std::string& to) override;
  void scan(const RawTable& table, const std::function<void(RawRow)>& row) override {
    scan_sqlite(handle(), table, row);
  }
  std::unique_ptr<RawWriter> writer(const RawTable& table) override { return sqlite_writer(handle(), table); }
  Error classify(const std::exception& error) override { return sqlite_error(handle(), path_, error); }
  Result<void> backup(const std::string& file) override;
  Result<std::vector<std::string>> verify() override;
  std::vector<std::string> warnings() const override { return warnings_; }

 private:
  void begin_writing() override { sql_ << "begin immediate"; }
  void commit_writing(std::int64_t seq) override {
    sql_ << "commit";
    if (!path_.empty()) announce_in_process(path_, seq);
  }
  void put_versions(const NewVersions& rows) override;

  static std::string address(const std::string& path, std::string_view mode) {
    prepare_sqlite();
    return path.empty() ? ":memory:" : file_uri(path, mode);
  }

  /// A statement made ready once; many edits run the same few.
  sqlite_api::sqlite3_stmt* ready(const std::string& query);

  std::string path_;
  SqliteOptions options_;
  soci::session sql_;
  std::vector<std::string> warnings_;
  std::unordered_map<std::string, Statement> kept_;  ///< closed before the connection
};

void SqliteDialect::configure() {
  const RecoveryWatch watch;
  std::string mode;
  sql_ << "pragma journal_mode = wal", soci::into(mode);
  for (const std::string& setting : {std::string("synchronous = full"), std::string("foreign_keys = on"),
                                     std::string("trusted_schema = off"), fmt::format("cache_size = -{}", kCacheKib)}) {
    sql_ << "pragma " + setting;
  }
  if (options_.most_pages > 0) sql_ << fmt::format("pragma max_page_count = {}", options_.most_pages);
  if (watch.recovered()) {
    warnings_.push_back(fmt::format(
        "{} was not closed properly last time; its newest changes were read back from {}-wal. A copy of the file alone "
        "would have lacked them: copy a store with \"sherdwright backup\".",
        path_, path_));
  }
}

std::string SqliteDialect::ddl(std::string_view text) const {
  std::string words = replace_all(std::string(text), "$int", "integer");
  words = replace_all(std::move(words), "$text", "text");
  words = replace_all(std::move(words), "$bytes", "blob");
  return replace_all(std::move(words), "$strict", "strict");
}

sqlite_api::sqlite3_stmt* SqliteDialect::ready(const std::string& query) {
  if (const auto found = kept_.find(query); found != kept_.end()) return found->second.get();
  if (kept_.size() >= kMostKept) kept_.clear();
  return kept_.emplace(query, prepare(handle(), query)).first->second.get();
}

/// Leaves a statement as it was made ready, however its use ends: one that is not at its end holds a lock.
class Use {
 public:
  explicit Use(sqlite_api::sqlite3_stmt* statement) : statement_(statement) {}
  ~Use() {
    sqlite_api::sqlite3_reset(statement_);
    sqlite_api::sqlite3_clear_bindings(statement_);
  }
  Use(const Use&) = delete;
  Use& operator=(const Use&) = delete;
  sqlite_api::sqlite3_stmt* get() const { return statement_; }

 private:
  sqlite_api::sqlite3_stmt* statement_;
};

void bind_cell(sqlite_api::sqlite3_stmt* statement, int at, const Column& column, std::size_t row) {
  if (column.is_null(row)) {
    sqlite_api::sqlite3_bind_null(statement, at);
  } else if (is_text(column.type())) {
    const std::string_view text = column.text(row);
    sqlite_api::sqlite3_bind_text(statement, at, text.data(), static_cast<int>(text.size()), SQLITE_STATIC);
  } else {
    sqlite_api::sqlite3_bind_int64(statement, at, column.integer(row));
  }
}

void SqliteDialect::put_versions(const NewVersions& rows) {
  std::string names;
  std::string places;
  for (const auto& [name, column] : rows.columns) {
    names += fmt::format(", \"{}\"", name);
    places += ", ?";
  }
  const Use insert(ready(fmt::format("insert into {} (uid, site, from_change{}) values (?, {}, {}{})", rows.table,
                                     names, rows.site, rows.change, places)));
  for (std::size_t row = 0; row < rows.rows; ++row) {
    const std::string_view uid = rows.uid(row);
    sqlite_api::sqlite3_bind_text(insert.get(), 1, uid.data(), static_cast<int>(uid.size()), SQLITE_STATIC);
    int at = 2;
    for (const auto& [name, column] : rows.columns) bind_cell(insert.get(), at++, *column, row);
    step(handle(), insert.get());
    sqlite_api::sqlite3_reset(insert.get());
  }
}

void SqliteDialect::fetch(const std::string& query, std::span<const std::string> texts, Table& into) {
  const Use select(ready(query));
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const int at = sqlite_api::sqlite3_bind_parameter_index(select.get(), fmt::format(":t{}", i + 1).c_str());
    sqlite_api::sqlite3_bind_text(select.get(), at, texts[i].data(), static_cast<int>(texts[i].size()), SQLITE_STATIC);
  }
  std::vector<Column>& columns = into.columns();
  while (step(handle(), select.get())) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const int at = static_cast<int>(i);
      if (sqlite_api::sqlite3_column_type(select.get(), at) == SQLITE_NULL) {
        columns[i].push_null();
      } else if (is_text(columns[i].type())) {
        const auto* text = reinterpret_cast<const char*>(sqlite_api::sqlite3_column_text(select.get(), at));
        columns[i].push_text({text, static_cast<std::size_t>(sqlite_api::sqlite3_column_bytes(select.get(), at))});
      } else {
        columns[i].push_integer(sqlite_api::sqlite3_column_int64(select.get(), at));
      }
    }
  }
}

void SqliteDialect::put_chunk(const std::string& sha256, std::int64_t ordinal, std::string_view bytes) {
  const Statement insert =
      prepare(handle(), "insert into document_chunk (sha256, ordinal, bytes) values (?, ?, ?) on conflict do nothing");
  sqlite_api::sqlite3_bind_text(insert.get(), 1, sha256.data(), static_cast<int>(sha256.size()), SQLITE_STATIC);
  sqlite_api::sqlite3_bind_int64(insert.get(), 2, ordinal);
  sqlite_api::sqlite3_bind_blob(insert.get(), 3, bytes.data(), static_cast<int>(bytes.size()), SQLITE_STATIC);
  step(handle(), insert.get());
}

void SqliteDialect::append_chunk(const std::string& sha256, std::int64_t ordinal, std::string& to) {
  const Statement select = prepare(handle(), "select bytes from document_chunk where sha256 = ? and ordinal = ?");
  sqlite_api::sqlite3_bind_text(select.get(), 1, sha256.data(), static_cast<int>(sha256.size()), SQLITE_STATIC);
  sqlite_api::sqlite3_bind_int64(select.get(), 2, ordinal);
  if (!step(handle(), select.get())) return;
  const void* bytes = sqlite_api::sqlite3_column_blob(select.get(), 0);
  to.append(static_cast<const char*>(bytes),
            static_cast<std::size_t>(sqlite_api::sqlite3_column_bytes(select.get(), 0)));
}

Result<void> SqliteDialect::backup(const std::string& file) {
  return guarded(*this, [&]() -> Result<void> {
    if (path_.empty()) return copy_checked(handle(), file, options_.busy_ms);
    // A reader of its own: it sees what is committed, and waits for no writer.
    const OwnedHandle reader = open_handle(path_, "rw");
    return copy_checked(reader.get(), file, options_.busy_ms);
  });
}

Result<std::vector<std::string>> SqliteDialect::verify() {
  auto found = guarded(*this, [&]() -> Result<std::vector<std::string>> { return integrity_problems(handle()); });
  if (!found && found.error().code == "damaged_store") return std::vector<std::string>{found.error().message};
  return found;
}

Result<std::unique_ptr<Dialect>> connect(const std::string& path, std::string_view mode, const SqliteOptions& options) {
  std::unique_ptr<SqliteDialect> dialect;
  try {
    dialect = std::make_unique<SqliteDialect>(path, mode, options);
  } catch (const std::exception& error) {
    return std::unexpected(sqlite_error(nullptr, path, error));
  }
  if (mode == "rw") SHERD_CHECK(check_header(dialect->handle(), path));
  return guarded(*dialect, [&]() -> Result<std::unique_ptr<Dialect>> {
    if (mode != "rw") dialect->sql() << fmt::format("pragma application_id = {}", kApplicationId);
    dialect->configure();
    return std::move(dialect);
  });
}

}  // namespace

Result<std::unique_ptr<Dialect>> connect_sqlite(const std::string& path, const SqliteOptions& options) {
  SHERD_CHECK(check_store_path(path));
  return connect(path, "rw", options);
}

Result<std::unique_ptr<Dialect>> connect_new_sqlite(const std::string& path, const SqliteOptions& options) {
  return connect(path, "rwc", options);
}

Result<std::unique_ptr<Dialect>> connect_sqlite_in_memory() { return connect({}, "memory", {}); }

}  // namespace sherd::store
