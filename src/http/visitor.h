#pragma once

#include <string>

#include "access/accounts.h"

namespace sherd::http {

/// Who asks. Without accounts it is whoever runs the program, and may do everything.
struct Visitor {
  std::string account;   ///< "": the server has no accounts
  std::string recorder;  ///< as whom the history keeps what is written
  access::Role role = access::Role::owner;
  bool must_change = false;  ///< the password, before anything else
};

}  // namespace sherd::http
