#pragma once

#include <string>

namespace sherd::desk {

/// A figure of the answer; each mark has a `data-set` that names its records: docs/design/0016.
struct DrawnPicture {
  std::string name, title, svg;

  template <class V>
  static void fields(V& v) {
    v.field("name", &DrawnPicture::name);
    v.field("title", &DrawnPicture::title);
    v.field("svg", &DrawnPicture::svg);
  }
};

}  // namespace sherd::desk
