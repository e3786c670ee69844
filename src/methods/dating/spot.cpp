#include "methods/dating/spot.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "methods/dating/vessel_units.h"

namespace sherd::dating {

namespace {

bool is_intrusive(const DatedLine& line) { return line.judged == Judgement::intrusive; }

std::optional<Terminus> latest_start(std::span<const DatedLine> lines, std::vector<std::size_t> among) {
  std::erase_if(among, [&](std::size_t i) { return !lines[i].range.earliest; });
  if (among.empty()) return std::nullopt;
  sort_by_record(lines, among);
  Terminus out;
  for (const std::size_t i : among) {
    const Year start = *lines[i].range.earliest;
    if (out.year && start < *out.year) continue;
    if (!out.year || start > *out.year) {
      out = {.year = start, .record = std::string(lines[i].record), .records = {}, .because = line_text(lines[i])};
    }
    out.records.emplace_back(lines[i].record);
  }
  return out;
}

std::int64_t holding(const std::vector<VesselUnit>& units, std::int64_t year) {
  std::int64_t vessels = 0;
  for (const VesselUnit& unit : units) {
    if (unit.from <= year && year <= unit.to) vessels += unit.vessels;
  }
  return vessels;
}

/// The latest start year that lies within the ranges of two vessels or more.
std::optional<std::int64_t> latest_shared_start(const std::vector<VesselUnit>& units) {
  std::vector<std::int64_t> starts;
  for (const VesselUnit& unit : units) starts.push_back(unit.from);
  std::sort(starts.begin(), starts.end(), std::greater<>());
  starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
  const auto at = std::find_if(starts.begin(), starts.end(), [&](std::int64_t s) { return holding(units, s) >= 2; });
  return at == starts.end() ? std::nullopt : std::optional(*at);
}

void set_range(Spot& spot, const YearRange& range) {
  spot.earliest = range.earliest;
  spot.latest = range.latest;
}

void add_records(Spot& spot, const VesselUnit& unit, std::span<const DatedLine> lines) {
  for (const std::size_t i : unit.lines) spot.records.emplace_back(lines[i].record);
}

void single(Spot& spot, const std::vector<VesselUnit>& units, std::span<const DatedLine> lines) {
  const VesselUnit& last = *std::max_element(units.begin(), units.end(), [](const VesselUnit& a, const VesselUnit& b) {
    return a.from != b.from ? a.from < b.from : a.to > b.to;
  });
  spot.single = true;
  spot.vessels = last.vessels;
  set_range(spot, last.range());
  add_records(spot, last, lines);
  spot.because = (units.size() == 1 ? "one dated vessel, " : "no two vessels overlap; the latest to start is ") +
                 line_text(lines[last.lines.front()]);
}

void group(Spot& spot, std::int64_t start, const std::vector<VesselUnit>& units, std::span<const DatedLine> lines) {
  VesselUnit common = units.front();
  common.from = start;
  const VesselUnit* starts = nullptr;
  const VesselUnit* ends = nullptr;
  for (const VesselUnit& unit : units) {
    if (start < unit.from || unit.to < start) continue;
    spot.vessels += unit.vessels;
    add_records(spot, unit, lines);
    if (starts == nullptr && unit.from == start) starts = &unit;
    if (ends == nullptr || unit.to < ends->to) ends = &unit;
  }
  common.to = ends->to;
  set_range(spot, common.range());
  spot.because =
      fmt::format("{} of {} dated vessels overlap; the start is that of {}; the end is that of {}", spot.vessels,
                  spot.of, line_text(lines[starts->lines.front()]), line_text(lines[ends->lines.front()]));
}

std::optional<double> share(double part, double whole) {
  return whole > 0 ? std::optional(part / whole) : std::nullopt;
}

}  // namespace

Termini terminus_post_quem(std::span<const DatedLine> lines) {
  Termini out;
  out.own = latest_start(lines, lines_where(lines, [](const DatedLine& line) { return !is_intrusive(line); }));
  out.intrusive = latest_start(lines, lines_where(lines, is_intrusive));
  if (out.own && out.intrusive && *out.intrusive->year <= *out.own->year) out.intrusive.reset();
  return out;
}

std::optional<Spot> spot_range(std::span<const DatedLine> lines) {
  const auto among = lines_where(lines, [](const DatedLine& line) {
    return line.judged != Judgement::residual && line.judged != Judgement::intrusive;
  });
  const std::vector<VesselUnit> units = dated_vessels(lines, among);
  if (units.empty()) return std::nullopt;
  Spot spot;
  for (const VesselUnit& unit : units) {
    spot.of += unit.vessels;
    if (!unit.at_odds) continue;
    spot.warnings.push_back(
        fmt::format("the lines of vessel {} have dates that exclude each other; the whole span {} was used",
                    lines[unit.lines.front()].vessel, range_text(unit.range())));
  }
  if (const auto start = latest_shared_start(units)) {
    group(spot, *start, units, lines);
  } else {
    single(spot, units, lines);
  }
  return spot;
}

Residual residual_before(Year terminus, std::span<const DatedLine> lines) {
  const auto dated =
      lines_where(lines, [](const DatedLine& line) { return !line.range.empty() && !is_intrusive(line); });
  std::int64_t all_count = 0;
  std::int64_t all_mg = 0;
  std::int64_t mg = 0;
  Residual out;
  for (const std::size_t i : dated) {
    const DatedLine& line = lines[i];
    const bool over = line.range.latest && *line.range.latest < terminus;
    if (over) out.records.emplace_back(line.record);
    if (line.count) {
      all_count += *line.count;
      out.count = out.count.value_or(0) + (over ? *line.count : 0);
    }
    if (line.weight) {
      all_mg += line.weight->mg;
      mg += over ? line.weight->mg : 0;
      out.weight_g = static_cast<double>(mg) / 1000.0;
    }
  }
  std::int64_t all_vessels = 0;
  for (const VesselUnit& unit : dated_vessels(lines, dated)) {
    all_vessels += unit.vessels;
    out.vessels = out.vessels.value_or(0) + (unit.to < terminus.value ? unit.vessels : 0);
  }
  if (out.count) out.count_share = share(static_cast<double>(*out.count), static_cast<double>(all_count));
  if (out.weight_g) out.weight_share = share(static_cast<double>(mg), static_cast<double>(all_mg));
  if (out.vessels) out.vessels_share = share(static_cast<double>(*out.vessels), static_cast<double>(all_vessels));
  return out;
}

}  // namespace sherd::dating
