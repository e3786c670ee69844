#include <cstddef>
#include <cstdint>
#include <string_view>

#include "notation/edtf.h"

/// A text in EDTF; what is read must be written and read again as the same years.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto reading = sherd::notation::read_edtf(text);
  if (!reading) return 0;
  const sherd::YearRange& range = reading->range;
  if (range.closed() && *range.latest < *range.earliest) __builtin_trap();
  const auto again = sherd::notation::read_edtf(sherd::notation::edtf_text(range, reading->certainty, reading->circa));
  if (!again || again->range != range) __builtin_trap();
  return 0;
}
