#include "store/postgres_address.h"

#include <fmt/format.h>
#include <libpq-fe.h>

#include <array>
#include <map>
#include <memory>
#include <utility>

#include "base/text.h"
#include "store/store.h"

namespace sherd::store {

namespace {

using Values = std::map<std::string, std::string>;

Values values_of(PQconninfoOption* options) {
  Values values;
  for (const PQconninfoOption* option = options; option != nullptr && option->keyword != nullptr; ++option) {
    if (option->val != nullptr) values[option->keyword] = option->val;
  }
  PQconninfoFree(options);
  return values;
}

/// What a session of ours asks for, in the server's own words.
std::string session_settings(const PostgresOptions& options) {
  const std::array<std::pair<const char*, std::string>, 9> settings{{
      {"search_path", kSchema},
      {"lock_timeout", fmt::format("{}ms", options.busy_ms)},
      // A change that is acknowledged is on the disk, whatever the server's usual way.
      {"synchronous_commit", "on"},
      // Whoever falls asleep in the middle of a change does not keep the others waiting for ever.
      {"idle_in_transaction_session_timeout", "120s"},
      {"tcp_keepalives_idle", "30"},
      {"tcp_keepalives_interval", "10"},
      {"tcp_keepalives_count", "3"},
      // Undoing a large change compares two sets of rows; they are looked up in memory.
      {"work_mem", "64MB"},
      {"jit", "off"},
  }};
  std::string text;
  for (const auto& [name, value] : settings) text += fmt::format(" -c {}={}", name, value);
  return text.substr(1);
}

/// keyword='value', with quotes and backslashes escaped as libpq asks for it.
std::string connection_string(const Values& values) {
  std::string text;
  for (const auto& [name, value] : values) {
    const std::string quoted = replace_all(replace_all(value, "\\", "\\\\"), "'", "\\'");
    text += fmt::format("{}{}='{}'", text.empty() ? "" : " ", name, quoted);
  }
  return text;
}

}  // namespace

bool is_postgres(const std::string& address) {
  return address.starts_with("postgresql://") || address.starts_with("postgres://");
}

std::string PostgresAddress::server() const {
  const std::string place = host.empty() ? "this machine" : host;
  return port.empty() ? place : fmt::format("{}, port {}", place, port);
}

Result<PostgresAddress> read_postgres_address(const std::string& address, const PostgresOptions& options) {
  const std::string shown = shown_address(address);
  const std::string form =
      "Write postgresql://user@host:port/database, with signs such as @ : / ? in a password as %40 %3A %2F %3F";
  // What libpq says of a bad address may repeat parts of the password: it is not passed on.
  char* why = nullptr;
  PQconninfoOption* parsed = address.find('\0') == std::string::npos ? PQconninfoParse(address.c_str(), &why) : nullptr;
  PQfreemem(why);
  if (parsed == nullptr) return fail("unknown_address", fmt::format("the address {} cannot be read", shown), form);
  Values values = values_of(parsed);
  const Values usual = values_of(PQconndefaults());
  const auto value = [&](const std::string& name) {
    if (const auto given = values.find(name); given != values.end()) return given->second;
    const auto found = usual.find(name);
    return found == usual.end() ? std::string() : found->second;
  };
  if (!values.contains("dbname")) {
    return fail("unknown_address", fmt::format("the address {} names no database", shown), form);
  }
  // A password with a slash that was not written as %2F reads as a port or as a part of the database's name.
  const bool is_port = value("port").find_first_not_of("0123456789,") == std::string::npos;
  if (!is_port || values["dbname"].find('@') != std::string::npos) {
    return fail("unknown_address", fmt::format("the address {} cannot be read", shown), form);
  }
  const std::string host = value("host").empty() ? value("hostaddr") : value("host");
  PostgresAddress out{{}, shown, host, value("port"), value("user"), value("dbname")};
  const Values ours{{"application_name", "sherdwright"}, {"connect_timeout", "10"}, {"keepalives_idle", "30"},
                    {"keepalives_interval", "10"},       {"keepalives_count", "3"}, {"tcp_user_timeout", "30000"}};
  for (const auto& [name, wanted] : ours) values.emplace(name, wanted);
  values["client_encoding"] = "UTF8";
  std::string& settings = values["options"];
  settings += (settings.empty() ? "" : " ") + session_settings(options);
  out.connection = connection_string(values);
  return out;
}

}  // namespace sherd::store
