#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "exchange/sheets/cell_values.h"
#include "exchange/sheets/xml_reader.h"

namespace sherd::exchange {

struct XlsxSheet {
  std::string name;
  std::string part;
  bool hidden = false;
};

/// The parts of a workbook and what its sheets share.
struct XlsxPackage {
  std::vector<XlsxSheet> sheets;  ///< worksheets; charts and dialogues hold no cells
  bool since_1904 = false;
  std::string styles_part;          ///< "" where there is none
  std::string shared_strings_part;  ///< "" where there is none
};

/// Follows the relationships from the package to the workbook and its parts (ECMA-376 part 2, clause 6.5).
/// Errors: `not_a_table` where the package is no workbook; `damaged_file`.
Result<XlsxPackage> read_xlsx_package(ZipFile& zip);

/// The number style of each cell format (`cellXfs`, ECMA-376 part 1, 18.8.10) in order.
Result<std::vector<NumberStyle>> read_xlsx_styles(ZipFile& zip, const std::string& part);

/// The table of shared strings (ECMA-376 part 1, 18.4.9): runs of rich text joined, phonetic runs left out.
class SharedStrings {
 public:
  std::size_t size() const { return ends_.size(); }
  std::string_view operator[](std::size_t i) const {
    const std::size_t from = i == 0 ? 0 : ends_[i - 1];
    return std::string_view(text_).substr(from, ends_[i] - from);
  }

 private:
  friend class SharedStringsReader;
  std::string text_;
  std::vector<std::size_t> ends_;
};

/// Errors: `damaged_file`, `unzipped_too_large`, `cell_too_large`.
Result<SharedStrings> read_shared_strings(ZipFile& zip, const std::string& part, const ReadLimits& limits);

/// The part that `target` names, seen from `from`: ("xl/workbook.xml", "worksheets/sheet1.xml") ->
/// "xl/worksheets/sheet1.xml".
std::string resolved_part(std::string_view from, std::string_view target);

}  // namespace sherd::exchange
