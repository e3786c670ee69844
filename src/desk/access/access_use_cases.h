#pragma once

#include "desk/access/keep_account.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those about who may sign in, in the order of the table; commands only.
template <class Visit>
void for_each_access_use_case(Visit& visit) {
  visit(UseCase<AccountsRequest, AccountsResponse>{"accounts", "GET", "", "lists who may sign in at a server",
                                                   list_accounts});
  visit(UseCase<AccountRequest, AccountsResponse>{"account", "POST", "",
                                                  "adds, alters or removes an account of a server", keep_account});
}

}  // namespace sherd::desk
