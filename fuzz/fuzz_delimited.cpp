#include <cstdint>

#include "read_table.h"

/// Any bytes as a file: text of every encoding, and zip files where the fuzzer finds one.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(data, data + size);  // a copy of its own, so that a read past the end is found
  sherd::exchange::read_to_the_end(bytes);
  return 0;
}
