#include <cstdint>

#include "read_table.h"

/// The input becomes what stands inside the spreadsheet of an ODS.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string inside(data, data + size);
  std::string names = R"( xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0")";
  for (const std::string prefix : {"office", "table", "text", "style"})
    names += " xmlns:" + prefix + "=\"urn:oasis:names:tc:opendocument:xmlns:" + prefix + ":1.0\"";
  names += R"( xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0")";
  sherd::exchange::read_to_the_end(sherd::exchange::zip_of(
      {{"mimetype", "application/vnd.oasis.opendocument.spreadsheet"},
       {"content.xml", "<office:document-content" + names + "><office:body><office:spreadsheet>" + inside +
                           "</office:spreadsheet></office:body></office:document-content>"}}));
  return 0;
}
