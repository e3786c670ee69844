#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/frame/session.h"

namespace sherd::desk {

class PublicRecord;

/// One picture of the key and what an answer with its number means.
struct KeyEntry {
  std::int64_t number = 0;
  std::string fabric, name;
  std::vector<std::string> looks;
  std::int64_t sherds = 0;  ///< in the record, when the key was made

  template <class V>
  static void fields(V& v) {
    v.field("number", &KeyEntry::number);
    v.field("fabric", &KeyEntry::fabric);
    v.field("name", &KeyEntry::name);
    v.field("looks", &KeyEntry::looks);
    v.field("sherds", &KeyEntry::sherds);
  }
};

struct KeyRequest {
  std::string store, out, title, site;
  std::vector<std::string> fabrics;

  template <class V>
  static void fields(V& v) {
    v.field("store", &KeyRequest::store, argument("the store"));
    v.field("out", &KeyRequest::out,
            required_option(
                "the file to write: .pdf with the pictures and the sheet for answers; .svg, .png of each page"));
    v.field("fabric", &KeyRequest::fabrics,
            option("a fabric to have a picture, in this order; may be given up to twelve times; the twelve commonest "
                   "unless said"));
    v.field("title", &KeyRequest::title, option("what stands at its head"));
    v.field("site", &KeyRequest::site, option("the site, where the store holds several"));
  }
};

struct KeyResponse : Reply {
  std::vector<std::string> files;
  std::optional<std::int64_t> key;  ///< its number; answers are read by it
  std::vector<KeyEntry> pictures;
  std::int64_t share = 0;  ///< percent of the record's sherds that the twelve stand for

  template <class V>
  static void fields(V& v) {
    v.field("files", &KeyResponse::files);
    v.field("key", &KeyResponse::key);
    v.field("pictures", &KeyResponse::pictures);
    v.field("share", &KeyResponse::share);
  }
};

/// Twelve pictures by which volunteers sort, and the sheet that they write on. The key is numbered and kept in the
/// store, so that an answer means what its picture meant, whatever is recorded since; the same pictures again are the
/// same key. Errors: `no_fabrics`, `unknown_fabric`, `too_many`, `unknown_format`; those of store and file.
Result<KeyResponse> make_key(const KeyRequest& request, Environment& environment, Progress& progress);

/// The key as it was issued last, or as it would be.
struct ShowKeyRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site;
  bool fresh = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ShowKeyRequest::store, argument("the store"));
    v.field("fresh", &ShowKeyRequest::fresh, option("as it would be made now, not as it was kept last"));
    v.field("site", &ShowKeyRequest::site, option("the site, where the store holds several"));
  }
};
struct ShowKeyResponse : KeyResponse {
  std::vector<std::string> pages;  ///< SVG: the pictures, the sheet for answers

  template <class V>
  static void fields(V& v) {
    KeyResponse::fields(v);
    v.field("pages", &ShowKeyResponse::pages);
  }
};
Result<ShowKeyResponse> show_key(const ShowKeyRequest& request, Environment& environment, Progress& progress);

/// Numbers and keeps the key for a page, as `make_key` does, without a file.
struct KeepKeyRequest {
  static constexpr bool kPageOnly = true;
  std::string store, site;
  std::vector<std::string> fabrics;

  template <class V>
  static void fields(V& v) {
    v.field("store", &KeepKeyRequest::store, argument("the store"));
    v.field("fabric", &KeepKeyRequest::fabrics, option("fabrics to have a picture; the twelve commonest unless said"));
    v.field("site", &KeepKeyRequest::site, option("the site, where the store holds several"));
  }
};
Result<ShowKeyResponse> keep_key(const KeepKeyRequest& request, Environment& environment, Progress& progress);

/// A key that was kept. Errors: `no_key`, `damaged_document`.
Result<std::vector<KeyEntry>> kept_key(const Session& session, std::int64_t number);

}  // namespace sherd::desk
