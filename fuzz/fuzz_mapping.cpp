#include <cstddef>
#include <cstdint>
#include <string_view>

#include "exchange/mapping.h"

/// A mapping file; what is read must read back as the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto mapping = sherd::exchange::read_mapping(text, sherd::Kind::sherds);
  if (!mapping) return 0;
  const std::string once = sherd::exchange::mapping_text(*mapping);
  const auto again = sherd::exchange::read_mapping(once, sherd::Kind::sherds);
  if (!again || sherd::exchange::mapping_text(*again) != once) __builtin_trap();
  return 0;
}
