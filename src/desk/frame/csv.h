#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/numbers.h"
#include "model/quantity.h"
#include "model/words.h"
#include "model/year.h"

/// A table of plain structs as rows of text, by their field lists: `--csv`.
namespace sherd::desk {

inline std::string csv_cell(const std::string& value) { return value; }
inline std::string csv_cell(bool value) { return value ? "true" : "false"; }
inline std::string csv_cell(std::int64_t value) { return std::to_string(value); }
inline std::string csv_cell(std::uint64_t value) { return std::to_string(value); }
/// Not finite: blank, as JSON has null.
inline std::string csv_cell(double value) { return std::isfinite(value) ? format_double(value) : std::string{}; }
inline std::string csv_cell(Year year) { return std::to_string(historical(year)); }
inline std::string csv_cell(Weight value) { return format_scaled(value.mg, Weight::kDecimals); }
inline std::string csv_cell(Length value) { return format_scaled(value.hundredths_mm, Length::kDecimals); }
inline std::string csv_cell(Percent value) { return format_scaled(value.tenths, Percent::kDecimals); }
inline std::string csv_cell(Volume value) { return format_scaled(value.ml, Volume::kDecimals); }
template <WordList E>
std::string csv_cell(E value) {
  return std::string(word(value));
}
inline std::string csv_cell(const std::array<double, 2>& ends) { return csv_cell(ends[0]) + "; " + csv_cell(ends[1]); }
template <class T>
  requires requires(const T& value) { csv_cell(value); }
std::string csv_cell(const std::optional<T>& value) {
  return value ? csv_cell(*value) : std::string{};
}
/// An interval or a list: its parts with a semicolon between.
template <class T>
  requires requires(const T& value) { csv_cell(value); }
std::string csv_cell(const std::vector<T>& values) {
  std::string out;
  for (const auto& value : values) {
    if (!out.empty()) out += "; ";
    out += csv_cell(value);
  }
  return out;
}

template <class T>
concept CsvValue = requires(const T& value) { csv_cell(value); };

template <class T>
struct CsvFields {
  const T& object;
  std::vector<std::string> names;
  std::vector<std::string> cells;

  /// Nested objects have no place in a flat table and are left out.
  template <class M, class B, class... N>
  void field(std::string_view name, M B::* member, const N&...) {
    if constexpr (CsvValue<M>) {
      names.emplace_back(name);
      cells.push_back(csv_cell(object.*member));
    }
  }
  template <class M, class B>
  void flatten(std::vector<std::pair<std::string, M>> B::* member) {
    for (const auto& [name, value] : object.*member) {
      names.push_back(name);
      cells.push_back(csv_cell(value));
    }
  }
};

/// Rows of text as delimited text (RFC 4180).
std::string csv_text(const std::vector<std::vector<std::string>>& rows);

/// First row the names, then a row an object; `like` gives the names where there are no objects.
template <class T>
std::vector<std::vector<std::string>> csv_rows(const std::vector<T>& objects, const T& like = {}) {
  std::vector<std::vector<std::string>> rows;
  const auto add = [&](const T& object, bool names) {
    CsvFields<T> fields{object, {}, {}};
    T::fields(fields);
    rows.push_back(std::move(names ? fields.names : fields.cells));
  };
  add(objects.empty() ? like : objects.front(), true);
  for (const T& object : objects) add(object, false);
  return rows;
}

}  // namespace sherd::desk
