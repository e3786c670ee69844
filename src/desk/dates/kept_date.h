#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/year.h"

namespace sherd::desk {

/// One context's date in sequence as it was kept.
struct KeptDate {
  std::string context, printed;
  std::optional<Year> median, earliest, latest;  ///< the ends of the 95 % range, first to last
  std::optional<double> strain;
  std::vector<std::string> flags;

  template <class V>
  static void fields(V& v) {
    v.field("context", &KeptDate::context);
    v.field("printed", &KeptDate::printed);
    v.field("median", &KeptDate::median);
    v.field("earliest", &KeptDate::earliest);
    v.field("latest", &KeptDate::latest);
    v.field("strain", &KeptDate::strain);
    v.field("flags", &KeptDate::flags);
  }
};

/// Whether the site's kept dates still say what the record says.
struct KeptState {
  std::optional<std::int64_t> change;  ///< the record's newest change when they were made; null where none are kept
  bool stale = false;
  std::vector<std::string> because;  ///< what has changed since, in sentences
  std::string version;               ///< of the program that made them
  std::string settings_hash;

  template <class V>
  static void fields(V& v) {
    v.field("change", &KeptState::change);
    v.field("stale", &KeptState::stale);
    v.field("because", &KeptState::because);
    v.field("version", &KeptState::version);
    v.field("settings_hash", &KeptState::settings_hash);
  }
};

}  // namespace sherd::desk
