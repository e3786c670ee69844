#include "methods/dating/vessel_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>

#include "methods/quantify/natural_order.h"

namespace sherd::dating {

namespace {

constexpr std::int64_t kOpenFrom = std::numeric_limits<std::int64_t>::min();
constexpr std::int64_t kOpenTo = std::numeric_limits<std::int64_t>::max();

std::int64_t from_of(const YearRange& range) { return range.earliest ? range.earliest->value : kOpenFrom; }
std::int64_t to_of(const YearRange& range) { return range.latest ? range.latest->value : kOpenTo; }

std::int64_t vessels_of(const DatedLine& line) {
  if (!line.vessel.empty()) return 1;
  if (line.vessels) return std::max<std::int64_t>(0, *line.vessels);
  if (line.rims && *line.rims > 0) return *line.rims;
  return 1;
}

/// Narrows a vessel to what its lines have in common, or takes their hull where that is nothing.
void set_range(VesselUnit& unit, std::span<const DatedLine> lines) {
  std::int64_t least = kOpenTo;
  std::int64_t greatest = kOpenFrom;
  unit.from = kOpenFrom;
  unit.to = kOpenTo;
  for (const std::size_t i : unit.lines) {
    const std::int64_t from = from_of(lines[i].range);
    const std::int64_t to = to_of(lines[i].range);
    unit.from = std::max(unit.from, from);
    unit.to = std::min(unit.to, to);
    least = std::min(least, from);
    greatest = std::max(greatest, to);
  }
  if (unit.from <= unit.to) return;
  unit.at_odds = true;
  unit.from = least;
  unit.to = greatest;
}

}  // namespace

YearRange VesselUnit::range() const {
  YearRange out;
  if (from != kOpenFrom) out.earliest = Year{from};
  if (to != kOpenTo) out.latest = Year{to};
  return out;
}

void sort_by_record(std::span<const DatedLine> lines, std::vector<std::size_t>& indices) {
  std::sort(indices.begin(), indices.end(), [&](std::size_t a, std::size_t b) {
    const auto order = quantify::natural_order(lines[a].record, lines[b].record);
    return order != 0 ? order < 0 : a < b;
  });
}

std::vector<VesselUnit> dated_vessels(std::span<const DatedLine> lines, std::span<const std::size_t> among) {
  std::vector<std::size_t> order(among.begin(), among.end());
  std::erase_if(order, [&](std::size_t i) { return lines[i].range.empty() || vessels_of(lines[i]) == 0; });
  sort_by_record(lines, order);
  std::vector<VesselUnit> out;
  std::map<std::string_view, std::size_t> named;
  for (const std::size_t i : order) {
    if (!lines[i].vessel.empty()) {
      const auto [at, fresh] = named.try_emplace(lines[i].vessel, out.size());
      if (!fresh) {
        out[at->second].lines.push_back(i);
        continue;
      }
    }
    out.push_back({.vessels = vessels_of(lines[i]), .lines = {i}});
  }
  for (VesselUnit& unit : out) set_range(unit, lines);
  return out;
}

std::string line_text(const DatedLine& line) {
  const std::string what = line.because.empty() ? range_text(line.range) : std::string(line.because);
  return line.record.empty() ? what : fmt::format("record {}: {}", line.record, what);
}

}  // namespace sherd::dating
