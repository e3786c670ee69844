#include <array>
#include <cstdint>

#include "read_table.h"

/// The input, cut at NUL bytes, becomes the rows of the sheet, the shared strings, the styles and what stands in the
/// workbook.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::array<std::string, 4> inside;
  std::size_t part = 0;
  for (std::size_t i = 0; i < size; ++i) {
    if (data[i] != 0) {
      inside[part] += static_cast<char>(data[i]);
    } else if (++part == inside.size()) {
      return -1;
    }
  }
  const std::string space = R"( xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main")";
  const std::string office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const std::string relation = R"(<Relationship Type=")" + office;
  sherd::exchange::read_to_the_end(sherd::exchange::zip_of(
      {{"[Content_Types].xml", "<Types/>"},
       {"_rels/.rels", "<R>" + relation + R"(/officeDocument" Id="a" Target="workbook.xml"/></R>)"},
       {"workbook.xml", "<workbook" + space + R"( xmlns:r=")" + office +
                            R"("><sheets><sheet name="S" r:id="a"/></sheets>)" + inside[3] + "</workbook>"},
       {"_rels/workbook.xml.rels", "<R>" + relation + R"(/worksheet" Id="a" Target="sheet.xml"/>)" + relation +
                                       R"(/sharedStrings" Id="b" Target="shared.xml"/>)" + relation +
                                       R"(/styles" Id="c" Target="styles.xml"/></R>)"},
       {"sheet.xml", "<worksheet" + space + "><sheetData>" + inside[0] + "</sheetData></worksheet>"},
       {"shared.xml", "<sst" + space + ">" + inside[1] + "</sst>"},
       {"styles.xml", "<styleSheet" + space + ">" + inside[2] + "</styleSheet>"}}));
  return 0;
}
