#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

struct pg_conn;
struct pg_result;

/// For the sources of the PostgreSQL dialect only. What fails throws soci::postgresql_soci_error, as SOCI itself does.
namespace sherd::store {

struct FinishConnection {
  void operator()(pg_conn* connection) const;
};
using OwnedConnection = std::unique_ptr<pg_conn, FinishConnection>;
struct ClearResult {
  void operator()(pg_result* result) const;
};
using OwnedResult = std::unique_ptr<pg_result, ClearResult>;

/// The fields of a row in the server's binary form, valid until the next row.
using Fields = std::span<const std::optional<std::string_view>>;
using OnRow = std::function<void(Fields)>;

/// A whole number of 1, 2, 4 or 8 bytes in the server's binary form.
std::int64_t integer_of(std::string_view field);

/// Notices of the server are for its log, not for our output.
void keep_quiet(pg_conn* connection);
/// Runs statements parted by semicolons in one message; what the server says the last one was ("COMMIT").
std::string execute(pg_conn* connection, const std::string& statements);
/// `texts` are the values of $1, $2 ... The whole answer is in memory.
void query(pg_conn* connection, const std::string& text, std::span<const std::string> texts, const OnRow& row);
/// Streams the answer of a query without values.
void copy_out(pg_conn* connection, const std::string& text, std::size_t columns, const OnRow& row);

/// Streams rows into a table: `copy TABLE (COLUMNS) from stdin (format binary)`. Rows that are not finished are lost.
class CopyIn {
 public:
  CopyIn(pg_conn* connection, const std::string& target);
  ~CopyIn();
  CopyIn(const CopyIn&) = delete;
  CopyIn& operator=(const CopyIn&) = delete;

  void begin_row(std::size_t fields);
  void add_null();
  void add_integer(std::int64_t value);
  /// Text or bytes.
  void add_bytes(std::string_view bytes);
  void finish();

 private:
  void send_when_full();
  void send();

  pg_conn* connection_;
  std::string buffer_;
  bool open_ = false;
};

}  // namespace sherd::store
