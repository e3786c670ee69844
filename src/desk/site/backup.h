#pragma once

#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct BackupRequest {
  std::string store, file;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BackupRequest::store, argument("the store"));
    v.field("file", &BackupRequest::file, argument("the backup to write; must not exist"));
  }
};

struct RestoreRequest {
  std::string file, store;

  template <class V>
  static void fields(V& v) {
    v.field("file", &RestoreRequest::file, argument("the backup"));
    v.field("store", &RestoreRequest::store, argument("the store to make of it; must not exist"));
  }
};

struct BackupResponse : Reply {
  std::string file;

  template <class V>
  static void fields(V& v) {
    v.field("file", &BackupResponse::file);
  }
};

/// A consistent copy while the store is in use, verified after writing.
Result<BackupResponse> back_up(const BackupRequest& request, Environment& environment, Progress& progress);
/// A backup becomes a store, verified before it is put in place.
Result<BackupResponse> restore_backup(const RestoreRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
