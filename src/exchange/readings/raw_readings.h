#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "exchange/mapping.h"
#include "exchange/sheets/row_source.h"
#include "model/analyte.h"

/// Files of instruments, understood as far as their headings say and no further: cells stay as they were written.
namespace sherd::exchange {

/// What the file has of one element or oxide of one reading.
struct RawAmount {
  std::string analyte;  ///< "Fe2O3"
  std::string value, error, limit, unit;
  std::string column;                           ///< heading, or the row's name in a table on its side
  std::int64_t row = 0;                         ///< of the value, as a spreadsheet numbers it
  std::optional<FractionUnit> unit_of_heading;  ///< where the heading says it
  std::optional<int> multiple;                  ///< of the error, where the heading says it
};

struct RawReading {
  std::int64_t row = 0;
  std::map<std::string, std::string> columns;  ///< by the names of the table of readings
  std::map<std::string, std::string> extra;    ///< under their own headings
  std::vector<RawAmount> amounts;
};

enum class ReadingsShape { wide, tall, beams, on_its_side };
std::string_view shape_name(ReadingsShape shape);

/// How a heading was understood: "Zr Err" as "Zr error".
struct HeadingUse {
  std::string heading, as;
};

struct RawReadings {
  ReadingsShape shape = ReadingsShape::wide;
  std::vector<HeadingUse> headings;
  std::vector<RawReading> readings;
  std::vector<std::string> pseudo;       ///< what is left over ("Bal", "LE"): kept as extra, no analyte
  std::vector<std::string> lines_above;  ///< free lines above the table
  std::int64_t header_changes = 0;       ///< further headings on the way down, as where the mode changes
  std::int64_t rows_read = 0;            ///< rows below the headings
  TableFormat format;
};

/// One table. Shapes: wide (a row a reading, columns an analyte), tall (a row an amount), wide with a row a beam, and
/// on its side (a row an analyte, a column a sample); with free lines above. Errors: those of `open_table`;
/// `no_analytes`, `analyte_twice` (two columns of one analyte), `no_heading` (the mapping's), `cell_problem`,
/// `column_twice`.
Result<RawReadings> read_raw_readings(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                                      const Mapping& mapping, const AtomicWeights& weights);

/// Whether a table has columns or rows of analytes, rather than being the record's own table of readings.
Result<bool> holds_analytes(std::string_view bytes, std::string_view file_name, std::string_view sheet,
                            const AtomicWeights& weights);

}  // namespace sherd::exchange
