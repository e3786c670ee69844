#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "methods/dating/spot.h"

namespace sherd::dating {

/// Vessels that share a range: those of one line, or the one whose word several lines carry.
struct VesselUnit {
  std::int64_t from = 0;  ///< astronomical; the least number where open
  std::int64_t to = 0;    ///< the greatest number where open
  std::int64_t vessels = 0;
  bool at_odds = false;            ///< its lines' dates exclude each other; the range is their hull
  std::vector<std::size_t> lines;  ///< by record, natural order

  YearRange range() const;
};

/// The dated vessels among lines, ordered by their first record. Vessels: the vessel word (one), else the line's
/// number, else its rims, else 1; a line whose number is 0 adds nothing. The range of a vessel with several dated
/// lines is what they have in common.
std::vector<VesselUnit> dated_vessels(std::span<const DatedLine> lines, std::span<const std::size_t> among);

/// Indices of the lines for which `wanted` holds, by record in natural order.
template <class Wanted>
std::vector<std::size_t> lines_where(std::span<const DatedLine> lines, Wanted wanted) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (wanted(lines[i])) out.push_back(i);
  }
  return out;
}
void sort_by_record(std::span<const DatedLine> lines, std::vector<std::size_t>& indices);

/// "record 17: grey-1: 120-200 (reference)"
std::string line_text(const DatedLine& line);

}  // namespace sherd::dating
