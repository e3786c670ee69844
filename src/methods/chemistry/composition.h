#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/matrix.h"

namespace sherd::chemistry {

/// The unit of a mass fraction. mg/kg and ug/g are ppm.
enum class Unit : std::uint8_t { percent, ppm };

/// A column of a table of compositions: an element ("Fe") or an oxide ("Fe2O3").
struct Analyte {
  std::string name;
  Unit unit = Unit::ppm;
  bool operator==(const Analyte&) const = default;
};

/// What a cell says. `below`: less than a limit, which the cell of `values` holds (NaN where it is not known).
enum class Cell : std::uint8_t { measured, below, missing };

/// Compositions of sherds, one a row; all groups have a name or "" (in none). A missing cell is NaN, never 0. A
/// measured 0 stays 0 until zeros are replaced.
struct Composition {
  std::vector<std::string> ids;  ///< of the rows, each once
  std::vector<std::string>
      records;  ///< the sherd lines of a store that the rows belong to, "" where there is none; empty of a table
  std::vector<std::string> groups;  ///< as long as ids, or empty where no grouping is asked for
  std::vector<Analyte> analytes;    ///< all of one unit (the methods take no other)
  statistics::Matrix values;        ///< rows x analytes
  std::vector<Cell> cells;          ///< as values.values

  std::size_t rows() const { return ids.size(); }
  std::size_t parts() const { return analytes.size(); }
  Cell cell(std::size_t row, std::size_t part) const { return cells[row * parts() + part]; }
};

}  // namespace sherd::chemistry
