#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace sherd {

/// What the cells of a column hold. All but `text`, `word` and `day` are integers inside.
enum class CellType { text, word, day, count, weight, length, coordinate, percent, volume, year, decimal };

constexpr bool is_text(CellType type) {
  return type == CellType::text || type == CellType::word || type == CellType::day;
}
/// Whether its amounts may be below zero.
constexpr bool is_signed(CellType type) {
  return type == CellType::coordinate || type == CellType::year || type == CellType::decimal;
}
/// Decimals of the outside unit that the stored integer holds (weight_g as mg: 3).
int decimals(CellType type);

/// The tables of a record. The order is that in which a package is read back: what is referred to comes first.
enum class Kind {
  contexts,
  relations,
  phases,
  fabrics,
  forms,
  dates,
  evidence,
  sherds,
  rims,
  joins,
  scans,
  bags,
  decorations,
  inclusions,
  equivalents,
  specimens,
  pictures,
  trays,
  people,
  pieces,
  sections,
  bands,
  drawings,
  measures,
  repositories,
  loans,
  selections,
  standards,
  certified,
  samples,
  sources,
  readings,
  concentrations,
  petrology,
  point_counts,
  analytes,
  texts,
  report_items,
  bibliography,
  rates,
  estimates,
  hours
};
constexpr int kKinds = 42;

/// What a field list says of a column beside its name and member.
struct ColumnNote {
  bool key = false;                 ///< part of what tells rows apart
  bool required = false;            ///< a row without it is refused
  std::optional<Kind> refers = {};  ///< holds the key of a row of that kind
  std::string_view help = {};
};

/// A column as the tables, the store and the import know it.
struct ColumnSpec {
  std::string name;         ///< canonical name, with its unit: weight_g
  std::string stored_name;  ///< the store's column: weight_mg
  CellType type = CellType::text;
  bool key = false;
  bool required = false;
  std::optional<Kind> refers;
  std::span<const std::string_view> words;  ///< the closed list of a `word` column
  std::string_view help;
};

/// Canonical name -> the store's, by the type's unit: ("rim_diameter_mm", length) -> "rim_diameter_mm100".
std::string stored_name(std::string_view name, CellType type);

}  // namespace sherd
