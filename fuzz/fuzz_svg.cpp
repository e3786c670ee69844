#include <cstddef>
#include <cstdint>
#include <string_view>

#include "exchange/drawings/read_svg.h"
#include "exchange/drawings/read_tps.h"
#include "methods/vessel/section_lines.h"

/// Any bytes as a drawing, its lines as a section; and as a file of landmarks.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (const auto sheet = sherd::exchange::read_svg(bytes)) {
    sherd::vessel::DrawingFacts facts;
    facts.mm_per_unit = 0.3;
    facts.rim_radius_mm = 80;
    if (const auto section = sherd::vessel::section_from_lines(sheet->lines, facts)) {
      sherd::vessel::check_section(*section, {});
    }
  }
  (void)sherd::exchange::read_tps(bytes);
  return 0;
}
