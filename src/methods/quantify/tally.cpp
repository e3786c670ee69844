#include "methods/quantify/tally.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>

#include "methods/quantify/groups.h"
#include "methods/quantify/intervals.h"
#include "methods/quantify/natural_order.h"
#include "methods/quantify/sums.h"
#include "methods/quantify/vessels.h"

namespace sherd::quantify {

namespace {

constexpr std::int64_t kMostResamples = 100'000;

Result<void> check(const TallyInput& input) {
  const LineColumns& line = input.line;
  std::vector<const Column*> columns{line.record, line.count, line.weight, line.vessels, line.vessel, line.rim_percent};
  columns.insert(columns.end(), input.by.begin(), input.by.end());
  for (const Column* column : columns) {
    if (column != nullptr && column->size() != input.lines) {
      return fail(ErrorKind::internal, "columns_differ",
                  fmt::format("A column of the tally has {} rows, the table has {}.", column->size(), input.lines));
    }
  }
  if (input.resamples < 0 || input.resamples > kMostResamples) {
    return fail("too_many_resamples", fmt::format("{} resamples cannot be made.", input.resamples),
                fmt::format("Give a number from 0 (no intervals) to {}.", kMostResamples));
  }
  return {};
}

std::vector<std::uint32_t> lines_of(const TallyInput& input) {
  if (input.only) return *input.only;
  std::vector<std::uint32_t> all(input.lines);
  std::iota(all.begin(), all.end(), 0U);
  return all;
}

TallyRow row_of(const Sums& sums) {
  TallyRow row;
  row.lines = sums.lines;
  if (sums.has_count) row.count = sums.count;
  if (sums.has_weight) row.weight_g = static_cast<double>(sums.weight_mg) / 1000.0;
  if (sums.has_vessels) row.vessels = sums.vessels;
  if (sums.has_eve) row.eve = static_cast<double>(sums.eve_thousandths) / 1000.0;
  row.mean_weight_g = sums.mean_weight_g();
  row.brokenness = sums.brokenness();
  row.completeness = sums.completeness();
  return row;
}

std::optional<double> share(std::int64_t part, bool recorded, std::int64_t whole) {
  if (!recorded || whole <= 0) return std::nullopt;
  return static_cast<double>(part) / static_cast<double>(whole);
}

Shares shares_of(const Sums& row, const Sums& total) {
  return {.count = share(row.count, row.has_count, total.count),
          .weight = share(row.weight_mg, row.has_weight, total.weight_mg),
          .vessels = share(row.vessels, row.has_vessels, total.vessels),
          .eve = share(row.eve_thousandths, row.has_eve, total.eve_thousandths)};
}

std::vector<std::optional<std::string>> keys_of(std::span<const Column* const> by, std::uint32_t line) {
  std::vector<std::optional<std::string>> keys;
  for (const Column* column : by) {
    if (column->is_null(line)) {
      keys.emplace_back();
    } else {
      keys.emplace_back(cell_text(*column, line));
    }
  }
  return keys;
}

void note_capped(TallyRow& row, const VesselPart& part, const Evidence& evidence) {
  if (part.capped) row.capped.emplace_back(evidence.vessel_names[part.vessel]);
}

}  // namespace

LineColumns line_columns(const Table& sherds) {
  return {.record = sherds.find("record"),
          .count = sherds.find("count"),
          .weight = sherds.find("weight_g"),
          .vessels = sherds.find("vessels"),
          .vessel = sherds.find("vessel"),
          .rim_percent = sherds.find("rim_percent")};
}

RimColumns rim_columns(const Table& rims) {
  return {.record = rims.find("record"), .rim_percent = rims.find("rim_percent"), .vessel = rims.find("vessel")};
}

Result<Tally> tally(const TallyInput& input, Progress& progress) {
  SHERD_CHECK(check(input));
  const std::vector<std::uint32_t> lines = lines_of(input);
  const Groups groups = group_lines(input.by, lines);
  const Evidence evidence = read_lines(input, lines, groups.of);
  const std::vector<VesselPart> parts = vessel_parts(evidence.mentions, false);
  const std::vector<VesselPart> whole = vessel_parts(evidence.mentions, true);

  std::vector<Sums> sums(groups.first.size());
  Sums all;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    sums[groups.of[k]].add(evidence.line[k]);
    all.add(evidence.line[k]);
  }
  for (const VesselPart& part : parts) sums[part.group].add(part.sums);
  for (const VesselPart& part : whole) all.add(part.sums);

  Tally out;
  out.total = row_of(all);
  out.total.shares = shares_of(all, all);
  out.rows.reserve(sums.size());
  for (std::size_t g = 0; g < sums.size(); ++g) {
    out.rows.push_back(row_of(sums[g]));
    out.rows.back().shares = shares_of(sums[g], all);
    out.rows.back().keys = keys_of(input.by, groups.first[g]);
  }
  for (const VesselPart& part : parts) note_capped(out.rows[part.group], part, evidence);
  for (const VesselPart& part : whole) note_capped(out.total, part, evidence);
  for (TallyRow& row : out.rows) std::sort(row.capped.begin(), row.capped.end(), NaturalLess{});
  std::sort(out.total.capped.begin(), out.total.capped.end(), NaturalLess{});

  if (input.resamples > 0 && !lines.empty()) {
    const ResampleInput resample{.group_of = groups.of,
                                 .groups = sums.size(),
                                 .evidence = evidence,
                                 .parts = parts,
                                 .whole = whole,
                                 .resamples = input.resamples,
                                 .seed = input.seed};
    SHERD_TRY(out.intervals, add_intervals(resample, out, progress));
  }
  return out;
}

}  // namespace sherd::quantify
