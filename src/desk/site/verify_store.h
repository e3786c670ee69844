#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/archive/read_archive.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct VerifyRequest {
  std::string store, sha256, against;

  template <class V>
  static void fields(V& v) {
    v.field("store", &VerifyRequest::store, argument("the store, or the folder or zip file of an archive"));
    v.field("sha256", &VerifyRequest::sha256, option("of an archive: the checksum that was noted when it was made"));
    v.field("against", &VerifyRequest::against, option("of an archive: a store, to say what was done in it since"));
  }
};

struct VerifyResponse : Reply {
  std::vector<std::string> damage;  ///< one sentence each
  std::vector<ArchiveFault> files;  ///< of an archive: those that are not as they were
  std::int64_t files_read = 0;
  std::string sha256;              ///< of an archive: the checksum of its list of checksums
  std::vector<std::string> since;  ///< with `against`: what the store's history has beyond the archive, newest last

  template <class V>
  static void fields(V& v) {
    v.field("damage", &VerifyResponse::damage);
    v.field("files", &VerifyResponse::files);
    v.field("files_read", &VerifyResponse::files_read);
    v.field("sha256", &VerifyResponse::sha256);
    v.field("since", &VerifyResponse::since);
  }
};

/// What the database's own checks and ours find. Where there is damage, the answer carries the error `damaged_store`.
/// Of an archive: every file is read and compared; the error is `damaged_archive`.
Result<VerifyResponse> verify_store(const VerifyRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
