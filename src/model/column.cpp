#include "model/column.h"

#include "model/quantity.h"

namespace sherd {

int decimals(CellType type) {
  switch (type) {
    case CellType::weight:
      return Weight::kDecimals;
    case CellType::length:
      return Length::kDecimals;
    case CellType::coordinate:
      return Coordinate::kDecimals;
    case CellType::percent:
      return Percent::kDecimals;
    case CellType::volume:
      return Volume::kDecimals;
    case CellType::decimal:
      return Decimal::kDecimals;
    default:
      return 0;
  }
}

namespace {

std::string with_unit(std::string_view name, std::string_view unit, std::string_view stored_unit) {
  if (name.ends_with(unit)) name.remove_suffix(unit.size());
  return std::string(name) + std::string(stored_unit);
}

}  // namespace

std::string stored_name(std::string_view name, CellType type) {
  switch (type) {
    case CellType::weight:
      return with_unit(name, "_g", "_mg");
    case CellType::length:
    case CellType::coordinate:
      return with_unit(name, "_mm", "_mm100");
    case CellType::percent:
      return with_unit(name, "_percent", "_permille");
    case CellType::volume:
      return with_unit(name, "_litres", "_ml");
    case CellType::decimal:
      return std::string(name) + "_e6";
    default:
      return std::string(name);
  }
}

}  // namespace sherd
