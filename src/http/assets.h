#pragma once

#include <map>
#include <string>
#include <string_view>

#include "http/handler.h"

namespace sherd::http {

/// One file of the front end. The bytes must live as long as the table.
struct Asset {
  std::string_view bytes;
  std::string_view mime = {};  ///< "": by the path's ending
};

/// By path: "/index.html", "/assets/index-4f2a.js".
using AssetTable = std::map<std::string, Asset, std::less<>>;

/// "text/javascript; charset=utf-8" for "/a.js"; "application/octet-stream" where the ending is not known.
std::string_view mime_of(std::string_view path);

/// The front end's files, from a table and from nowhere else. "/" is "/index.html". Each has an ETag; what lies under
/// /assets/ carries a hash in its name and is kept by the browser for good.
class Assets {
 public:
  explicit Assets(const AssetTable& table);

  /// 200, 304 where the browser has it, 404, 405 for any method but GET and HEAD.
  Response answer(const Request& request) const;

 private:
  struct Entry {
    std::string_view bytes, mime;
    std::string tag;
  };
  std::map<std::string, Entry, std::less<>> entries_;
};

}  // namespace sherd::http
