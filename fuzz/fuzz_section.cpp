#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>

#include "desk/vessels/section_file.h"
#include "desk_world.h"

using namespace sherd;

/// Any bytes as a file with sections: a table, a drawing or landmarks by the first byte.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static desk::MemoryFiles files;
  static desk::Environment environment = fuzz::environment_in_memory(files);
  if (size == 0) return 0;
  const char* const kNames[] = {"a.csv", "a.svg", "a.tps"};
  const std::string name = kNames[data[0] % 3];
  if (!files.write(name, std::string(data + 1, data + size))) return 0;
  const auto read = desk::read_sections(environment, name, {.mm_per_unit = 1, .rim_diameter_mm = 200});
  if (!read) return 0;
  for (const Section& section : read->sections) {
    for (const auto* side : {&section.outer, &section.inner}) {
      for (const OutlinePoint& point : *side) {
        if (!std::isfinite(point.r_mm) || !std::isfinite(point.z_mm)) __builtin_trap();
      }
    }
  }
  return 0;
}
