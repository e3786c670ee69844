#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "notation/mark_tables.h"
#include "notation/munsell_table.h"
#include "notation/scale_tables.h"

/// The reference tables of data/reference for the tests of their readers, read once.
namespace sherd::notation {

inline CsvRows reference_rows(const std::string& name) {
  std::ifstream file(std::string(SHERD_SOURCE_DIR) + "/data/reference/" + name + ".csv", std::ios::binary);
  std::stringstream bytes;
  bytes << file.rdbuf();
  auto rows = parse_csv(bytes.str());
  if (!rows) {
    ADD_FAILURE() << name << ": " << rows.error().message;
    return {};
  }
  return std::move(*rows);
}

template <class T>
T fitting(Result<T> table) {
  if (!table) ADD_FAILURE() << table.error().message;
  return table ? std::move(*table) : T{};
}

inline const DiamondTables& test_diamonds() {
  static const DiamondTables kTables = fitting(diamond_tables(
      {reference_rows("diamond_position"), reference_rows("diamond_year"), reference_rows("diamond_month"),
       reference_rows("diamond_class"), reference_rows("diamond_exceptions")}));
  return kTables;
}

inline const MarkTables& test_marks() {
  static const MarkTables kTables = fitting(
      mark_tables({reference_rows("mark_rules"), reference_rows("mark_wordings"), reference_rows("mark_cautions"),
                   reference_rows("verification_numbers"), reference_rows("registered_numbers")}));
  return kTables;
}

inline const MunsellTable& test_munsell() {
  static const MunsellTable kTable = fitting(munsell_table(reference_rows("munsell_renotation")));
  return kTable;
}

inline const ScaleTables& test_scales() {
  static const ScaleTables kTables = fitting(scale_tables(reference_rows("scales")));
  return kTables;
}

}  // namespace sherd::notation
