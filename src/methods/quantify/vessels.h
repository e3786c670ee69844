#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "methods/quantify/sums.h"
#include "methods/quantify/tally.h"

namespace sherd::quantify {

/// What a line, or a rim under it, says of a named vessel.
struct Mention {
  std::uint32_t group = 0;
  std::uint32_t vessel = 0;
  std::uint32_t line = 0;  ///< position in the lines given
  bool counts = true;      ///< false where the line says that its vessels are counted elsewhere
  bool has_eve = false;
  std::int64_t eve_thousandths = 0;
};

/// The lines' amounts, told apart by whether they belong to a named vessel: what does is in `mentions`.
struct Evidence {
  std::vector<Sums> line;  ///< without named vessels and their EVE
  std::vector<Mention> mentions;
  std::vector<std::string_view> vessel_names;
};

/// `lines` and `group_of` run in step.
Evidence read_lines(const TallyInput& input, std::span<const std::uint32_t> lines,
                    std::span<const std::uint32_t> group_of);

/// One vessel within one group: counted once, its EVE at most 1.00.
struct VesselPart {
  std::uint32_t group = 0;
  std::uint32_t vessel = 0;
  std::uint32_t line = 0;  ///< one of its lines
  bool capped = false;
  Sums sums;
};

/// By group and vessel; `across`: by vessel alone, group 0.
std::vector<VesselPart> vessel_parts(std::vector<Mention> mentions, bool across);

}  // namespace sherd::quantify
