#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "exchange/sheets/row_source.h"

namespace sherd::exchange {

/// Opens `bytes` and reads to the end under limits that keep one input quick; touches every byte of every cell.
inline std::size_t read_to_the_end(std::string_view bytes) {
  ReadLimits limits;
  limits.max_cell_bytes = 4096;
  limits.max_rows = 10'000;
  limits.max_unzipped_bytes = std::uint64_t{8} << 20;
  const auto source = open_table(bytes, "input", {}, limits);
  if (!source) return 0;
  std::size_t sum = 0;
  SheetRow row;
  for (;;) {
    const auto more = (*source)->next(row);
    if (!more || !*more) return sum;
    for (const Cell& cell : row.cells) {
      for (const char c : cell.text) sum += static_cast<unsigned char>(c);
      sum += cell.problem.size();
    }
  }
}

/// A zip of these parts, so that a fuzzer can change what is inside one.
std::string zip_of(const std::vector<std::pair<std::string, std::string>>& parts);

}  // namespace sherd::exchange
