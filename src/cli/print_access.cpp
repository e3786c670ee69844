#include "base/text.h"
#include "cli/print.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Who may sign in.
namespace sherd::cli {

std::string text_of(const desk::AccountsResponse& response) {
  TextTable table({"account", "in the history", "role", "password"});
  for (const desk::AccountRow& one : response.accounts)
    table.row({one.name, one.recorder, one.role, one.must_change ? "to be changed at the next sign-in" : ""});
  std::string out = response.accounts.empty() ? "There is no account.\n" : table.text();
  if (!response.password.empty())
    out += "\nPassword: " + response.password +
           "\nIt is said this once and kept nowhere. Hand it over in person; it is changed at the first sign-in.\n";
  return out;
}

CsvRows table_of(const desk::AccountsResponse& response) { return desk::csv_rows(response.accounts); }

}  // namespace sherd::cli
