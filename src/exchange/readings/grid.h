#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/mapping.h"
#include "exchange/readings/raw_readings.h"

namespace sherd::exchange {

struct GridRow {
  std::int64_t row = 0;
  std::vector<std::string> cells;  ///< trimmed
  const std::string& at(std::size_t column) const {
    static const std::string kNone;
    return column < cells.size() ? cells[column] : kNone;
  }
};
struct Grid {
  TableFormat format;
  std::vector<GridRow> rows;
};
Result<Grid> read_grid(std::string_view bytes, std::string_view file_name, std::string_view sheet);

/// What a heading of such a table is.
struct Heading {
  std::optional<AnalyteHeading> analyte;
  std::string column;  ///< of the table of readings; "" where it is none
  bool pseudo = false;
};

/// Knows headings: the mapping first, then the record's names, then analytes, then synonyms.
class HeadingReader {
 public:
  HeadingReader(const Mapping& mapping, const AtomicWeights& weights) : mapping_(mapping), weights_(weights) {}
  Heading read(const std::string& text) const;
  const AtomicWeights& weights() const { return weights_; }

 private:
  const Mapping& mapping_;
  const AtomicWeights& weights_;
};

/// The columns of a wide table that an analyte fills.
struct AnalyteColumns {
  AnalyteHeading heading;
  std::size_t value = 0;
  std::optional<std::size_t> error, limit, unit;
  std::optional<int> multiple;
};
struct WidePlan {
  std::vector<AnalyteColumns> analytes;
  std::vector<std::pair<std::size_t, std::string>> columns;  ///< of the table of readings
  std::vector<std::size_t> extras, pseudo;
  std::vector<std::string> headings;
};
/// Error `analyte_twice`, `column_twice`.
Result<WidePlan> plan_wide(const GridRow& header, const HeadingReader& reader);
/// How each heading is understood, for the preview.
std::vector<HeadingUse> uses_of(const WidePlan& plan);

Result<void> read_wide(const Grid& grid, std::size_t header, const HeadingReader& reader, RawReadings& out);
Result<void> read_tall(const Grid& grid, std::size_t header, const HeadingReader& reader, RawReadings& out);
Result<void> read_on_its_side(const Grid& grid, std::size_t first, const HeadingReader& reader, RawReadings& out);

/// Where the table starts, and which way it lies.
struct Found {
  ReadingsShape shape = ReadingsShape::wide;
  std::size_t row = 0;  ///< of the headings; on its side: of the first analyte
};
std::optional<Found> find_table(const Grid& grid, const HeadingReader& reader);
/// Number of headings that stand for an amount.
std::size_t analytes_in(const GridRow& row, const HeadingReader& reader);
/// Column of a tall table that holds the names of analytes, their amounts ...
struct TallPlan {
  std::size_t analyte = 0, value = 0;
  std::optional<std::size_t> error, limit, unit;
  std::optional<int> multiple;
  std::vector<std::pair<std::size_t, std::string>> columns;
  std::vector<std::size_t> extras;
};
std::optional<TallPlan> plan_tall(const GridRow& header, const HeadingReader& reader);

}  // namespace sherd::exchange
