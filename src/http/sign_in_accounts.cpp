#include <algorithm>

#include "base/text.h"
#include "http/sign_in.h"
#include "http/sign_in_shapes.h"

namespace sherd::http {

/// The owner who asks; `alters`: somebody else may sit at a page that was left open, so that the password is asked for
/// again once it was given too long ago.
SignIns::Owner SignIns::owner(const Request& request, bool alters) {
  auto asking = this->asking(request);
  if (!asking) return {refuse_stranger(), {}};
  if (asking->account.role != access::Role::owner || asking->account.must_change)
    return {refuse(403, "not_allowed", "only an owner sees and alters accounts", "ask an owner"), {}};
  const auto session = sessions_.peek(asking->secret);
  if (alters && (!session || settings_.clock() - session->proved >= settings_.proof))
    return {refuse(403, "prove_first", "accounts are altered by whoever knows the owner's password",
                   "give your password once more"),
            {}};
  return {std::nullopt, std::move(asking->account)};
}

Response SignIns::accounts_answer(const access::Account& mine, std::string password) {
  const auto accounts = book_.all();
  if (!accounts) return refuse(accounts.error());
  const auto sessions = sessions_.all();
  AccountsAnswer answer;
  answer.password = std::move(password);
  for (const access::Account& one : *accounts) {
    const auto its = std::ranges::count_if(
        sessions, [&](const auto& session) { return session.account == one.name && session.began >= one.since; });
    answer.accounts.push_back(
        {one.name, one.recorder, std::string(access::name_of(one.role)), one.must_change, one.name == mine.name, its});
  }
  return json_response(200, desk::envelope(answer));
}

Response SignIns::list_accounts(const Request& request) {
  auto asked_by = owner(request, false);
  if (asked_by.refused) return std::move(*asked_by.refused);
  return accounts_answer(asked_by.account, {});
}

Response SignIns::alter_account(const Owner& owner, const access::Alteration& asked, const Request& request) {
  Response response = altered(owner, asked, request);
  note(asked.remove ? "account-removed" : "account-put", asked.name, owner.account.name, request, response);
  return response;
}

Response SignIns::altered(const Owner& owner, const access::Alteration& asked, const Request& request) {
  if (lower(asked.name) == lower(owner.account.name))
    return refuse(409, "own_account", "one's own account is altered by another owner",
                  "your own password is changed under \"Change the password\"");
  const auto made = [&] {
    const std::scoped_lock lock(one_hash_);
    return book_.change(
        [&](access::Accounts& accounts) { return access::alter(accounts, asked, settings_.clock(), settings_.cost); });
  }();
  if (!made) return refuse(made.error());
  if (asked.remove || asked.end_sessions || !made->empty()) {
    for (const access::SessionState& one : sessions_.all()) {
      if (lower(one.account) != lower(asked.name) || !sessions_.end_by_id(one.id)) continue;
      note("session-end", one.account, owner.account.name, request, {});
    }
  }
  return accounts_answer(owner.account, *made);
}

Response SignIns::add_account(const Request& request) {
  auto asked_by = owner(request, true);
  if (asked_by.refused) return std::move(*asked_by.refused);
  const auto asked = body_of<NewAccountRequest>(request);
  if (!asked) return refuse(asked.error());
  const auto there = book_.find(asked->name);
  if (!there) return refuse(there.error());
  if (*there)
    return refuse(409, "account_exists", "there is an account \"" + (*there)->name + "\" already",
                  "choose another name");
  return alter_account(asked_by, {.name = asked->name, .role = asked->role, .recorder = asked->recorder}, request);
}

Response SignIns::one_account(const Request& request, std::string_view name) {
  const bool removes = request.method == "DELETE";
  if (!removes && request.method != "POST") return wrong_method("POST, DELETE");
  auto asked_by = owner(request, true);
  if (asked_by.refused) return std::move(*asked_by.refused);
  const auto there = book_.find(std::string(name));
  if (!there) return refuse(there.error());
  if (!*there)
    return refuse(404, "no_account", "there is no account \"" + shortened(name, 40) + "\"", "read the list again");
  access::Alteration alteration{.name = (*there)->name, .role = {}, .recorder = {}};
  alteration.remove = removes;
  if (!removes) {
    const auto asked = body_of<AlterRequest>(request);
    if (!asked) return refuse(asked.error());
    alteration.role = asked->role;
    alteration.recorder = asked->recorder;
    alteration.new_password = asked->new_password;
    alteration.end_sessions = asked->end_sessions;
  }
  return alter_account(asked_by, alteration, request);
}

}  // namespace sherd::http
