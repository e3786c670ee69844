#include "methods/quantify/intervals.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/random.h"
#include "methods/statistics/quantile.h"

namespace sherd::quantify {

namespace {

/// What one unit brings to one group.
struct Piece {
  std::uint32_t unit = 0;
  std::uint32_t group = 0;
  Sums sums;
};

/// Pieces to groups, and to all of them together (`group` 0): the two differ by what is counted once.
struct Units {
  std::size_t count = 0;
  std::vector<Piece> to_groups;
  std::vector<Piece> to_total;
};

std::uint32_t root(std::vector<std::uint32_t>& parent, std::uint32_t line) {
  while (parent[line] != line) line = parent[line] = parent[parent[line]];
  return line;
}

/// A unit is the lines that share a named vessel, directly or by way of others; a line without one is its own.
std::vector<std::uint32_t> unit_of_lines(const Evidence& evidence, std::size_t& units) {
  constexpr auto kNone = std::numeric_limits<std::uint32_t>::max();
  std::vector<std::uint32_t> parent(evidence.line.size());
  std::iota(parent.begin(), parent.end(), 0U);
  std::vector<std::uint32_t> first(evidence.vessel_names.size(), kNone);
  for (const Mention& mention : evidence.mentions) {
    std::uint32_t& line = first[mention.vessel];
    if (line == kNone) line = mention.line;
    const std::uint32_t a = root(parent, line);
    const std::uint32_t b = root(parent, mention.line);
    parent[std::max(a, b)] = std::min(a, b);
  }
  std::vector<std::uint32_t> unit(parent.size());
  std::uint32_t next = 0;
  for (std::uint32_t line = 0; line < parent.size(); ++line) {
    const std::uint32_t head = root(parent, line);  // never behind the line itself
    unit[line] = head == line ? next++ : unit[head];
  }
  units = next;
  return unit;
}

void merge(std::vector<Piece>& pieces) {
  std::sort(pieces.begin(), pieces.end(),
            [](const Piece& a, const Piece& b) { return a.unit != b.unit ? a.unit < b.unit : a.group < b.group; });
  std::size_t kept = 0;
  for (std::size_t i = 1; i < pieces.size(); ++i) {
    if (pieces[i].unit == pieces[kept].unit && pieces[i].group == pieces[kept].group) {
      pieces[kept].sums.add(pieces[i].sums);
    } else {
      pieces[++kept] = pieces[i];
    }
  }
  if (!pieces.empty()) pieces.resize(kept + 1);
}

Units make_units(const ResampleInput& input) {
  Units out;
  const std::vector<std::uint32_t> unit = unit_of_lines(input.evidence, out.count);
  for (std::size_t k = 0; k < unit.size(); ++k) {
    out.to_groups.push_back({unit[k], input.group_of[k], input.evidence.line[k]});
    out.to_total.push_back({unit[k], 0, input.evidence.line[k]});
  }
  for (const VesselPart& part : input.parts) out.to_groups.push_back({unit[part.line], part.group, part.sums});
  for (const VesselPart& part : input.whole) out.to_total.push_back({unit[part.line], 0, part.sums});
  merge(out.to_groups);
  merge(out.to_total);
  return out;
}

constexpr std::size_t kFigures = 7;
constexpr double kUndefined = std::numeric_limits<double>::quiet_NaN();
/// How many figures of replicates are held at once.
constexpr std::size_t kHeld = 12'000'000;

double part_of(std::int64_t part, std::int64_t whole) {
  return whole > 0 ? static_cast<double>(part) / static_cast<double>(whole) : kUndefined;
}

std::array<double, kFigures> figures(const Sums& row, const Sums& total) {
  return {part_of(row.count, total.count),          part_of(row.weight_mg, total.weight_mg),
          part_of(row.vessels, total.vessels),      part_of(row.eve_thousandths, total.eve_thousandths),
          row.mean_weight_g().value_or(kUndefined), row.brokenness().value_or(kUndefined),
          row.completeness().value_or(kUndefined)};
}

std::optional<statistics::Interval> interval(std::span<const double> replicates, bool wanted) {
  if (!wanted) return std::nullopt;
  std::vector<double> defined;
  std::copy_if(replicates.begin(), replicates.end(), std::back_inserter(defined),
               [](double x) { return !std::isnan(x); });
  if (defined.size() * 20 < replicates.size() * 19) return std::nullopt;
  return statistics::central_interval(std::move(defined));
}

/// Replicates of the rows `from`..`to` - 1, where the row behind the last group is the total.
class Replicates {
 public:
  Replicates(const ResampleInput& input, const Units& units, std::size_t from, std::size_t to)
      : input_(input),
        units_(units),
        from_(from),
        to_(to),
        n_(static_cast<std::size_t>(input.resamples)),
        values_((to - from) * kFigures * n_) {}

  void draw(std::size_t replicate) {
    Random random(input_.seed, replicate);
    times_.assign(units_.count, 0);
    const auto n = static_cast<std::uint32_t>(units_.count);
    for (std::uint32_t i = 0; i < n; ++i) ++times_[random.below(n)];
    sums_.assign(input_.groups + 1, Sums{});
    for (const Piece& piece : units_.to_groups) {
      if (times_[piece.unit] > 0) sums_[piece.group].add(piece.sums, times_[piece.unit]);
    }
    for (const Piece& piece : units_.to_total) {
      if (times_[piece.unit] > 0) sums_.back().add(piece.sums, times_[piece.unit]);
    }
    for (std::size_t row = from_; row < to_; ++row) {
      const auto all = figures(sums_[row], sums_.back());
      for (std::size_t f = 0; f < kFigures; ++f) values_[((row - from_) * kFigures + f) * n_ + replicate] = all[f];
    }
  }

  TallyIntervals intervals(std::size_t row, const TallyRow& shown, bool total) const {
    const auto of = [&](std::size_t figure, bool wanted) {
      return interval(std::span(values_).subspan(((row - from_) * kFigures + figure) * n_, n_), wanted);
    };
    return {.count_share = of(0, !total && shown.shares.count),
            .weight_share = of(1, !total && shown.shares.weight),
            .vessels_share = of(2, !total && shown.shares.vessels),
            .eve_share = of(3, !total && shown.shares.eve),
            .mean_weight_g = of(4, shown.mean_weight_g.has_value()),
            .brokenness = of(5, shown.brokenness.has_value()),
            .completeness = of(6, shown.completeness.has_value())};
  }

 private:
  const ResampleInput& input_;
  const Units& units_;
  std::size_t from_, to_, n_;
  std::vector<double> values_;
  std::vector<std::int64_t> times_;
  std::vector<Sums> sums_;
};

IntervalNote note(const ResampleInput& input, const Units& units) {
  IntervalNote out;
  out.unit = input.evidence.mentions.empty() ? "lines" : "vessels";
  out.units = static_cast<std::int64_t>(units.count);
  out.resamples = input.resamples;
  out.seed = input.seed;
  out.about = fmt::format(
      "95 % percentile intervals of shares, mean sherd weight, brokenness and completeness from {} resamples of {} "
      "{}{}; "
      "they hold the sampling of this record only, not errors of recording or choice of where to dig.",
      out.resamples, out.units, out.unit,
      out.unit == "vessels" ? " (a vessel's lines stay together; a line that names no vessel stands for one)" : "");
  return out;
}

}  // namespace

Result<IntervalNote> add_intervals(const ResampleInput& input, Tally& tally, Progress& progress) {
  const Units units = make_units(input);
  const auto n = static_cast<std::size_t>(input.resamples);
  const std::size_t rows = input.groups + 1;
  const std::size_t at_once = std::max<std::size_t>(1, kHeld / (kFigures * n));
  for (std::size_t from = 0; from < rows; from += at_once) {
    const std::size_t to = std::min(rows, from + at_once);
    Replicates replicates(input, units, from, to);
    for (std::size_t r = 0; r < n; ++r) {
      const double done = static_cast<double>(from) + static_cast<double>((to - from) * r) / static_cast<double>(n);
      if (!progress.step(done / static_cast<double>(rows), "resampling")) {
        return fail(ErrorKind::stopped, "stopped", "The tally was stopped before its intervals were done.");
      }
      replicates.draw(r);
    }
    for (std::size_t row = from; row < to; ++row) {
      TallyRow& shown = row < input.groups ? tally.rows[row] : tally.total;
      shown.intervals = replicates.intervals(row, shown, row == input.groups);
    }
  }
  return note(input, units);
}

}  // namespace sherd::quantify
