#pragma once

#include <string>

namespace sherd::desk {

/// A heading of a table and what it is taken for.
struct UnderstoodHeading {
  std::string heading, as;

  template <class V>
  static void fields(V& v) {
    v.field("heading", &UnderstoodHeading::heading);
    v.field("as", &UnderstoodHeading::as);
  }
};

}  // namespace sherd::desk
