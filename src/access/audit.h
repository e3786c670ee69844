#pragma once

#include <functional>
#include <string>
#include <string_view>

/// Who came in, who was kept out and who ended whose session, for whoever keeps the server.
namespace sherd::access {

/// One thing that happened. Never a password, a token or a cookie.
struct AuditEntry {
  std::string_view event;    ///< sign-in, sign-out, session-end, password, proof, account-put, account-removed, request
  std::string_view outcome;  ///< succeeded, refused, throttled
  std::string_view account = {};  ///< whose; at a sign-in as it was given; "": nobody's
  std::string_view by = {};       ///< the account that did it to another's
  std::string_view address = {};  ///< of the client
  std::string_view asked = {};    ///< method and path, where a request was refused
  std::string_view reason = {};   ///< the error's code
};

/// `2026-11-26T07:24:11Z audit event=sign-in outcome=refused account="kv" address="10.0.0.7" reason=wrong_password`:
/// one line of printable ASCII without its end. What came from outside stands in quotes, at most 80 bytes of it, with
/// quotes and backslashes behind a backslash and every byte that is not printable ASCII as \xNN. Fields without a value
/// are left out, but for the account.
std::string audit_line(std::string_view time, const AuditEntry& entry);

/// Takes note of what happened; none: nobody does.
using Audit = std::function<void(const AuditEntry& entry)>;

/// Hands `write` a line for each entry, one at a time, whichever thread it comes from. `now`: ISO 8601, UTC.
Audit audit_by_lines(std::function<std::string()> now, std::function<void(const std::string& line)> write);

}  // namespace sherd::access
