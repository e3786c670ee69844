#include <cstddef>
#include <cstdint>
#include <string_view>

#include "exchange/record_reader.h"

/// A whole table of sherds: headings, cells, rules. Rows must reconcile whatever the bytes.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace sherd;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  exchange::ReadOptions options;
  options.new_codes = true;
  auto reader = exchange::RecordReader::open(Kind::sherds, bytes, "fuzz.csv", std::move(options));
  if (!reader) return 0;
  for (;;) {
    const auto table = (*reader)->next(100);
    if (!table) return 0;
    if (table->rows() == 0) break;
  }
  const auto accounted = (*reader)->rows_kept() + (*reader)->rows_refused() + (*reader)->rows_left_out();
  if ((*reader)->rows_read() != accounted) __builtin_trap();
  return 0;
}
