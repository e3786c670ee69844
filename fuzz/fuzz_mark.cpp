#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "notation/mark.h"
#include "reference/tables.h"

/// A mark as somebody might describe it: the text as it is, and as what stands in a diamond.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const std::string& written : {text, "diamond " + text}) {
    const auto reading = sherd::notation::read_mark(written, sherd::reference::diamonds(), sherd::reference::marks());
    if (!reading) continue;
    if (reading->answers.empty() && reading->because.empty()) __builtin_trap();
    if (reading->range.closed() && *reading->range.latest < *reading->range.earliest) __builtin_trap();
  }
  return 0;
}
