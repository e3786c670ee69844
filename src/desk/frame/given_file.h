#pragma once

#include <string>

namespace sherd::desk {

/// A file within the answer.
struct GivenFile {
  std::string name, media_type, base64;

  template <class V>
  static void fields(V& v) {
    v.field("name", &GivenFile::name);
    v.field("media_type", &GivenFile::media_type);
    v.field("base64", &GivenFile::base64);
  }
};

}  // namespace sherd::desk
