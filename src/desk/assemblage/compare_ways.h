#pragma once

#include <string_view>

#include "base/result.h"

namespace sherd::desk {

/// A way of comparing.
struct CompareWay {
  std::string_view name;
  std::string_view caution;  ///< what it can not say, in a sentence
  bool of_table = true;      ///< takes a plain table, too
};
/// Error `bad_how` with "did you mean".
Result<CompareWay> way_named(std::string_view name);

}  // namespace sherd::desk
