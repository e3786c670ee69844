#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct ArchiveRequest {
  std::string store, folder, site;
  bool incomplete = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ArchiveRequest::store, argument("the store"));
    v.field("folder", &ArchiveRequest::folder,
            argument("the folder to make, not there or empty; a name that ends in .zip makes a zip file"));
    v.field("incomplete", &ArchiveRequest::incomplete,
            option("make it although pictures that the record names are missing"));
    v.field("site", &ArchiveRequest::site, option("the site, where the store holds several"));
  }
};

struct ArchiveFile {
  std::string path, sha256;
  std::int64_t bytes = 0;

  template <class V>
  static void fields(V& v) {
    v.field("path", &ArchiveFile::path);
    v.field("sha256", &ArchiveFile::sha256);
    v.field("bytes", &ArchiveFile::bytes);
  }
};

struct ArchiveResponse : Reply {
  std::string folder;
  std::string sha256;  ///< of the list of checksums: the seal of the whole
  std::int64_t bytes = 0;
  std::vector<ArchiveFile> files;
  std::vector<std::string> missing;  ///< what the record names and does not have

  template <class V>
  static void fields(V& v) {
    v.field("folder", &ArchiveResponse::folder);
    v.field("sha256", &ArchiveResponse::sha256);
    v.field("bytes", &ArchiveResponse::bytes);
    v.field("files", &ArchiveResponse::files);
    v.field("missing", &ArchiveResponse::missing);
  }
};

/// The whole record of a site as a folder (or a zip file) that needs no program of ours: docs/archive.md. Written
/// beside its place and moved there when all of it is written. The same record gives the same bytes. Errors:
/// `folder_in_use`, `missing_pictures`, `record_changed`, `not_writable`, `nothing_to_archive`, those of the store.
Result<ArchiveResponse> write_archive(const ArchiveRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
