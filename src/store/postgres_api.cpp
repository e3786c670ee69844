#include "store/postgres_api.h"

#include <fmt/format.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>

#include <utility>
#include <vector>

#include "base/text.h"

namespace sherd::store {

namespace {

// "Binary Format" in the manual's chapter on COPY: signature, flags, length of an extension; -1 ends the rows.
constexpr std::string_view kHeader("PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0", 19);
constexpr std::size_t kSendAt = std::size_t{1} << 16U;

void put_big_endian(std::string& to, std::uint64_t value, unsigned bytes) {
  for (unsigned i = bytes; i-- > 0;) to += static_cast<char>((value >> (8U * i)) & 0xffU);
}

[[noreturn]] void throw_result(PGconn* connection, const PGresult* result, std::string_view doing) {
  const char* state = result == nullptr ? nullptr : PQresultErrorField(result, PG_DIAG_SQLSTATE);
  const char* words = result == nullptr ? nullptr : PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY);
  const std::string text(words == nullptr ? PQerrorMessage(connection) : words);
  throw soci::postgresql_soci_error(fmt::format("{} ({})", trim(text), shortened(doing, 200)),
                                    state == nullptr ? "     " : state);
}

/// A copy that is given up in its middle must not leave its rows to the next statement.
class Drained {
 public:
  explicit Drained(PGconn* connection) : connection_(connection) {}
  ~Drained() {
    if (whole_) return;
    if (PGcancel* cancel = PQgetCancel(connection_)) {
      char why[256];
      PQcancel(cancel, why, sizeof why);
      PQfreeCancel(cancel);
    }
    char* data = nullptr;
    while (PQgetCopyData(connection_, &data, 0) > 0) PQfreemem(data);
    while (const OwnedResult result{PQgetResult(connection_)}) {
    }
  }
  Drained(const Drained&) = delete;
  Drained& operator=(const Drained&) = delete;
  void whole() { whole_ = true; }

 private:
  PGconn* connection_;
  bool whole_ = false;
};

/// One row of a binary copy.
void read_row(std::string_view data, std::vector<std::optional<std::string_view>>& fields) {
  data.remove_prefix(2);
  for (std::optional<std::string_view>& field : fields) {
    const std::int64_t length = integer_of(data.substr(0, 4));
    data.remove_prefix(4);
    field.reset();
    if (length < 0) continue;
    field = data.substr(0, static_cast<std::size_t>(length));
    data.remove_prefix(static_cast<std::size_t>(length));
  }
}

}  // namespace

void FinishConnection::operator()(pg_conn* connection) const { PQfinish(connection); }
void ClearResult::operator()(pg_result* result) const { PQclear(result); }

std::int64_t integer_of(std::string_view field) {
  if (field.empty()) return 0;
  std::uint64_t value = (static_cast<unsigned char>(field[0]) & 0x80U) != 0U && field.size() > 1 ? ~0ULL : 0ULL;
  for (const char byte : field) value = value << 8U | static_cast<unsigned char>(byte);
  return static_cast<std::int64_t>(value);
}

void keep_quiet(pg_conn* connection) {
  PQsetNoticeProcessor(connection, [](void*, const char*) {}, nullptr);
}

std::string execute(pg_conn* connection, const std::string& statements) {
  const OwnedResult result(PQexec(connection, statements.c_str()));
  const ExecStatusType status = PQresultStatus(result.get());
  if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) throw_result(connection, result.get(), statements);
  return PQcmdStatus(result.get());
}

void query(pg_conn* connection, const std::string& text, std::span<const std::string> texts, const OnRow& row) {
  std::vector<const char*> values;
  for (const std::string& value : texts) {
    if (value.find('\0') != std::string::npos) throw soci::postgresql_soci_error("text with a NUL", "22021");
    values.push_back(value.c_str());
  }
  const OwnedResult result(PQexecParams(connection, text.c_str(), static_cast<int>(values.size()), nullptr,
                                        values.data(), nullptr, nullptr, 1));
  const ExecStatusType status = PQresultStatus(result.get());
  if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) throw_result(connection, result.get(), text);
  const int columns = PQnfields(result.get());
  std::vector<std::optional<std::string_view>> fields(static_cast<std::size_t>(columns));
  for (int r = 0; r < PQntuples(result.get()); ++r) {
    for (int c = 0; c < columns; ++c) {
      auto& field = fields[static_cast<std::size_t>(c)];
      field.reset();
      if (PQgetisnull(result.get(), r, c) != 0) continue;
      field =
          std::string_view(PQgetvalue(result.get(), r, c), static_cast<std::size_t>(PQgetlength(result.get(), r, c)));
    }
    row(fields);
  }
}

void copy_out(pg_conn* connection, const std::string& text, std::size_t columns, const OnRow& row) {
  const std::string statement = fmt::format("copy ({}) to stdout (format binary)", text);
  const OwnedResult begun(PQexec(connection, statement.c_str()));
  if (PQresultStatus(begun.get()) != PGRES_COPY_OUT) throw_result(connection, begun.get(), text);
  Drained drained(connection);
  std::vector<std::optional<std::string_view>> fields(columns);
  bool first = true;
  char* data = nullptr;
  int size = 0;
  while ((size = PQgetCopyData(connection, &data, 0)) > 0) {
    const std::unique_ptr<char, decltype(&PQfreemem)> owned(data, PQfreemem);
    std::string_view bytes(data, static_cast<std::size_t>(size));
    if (std::exchange(first, false)) bytes.remove_prefix(kHeader.size());
    if (bytes.size() < 2 || integer_of(bytes.substr(0, 2)) < 0) continue;
    read_row(bytes, fields);
    row(fields);
  }
  if (size == -2) throw_result(connection, nullptr, text);
  const OwnedResult ended(PQgetResult(connection));
  if (PQresultStatus(ended.get()) != PGRES_COMMAND_OK) throw_result(connection, ended.get(), text);
  while (const OwnedResult result{PQgetResult(connection)}) {
  }
  drained.whole();
}

CopyIn::CopyIn(pg_conn* connection, const std::string& target) : connection_(connection), buffer_(kHeader) {
  const std::string statement = fmt::format("copy {} from stdin (format binary)", target);
  const OwnedResult begun(PQexec(connection_, statement.c_str()));
  if (PQresultStatus(begun.get()) != PGRES_COPY_IN) throw_result(connection_, begun.get(), statement);
  open_ = true;
}

CopyIn::~CopyIn() {
  if (!open_) return;
  PQputCopyEnd(connection_, "given up");
  while (const OwnedResult result{PQgetResult(connection_)}) {
  }
}

void CopyIn::begin_row(std::size_t fields) {
  send_when_full();
  put_big_endian(buffer_, fields, 2);
}

void CopyIn::add_null() { put_big_endian(buffer_, 0xffffffffU, 4); }

void CopyIn::add_integer(std::int64_t value) {
  put_big_endian(buffer_, 8, 4);
  put_big_endian(buffer_, static_cast<std::uint64_t>(value), 8);
}

void CopyIn::add_bytes(std::string_view bytes) {
  put_big_endian(buffer_, bytes.size(), 4);
  buffer_ += bytes;
}

void CopyIn::send_when_full() {
  if (buffer_.size() >= kSendAt) send();
}

void CopyIn::send() {
  for (std::string_view rest = buffer_; !rest.empty();) {
    const std::string_view part = rest.substr(0, std::size_t{1} << 26U);
    if (PQputCopyData(connection_, part.data(), static_cast<int>(part.size())) != 1) {
      throw_result(connection_, nullptr, "copy");
    }
    rest.remove_prefix(part.size());
  }
  buffer_.clear();
}

void CopyIn::finish() {
  put_big_endian(buffer_, 0xffffU, 2);
  send();
  open_ = false;
  if (PQputCopyEnd(connection_, nullptr) != 1) throw_result(connection_, nullptr, "copy");
  OwnedResult failed;
  while (OwnedResult result{PQgetResult(connection_)}) {
    if (PQresultStatus(result.get()) != PGRES_COMMAND_OK) failed = std::move(result);
  }
  if (failed) throw_result(connection_, failed.get(), "copy");
  if (PQstatus(connection_) != CONNECTION_OK) throw_result(connection_, nullptr, "copy");
}

}  // namespace sherd::store
