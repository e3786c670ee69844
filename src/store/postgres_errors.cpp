#include "store/postgres_errors.h"

#include <fmt/format.h>
#include <poll.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

#include "base/text.h"
#include "store/postgres_api.h"

namespace sherd::store {

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

constexpr milliseconds kPatience{4000};

Error told(std::string code, std::string message, std::string hint, ErrorKind kind = ErrorKind::data) {
  return {kind, std::move(code), std::move(message), {}, std::move(hint)};
}

std::string state_of(const std::exception& error) {
  const auto* thrown = dynamic_cast<const soci::postgresql_soci_error*>(&error);
  return thrown == nullptr ? std::string() : thrown->sqlstate();
}

bool is_one_of(std::string_view state, std::span<const std::string_view> states) {
  return std::ranges::any_of(states, [&](std::string_view each) { return state.starts_with(each); });
}

Error lost(const PostgresAddress& address) {
  return told("connection_lost", fmt::format("the connection to {} was lost", address.shown),
              "Nothing that was not finished was kept; try again when the server answers");
}

Error refused(const PostgresAddress& address, std::string_view what) {
  return told("cannot_open", fmt::format("{} has no right to the store in {}: {}", address.user, address.shown, what),
              fmt::format("Whoever owns it may give the right: grant usage on schema {0} to \"{1}\"; grant select, "
                          "insert, update, delete on all tables in schema {0} to \"{1}\"",
                          kSchema, address.user));
}

// Classes and codes: PostgreSQL 15 manual, appendix A, "PostgreSQL Error Codes".
constexpr std::array<std::string_view, 5> kLost{"08", "57P01", "57P02", "57P05", "25P03"};
constexpr std::array<std::string_view, 5> kBusy{"55P03", "40", "57014", "53300", "57P03"};
constexpr std::array<std::string_view, 2> kDamaged{"XX001", "XX002"};
constexpr std::array<std::string_view, 2> kNotText{"22021", "22P05"};

/// "connection to server at "h", port 1 failed: Connection refused\n\tIs the server ...": the reason alone.
std::string reason_in(std::string_view text) {
  const std::string_view line = split(trim(text), '\n').front();
  const std::size_t failed = line.find(" failed: ");
  return std::string(trim(failed == std::string_view::npos ? line : line.substr(failed + 9)));
}

/// What the server's code at the end of the reason ("FATAL:  28P01") means; nothing where there is none of these.
std::optional<Error> refusal(const PostgresAddress& address, const std::string& reason) {
  const std::string server = address.server();
  if (reason.ends_with("28P01")) {
    return told("cannot_open", fmt::format("the server at {} does not accept the password of {}", server, address.user),
                "Give the right one in the address, in PGPASSWORD or in the file .pgpass");
  }
  if (reason.ends_with("28000")) {
    return told("cannot_open",
                fmt::format("the server at {} does not let {} in to {}", server, address.user, address.database),
                "Whoever runs the server may allow it (CREATE ROLE, pg_hba.conf)");
  }
  if (reason.ends_with("3D000")) {
    return told("no_store", fmt::format("the server at {} has no database {}", server, address.database),
                fmt::format("Make it as someone who may: create database \"{}\"; then: sherdwright new {} --site CODE",
                            address.database, address.shown));
  }
  if (reason.ends_with("53300")) {
    return told("store_busy", fmt::format("the server at {} has no connection free", server),
                "Try again later, or have its max_connections raised");
  }
  if (reason.ends_with("57P03")) {
    return told("cannot_open", fmt::format("the server at {} is starting or stopping", server),
                "Try again in a moment");
  }
  if (reason.ends_with("42501")) return refused(address, "permission denied for database");
  return {};
}

bool wait_for(PGconn* connection, PostgresPollingStatusType state, steady_clock::time_point until) {
  const auto left = std::chrono::duration_cast<milliseconds>(until - steady_clock::now()).count();
  pollfd socket{PQsocket(connection), static_cast<short>(state == PGRES_POLLING_READING ? POLLIN : POLLOUT), 0};
  return left > 0 && ::poll(&socket, 1, static_cast<int>(left)) > 0;
}

}  // namespace

Error postgres_error(pg_conn* connection, const PostgresAddress& address, const std::exception& error) {
  const std::string state = state_of(error);
  const std::string& name = address.shown;
  if (connection == nullptr || PQstatus(connection) != CONNECTION_OK || is_one_of(state, kLost)) return lost(address);
  if (is_one_of(state, kBusy)) {
    return told("store_busy", fmt::format("another program is writing to {}", name), "Try again when it is done");
  }
  if (is_one_of(state, kDamaged)) {
    return told("damaged_store", fmt::format("{} is damaged: {}", name, error.what()),
                "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  }
  if (is_one_of(state, kNotText)) {
    return told("not_text", fmt::format("{} cannot keep text that is not UTF-8 or holds a NUL character", name),
                "Save the file as text in UTF-8 and read it again");
  }
  if (state == "53100") {
    return told("disk_full",
                fmt::format("there is no room left on the server's disk for {}; nothing of this change was kept", name),
                "Make room on the server's disk and try again");
  }
  if (state == "25006") {
    return told("read_only", fmt::format("{} cannot be written to: the server only reads just now", name),
                "Give the address of the main server, not of its copy");
  }
  if (state == "42501") return refused(address, reason_in(error.what()));
  if (state.starts_with("58")) {
    return told("disk_error", fmt::format("the server's disk reported an error with {}: {}", name, error.what()),
                "Check the server's disk; where the store does not open again, restore the last backup");
  }
  return told("store_error", fmt::format("the database refused a statement on {} ({}): {}", name, state, error.what()),
              "This is a fault of the program: please report it", ErrorKind::internal);
}

std::optional<Error> why_not_connected(const PostgresAddress& address) {
  const OwnedConnection connection(PQconnectStart(address.connection.c_str()));
  if (!connection) return told("cannot_open", "there is no memory left for a connection", "Close other programs");
  // The server's words are in its own language; its codes are the same everywhere.
  PQsetErrorVerbosity(connection.get(), PQERRORS_SQLSTATE);
  const auto until = steady_clock::now() + kPatience;
  PostgresPollingStatusType state =
      PQstatus(connection.get()) == CONNECTION_BAD ? PGRES_POLLING_FAILED : PGRES_POLLING_WRITING;
  bool silent = false;
  while (state != PGRES_POLLING_OK && state != PGRES_POLLING_FAILED && !silent) {
    silent = !wait_for(connection.get(), state, until);
    if (!silent) state = PQconnectPoll(connection.get());
  }
  if (state == PGRES_POLLING_OK) return {};
  if (!silent && PQconnectionNeedsPassword(connection.get()) != 0) {
    return told("cannot_open",
                fmt::format("the server at {} asks for the password of {}", address.server(), address.user),
                "Give it in the address, in PGPASSWORD or in the file .pgpass");
  }
  const std::string reason = silent ? "it is silent" : reason_in(PQerrorMessage(connection.get()));
  if (const auto known = refusal(address, reason)) return known;
  return told("cannot_open", fmt::format("no database server answers at {}: {}", address.server(), reason),
              "Check the host and the port, and that the server runs");
}

}  // namespace sherd::store
