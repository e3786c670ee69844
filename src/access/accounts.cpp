#include "access/accounts.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "access/common_passwords.h"
#include "base/csv.h"
#include "base/text.h"

namespace sherd::access {

namespace {

constexpr std::array<std::pair<Role, std::string_view>, 4> kRoles{
    {{Role::reader, "reader"}, {Role::recorder, "recorder"}, {Role::editor, "editor"}, {Role::owner, "owner"}}};
constexpr std::array<std::string_view, 6> kColumns{"name", "recorder", "role", "since", "must_change", "password"};
constexpr std::size_t kMostName = 40;

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' ||
         c == '_' || c == '@';
}

Result<void> check_names(const Account& account) {
  if (account.name.empty() || account.name.size() > kMostName || !std::ranges::all_of(account.name, is_plain))
    return fail("bad_name", "\"" + shortened(account.name, kMostName) + "\" cannot be the name of an account",
                "1 to 40 letters, digits, dots, hyphens, underscores or @");
  const bool controls =
      std::ranges::any_of(account.recorder, [](char c) { return static_cast<unsigned char>(c) < 32; });
  if (account.recorder.empty() || account.recorder.size() > kMostName || controls || !is_utf8(account.recorder))
    return fail("bad_recorder", "an account needs the name under which its work stands in the history",
                "1 to 40 characters, such as initials");
  return {};
}

/// Every character the same, or each the next of the one before it: "aaaaaaaaaaaa", "abcdefghijkl", "987654321098".
bool is_run(std::string_view password) {
  for (const int step : {0, 1, -1}) {
    int breaks = 0;
    for (std::size_t i = 1; i < password.size(); ++i) breaks += password[i] - password[i - 1] == step ? 0 : 1;
    if (breaks <= 2) return true;
  }
  return false;
}

std::size_t characters_of(std::string_view utf8) {
  return static_cast<std::size_t>(
      std::ranges::count_if(utf8, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

Result<Account> account_of(const CsvTable& table, std::size_t row) {
  Account account{.name = table.text(row, 0), .recorder = table.text(row, 1), .hash = table.text(row, 5)};
  const auto role = role_named(table.text(row, 2));
  if (!role) return table.bad(row, 2, role.error().message);
  account.role = *role;
  SHERD_TRY(const auto since, table.integer(row, 3));
  account.since = since.value_or(0);
  account.must_change = table.text(row, 4) == "yes";
  if (!account.must_change && table.text(row, 4) != "no") return table.bad(row, 4, "it is yes or no");
  return account;
}

}  // namespace

std::string_view name_of(Role role) {
  return std::ranges::find(kRoles, role, &std::pair<Role, std::string_view>::first)->second;
}

Result<Role> role_named(std::string_view name) {
  for (const auto& [role, its] : kRoles) {
    if (its == name) return role;
  }
  return fail("unknown_role", "there is no role \"" + shortened(name, 20) + "\"",
              "roles are reader, recorder, editor and owner");
}

Result<Accounts> Accounts::read(std::string_view text) {
  const auto accounts = [&]() -> Result<Accounts> {
    SHERD_TRY(const CsvRows rows, parse_csv(text));
    SHERD_TRY(const CsvTable table, CsvTable::of(rows, {kColumns.begin(), kColumns.end()}));
    Accounts all;
    std::set<std::string> names, recorders;
    for (std::size_t row = 0; row < table.rows(); ++row) {
      SHERD_TRY(Account account, account_of(table, row));
      SHERD_CHECK(check_names(account));
      if (!names.insert(lower(account.name)).second) return table.bad(row, 0, "the name stands here twice");
      if (!recorders.insert(lower(account.recorder)).second)
        return table.bad(row, 1, "another account writes under this name already");
      all.accounts_.push_back(std::move(account));
    }
    return all;
  }();
  if (accounts) return accounts;
  Error error = accounts.error();
  error.code = "bad_accounts";
  error.hint = "the list of accounts is written by the command account; put a copy of it back, or make a new one";
  return fail(std::move(error));
}

std::string Accounts::text() const {
  CsvRows rows{{kColumns.begin(), kColumns.end()}};
  for (const Account& one : accounts_)
    rows.push_back({one.name, one.recorder, std::string(name_of(one.role)), std::to_string(one.since),
                    one.must_change ? "yes" : "no", one.hash});
  return csv_text(rows);
}

const Account* Accounts::find(std::string_view name) const {
  const std::string wanted = lower(name);
  const auto found = std::ranges::find_if(accounts_, [&](const Account& one) { return lower(one.name) == wanted; });
  return found == accounts_.end() ? nullptr : &*found;
}

Result<void> Accounts::put(Account account) {
  SHERD_CHECK(check_names(account));
  for (const Account& one : accounts_) {
    if (lower(one.recorder) == lower(account.recorder) && lower(one.name) != lower(account.name))
      return fail("recorder_taken", "the work of " + one.name + " stands under \"" + one.recorder + "\" already",
                  "give each account a name of its own in the history");
  }
  const Account* there = find(account.name);
  if (there == nullptr) {
    accounts_.push_back(std::move(account));
  } else {
    accounts_[static_cast<std::size_t>(there - accounts_.data())] = std::move(account);
  }
  return {};
}

Result<void> Accounts::remove(std::string_view name) {
  const Account* there = find(name);
  if (there == nullptr) {
    std::vector<std::string> names;
    for (const Account& one : accounts_) names.push_back(one.name);
    return fail("no_account", "there is no account \"" + shortened(name, kMostName) + "\"", did_you_mean(name, names));
  }
  accounts_.erase(accounts_.begin() + (there - accounts_.data()));
  return {};
}

Result<void> check_password(std::string_view password, const Account& account) {
  const std::size_t characters = characters_of(password);
  if (!is_utf8(password) || characters < kLeastPassword)
    return fail("password_short", "a password has at least 12 characters",
                "several words with spaces between them are easy to keep in mind");
  if (characters > kMostPassword) return fail("password_long", "a password has at most 128 characters", "shorten it");
  const std::string low = lower(password);
  if (is_run(password) || low.find(lower(account.name)) != std::string::npos || low.find("sherdwright") != low.npos)
    return fail("password_plain", "that password is guessed at once",
                "leave out the account's name and the program's, and one character over and over or in a row");
  if (is_common(password))
    return fail("password_common",
                "that password is among the commonest, or one of them with figures and signs about it",
                "several words with spaces between them are easy to keep in mind");
  return {};
}

}  // namespace sherd::access
