#include "desk/frame/csv.h"

#include <span>

#include "exchange/sheets/write_csv.h"

namespace sherd::desk {

std::string csv_text(const std::vector<std::vector<std::string>>& rows) {
  exchange::CsvWriter writer;
  for (const auto& row : rows) writer.row(std::span<const std::string>(row));
  return writer.take();
}

}  // namespace sherd::desk
