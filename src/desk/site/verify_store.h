#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct VerifyRequest {
  std::string store;

  template <class V>
  static void fields(V& v) {
    v.field("store", &VerifyRequest::store, argument("the store"));
  }
};

struct VerifyResponse : Reply {
  std::vector<std::string> damage;  ///< one sentence each

  template <class V>
  static void fields(V& v) {
    v.field("damage", &VerifyResponse::damage);
  }
};

/// What the database's own checks and ours find. Where there is damage, the answer carries the error `damaged_store`.
Result<VerifyResponse> verify_store(const VerifyRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
