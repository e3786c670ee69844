#include "desk/site/verify_store.h"

#include "base/text.h"

namespace sherd::desk {

Result<VerifyResponse> verify_store(const VerifyRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const auto store, environment.open_store(request.store));
  VerifyResponse response;
  SHERD_TRY(response.damage, store->verify());
  response.warnings = store->warnings();
  response.provenance.version = environment.version;
  if (!response.damage.empty()) {
    response.errors.push_back(
        {.code = "damaged_store",
         .message = "the store is damaged: " + counted(static_cast<long long>(response.damage.size()), "fault"),
         .hint = "copy the file as it is, then bring back the last good backup with: sherdwright restore"});
  }
  return response;
}

}  // namespace sherd::desk
