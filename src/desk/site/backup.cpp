#include "desk/site/backup.h"

namespace sherd::desk {

Result<BackupResponse> back_up(const BackupRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const auto store, environment.open_store(request.store));
  SHERD_CHECK(store->backup(request.file));
  BackupResponse response;
  response.file = request.file;
  response.provenance.version = environment.version;
  return response;
}

Result<BackupResponse> restore_backup(const RestoreRequest& request, Environment& environment, Progress&) {
  SHERD_CHECK(environment.restore_store(request.file, request.store));
  BackupResponse response;
  response.file = request.store;
  response.provenance.version = environment.version;
  return response;
}

}  // namespace sherd::desk
