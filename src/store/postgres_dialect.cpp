#include "store/postgres_dialect.h"

#include <fmt/format.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>

#include <chrono>
#include <thread>
#include <utility>

#include "base/text.h"
#include "store/postgres_api.h"
#include "store/postgres_checks.h"
#include "store/postgres_errors.h"
#include "store/transfer.h"

namespace sherd::store {

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

constexpr milliseconds kReviveFor{3000};
// The lock that every writer holds, within the database: "SHRD", 1. Do not change.
constexpr const char* kWriterLock = "1397248580, 1";

void push_field(Column& column, const std::optional<std::string_view>& field) {
  if (!field) {
    column.push_null();
  } else if (is_text(column.type())) {
    column.push_text(*field);
  } else {
    column.push_integer(integer_of(*field));
  }
}

class Writer final : public RawWriter {
 public:
  Writer(PGconn* connection, const RawTable& table)
      : copy_(connection, fmt::format("{} ({})", table.name, table.quoted_columns())) {}

  void add(RawRow row) override {
    copy_.begin_row(row.size());
    for (const RawCell& cell : row) {
      if (const auto* integer = std::get_if<std::int64_t>(&cell)) {
        copy_.add_integer(*integer);
      } else if (const auto* bytes = std::get_if<std::string_view>(&cell)) {
        copy_.add_bytes(*bytes);
      } else {
        copy_.add_null();
      }
    }
  }
  void finish() override { copy_.finish(); }

 private:
  CopyIn copy_;
};

class PostgresDialect final : public Dialect {
 public:
  explicit PostgresDialect(PostgresAddress address)
      : address_(std::move(address)), sql_(soci::postgresql, address_.connection) {
    keep_quiet(handle());
  }

  soci::session& sql() override { return sql_; }
  std::string ddl(std::string_view text) const override;
  void begin_reading() override { sql_ << "begin isolation level repeatable read read only"; }
  void fetch(const std::string& query, std::span<const std::string> texts, Table& into) override;
  void put_chunk(const std::string& sha256, std::int64_t ordinal, std::string_view bytes) override;
  void append_chunk(const std::string& sha256, std::int64_t ordinal, std::string& to) override;
  void scan(const RawTable& table, const std::function<void(RawRow)>& row) override;
  std::unique_ptr<RawWriter> writer(const RawTable& table) override {
    return std::make_unique<Writer>(handle(), table);
  }
  Error classify(const std::exception& error) override { return postgres_error(backend_handle(), address_, error); }
  bool revive() override;
  bool at_rest() override {
    PGconn* connection = backend_handle();
    return connection != nullptr && PQstatus(connection) == CONNECTION_OK &&
           PQtransactionStatus(connection) == PQTRANS_IDLE;
  }
  Result<void> backup(const std::string& file) override { return store_to_file(*this, file); }
  Result<std::vector<std::string>> verify() override {
    return guarded(*this, [&]() -> Result<std::vector<std::string>> { return postgres_problems(*this); });
  }
  std::vector<std::string> warnings() const override { return {}; }

 private:
  void begin_writing() override;
  void commit_writing(std::int64_t seq) override;
  void put_versions(const NewVersions& rows) override;

  /// Null where connecting again has failed.
  PGconn* backend_handle() {
    auto* backend = static_cast<soci::postgresql_session_backend*>(sql_.get_backend());
    return backend == nullptr ? nullptr : backend->conn_;
  }
  PGconn* handle() {
    PGconn* connection = backend_handle();
    if (connection == nullptr) throw soci::soci_error("there is no connection");
    return connection;
  }

  PostgresAddress address_;
  soci::session sql_;
};

std::string PostgresDialect::ddl(std::string_view text) const {
  // Text is compared byte by byte, as SQLite does, whatever the language of the database.
  std::string words = replace_all(std::string(text), "$int", "bigint");
  words = replace_all(std::move(words), "$text", "text collate \"C\"");
  words = replace_all(std::move(words), "$bytes", "bytea");
  return replace_all(std::move(words), "$strict", "");
}

void PostgresDialect::begin_writing() {
  try {
    execute(handle(), fmt::format("begin isolation level read committed read write; select pg_advisory_xact_lock({})",
                                  kWriterLock));
  } catch (...) {
    roll_back(*this);
    throw;
  }
}

void PostgresDialect::commit_writing(std::int64_t seq) {
  // A transaction that has failed is ended by "commit" without an error, and without being kept.
  const std::string done = execute(handle(), fmt::format("notify {}, '{}'; commit", kChannel, seq));
  if (done != "COMMIT") throw soci::postgresql_soci_error("commit: " + done, "25P02");
}

void PostgresDialect::put_versions(const NewVersions& rows) {
  std::string target = fmt::format("{} (uid, site, from_change", rows.table);
  for (const auto& [name, column] : rows.columns) target += fmt::format(", \"{}\"", name);
  CopyIn copy(handle(), target + ")");
  for (std::size_t row = 0; row < rows.rows; ++row) {
    copy.begin_row(rows.columns.size() + 3);
    copy.add_bytes(rows.uid(row));
    copy.add_integer(rows.site);
    copy.add_integer(rows.change);
    for (const auto& [name, column] : rows.columns) {
      if (column->is_null(row)) {
        copy.add_null();
      } else if (is_text(column->type())) {
        copy.add_bytes(column->text(row));
      } else {
        copy.add_integer(column->integer(row));
      }
    }
  }
  copy.finish();
}

void PostgresDialect::fetch(const std::string& text, std::span<const std::string> texts, Table& into) {
  std::vector<Column>& columns = into.columns();
  const OnRow add = [&](Fields fields) {
    for (std::size_t i = 0; i < columns.size(); ++i) push_field(columns[i], fields[i]);
  };
  if (texts.empty() && text.starts_with("select ")) return copy_out(handle(), text, columns.size(), add);
  std::string numbered = text;
  for (std::size_t i = texts.size(); i-- > 0;) {
    numbered = replace_all(std::move(numbered), fmt::format(":t{}", i + 1), fmt::format("${}", i + 1));
  }
  query(handle(), numbered, texts, add);
}

void PostgresDialect::put_chunk(const std::string& sha256, std::int64_t ordinal, std::string_view bytes) {
  const std::vector<std::string> texts{sha256, std::to_string(ordinal)};
  bool there = false;
  query(handle(), "select 1 from document_chunk where sha256 = $1 and ordinal = $2::bigint", texts,
        [&](Fields) { there = true; });
  if (there) return;
  CopyIn copy(handle(), "document_chunk (sha256, ordinal, bytes)");
  copy.begin_row(3);
  copy.add_bytes(sha256);
  copy.add_integer(ordinal);
  copy.add_bytes(bytes);
  copy.finish();
}

void PostgresDialect::append_chunk(const std::string& sha256, std::int64_t ordinal, std::string& to) {
  const std::vector<std::string> texts{sha256, std::to_string(ordinal)};
  query(handle(), "select bytes from document_chunk where sha256 = $1 and ordinal = $2::bigint", texts,
        [&](Fields fields) { to += fields[0].value_or(std::string_view()); });
}

void PostgresDialect::scan(const RawTable& table, const std::function<void(RawRow)>& row) {
  std::vector<RawCell> cells(table.columns.size());
  copy_out(handle(), table.query(), cells.size(), [&](Fields fields) {
    for (std::size_t i = 0; i < cells.size(); ++i) {
      cells[i] = RawCell();
      if (!fields[i]) continue;
      if (table.columns[i].storage == Storage::integer) {
        cells[i] = integer_of(*fields[i]);
      } else {
        cells[i] = *fields[i];
      }
    }
    row(cells);
  });
}

bool PostgresDialect::revive() {
  const auto until = steady_clock::now() + kReviveFor;
  for (milliseconds pause(50);; pause *= 2) {
    try {
      sql_.reconnect();
      keep_quiet(handle());
      return true;
    } catch (const std::exception&) {
      if (steady_clock::now() + pause > until) return false;
      std::this_thread::sleep_for(pause);
    }
  }
}

}  // namespace

Result<std::unique_ptr<Dialect>> connect_postgres(const PostgresAddress& address) {
  for (int attempt = 0;; ++attempt) {
    try {
      return std::make_unique<PostgresDialect>(address);
    } catch (const std::exception& error) {
      if (auto why = why_not_connected(address)) return std::unexpected(std::move(*why));
      // It answers now: it may have been starting.
      if (attempt > 0) return std::unexpected(postgres_error(nullptr, address, error));
    }
  }
}

}  // namespace sherd::store
