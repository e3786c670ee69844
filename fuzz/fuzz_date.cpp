#include <cstddef>
#include <cstdint>
#include <string_view>

#include "notation/date.h"

/// A date as somebody might write it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const auto& style : sherd::notation::date_styles()) {
    const auto reading = sherd::notation::read_date(text, style);
    if (reading && reading->range.closed() && *reading->range.latest < *reading->range.earliest) __builtin_trap();
  }
  return 0;
}
